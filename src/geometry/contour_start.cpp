#include "geometry/contour_start.h"

#include "geometry/segments.h"

namespace ordinatio::inline geometry {
namespace {

std::vector<Segment> segments_of(const Path& contour) {
  std::vector<Segment> segments;
  walk(
      contour, [](Point) {}, [&](const Segment& segment) { segments.push_back(segment); }, [](bool) {});
  return segments;
}

/// A closed contour from the start of that segment on. The line that closes it stays unsaid.
Path turned_to(const Path& contour, std::size_t first) {
  const std::vector<Segment> segments = segments_of(contour);
  Path turned;
  turned.move_to(segments[first].control[0]);
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const auto& [control, degree] = segments[(first + i) % segments.size()];
    if (degree == 1 && i + 1 < segments.size()) turned.line_to(control[1]);
    if (degree == 2) turned.quad_to(control[1], control[2]);
    if (degree == 3) turned.cubic_to(control[1], control[2], control[3]);
  }
  turned.close();
  return turned;
}

}  // namespace

bool is_closed(const Path& contour) { return !contour.empty() && contour.verbs().back() == Path::Verb::close; }

std::vector<Point> starts_of(const Path& contour) {
  if (!is_closed(contour)) return {contour.points().front(), contour.points().back()};
  std::vector<Point> starts;
  for (const Segment& segment : segments_of(contour)) starts.push_back(segment.control[0]);
  if (starts.empty()) starts.push_back(contour.points().front());  // all of it is one point
  return starts;
}

Path started_at(const Path& contour, std::size_t start) {
  if (start == 0) return contour;
  return is_closed(contour) ? turned_to(contour, start) : reversed(contour);
}

}  // namespace ordinatio::inline geometry
