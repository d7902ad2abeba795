#include "machine/path_order.h"

#include <algorithm>
#include <numeric>
#include <tuple>

#include "geometry/contour_order.h"
#include "geometry/contour_start.h"
#include "machine/nesting.h"
#include "machine/tour.h"

namespace ordinatio::inline machine {
namespace {

bool comes_before(Point a, Point b) { return std::tie(a.x, a.y) < std::tie(b.x, b.y); }

/// A contour, the places where it may begin, and their numbers in its own order. The places are sorted: so the tour does not
/// know where the contour began as it came.
struct FollowedContour {
  Path path;
  Stop stop;
  std::vector<std::size_t> starts;
};

FollowedContour followed(Path path) {
  const std::vector<Point> places = starts_of(path);
  FollowedContour contour{std::move(path), {}, {}};
  contour.stop.returns = is_closed(contour.path) || places.front() == places.back();
  std::vector<std::size_t> numbers(places.size());
  std::iota(numbers.begin(), numbers.end(), 0);
  std::ranges::stable_sort(numbers, comes_before, [&](std::size_t i) { return places[i]; });
  for (const std::size_t number : numbers) {
    if (!contour.stop.places.empty() && contour.stop.places.back() == places[number]) continue;
    contour.stop.places.push_back(places[number]);
    contour.starts.push_back(number);
  }
  return contour;
}

bool sorts_before(const FollowedContour& a, const FollowedContour& b) {
  const auto& one = a.stop.places;
  const auto& other = b.stop.places;
  return std::lexicographical_compare(one.begin(), one.end(), other.begin(), other.end(), comes_before);
}

Bounds box_of(const std::vector<Path>& contours) {
  Bounds box;
  for (const Path& contour : contours) box.add(bounds_of(contour));
  return box;
}

/// Of a box the point that is nearest.
Point nearest_in(const Bounds& box, Point to) {
  return {std::clamp(to.x, box.left, box.right), std::clamp(to.y, box.bottom, box.top)};
}

/// All pieces of an operation, one after the other.
struct Sequence {
  TourTask task;  // without precedence: the order stands
  std::vector<Visit> tour;
  std::vector<FollowedContour> contours;  // by stop
};

/// As the contours come, the smallest first where they are cut.
std::vector<Visit> plain_tour(std::vector<FollowedContour>& contours, bool inner_first) {
  std::vector<Visit> tour;
  for (std::size_t i = 0; i < contours.size(); ++i) tour.push_back({i, 0});
  const auto size = [](const FollowedContour& contour) {
    const Bounds box = bounds_of(contour.path);
    return box.width() * box.height();
  };
  if (inner_first) std::ranges::stable_sort(contours, {}, size);
  return tour;
}

/// What must come before what; nothing where there is too much of it.
std::optional<Precedence> precedence_in(const std::vector<FollowedContour>& contours, bool inner_first) {
  if (!inner_first) return Precedence();
  std::vector<Path> paths;
  paths.reserve(contours.size());
  for (const FollowedContour& contour : contours) paths.push_back(contour.path);
  return nesting_of(paths);
}

/// The piece's contours at the sequence's end.
void append_piece(Sequence& sequence, FollowedPiece& piece, const Bounds& own, const std::optional<Bounds>& next) {
  std::vector<FollowedContour> contours;
  for (Path& path : piece.contours) contours.push_back(followed(std::move(path)));
  std::ranges::stable_sort(contours, sorts_before);
  TourTask task;
  if (!sequence.tour.empty()) task.ends.from = end_of(sequence.task, sequence.tour.back());
  if (next) task.ends.to = nearest_in(*next, own.centre());
  std::optional<Precedence> precedence;
  if (contours.size() <= most_ordered) precedence = precedence_in(contours, piece.inner_first);
  std::vector<Visit> tour;
  if (!precedence) tour = plain_tour(contours, piece.inner_first);
  for (const FollowedContour& contour : contours) task.stops.push_back(contour.stop);
  if (precedence) {
    task.precedence = *std::move(precedence);
    tour = short_tour(task);
  }
  const std::size_t earlier = sequence.contours.size();
  for (const Visit visit : tour) sequence.tour.push_back({earlier + visit.stop, visit.place});
  std::ranges::move(task.stops, std::back_inserter(sequence.task.stops));
  std::ranges::move(contours, std::back_inserter(sequence.contours));
}

}  // namespace

void order_contours(std::vector<FollowedPiece>& pieces) {
  std::vector<Bounds> boxes;
  boxes.reserve(pieces.size());
  for (const FollowedPiece& piece : pieces) boxes.push_back(box_of(piece.contours));
  Sequence sequence;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const bool goes_on = i + 1 < pieces.size() && !boxes[i + 1].empty();
    append_piece(sequence, pieces[i], boxes[i], goes_on ? std::optional(boxes[i + 1]) : std::nullopt);
  }
  choose_places(sequence.task, sequence.tour);
  auto visit = sequence.tour.begin();
  for (FollowedPiece& piece : pieces) {
    for (Path& path : piece.contours) {
      const FollowedContour& contour = sequence.contours[visit->stop];
      // A way of one contour is the same from everywhere: it begins as it was drawn.
      path = sequence.tour.size() == 1 ? contour.path : started_at(contour.path, contour.starts[visit->place]);
      ++visit;
    }
  }
}

}  // namespace ordinatio::inline machine
