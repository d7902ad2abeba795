#include "small_sheet.h"

#include <stdexcept>

namespace ordinatio {
namespace {

SheetItem item(const std::string& id, std::vector<Layer> layers) {
  SheetItem placed;
  placed.item = {
      id, "slate", {"The Mill\xC2\xA0House\nN\xC2\xBA 3", {"The Mill House", "N\xC2\xBA 3"}, {}}, "orders.csv:2"};
  placed.item.inscription.notes = {{CleaningNote::Weight::note, 1, 9, "non-breaking space became a space"},
                                   {CleaningNote::Weight::warning, 2, 1, "a warning"}};
  placed.artwork.blank.outline = rectangle_outline(60, 40, Corner::square, 0);
  placed.artwork.clear_area.region = region_of(*inset(placed.artwork.blank.outline, 4));
  placed.artwork.layers = std::move(layers);
  placed.artwork.placement = {12.5, {6, 6.25}};
  placed.artwork.cap_height = 8.75;
  placed.artwork.faces = {{"Invented Sans", std::string(64, 'd')}, {"Invented Serif", std::string(64, 'a')}};
  placed.artwork.hash = std::string(64, 'b');
  return placed;
}

Path slab_with_window() {
  Path path;
  path.add_rectangle({6, 6, 54, 34});
  Path window;
  window.add_rectangle({12, 12, 30, 20});
  path.append(reversed(window));
  return path;
}

Path sail() {
  Path path;
  path.move_to({10, 10});
  path.line_to({50, 10});
  path.quad_to({50, 30}, {10, 30});
  path.close();
  return path;
}

BedPlan two_pockets() {
  BedPlan plan;
  plan.machine = {200, 120};
  plan.jig.fill_bed = false;
  plan.jig.columns = 2, plan.jig.rows = 1, plan.jig.pitch_x = 90, plan.jig.first = {20, 30};
  plan.jig.pocket_width = plan.jig.pocket_height = 60;
  plan.marks.count = 3;
  return plan;
}

}  // namespace

Sheet small_sheet(const std::string& first_id, const std::string& second_id) {
  Result<Frame> frame = lay_bed(two_pockets(), 60, 40);
  if (!frame.ok()) throw std::runtime_error(describe(frame.fault()));
  frame->pockets[1].turned = true;
  Path rectangle;
  rectangle.add_rectangle({6, 6, 54, 34});
  Result<Sheet> sheet = build_sheet(*frame,
                                    {item(first_id, {{Operation::engrave, slab_with_window()}}),
                                     item(second_id, {{Operation::engrave, sail()}, {Operation::score, rectangle}})},
                                    "sheet-001", 1);
  if (!sheet.ok()) throw std::runtime_error(describe(sheet.fault()));
  sheet->designs = {{"slate", std::string(64, 'c')}};
  sheet->date = "2026-11-25";
  return *std::move(sheet);
}

}  // namespace ordinatio
