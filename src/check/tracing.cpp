#include "check/tracing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "check/cubic.h"
#include "check/decimal.h"
#include "check/dxf_assembly.h"

namespace ordinatio::inline check {
namespace {

constexpr double rounding = 1e-9;  // mm, of doubles as large as a bed

bool near(Point a, Point b, double tolerance) {
  return std::abs(a.x - b.x) <= tolerance && std::abs(a.y - b.y) <= tolerance;
}

/// Reads path data beside the path that it should spell.
class Spelling {
 public:
  Spelling(std::string_view data, double scale, double height, double tolerance)
      : at_(data.data()), end_(at_ + data.size()), scale_(scale), height_(height), tolerance_(tolerance) {}

  bool is(const Path& path) {
    const Point* next = path.points().data();
    for (const Path::Verb verb : path.verbs()) {
      if (!take("MLQCZ"[static_cast<std::size_t>(verb)])) return false;
      for (std::size_t i = Path::points_of(verb); i > 0; --i, ++next) {
        if (!take_near(*next)) return false;
      }
    }
    return at_ == end_;
  }

 private:
  bool take(char command) {
    if (at_ == end_ || *at_ != command) return false;
    ++at_;
    return true;
  }
  bool take_number(double& value) {
    if (at_ != end_ && *at_ == ' ') ++at_;
    return take_decimal(at_, end_, value);
  }
  bool take_near(Point wanted) {
    Point found;
    return take_number(found.x) && take_number(found.y) &&
           near({found.x * scale_, height_ - found.y * scale_}, wanted, tolerance_);
  }

  const char *at_, *end_;
  double scale_, height_, tolerance_;
};

/// The contours, lines and curves of a path, one by one; a curve is a cubic one.
class Steps {
 public:
  explicit Steps(const Path& path) : verbs_(path.verbs()), next_(path.points().data()) {}

  struct Step {
    Path::Verb verb = Path::Verb::close;
    std::array<Point, 3> points{};
    std::size_t count = 0;
  };
  bool take(Step& step) {
    if (at_ == verbs_.size()) return false;
    step.verb = verbs_[at_++];
    step.count = Path::points_of(step.verb);
    std::copy_n(next_, step.count, step.points.begin());
    next_ += step.count;
    if (step.count == 0) return true;
    const Point from = std::exchange(here_, step.points[step.count - 1]);
    if (step.verb != Path::Verb::quad) return true;
    const Cubic curve = raised(from, step.points[0], step.points[1]);
    step = {Path::Verb::cubic, {curve.b, curve.c, curve.d}, 3};
    return true;
  }

 private:
  std::span<const Path::Verb> verbs_;
  const Point* next_;
  std::size_t at_ = 0;
  Point here_;
};

}  // namespace

bool spells(std::string_view path_data, const Path& path, double scale, double height, double step) {
  return Spelling(path_data, scale, height, step / 2 + rounding).is(path);
}

bool is_traced(const Path& found, const Path& wanted, double tolerance) {
  Steps left(found), right(wanted);
  Steps::Step one, other;
  while (left.take(one)) {
    if (!right.take(other) || one.verb != other.verb) return false;
    for (std::size_t i = 0; i < one.count; ++i) {
      if (!near(one.points[i], other.points[i], tolerance)) return false;
    }
  }
  return !right.take(other);
}

bool ChordTrace::done() const {
  return part_ == parts_.size() || (part_ + 1 == parts_.size() && verb_ == parts_[part_].part->path.verbs().size());
}

bool ChordTrace::take(const DxfPolyline& polyline) {
  if (done()) return false;
  if (verb_ == parts_[part_].part->path.verbs().size()) ++part_, verb_ = point_ = 0;
  if (verb_ == 0) layer_ = layer_name(*parts_[part_].part);
  vertices_ = polyline.points;
  at_ = 0;
  return polyline.layer == layer_ && follow_contour() == polyline.closed() && at_ == vertices_.size();
}

/// Vertices that fall together in the file's last place are one there.
bool ChordTrace::pass(Point wanted) {
  const double tolerance = kind_.step / 2 + rounding;
  if (at_ < vertices_.size() && near(vertices_[at_], wanted, tolerance)) {
    ++at_;
    return true;
  }
  const bool is_back = at_ == vertices_.size() && near(vertices_.front(), wanted, tolerance);
  return is_back || (at_ > 0 && near(vertices_[at_ - 1], wanted, tolerance));
}

bool ChordTrace::pass(const Cubic& curve) {
  const int count = chord_count(curve, kind_.chord);
  for (int i = 1; i < count; ++i) {
    if (!pass(curve.at(double(i) / count))) return false;
  }
  return pass(curve.d);
}

std::optional<bool> ChordTrace::follow_contour() {
  const Path& path = parts_[part_].part->path;
  const std::span<const Path::Verb> verbs = path.verbs();
  const Point* next = path.points().data() + point_;
  if (verbs[verb_] != Path::Verb::move || !pass(*next)) return std::nullopt;
  ++verb_;
  for (Point here = *next++; verb_ < verbs.size() && verbs[verb_] != Path::Verb::move; here = next[-1]) {
    const Path::Verb verb = verbs[verb_++];
    const Point* points = std::exchange(next, next + Path::points_of(verb));
    point_ = static_cast<std::size_t>(next - path.points().data());
    if (verb == Path::Verb::close) return true;
    const bool passed = verb == Path::Verb::line   ? pass(points[0])
                        : verb == Path::Verb::quad ? pass(raised(here, points[0], points[1]))
                                                   : pass(Cubic{here, points[0], points[1], points[2]});
    if (!passed) return std::nullopt;
  }
  return false;
}

}  // namespace ordinatio::inline check
