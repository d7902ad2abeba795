// In: stops, each with the places where it may begin, and which must come before which.
// Out: the order of the stops and where each begins, so that the way between them is short.
// Never: knows what is drawn at a stop; draws lots by anything but a fixed seed. Of this folder alone.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline machine {

/// What is done in one go: it ends where it begins, at any of its places, or it leads from one of two places to the other.
struct Stop {
  std::vector<Point> places;  // mm
  bool returns = true;
};
struct Visit {
  std::size_t stop = 0, place = 0;  // where it begins
  friend bool operator==(const Visit&, const Visit&) = default;
};
/// Where the way begins and ends; nothing: at any stop.
struct TourEnds {
  std::optional<Point> from, to;
};
/// The one comes before the other; never in a circle. Of what lies in one another all pairs are told, not neighbours alone.
using Precedence = std::vector<std::pair<std::size_t, std::size_t>>;

/// mm between two points. A square root is the same everywhere, and three times as fast as std::hypot.
inline double leap(Point from, Point to) { return std::sqrt(dot(to - from, to - from)); }

struct TourTask {
  std::vector<Stop> stops;
  Precedence precedence;
  TourEnds ends;
};

// ---- tour.cpp ----
Point begin_of(const TourTask& task, Visit visit);
Point end_of(const TourTask& task, Visit visit);
/// The shortest for few stops, else one that is near it. The same for the same stops in any order.
std::vector<Visit> short_tour(const TourTask& task);

// ---- tour_exact.cpp ----
/// Whether all ways can be told apart: at most `exact_work` pairs of places over all subsets.
bool is_small(const TourTask& task);
inline constexpr double exact_work = 1e6;  // some milliseconds
/// The shortest of all (Held and Karp 1962, J. SIAM 10:196, with places).
std::vector<Visit> exact_tour(const TourTask& task);

// ---- tour_near.cpp ----
/// From each stop to the nearest place of those that may come next.
std::vector<Visit> nearest_tour(const TourTask& task);

// ---- tour_search.cpp ----
/// A tour made shorter by 2-opt and Or-opt among near stops (Croes 1958; Or 1976), then by swapping short stretches and mending
/// what that brings (iterated local search; `kicks_a_stop`).
void shorten(const TourTask& task, std::vector<Visit>& tour);

// ---- tour_places.cpp ----
/// Where each stop is best begun, the order as it is: exactly while that costs little, else each between its neighbours.
void choose_places(const TourTask& task, std::vector<Visit>& tour);

}  // namespace ordinatio::inline machine
