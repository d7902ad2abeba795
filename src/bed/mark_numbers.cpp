#include "bed/mark_numbers.h"

#include <algorithm>

namespace ordinatio::inline bed {
namespace {

constexpr double tallest_height = 5,
                 least_height = 2.5;  // mm, of ISO 3098-1's heights: smaller than the pockets' own numbers
constexpr double free_margin = 1;     // mm kept around a number
constexpr const char* plain_face = "sans";

/// Beside the mark, then above and below, then at its corners: inwards first.
std::vector<Point> places_beside(const Bounds& mark, double width, double height, const Machine& bed) {
  const Point centre = mark.centre();
  const bool at_left = centre.x < bed.width / 2, at_foot = centre.y < bed.height / 2;
  const double right = mark.right + free_margin, left = mark.left - free_margin - width;
  const double above = mark.top + free_margin, below = mark.bottom - free_margin - height;
  const double in_x = at_left ? right : left, out_x = at_left ? left : right;
  const double in_y = at_foot ? above : below, out_y = at_foot ? below : above;
  const double middle_x = centre.x - width / 2, middle_y = centre.y - height / 2;
  return {{in_x, middle_y}, {middle_x, in_y}, {out_x, middle_y}, {middle_x, out_y},
          {in_x, in_y},     {in_x, out_y},    {out_x, in_y},     {out_x, out_y}};
}

bool is_free(const Bounds& box, const Machine& bed, const std::vector<Hole>& holes, const std::vector<Bounds>& taken) {
  constexpr double rounding = 1e-6;  // mm: exactly at the margin is free, whatever rounding says
  if (box.left < free_margin || box.bottom < free_margin || box.right > bed.width - free_margin ||
      box.top > bed.height - free_margin) {
    return false;
  }
  const auto meets = [&](const Hole& hole) { return distance(hole, box) < free_margin - rounding; };
  const auto near = [&](const Bounds& thing) { return distance(thing, box) < free_margin - rounding; };
  return std::ranges::none_of(holes, meets) && std::ranges::none_of(taken, near);
}

Bounds box_of(const Frame& frame, Point mark) {
  const double arm = frame.plan.marks.size / 2;
  return {mark.x - arm, mark.y - arm, mark.x + arm, mark.y + arm};
}

}  // namespace

Result<std::vector<SheetPart>> number_marks(const Frame& frame, const std::vector<Hole>& holes,
                                            std::vector<Bounds> taken, double height, Typesetter& typesetter) {
  const TextStyle style{{plain_face}, "en", ""};
  const Result<ShapedLine> all = typesetter.shape("0123456789", style);
  if (!all.ok()) return all.fault();
  std::vector<SheetPart> numbers;
  for (std::size_t i = 0; i < frame.marks.size(); ++i) {
    const std::string number = std::to_string(i + 1);
    const Result<ShapedLine> line = typesetter.shape(number, style);
    if (!line.ok()) return line.fault();
    for (const double tall : {std::min(height, tallest_height), least_height}) {
      Path figures;
      typesetter.append_ink(figures, *line, tall / all->ink.height(), {}, curve_tolerance);
      const Bounds ink = bounds_of(figures);
      const auto places = places_beside(box_of(frame, frame.marks[i]), ink.width(), ink.height(), frame.plan.machine);
      const auto box_at = [&](Point at) { return ink.shifted(at - Point{ink.left, ink.bottom}); };
      const auto place =
          std::ranges::find_if(places, [&](Point at) { return is_free(box_at(at), frame.plan.machine, holes, taken); });
      if (place == places.end()) continue;
      taken.push_back(box_at(*place));
      numbers.push_back({Operation::engrave, "mark-" + number, "number of registration mark " + number,
                         transformed(figures, shift_by(*place - Point{ink.left, ink.bottom}))});
      break;
    }
  }
  return numbers;
}

}  // namespace ordinatio::inline bed
