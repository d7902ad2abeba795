#include "bed/correction.h"

#include <algorithm>

namespace ordinatio::inline bed {
namespace {

constexpr double edge_touch = 1e-6;  // mm; a part that meets the bed's edge to this is on it

MaybeFault check_numbers(const std::vector<int>& numbers, std::size_t marks) {
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const std::string name = "mark " + std::to_string(numbers[i]);
    if (numbers[i] < 1 || static_cast<std::size_t>(numbers[i]) > marks) {
      return Fault{"there is no " + name, "", "the sheet has " + std::to_string(marks) + " marks",
                   "Give marks by the numbers that they have on the sheet"};
    }
    if (std::count(numbers.begin(), numbers.end(), numbers[i]) > 1) {
      return Fault{name + " is given twice", "", "", "Give each mark once"};
    }
  }
  return std::nullopt;
}

MaybeFault check_on_bed(const Sheet& sheet) {
  const Machine& bed = sheet.frame.plan.machine;
  for (const SheetPart& part : sheet.parts) {
    const Bounds box = bounds_of(part.path);
    if (box.left >= -edge_touch && box.bottom >= -edge_touch && box.right <= bed.width + edge_touch &&
        box.top <= bed.height + edge_touch)
      continue;
    return Fault{part.title + " would leave the bed", "", "laid to what was measured, it reaches beyond the bed's edge",
                 "Lay the board or the piece further inwards and measure again"};
  }
  return std::nullopt;
}

/// Lower left, lower right, upper right, upper left.
std::vector<Point> corners_of(const Outline& blank, std::size_t count) {
  std::vector<Point> corners = polygon_of_box(bounds_of(path_of(Polygons{blank.vertices})));
  corners.resize(std::min(count, corners.size()));
  return corners;
}

}  // namespace

MaybeFault correct(Sheet& sheet, const std::vector<int>& numbers, const std::vector<Point>& measured,
                   Registration::Model model) {
  if (auto fault = check_numbers(numbers, sheet.frame.marks.size())) return fault;
  std::vector<Point> drawn;
  drawn.reserve(numbers.size());
  for (const int number : numbers) drawn.push_back(sheet.frame.marks[static_cast<std::size_t>(number) - 1]);
  Result<Registration> registration = register_points(drawn, measured, model);
  if (!registration.ok()) return registration.fault();
  for (SheetItem& item : sheet.items) item.to_bed = then(item.to_bed, registration->to_bed);
  sheet.correction = Correction{Correction::By::marks, numbers, std::move(*registration)};
  draw_parts(sheet);
  return check_on_bed(sheet);
}

Result<Sheet> lay_by_hand(const BedPlan& plan, SheetItem item, const std::vector<Point>& corners,
                          const std::string& name) {
  if (corners.size() != 2 && corners.size() != 4) {
    return Fault{std::to_string(corners.size()) + " corners were measured", "", "it takes two, or all four",
                 "Give the lower left and the lower right corner, and if you like the upper right and the upper left"};
  }
  Result<Registration> registration =
      register_points(corners_of(item.artwork.blank.outline, corners.size()), corners, Registration::Model::rigid);
  if (!registration.ok()) return registration.fault();
  Frame frame{plan, 0, 0, {}, {}};
  const Bounds blank = bounds_of(path_of(item.artwork.blank.outline));
  frame.blank_width = blank.width(), frame.blank_height = blank.height();
  item.pocket = 0;
  item.to_bed = then(as_it_lies(item.artwork), registration->to_bed);
  std::vector<int> numbers;
  for (std::size_t i = 0; i < corners.size(); ++i) numbers.push_back(static_cast<int>(i) + 1);
  Sheet sheet{name, 1, std::move(frame), {}, {}, {}, {}, {}};
  sheet.items.push_back(std::move(item));
  sheet.correction = Correction{Correction::By::corners, std::move(numbers), std::move(*registration)};
  draw_parts(sheet);
  if (auto fault = check_on_bed(sheet)) return *std::move(fault);
  return sheet;
}

}  // namespace ordinatio::inline bed
