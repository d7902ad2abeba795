#include "bed/jig_numbers.h"

#include <algorithm>
#include <map>

namespace ordinatio::inline bed {
namespace {

constexpr double heights[] = {10, 7, 5, 3.5, 2.5};  // mm, ISO 3098-1: what can be read across a bench
constexpr double margin = 1;                        // mm kept around a number: char of a cut would eat into it
constexpr double others = 3;                        // mm kept to other pockets' holes: it is seen whose number it is
constexpr const char* face = "sans";

constexpr int place_count = 8;  // at each corner of a hole two: beside either of the sides that meet there

/// The lower-left corner of a number of the given size at one of its places; the first two are at the datum corner.
Point place_of(int place, const Hole& hole, double width, double height) {
  const Bounds& b = hole.box;
  const bool by_height = place % 2 == 0;  // below or above the hole; else left or right of it
  const bool left = (place & 4) != 0 ? !is_left(hole.datum) : is_left(hole.datum);
  const bool lower = (place & 2) != 0 ? !is_lower(hole.datum) : is_lower(hole.datum);
  if (by_height) return {left ? b.left : b.right - width, lower ? b.bottom - margin - height : b.top + margin};
  return {left ? b.left - margin - width : b.right + margin, lower ? b.bottom : b.top - height};
}

/// Finds places for numbers of one height.
class NumberPlacer {
 public:
  NumberPlacer(const Frame& frame, const std::vector<Hole>& holes, const std::vector<Bounds>& taken,
               const std::map<int, Path>& figures)
      : frame_(frame), holes_(holes), taken_(taken), figures_(figures) {}

  /// Each at the first of these places that is free; empty when one has none.
  std::vector<PlacedNumber> place(const std::vector<int>& places) {
    std::vector<PlacedNumber> numbers;
    boxes_ = taken_;
    for (const Hole& hole : holes_) {
      const std::size_t before = numbers.size();
      for (std::size_t i = 0; i < places.size() && numbers.size() == before; ++i) try_place(numbers, hole, places[i]);
      if (numbers.size() == before) return {};
    }
    return numbers;
  }

 private:
  void try_place(std::vector<PlacedNumber>& numbers, const Hole& hole, int place) {
    const Path& figures = figures_.at(hole.pocket);
    const Bounds ink = bounds_of(figures);
    const Point at = place_of(place, hole, ink.width(), ink.height()), by = at - Point{ink.left, ink.bottom};
    const Bounds box = ink.shifted(by);
    if (!is_free(box, hole)) return;
    boxes_.push_back(box);
    numbers.push_back({hole.pocket, transformed(figures, shift_by(by))});
  }

  [[nodiscard]] bool is_free(const Bounds& box, const Hole& own) const {
    constexpr double rounding = 1e-6;  // mm: exactly at the margin is free, whatever rounding says
    const Machine& bed = frame_.plan.machine;
    if (box.left < margin || box.bottom < margin || box.right > bed.width - margin || box.top > bed.height - margin)
      return false;
    const auto near = [&](const Bounds& thing) { return distance(thing, box) < margin - rounding; };
    const auto meets = [&](const Hole& hole) {
      return distance(hole, box) < (hole.pocket == own.pocket ? margin : others) - rounding;
    };
    return std::ranges::none_of(holes_, meets) && std::ranges::none_of(boxes_, near);
  }

  const Frame& frame_;
  const std::vector<Hole>& holes_;
  const std::vector<Bounds>& taken_;
  const std::map<int, Path>& figures_;
  std::vector<Bounds> boxes_;
};

/// Every pocket's number as ink, its figures' ink `height` mm tall.
Result<std::map<int, Path>> figures_of(const std::vector<Hole>& holes, double height, Typesetter& typesetter) {
  const TextStyle style{{face}, "en", ""};
  const Result<ShapedLine> all = typesetter.shape("0123456789", style);
  if (!all.ok()) return all.fault();
  std::map<int, Path> figures;
  for (const Hole& hole : holes) {
    const Result<ShapedLine> line = typesetter.shape(std::to_string(hole.pocket), style);
    if (!line.ok()) return line.fault();
    typesetter.append_ink(figures[hole.pocket], *line, height / all->ink.height(), {}, curve_tolerance);
  }
  return figures;
}

}  // namespace

Result<BoardNumbers> place_numbers(const Frame& frame, const std::vector<Hole>& holes, const std::vector<Bounds>& taken,
                                   Typesetter& typesetter) {
  std::vector<std::vector<int>> alike, anywhere(1);  // all numbers at one place; each where it can be
  for (int place = 0; place < place_count; ++place) alike.push_back({place}), anywhere[0].push_back(place);
  for (const auto& ways : {alike, anywhere}) {
    for (const double height : heights) {
      const Result<std::map<int, Path>> figures = figures_of(holes, height, typesetter);
      if (!figures.ok()) return figures.fault();
      NumberPlacer placer(frame, holes, taken, *figures);
      for (const std::vector<int>& way : ways) {
        if (auto numbers = placer.place(way); !numbers.empty()) return BoardNumbers{height, std::move(numbers)};
      }
    }
  }
  return Fault{"there is no room for the pockets' numbers", "shop.toml, " + table_of(frame.plan.jig),
               "even figures of 2.5 mm find no place beside their holes", "Leave more gap or pitch between pockets"};
}

}  // namespace ordinatio::inline bed
