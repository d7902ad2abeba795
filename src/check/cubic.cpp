#include "check/cubic.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ordinatio::inline check {
namespace {

// Gauss–Legendre nodes and weights for 5 points on [-1, 1] (Abramowitz and Stegun 1964, table 25.4).
struct Node {
  double at, weight;
};
constexpr std::array nodes{Node{0, 0.5688888888888889}, Node{-0.5384693101056831, 0.4786286704993665},
                           Node{0.5384693101056831, 0.4786286704993665}, Node{-0.9061798459386640, 0.2369268850561891},
                           Node{0.9061798459386640, 0.2369268850561891}};
// Of a curve whose length is wanted. A cusp costs one piece its accuracy, at most 1e-4 of the whole length.
constexpr int pieces = 16;

double speed(const Cubic& c, double t) {
  const double u = 1 - t;
  return 3 * std::sqrt([&] {
           const Point v = u * u * (c.b - c.a) + 2 * u * t * (c.c - c.b) + t * t * (c.d - c.c);
           return dot(v, v);
         }());
}

/// Adds the curve's points at the roots in (0, 1) of the derivative along one axis.
void add_turns(Bounds& bounds, const Cubic& curve, double a, double b, double c, double d) {
  // Derivative / 3 = p·t² + 2·q·t + r; the roots as q-form quotients, which do not cancel.
  const double r = b - a, q = a - 2 * b + c, p = d - a + 3 * (b - c);
  const double discriminant = q * q - p * r;
  if (discriminant < 0) return;
  const double w = -(q + std::copysign(std::sqrt(discriminant), q));
  for (const auto& [numerator, denominator] : {std::pair{w, p}, std::pair{r, w}}) {
    const double t = denominator != 0 ? numerator / denominator : -1;
    if (t > 0 && t < 1) bounds.add(curve.at(t));
  }
}

}  // namespace

Point Cubic::at(double t) const {
  const double u = 1 - t;
  return u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
}

Cubic raised(Point start, Point control, Point end) {
  return {start, start + (2.0 / 3) * (control - start), end + (2.0 / 3) * (control - end), end};
}

double swept_area(const Cubic& cubic) {
  const auto& [a, b, c, d] = cubic;
  return (6 * (cross(a, b) + cross(c, d)) + 3 * (cross(a, c) + cross(b, c) + cross(b, d)) + cross(a, d)) / 20;
}

double arc_length(const Cubic& cubic) {
  double length = 0;
  for (int piece = 0; piece < pieces; ++piece) {
    for (const Node& node : nodes) {
      length += node.weight * speed(cubic, (piece + (1 + node.at) / 2) / pieces) / (2 * pieces);
    }
  }
  return length;
}

void add_bounds(Bounds& bounds, const Cubic& cubic) {
  bounds.add(cubic.d);
  if (bounds.holds(cubic.b) && bounds.holds(cubic.c)) return;  // the hull holds the curve
  add_turns(bounds, cubic, cubic.a.x, cubic.b.x, cubic.c.x, cubic.d.x);
  add_turns(bounds, cubic, cubic.a.y, cubic.b.y, cubic.c.y, cubic.d.y);
}

int chord_count(const Cubic& cubic, double tolerance) {
  const Point first = cubic.a - 2 * cubic.b + cubic.c, second = cubic.b - 2 * cubic.c + cubic.d;
  const double bend = std::sqrt(std::max(dot(first, first), dot(second, second)));
  const double wanted = std::ceil(std::sqrt(6 * bend / (8 * tolerance)));
  return static_cast<int>(std::clamp(wanted, 1.0, double{segment_limit}));
}

}  // namespace ordinatio::inline check
