#include "base/wire.h"

#include <cmath>

#include "logo/drawing.h"

namespace ordinatio::inline logo {
namespace {

constexpr char has_logo = 'L', has_fault = 'F';

/// A path of closed contours of lines and cubics.
Path take_path(Taker& taker) {
  const auto point = [&] { return Point{taker.number(), taker.number()}; };
  Path path;
  bool open = false;
  for (const char verb : taker.take(taker.value<std::uint64_t>())) {
    if ((verb == static_cast<char>(Path::Verb::move)) == open) taker.fail();
    if (!taker.ok()) break;
    switch (static_cast<Path::Verb>(verb)) {
      case Path::Verb::move:
        path.move_to(point()), open = true;
        break;
      case Path::Verb::line:
        path.line_to(point());
        break;
      case Path::Verb::cubic: {
        const Point first = point(), second = point();
        path.cubic_to(first, second, point());
        break;
      }
      case Path::Verb::close:
        path.close(), open = false;
        break;
      default:
        taker.fail();
    }
  }
  if (open) taker.fail();
  return path;
}

bool lies_in(const Bounds& ink, const Bounds& box) {
  const double slack = ink_tolerance * std::hypot(box.width(), box.height());
  return ink.left >= box.left - slack && ink.right <= box.right + slack && ink.bottom >= box.bottom - slack &&
         ink.top <= box.top + slack;
}

}  // namespace

std::string pack(const Result<Logo>& result) {
  std::string out;
  if (!result.ok()) {
    out += has_fault;
    put(out, result.fault());
    return out;
  }
  out += has_logo;
  put(out, result->box.right);
  put(out, result->box.top);
  const auto verbs = result->fill.verbs();
  put(out, std::string_view(reinterpret_cast<const char*>(verbs.data()), verbs.size()));
  for (const Point p : result->fill.points()) put(out, p.x), put(out, p.y);
  return out;
}

Result<Logo> unpack(std::string_view packed) {
  const Fault garbled{"the logo could not be drawn", {}, "the drawing library broke off", {}};
  if (packed.empty()) return garbled;
  Taker taker(packed.substr(1));
  if (packed.front() == has_fault) {
    Fault fault = take_fault(taker);
    return taker.at_end() ? fault : garbled;
  }
  Logo logo;
  logo.box = {0, 0, taker.number(), taker.number()};
  if (packed.front() != has_logo || !(logo.box.right > 0 && logo.box.top > 0)) return garbled;
  logo.fill = take_path(taker);
  if (!taker.at_end() || logo.fill.empty() || !lies_in(bounds_of(logo.fill), logo.box)) return garbled;
  return logo;
}

}  // namespace ordinatio::inline logo
