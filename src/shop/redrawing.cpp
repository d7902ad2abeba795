#include "shop/redrawing.h"

#include <algorithm>

#include "shop/piece_glass.h"
#include "shop/recompose.h"

namespace ordinatio::inline shop {
namespace {

constexpr double same_place = 1e-6;  // mm: two ways of computing one place

}  // namespace

MaybeFault check_marks(const Manifest& manifest) {
  if (!manifest.marks.empty()) return std::nullopt;
  return Fault{manifest.name + " has no marks", "", "its piece was laid by hand",
               "Measure the piece's corners again and remake it with --corners"};
}

MaybeFault check_places(const Manifest& manifest, const Sheet& sheet) {
  if (manifest.correction) return std::nullopt;
  for (const SheetItem& item : sheet.items) {
    const auto before = std::ranges::find(manifest.items, item.pocket, &ManifestItem::pocket);
    if (before == manifest.items.end()) continue;
    const Transform &now = item.to_bed, &then = before->to_bed;
    const Point corner{manifest.blank_width, manifest.blank_height};
    if (length(now(Point{}) - then(Point{})) <= same_place && length(now(corner) - then(corner)) <= same_place)
      continue;
    return Fault{"item " + item.item.id + " lies elsewhere than on " + manifest.name, "", "",
                 "Was the sheet made by another version of the program? Make the day's sheets anew"};
  }
  return std::nullopt;
}

Result<Sheet> redrawn(const Manifest& manifest, Workroom& workroom, const std::string& name) {
  Typesetter typesetter(workroom.fonts());
  std::vector<SheetItem> items;
  std::vector<int> pockets;
  const auto not_engraved = pieces_not_engraved(workroom);
  for (const ManifestItem& before : manifest.items) {
    if (auto fault = check_lying(not_engraved, before.piece.id, before.item.id)) return *std::move(fault);
    Result<SheetItem> item = recompose(workroom, typesetter, manifest, before, std::nullopt);
    if (!item.ok()) return item.fault();
    items.push_back(std::move(*item));
    pockets.push_back(before.pocket);
  }
  Result<Sheet> sheet = build_sheet(frame_of(manifest), std::move(items), name, manifest.number, pockets);
  if (!sheet.ok()) return sheet;
  if (auto fault = check_places(manifest, *sheet)) return *std::move(fault);
  sheet->designs = manifest.design_checksums;
  sheet->date = manifest.date;
  sheet->remake_of = manifest.remake_of;
  return sheet;
}

}  // namespace ordinatio::inline shop
