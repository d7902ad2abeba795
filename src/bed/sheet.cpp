#include <algorithm>

#include "bed/machine_setting.h"
#include "geometry/contour_order.h"

namespace ordinatio::inline bed {
namespace {

constexpr double bar_length = 100;  // mm
constexpr double bar_tick = 4;      // mm

/// Whether a blank that was laid to what was measured lies there; others lie in their pockets.
bool lies_under_blank(const Sheet& sheet, const Bounds& box) {
  return sheet.correction && std::ranges::any_of(sheet.items, [&](const SheetItem& item) {
           return overlap(box, bounds_of(transformed(path_of(item.artwork.blank), item.to_bed)));
         });
}

/// The first place along the bed's lower, then upper edge where the bar is clear of pockets and marks.
std::optional<Point> place_bar(const Sheet& sheet) {
  const Machine& bed = sheet.frame.plan.machine;
  for (const double y : {bar_tick, bed.height - bar_tick}) {
    for (double x = bar_tick; x + bar_length + bar_tick <= bed.width; x += bar_tick) {
      const Bounds bar{x, y - bar_tick / 2, x + bar_length, y + bar_tick / 2};
      const auto under = [&](const Pocket& pocket) { return overlap(bar, pocket.box); };
      const auto crosses = [&](Point mark) {
        const double arm = sheet.frame.plan.marks.size / 2 + 1;
        return overlap(bar, {mark.x - arm, mark.y - arm, mark.x + arm, mark.y + arm});
      };
      if (std::ranges::none_of(sheet.frame.pockets, under) && std::ranges::none_of(sheet.frame.marks, crosses) &&
          !lies_under_blank(sheet, bar)) {
        return Point{x, y};
      }
    }
  }
  return std::nullopt;
}

Path bar_path(Point start) {
  Path path;
  const auto line = [&path](Point from, Point to) {
    path.move_to(from);
    path.line_to(to);
  };
  line(start, start + Point{bar_length, 0});
  for (const double x : {0.0, bar_length / 2, bar_length}) {
    line(start + Point{x, -bar_tick / 2}, start + Point{x, bar_tick / 2});
  }
  return path;
}

void add_item_parts(Sheet& sheet, Operation operation) {
  for (const SheetItem& placed : sheet.items) {
    for (const Layer& layer : placed.artwork.layers) {
      if (layer.operation != operation) continue;
      // Mirrored, contours would turn the other way.
      const bool is_mirrored = placed.to_bed.determinant() < 0;
      // In the blank's own millimetres: the order is the same wherever the item lies.
      const std::optional<Path> sorted =
          operation == Operation::cut ? std::optional(smallest_first(layer.path)) : std::nullopt;
      const Path& path = sorted ? *sorted : layer.path;
      const std::string place = placed.pocket == 0 ? "laid by hand" : "pocket " + std::to_string(placed.pocket);
      sheet.parts.push_back(
          {operation, placed.item.id, "item " + placed.item.id + ", " + place,
           is_mirrored ? transformed(reversed(path), placed.to_bed) : transformed(path, placed.to_bed)});
    }
  }
}

void add_marks(Sheet& sheet) {
  for (std::size_t i = 0; i < sheet.frame.marks.size(); ++i) {
    const std::string number = std::to_string(i + 1);
    const Path mark = mark_path(sheet.frame.plan.marks.kind, sheet.frame.plan.marks.size, sheet.frame.marks[i]);
    sheet.parts.push_back({Operation::mark, "mark-" + number, "registration mark " + number,
                           sheet.correction ? transformed(mark, sheet.correction->registration.to_bed) : mark});
  }
}

void add_guides(Sheet& sheet) {
  for (const SheetItem& placed : sheet.items) {
    const std::string pocket = std::to_string(placed.pocket);
    sheet.parts.push_back({Operation::guide, "blank-" + pocket,
                           placed.pocket == 0 ? "outline of the blank" : "outline of the blank in pocket " + pocket,
                           transformed(path_of(placed.artwork.blank), placed.to_bed)});
  }
  if (!sheet.frame.plan.scale_bar) return;
  if (const auto start = place_bar(sheet)) {
    sheet.parts.push_back({Operation::guide, "scale-bar", "scale bar: 100 mm", bar_path(*start)});
  }
}

Fault pocket_fault(const std::string& what, std::size_t count) {
  return {what, "", "the jig has " + std::to_string(count) + " pockets",
          "Name a free pocket from 1 to " + std::to_string(count)};
}

/// From the piece as it is seen to its pocket.
Transform way_to_bed(const Artwork& artwork, const Pocket& pocket, Jig::Datum datum) {
  const Bounds box = bounds_of(path_of(artwork.blank.outline));
  return then(as_it_lies(artwork), blank_to_bed(pocket, box.width(), box.height(), datum));
}

/// Gives every item its pocket and its way there.
MaybeFault place_items(const Frame& frame, std::vector<SheetItem>& items, const std::vector<int>& pocket_numbers) {
  std::vector<bool> taken(frame.pockets.size() + 1, false);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const int wanted = pocket_numbers.empty() ? static_cast<int>(i) + 1 : pocket_numbers.at(i);
    if (wanted < 1 || static_cast<std::size_t>(wanted) > frame.pockets.size()) {
      return pocket_fault("there is no pocket " + std::to_string(wanted), frame.pockets.size());
    }
    const auto index = static_cast<std::size_t>(wanted);
    if (taken[index])
      return pocket_fault("two items are meant for pocket " + std::to_string(wanted), frame.pockets.size());
    taken[index] = true;
    items[i].pocket = wanted;
    items[i].to_bed = way_to_bed(items[i].artwork, frame.pockets[index - 1], frame.plan.jig.datum);
  }
  return std::nullopt;
}

}  // namespace

Transform as_it_lies(const Artwork& artwork) {
  if (!artwork.from_behind) return {};
  return {-1, 0, 0, 1, bounds_of(path_of(artwork.blank.outline)).right, 0};
}

void draw_parts(Sheet& sheet) {
  sheet.parts.clear();
  for (const Operation operation : all_operations) {
    add_item_parts(sheet, operation);
    if (operation == Operation::mark) add_marks(sheet);
    if (operation == Operation::guide) add_guides(sheet);
  }
}

Result<Frame> lay_bed(const BedPlan& plan, double blank_width, double blank_height) {
  Result<std::vector<Pocket>> pockets = place_pockets(plan, blank_width, blank_height);
  if (!pockets.ok()) return pockets.fault();
  Result<std::vector<Point>> marks = place_marks(plan, *pockets);
  if (!marks.ok()) return marks.fault();
  return Frame{plan, blank_width, blank_height, std::move(*pockets), std::move(*marks)};
}

Result<Sheet> build_sheet(const Frame& frame, std::vector<SheetItem> items, const std::string& name, int number,
                          const std::vector<int>& pocket_numbers) {
  if (auto fault = place_items(frame, items, pocket_numbers)) return *std::move(fault);
  if (const auto setting = setting_for(frame.plan.machine, items); !setting.ok()) {
    Fault fault = setting.fault();
    fault.where = name;
    return fault;
  }
  Sheet sheet{name, number, frame, std::move(items), {}, {}, {}, {}};
  draw_parts(sheet);
  return sheet;
}

}  // namespace ordinatio::inline bed
