#include "rectangles.h"

namespace ordinatio {

Sheet sheet_of(const std::vector<Bounds>& boxes, Operation operation) {
  Sheet sheet;
  for (const Bounds& box : boxes) {
    const std::string id = "item-" + std::to_string(sheet.items.size() + 1);
    Path path;
    path.add_rectangle(box);
    sheet.parts.push_back({operation, id, "", path});
    SheetItem& item = sheet.items.emplace_back();
    item.item.id = id;
  }
  return sheet;
}

Motion plain_motion() {
  Motion motion;
  motion.scan_speed = 300, motion.score_speed = 20, motion.cut_speed = 5, motion.mark_speed = 40;
  motion.travel_speed = 500, motion.acceleration = 3000;
  return motion;
}

}  // namespace ordinatio
