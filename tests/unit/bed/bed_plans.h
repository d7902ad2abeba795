// Beds and artworks to lay out, for the tests of this folder.
#pragma once

#include <string>
#include <vector>

#include "bed/bed.h"

namespace ordinatio {

/// A cut board of two rows and three columns on a bed of 300 × 200 mm: pockets of 60 × 40 mm, 80 and 70 apart, the
/// first at (40, 50).
inline BedPlan cut_board() {
  BedPlan plan;
  plan.machine = {300, 200};
  plan.jig.fill_bed = false;
  plan.jig.columns = 3, plan.jig.rows = 2;
  plan.jig.pitch_x = 80, plan.jig.pitch_y = 70;
  plan.jig.first = {40, 50};
  plan.jig.pocket_width = 60, plan.jig.pocket_height = 40;
  return plan;
}

/// A bed that is filled, blank beside blank.
inline BedPlan filled_bed(double width, double height, double gap, double edge, Jig::Lie lie) {
  BedPlan plan;
  plan.machine = {width, height};
  plan.jig.gap = gap, plan.jig.edge = edge, plan.jig.lie = lie;
  return plan;
}

/// A blank of 50 × 30 mm with a corner engraved, a line scored, and nothing else.
inline SheetItem plain_item(const std::string& id) {
  SheetItem item;
  item.item.id = id;
  item.artwork.blank.outline = rectangle_outline(50, 30, Corner::square, 0);
  item.artwork.clear_area.region = region_of(*inset(item.artwork.blank.outline, 2));
  Path corner, line;
  corner.add_rectangle({5, 5, 15, 10});
  line.move_to({5, 20});
  line.line_to({45, 20});
  item.artwork.layers = {{Operation::engrave, corner}, {Operation::score, line}};
  return item;
}

inline std::vector<SheetItem> plain_items(int count) {
  std::vector<SheetItem> items;
  for (int i = 1; i <= count; ++i) items.push_back(plain_item("1042-" + std::to_string(i)));
  return items;
}

}  // namespace ordinatio
