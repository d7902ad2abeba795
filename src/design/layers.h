// Ink gathered by operation.
#pragma once

#include "design/design.h"

namespace ordinatio::inline design {

/// One path an operation, handed out in the operations' order without the empty ones.
class LayerStack {
 public:
  LayerStack() = default;
  explicit LayerStack(const std::vector<Layer>& begin_with) {
    for (const Layer& layer : begin_with) add(layer.operation, layer.path);
  }
  Path& operator[](Operation operation) { return paths_[static_cast<std::size_t>(operation)]; }
  void add(Operation operation, const Path& path) { (*this)[operation].append(path); }
  [[nodiscard]] std::vector<Layer> take() && {
    std::vector<Layer> layers;
    for (const Operation operation : all_operations) {
      if (!(*this)[operation].empty()) layers.push_back({operation, std::move((*this)[operation])});
    }
    return layers;
  }

 private:
  std::array<Path, all_operations.size()> paths_;
};

// ---- compose.cpp ----
/// How far the path's ink lies outside the region at most (0: nowhere). Control points stand for their curves: what they
/// clear, the curve clears; only where they do not is the curve looked at itself.
double distance_outside(const ConvexRegion& region, const Path& path);

// ---- kept_clear.cpp ----
/// The same, or how deep it lies in an obstacle, if that is more. A filled path lies in what it covers, too.
double distance_outside(const ClearArea& area, const Path& path, bool filled);

/// A convex piece and what is nearer to it than `distance` (more than 0): its sum with a disc (Minkowski), whose arcs become
/// edges that touch them from outside and reach beyond by `sagitta` at the most. mm.
ConvexHull grown(const ConvexHull& piece, double distance, double sagitta);

// The region's corners are chords of the true arcs, which a border follows: that much may lie beyond them.
inline constexpr double edge_slack = arc_sagitta + 1e-4;  // mm

}  // namespace ordinatio::inline design
