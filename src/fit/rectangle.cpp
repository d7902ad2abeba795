#include "fit/rectangle.h"

#include <algorithm>
#include <cmath>

#include "fit/programme.h"

namespace ordinatio::inline fit {
namespace {

constexpr double level = 1e-12;  // slope of an edge whose corners were rounded; less than 1e-8 mm in ten metres

constexpr double rounding = 1e-6;  // em: of supports and boxes that were added up in another order

/// The largest scale at which [low, high], scaled about `anchor`, goes between `least` and `most` with the anchor at
/// `target`.
double scale_about(double low, double high, double anchor, double least, double most, double target) {
  double scale = 1e300;
  if (high > anchor) scale = std::min(scale, (most - target) / (high - anchor));
  if (low < anchor) scale = std::min(scale, (target - least) / (anchor - low));
  return scale;
}

/// Where the scaled interval begins its ems' zero, as near as it goes to having its anchor at the target.
double shift_for(double scale, double low, double high, double anchor, double least, double most, double target) {
  const double first = least - scale * low, last = most - scale * high;
  return std::clamp(target - scale * anchor, std::min(first, last), std::max(first, last));
}

}  // namespace

std::optional<Bounds> rectangle_of(std::span<const FitRow> rows) {
  Bounds box{-1e300, -1e300, 1e300, 1e300};
  for (const FitRow& edge : rows) {
    const Point n = edge.normal;
    if (std::abs(n.y) < level) {
      if (n.x > 0) box.right = std::min(box.right, edge.offset);
      if (n.x < 0) box.left = std::max(box.left, -edge.offset);
    } else if (std::abs(n.x) < level) {
      if (n.y > 0) box.top = std::min(box.top, edge.offset);
      if (n.y < 0) box.bottom = std::max(box.bottom, -edge.offset);
    } else {
      return std::nullopt;
    }
  }
  const bool closed = box.left > -1e300 && box.bottom > -1e300 && box.right < 1e300 && box.top < 1e300;
  return closed ? std::optional(box) : std::nullopt;
}

bool are_of_box(std::span<const FitRow> rows, const Bounds& box) {
  return std::ranges::all_of(rows, [&box](const FitRow& row) {
    const Point corner{row.normal.x > 0 ? box.right : box.left, row.normal.y > 0 ? box.top : box.bottom};
    return row.support <= dot(row.normal, corner) + rounding;
  });
}

std::optional<Placement> largest_copy_in(const Bounds& room, const Bounds& box, const Wish& wish) {
  if (box.empty() || !(room.width() > 0) || !(room.height() > 0)) return std::nullopt;
  double free = wish.largest;
  if (box.width() > 0) free = std::min(free, room.width() / box.width());
  if (box.height() > 0) free = std::min(free, room.height() / box.height());
  const double held =
      std::min(free, scale_about(box.left, box.right, wish.anchor.x, room.left, room.right, wish.target.x));
  const bool stays = wish.off_axis_gain >= 0 && held > 0 && free <= held * (1 + wish.off_axis_gain);
  const double scale = (stays ? held : free) * (1 - room_to_place);
  if (!(scale > 0)) return std::nullopt;
  return Placement{scale,
                   {shift_for(scale, box.left, box.right, wish.anchor.x, room.left, room.right, wish.target.x),
                    shift_for(scale, box.bottom, box.top, wish.anchor.y, room.bottom, room.top, wish.target.y)}};
}

}  // namespace ordinatio::inline fit
