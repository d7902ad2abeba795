#include "check/followed.h"

#include <array>

#include "check/laying.h"
#include "geometry/contour_order.h"

namespace ordinatio::inline check {
namespace {

/// A line or a curve by its control points.
struct Stretch {
  std::array<Point, 4> control;
  std::size_t count = 2;
};

struct FollowedContour {
  std::vector<Stretch> stretches;  // with the line that closes it
  bool closed = false;
  Bounds box;  // of the control points
  bool found = false;
};

/// A line of no length is none: whether one closes a contour is a matter of rounding.
void add(FollowedContour& contour, const Stretch& stretch) {
  if (stretch.count > 2 || !in_one_place(stretch.control[0], stretch.control[1])) contour.stretches.push_back(stretch);
}

FollowedContour followed(const Path& contour, const Transform& to_bed) {
  FollowedContour result;
  const Point* next = contour.points().data();
  const Point start = to_bed(*next++);
  Point here = start;
  result.box.add(start);
  for (const Path::Verb verb : contour.verbs().subspan(1)) {
    if (verb == Path::Verb::close) {
      result.closed = true;
      add(result, {{here, start, {}, {}}, 2});
      continue;
    }
    Stretch stretch{{here, {}, {}, {}}, 1 + Path::points_of(verb)};
    for (std::size_t i = 1; i < stretch.count; ++i) result.box.add(stretch.control[i] = to_bed(*next++));
    here = stretch.control[stretch.count - 1];
    add(result, stretch);
  }
  return result;
}

bool is_same(const Stretch& a, const Stretch& b, bool reversed) {
  if (a.count != b.count) return false;
  for (std::size_t i = 0; i < a.count; ++i) {
    if (!in_one_place(a.control[i], b.control[reversed ? b.count - 1 - i : i])) return false;
  }
  return true;
}

/// Whether all stretches are the same from the other's stretch `first` on, or backwards from its end.
bool is_same_from(const FollowedContour& a, const FollowedContour& b, std::size_t first, bool reversed) {
  const std::size_t count = a.stretches.size();
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t other = reversed ? count - 1 - i : (first + i) % count;
    if (!is_same(a.stretches[i], b.stretches[other], reversed)) return false;
  }
  return true;
}

bool is_same(const FollowedContour& a, const FollowedContour& b) {
  if (a.closed != b.closed || a.stretches.size() != b.stretches.size()) return false;
  if (!in_one_place({a.box.left, a.box.bottom}, {b.box.left, b.box.bottom}) ||
      !in_one_place({a.box.right, a.box.top}, {b.box.right, b.box.top})) {
    return false;
  }
  if (is_same_from(a, b, 0, false)) return true;
  if (!a.closed) return is_same_from(a, b, 0, true);
  for (std::size_t first = 1; first < b.stretches.size(); ++first) {
    if (is_same_from(a, b, first, false)) return true;
  }
  return false;
}

std::vector<FollowedContour> all_followed(const Path& path, const Transform& to_bed) {
  std::vector<FollowedContour> contours;
  for (const Path& contour : contours_of(path)) contours.push_back(followed(contour, to_bed));
  return contours;
}

}  // namespace

bool is_followed(const Path& drawn, const Path& wanted, const Transform& to_bed) {
  std::vector<FollowedContour> found = all_followed(drawn, {});
  const std::vector<FollowedContour> all = all_followed(wanted, to_bed);
  for (const FollowedContour& contour : all) {
    bool is_there = false;
    for (FollowedContour& other : found) {
      if (other.found || !is_same(contour, other)) continue;
      other.found = is_there = true;
      break;
    }
    if (!is_there) return false;
  }
  return found.size() == all.size();
}

}  // namespace ordinatio::inline check
