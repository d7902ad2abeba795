// Every guillotine plan of a small pane in whole millimetres, tried one by one: what plan_cutting is held against.
#pragma once

#include <array>
#include <map>

#include "bed/cutting.h"

namespace ordinatio {

/// Pieces, factory edges, factory corners, whole things on a piece, cuts as a negative number: compared in this order.
using Yield = std::array<int, 5>;
Yield yield_of(const CuttingPlan& plan);

class SawnByTrial {
 public:
  SawnByTrial(const Pane& pane, const CuttingTask& task) : pane_(pane), task_(task) {}
  Yield best() { return best({0, 0, int(pane_.width), int(pane_.height)}); }

 private:
  using Box = std::array<int, 4>;  // left, bottom, right, top
  Yield best(const Box& box);
  [[nodiscard]] bool meets(const Box& box, const Bounds& thing) const;
  [[nodiscard]] Yield as_piece(const Box& box) const;
  [[nodiscard]] bool cuts_whole(const Box& box, int axis, int blade) const;

  Pane pane_;
  CuttingTask task_;
  std::map<Box, Yield> known_;
};

}  // namespace ordinatio
