// How a plane lies in a picture of it: corresponding points in, the map between the plane and the picture out. Of this folder alone.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "geometry/geometry.h"

namespace ordinatio::inline photo {

/// x' ~ H·(x, y, 1): a plane seen by a camera without distortion. Row by row.
struct Homography {
  std::array<double, 9> h{1, 0, 0, 0, 1, 0, 0, 0, 1};

  Point operator()(Point p) const {
    const double w = depth(p);
    return {(h[0] * p.x + h[1] * p.y + h[2]) / w, (h[3] * p.x + h[4] * p.y + h[5]) / w};
  }
  /// Above zero before the camera, below it behind; at zero a point is on the horizon and has no place.
  [[nodiscard]] double depth(Point p) const { return h[6] * p.x + h[7] * p.y + h[8]; }
};

// ---- homography.cpp ----
/// The map that takes each of `from` to its partner in `to`, best in the algebraic sense where there are more than four; by the
/// normalised direct linear transformation (R. Hartley, "In defense of the eight-point algorithm", IEEE PAMI 19(6), 1997). Its
/// depth is above zero at from's first point. Nothing for less than four points, for three of four in line, or where a point is
/// not finite. On four exact pairs the error is some 1e-12 of their extent.
std::optional<Homography> homography_between(std::span<const Point> from, std::span<const Point> to);
/// The way back, of the same sign of depth in front of the camera; nothing where the plane is seen edge on.
std::optional<Homography> inverse_of(const Homography& map);
/// What a small step on the plane becomes in the picture, to first order: the transform without its shift.
Transform slope_at(const Homography& map, Point p);

}  // namespace ordinatio::inline photo
