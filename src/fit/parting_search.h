// The best of all ways to part parts from obstacles. Of this folder alone.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "fit/fit.h"
#include "fit/parting.h"

namespace ordinatio::inline fit {

struct PartedPlace {
  double worth = 0;  // what is to be as large as it can be
  double scale = 0;
  Point shift;
};

/// What is sought: the best scale and shift that satisfy the region's rows and the ones given, or nothing. The best for
/// the first `solved` of them is known to be `so_far`, if that is not nothing.
struct PartingAim {
  std::function<std::optional<PartedPlace>(const std::vector<FitRow>& rows, std::size_t solved,
                                           const PartedPlace* so_far)>
      best;
  bool seeks_scale = true;  // then the worth is the scale; else the scale is the same in all
  double tie = 0;           // worths that differ by less are equal
};

/// Parts and obstacles in one unit. What two of them need to be parted is worked out when they first meet, and kept.
class PartingPairs {
 public:
  PartingPairs(std::vector<ConvexHull> parts, std::vector<ConvexHull> obstacles, std::size_t allowed);

  [[nodiscard]] std::size_t size() const { return partings_.size(); }
  /// Programmes that may be solved for all aims together, once each has some place.
  [[nodiscard]] std::size_t allowed() const { return allowed_; }
  /// Whether the boxes around the two leave them room to overlap.
  [[nodiscard]] bool may_overlap(std::size_t pair, double scale, Point shift) const;
  const Parting& operator[](std::size_t pair);

 private:
  std::vector<ConvexHull> parts_, obstacles_;
  std::vector<Bounds> part_boxes_, obstacle_boxes_;
  std::vector<std::unique_ptr<Parting>> partings_;
  std::size_t allowed_;
};

/// The best that parts all pairs and is worth more than `least`.
std::optional<PartedPlace> best_parted(PartingPairs& pairs, const PartingAim& aim, double least, PartingCost& cost);

}  // namespace ordinatio::inline fit
