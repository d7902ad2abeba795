// A logo's ink against the picture of its file by librsvg 2.54's own program (Debian: librsvg2-bin), which draws with
// pixels all that is resolved to paths here: strokes, dashes, clips, knock-outs and welds.
#include "logo/drawing.h"

#include <cairo.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <memory>
#include <random>

#include "composed_sheet.h"
#include "logo/logo.h"
#include "picture.h"

using namespace ordinatio;
using namespace outside;
using golden::ink_difference;
using golden::Picture;

namespace {

constexpr double limit = 0.01;  // of the ink may differ: a pixel along each edge is decided by different hands
constexpr int longer_side = 1500;

/// Every pixel black or white: what is dark is engraved whole, whatever its colour.
Picture decided(Picture picture) {
  for (std::uint32_t& pixel : picture.pixels) pixel = (pixel & 0xFF) < 0x80 ? 0x000000 : 0xFFFFFF;
  return picture;
}

Picture drawn_by_librsvg(const std::filesystem::path& svg, int width, int height) {
  const Scratch scratch;
  output_of("rsvg-convert --background-color white -w " + std::to_string(width) + " -h " + std::to_string(height) +
            " -o " + quoted(scratch / "logo.png") + " " + quoted(svg));
  return decided(golden::read_png(scratch / "logo.png"));
}

void trace(cairo_t* context, const Path& path) {
  const Point* p = path.points().data();
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        cairo_move_to(context, p->x, p->y), ++p;
        break;
      case Path::Verb::line:
        cairo_line_to(context, p->x, p->y), ++p;
        break;
      case Path::Verb::cubic:
        cairo_curve_to(context, p[0].x, p[0].y, p[1].x, p[1].y, p[2].x, p[2].y), p += 3;
        break;
      case Path::Verb::close:
        cairo_close_path(context);
        break;
      case Path::Verb::quad:
        FAIL("a logo has no quadratic curves");
    }
  }
}

/// The fill as an engraver would fill it, by either rule: they must agree.
Picture filled(const Logo& logo, int width, int height, cairo_fill_rule_t rule) {
  using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
  using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;
  const Surface surface{cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height), cairo_surface_destroy};
  const Context context{cairo_create(surface.get()), cairo_destroy};
  cairo_set_source_rgb(context.get(), 1, 1, 1);
  cairo_paint(context.get());
  cairo_translate(context.get(), 0, height);
  cairo_scale(context.get(), width / logo.box.width(), -height / logo.box.height());
  cairo_set_source_rgb(context.get(), 0, 0, 0);
  cairo_set_fill_rule(context.get(), rule);
  trace(context.get(), logo.fill);
  cairo_fill(context.get());
  const Scratch scratch;
  cairo_surface_write_to_png(surface.get(), (scratch / "fill.png").c_str());
  return decided(golden::read_png(scratch / "fill.png"));
}

void compare(const std::filesystem::path& svg) {
  INFO(svg);
  const auto logo = read_logo(svg);
  if (!logo.ok()) FAIL(describe(logo.fault()));
  const double scale = longer_side / std::max(logo->box.width(), logo->box.height());
  const int width = static_cast<int>(std::lround(logo->box.width() * scale));
  const int height = static_cast<int>(std::lround(logo->box.height() * scale));
  const Picture expected = drawn_by_librsvg(svg, width, height);
  CHECK(ink_difference(expected, filled(*logo, width, height, CAIRO_FILL_RULE_WINDING)) < limit);
  CHECK(ink_difference(expected, filled(*logo, width, height, CAIRO_FILL_RULE_EVEN_ODD)) < limit);
}

// ---- drawings by chance ----

class Draughtsman {
 public:
  explicit Draughtsman(unsigned seed) : random_(seed) {}

  std::string draw() {
    std::string body = "<rect x='20' y='20' width='25' height='25'/>";  // some ink, whatever the rest covers
    for (int i = 0; i < 8; ++i) body += element(i);
    return "<svg xmlns='http://www.w3.org/2000/svg' width='180mm' height='180mm' viewBox='-100 -100 300 300'>" + body +
           "</svg>";
  }

 private:
  std::string number(double low, double high) {
    std::string text;
    append_number(text, std::uniform_real_distribution(low, high)(random_), 2);
    return text;
  }
  std::string one_of(std::initializer_list<const char*> words) { return words.begin()[random_() % words.size()]; }
  std::string place() { return number(5, 95) + " " + number(5, 95); }
  std::string path() {
    std::string data = "M" + place();
    for (std::size_t i = 0, count = 2 + random_() % 4; i < count; ++i) {
      const auto kind = random_() % 3;
      data += kind == 0   ? "L" + place()
              : kind == 1 ? "C" + place() + " " + place() + " " + place()
                          : "A" + number(5, 30) + " " + number(5, 30) + " 20 0 1 " + place();
    }
    return "<path d='" + data + one_of({"", "Z"}) + "' fill-rule='" + one_of({"nonzero", "evenodd"}) + "'";
  }
  std::string shape() {
    switch (random_() % 3) {
      case 0:
        return "<circle cx='" + number(10, 90) + "' cy='" + number(10, 90) + "' r='" + number(4, 25) + "'";
      case 1:
        return "<rect x='" + number(0, 70) + "' y='" + number(0, 70) + "' width='" + number(5, 40) + "' height='" +
               number(5, 40) + "' rx='" + number(0, 6) + "'";
      default:
        return path();
    }
  }
  std::string element(int index) {
    const std::string id = "c" + std::to_string(index);
    std::string text;
    const bool clipped = random_() % 4 == 0;
    if (clipped) text += "<clipPath id='" + id + "'>" + shape() + " clip-rule='evenodd'/></clipPath>";
    // Cairo 1.16 holds a mitre to its limit after the transform, SVG before it (section 11.4): squeezed pens go without.
    const bool squeezed = random_() % 3 == 0;
    text += shape() + " fill='" + one_of({"black", "white", "none"}) + "' stroke='" +
            one_of({"black", "white", "none"}) + "' stroke-width='" + number(1, 9) + "' stroke-linejoin='" +
            (squeezed ? one_of({"round", "bevel"}) : one_of({"miter", "round", "bevel"})) + "' stroke-linecap='" +
            one_of({"butt", "round", "square"}) + "'";
    if (random_() % 3 == 0) text += " stroke-dasharray='" + number(3, 20) + " " + number(2, 15) + "'";
    if (squeezed) text += " transform='rotate(" + number(-40, 40) + " 50 50) scale(1 " + number(0.5, 1) + ")'";
    if (clipped) text += " clip-path='url(#" + id + ")'";
    return text + "/>";
  }

  std::mt19937 random_;
};

}  // namespace

TEST_CASE("a logo's fill is the picture of its file") {
  const std::filesystem::path folder = TEST_FOLDER "/unit/logo/logos";
  for (const char* const name : {"strokes.svg", "clips.svg", "layers.svg", "markers.svg"}) compare(folder / name);
  compare(PROJECT_FOLDER "/templates/mark.svg");
  compare(PROJECT_FOLDER "/templates/watermill/logo.svg");
}

TEST_CASE("drawings by chance are their pictures") {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Scratch scratch;
    const std::string svg = Draughtsman(seed).draw();
    INFO(svg);
    save(scratch / "chance.svg", svg);
    compare(scratch / "chance.svg");
  }
}
