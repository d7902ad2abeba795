// In: the lines that may be made, and where they may lie. Out: sizes and widths that no true fit exceeds, so that plans
// need not all be fitted. Never: fits a plan. Of this folder alone.
#pragma once

#include <cstdint>
#include <map>
#include <unordered_map>

#include "fit/line_candidates.h"

namespace ordinatio::inline fit {

class PlanBounds {
 public:
  PlanBounds(LineCandidates& lines, const TextPassages& list, const SettingRules& rules, const SettingArea& area);

  // What PlanQuestion asks under the same names.
  std::vector<double> room(std::size_t rows, double size) const;
  /// Solved once for each line and place, whatever worth it was asked for.
  double line_size(std::size_t first, std::size_t last, std::size_t row, std::size_t rows, std::size_t first_end);
  double height_size(std::size_t rows, std::size_t first_end, std::size_t last_begin);
  [[nodiscard]] double largest() const;
  /// Of a block with this box, wherever its ink lies in it.
  [[nodiscard]] double box_size(const Bounds& ink) const;

 private:
  double solve_line(std::size_t first, std::size_t last, std::size_t row, std::size_t rows, std::size_t first_end);
  void add_neighbours(std::vector<FitRow>& rows, const Bounds& bounds, double away) const;
  [[nodiscard]] double height_beside_neighbours(double height) const;
  void add_first_line(std::vector<FitRow>& rows, Bounds& bounds, std::size_t first_end, const LineMeasure& below,
                      std::size_t row);
  void find_least_heights();

  LineCandidates& lines_;
  const TextPassages& list_;
  const SettingRules& rules_;
  const SettingArea& area_;
  Bounds box_;                              // of the region, mm
  std::map<std::size_t, double> leadings_;  // em of the block, by role
  double leading_ = 0;                      // em, between two lines at the least
  std::vector<double> heights_;       // em, from the first of so many (less one) baselines to the last at the least
  double top_ = 0, bottom_ = 0;       // em; of the first line's and the last line's ink, at the least
  double tallest_ = 0, deepest_ = 0;  // em; of any line's ink, at the most
  double least_away_ = 0;             // em; what any plan keeps from neighbours, at the least
  std::unordered_map<std::uint64_t, double> line_sizes_;  // as far as they were asked for
};

}  // namespace ordinatio::inline fit
