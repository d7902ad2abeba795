#include "check/laying.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline check {
namespace {

constexpr double bar_length = 100;  // mm

bool is_by_marks(const Sheet& sheet) { return sheet.correction && sheet.correction->by == Correction::By::marks; }

/// What was measured less where the transform takes what was drawn must be what is left.
void require_residuals(const Registration& registration) {
  const std::size_t count = registration.drawn.size();
  bool right = registration.measured.size() == count && registration.residuals.size() == count && count >= 2;
  for (std::size_t i = 0; right && i < count; ++i) {
    right =
        in_one_place(registration.measured[i], registration.to_bed(registration.drawn[i]) + registration.residuals[i]);
  }
  if (!right) throw Difference{"the correction's residuals are not what its transform leaves"};
}

void require_marks_of_frame(const Sheet& sheet) {
  const Correction& correction = *sheet.correction;
  const std::vector<Point>& marks = sheet.frame.marks;
  bool right = correction.numbers.size() == correction.registration.drawn.size();
  for (std::size_t i = 0; right && i < correction.numbers.size(); ++i) {
    const int number = correction.numbers[i];
    right = number >= 1 && static_cast<std::size_t>(number) <= marks.size() &&
            in_one_place(marks[static_cast<std::size_t>(number) - 1], correction.registration.drawn[i]);
  }
  if (!right) throw Difference{"the correction is not by the sheet's own marks"};
}

void require_mark(const Sheet& sheet, const SheetPart& part) {
  const auto number = parse_number(std::string_view(part.id).substr(5));
  const std::vector<Point>& marks = sheet.frame.marks;
  if (!number || !(*number >= 1 && *number <= static_cast<double>(marks.size()))) {
    throw Difference{part.id + " is no mark of the sheet's"};
  }
  const Point drawn = marks[static_cast<std::size_t>(*number) - 1];
  const Point place = is_by_marks(sheet) ? sheet.correction->registration.to_bed(drawn) : drawn;
  if (!in_one_place(bounds_of(part.path).centre(),
                    place)) {  // marks are the same from all sides: their box has their middle
    throw Difference{part.id + " does not stand at " + spoken(place)};
  }
}

void require_bar(const SheetPart& bar) {
  const auto points = bar.path.points();
  if (points.size() < 2 || !(std::abs(length(points[1] - points[0]) - bar_length) <= same_place)) {
    throw Difference{"the scale bar is not 100 mm long"};
  }
}

}  // namespace

bool in_one_place(Point a, Point b) { return std::abs(a.x - b.x) <= same_place && std::abs(a.y - b.y) <= same_place; }

Transform drawn_from(const Sheet& sheet) {
  if (!sheet.correction) return {};
  const Registration& registration = sheet.correction->registration;
  if (!(registration.to_bed.determinant() > 0) || !std::isfinite(registration.to_bed.determinant())) {
    throw Difference{"the correction mirrors the sheet, or has no inverse"};
  }
  require_residuals(registration);
  if (!is_by_marks(sheet)) return {};
  require_marks_of_frame(sheet);
  return inverse(registration.to_bed);
}

bool is_laid_by_hand(const Sheet& sheet, const SheetItem& item) {
  if (!sheet.correction || is_by_marks(sheet)) return false;
  if (item.pocket != 0 || item.to_bed != sheet.correction->registration.to_bed) {
    throw Difference{"item " + item.item.id + " does not lie where its corners were measured"};
  }
  return true;
}

void require_furniture(const Sheet& sheet) {
  for (const SheetPart& part : sheet.parts) {
    if (part.operation == Operation::mark && part.id.starts_with("mark-")) require_mark(sheet, part);
    if (part.operation == Operation::guide && part.id == "scale-bar") require_bar(part);
  }
}

}  // namespace ordinatio::inline check
