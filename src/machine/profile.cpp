#include "machine/profile.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace ordinatio::inline machine {
namespace {

/// Along an edge from one speed to another, which it allows for.
double edge_time(double distance, double from, double to, double speed, double acceleration) {
  const double highest = std::min(speed, std::sqrt((2 * acceleration * distance + from * from + to * to) / 2));
  const double speeding = (highest * highest - from * from) / (2 * acceleration);
  const double slowing = (highest * highest - to * to) / (2 * acceleration);
  const double steady = std::max(0.0, distance - speeding - slowing);
  return (highest - from) / acceleration + (highest - to) / acceleration + steady / highest;
}

std::vector<Point> without_repeats(std::span<const Point> points) {
  std::vector<Point> apart;
  for (const Point p : points) {
    if (apart.empty() || !(apart.back() == p)) apart.push_back(p);
  }
  return apart;
}

}  // namespace

double rest_to_rest(double distance, double speed, double acceleration) {
  if (distance * acceleration >= speed * speed) return distance / speed + speed / acceleration;
  return 2 * std::sqrt(distance / acceleration);
}

CornerLimit corner_limit(Point before, Point corner, Point after, double rounding, double acceleration) {
  const Point in = before - corner, out = after - corner;
  const double shorter = std::min(length(in), length(out));
  const double angle = std::atan2(std::abs(cross(in, out)), dot(in, out));
  const double sine = std::sin(angle / 2), cosine = std::cos(angle / 2);
  // cosine² / (1 + sine) is 1 − sine, without the loss of digits near a straight line. Straight on both are without bound.
  const double by_rounding = rounding * sine * (1 + sine) / (cosine * cosine);
  const double by_length = shorter / 2 * sine / cosine;
  const double radius = std::min(by_rounding, by_length);
  return {std::sqrt(acceleration * radius), radius * cosine / sine};
}

double path_time(std::span<const Point> points, double speed, double acceleration, double rounding) {
  const std::vector<Point> at = without_repeats(points);
  if (at.size() < 2) return 0;
  std::vector<double> speeds(at.size(), 0), reaches(at.size(), 0);
  for (std::size_t i = 1; i + 1 < at.size(); ++i) {
    const CornerLimit limit = corner_limit(at[i - 1], at[i], at[i + 1], rounding, acceleration);
    speeds[i] = std::min(speed, limit.speed), reaches[i] = limit.reach;
  }
  std::vector<double> highest(at.size(), speed);  // on the edge to each point
  for (std::size_t i = 1; i < at.size(); ++i) {
    if (reaches[i - 1] + reaches[i] > length(at[i] - at[i - 1]) / 2) highest[i] = std::max(speeds[i - 1], speeds[i]);
  }
  const auto reached = [&](std::size_t from, std::size_t to) {
    return std::sqrt(speeds[from] * speeds[from] + 2 * acceleration * length(at[to] - at[from]));
  };
  for (std::size_t i = 1; i < at.size(); ++i) speeds[i] = std::min(speeds[i], reached(i - 1, i));
  for (std::size_t i = at.size() - 1; i > 0; --i) speeds[i - 1] = std::min(speeds[i - 1], reached(i, i - 1));
  double seconds = 0;
  for (std::size_t i = 1; i < at.size(); ++i) {
    seconds += edge_time(length(at[i] - at[i - 1]), speeds[i - 1], speeds[i], highest[i], acceleration);
  }
  return seconds;
}

}  // namespace ordinatio::inline machine
