#include <algorithm>

#include "manifest/manifest.h"
#include "shop/bookings.h"
#include "shop/piece_glass.h"
#include "shop/recompose.h"

namespace ordinatio::inline shop {
namespace {

Result<Manifest> manifest_in(const Shop& shop, const LedgerSheet& sheet, const std::string& name) {
  const std::filesystem::path file = folder_on_disk(shop, sheet) / name;
  const Result<std::string> bytes = read_file(file);
  if (!bytes.ok()) {
    Fault fault = bytes.fault();
    fault.mend = "Put the sheet's files back from a copy";
    return fault;
  }
  const auto known = sheet.files.find(name);
  if (known == sheet.files.end() || known->second != sha256_hex(*bytes)) {
    return Fault{"the manifest is not what was written", file.string(), "its checksum differs from the ledger's",
                 "Put the sheet's files back from a copy"};
  }
  return in_colours_of(shop, read_manifest(*bytes, file.string()));
}

/// The sheet's manifests by name, the newest first.
std::vector<std::string> manifests_of(const LedgerSheet& sheet) {
  const std::string own = sheet.name + ".json";
  std::vector<std::string> names;
  for (const auto& [name, checksum] : sheet.files) {
    if (is_aside(name) && std::filesystem::path(name).filename() == own) names.push_back(name);
  }
  // "earlier-1000" comes after "earlier-999".
  std::ranges::sort(names, std::greater(), [](const std::string& name) { return std::pair(name.size(), name); });
  if (sheet.files.contains(own)) names.insert(names.begin(), own);
  return names;
}

}  // namespace

Result<Manifest> manifest_of(const Shop& shop, const LedgerSheet& sheet) {
  const std::vector<std::string> names = manifests_of(sheet);
  return manifest_in(shop, sheet, names.empty() ? sheet.name + ".json" : names.front());
}

Result<Manifest> manifest_with(const Shop& shop, const LedgerSheet& sheet, const std::string& item) {
  Result<Manifest> newest = manifest_of(shop, sheet);
  if (!newest.ok() || find_item(*newest, item).ok()) return newest;
  for (const std::string& name : manifests_of(sheet)) {
    Result<Manifest> manifest = manifest_in(shop, sheet, name);
    if (manifest.ok() && find_item(*manifest, item).ok()) return manifest;
  }
  return newest;
}

namespace {

/// The newest manifest of the sheet in which the item stands with this artwork, on this piece: on another it stands in one that
/// was moved aside, or in none where the files were lost.
Result<Manifest> manifest_drawing(const Shop& shop, const LedgerSheet& sheet, const LedgerPlacement& placement,
                                  const std::string& item) {
  for (const std::string& name : manifests_of(sheet)) {
    Result<Manifest> manifest = manifest_in(shop, sheet, name);
    if (!manifest.ok() && manifest.fault().cause == Fault::Cause::machine) return manifest;
    if (!manifest.ok()) continue;
    const Result<ManifestItem> drawn = find_item(*manifest, item);
    if (drawn.ok() && drawn->hash == placement.hash && drawn->piece.id == placement.blank) return manifest;
  }
  return Fault{"no file of " + sheet.name + " shows item " + item + " as it is booked", "", "",
               "Put the sheet's files back from a copy, or take it off: ordinatio take-off " + with_check(item)};
}

/// Items on their way to the pockets of a bed.
class Redrawing {
 public:
  Redrawing(Workroom& workroom, Ledger& ledger, const LedgerSheet& sheet, const Frame& frame)
      : workroom_(workroom),
        ledger_(ledger),
        sheet_(sheet),
        before_(frame),
        frame_(frame),
        typesetter_(workroom.fonts()),
        not_engraved_(pieces_not_engraved(workroom)) {}
  MaybeFault add(const LedgerPlacement& placement, const std::optional<SheetItem>& anew);
  Result<Sheet> build(const std::string& name, int number);

 private:
  void turn_what_was_left();
  MaybeFault lay(const Manifest& manifest, int before, const LedgerPlacement& placement, SheetItem item, bool is_anew);

  Workroom& workroom_;
  Ledger& ledger_;
  const LedgerSheet& sheet_;
  Frame before_, frame_;
  Typesetter typesetter_;
  std::map<std::string, Fault> not_engraved_;
  std::vector<SheetItem> items_;
  std::vector<int> pockets_;
  std::map<int, int> left_;  // pockets that were left, each for which
  std::map<std::string, std::string> designs_;
};

MaybeFault Redrawing::add(const LedgerPlacement& placement, const std::optional<SheetItem>& anew) {
  const std::string id = ledger_.item(placement.item)->number;
  const bool is_anew = anew && anew->item.id == id;
  const Shop& shop = workroom_.shop();
  const Result<Manifest> manifest =
      is_anew ? manifest_with(shop, sheet_, id) : manifest_drawing(shop, sheet_, placement, id);
  if (!manifest.ok()) return manifest.fault();
  const Result<ManifestItem> before = find_item(*manifest, id);
  if (!before.ok()) return before.fault();
  if (auto fault = check_lying(not_engraved_, is_anew ? placement.blank : before->piece.id, id)) return fault;
  if (is_anew) {
    designs_[anew->item.design] = workroom_.opened(anew->item.design)->design.checksum;
    return lay(*manifest, before->pocket, placement, *anew, true);
  }
  Result<SheetItem> item = recompose(workroom_, typesetter_, *manifest, *before, std::nullopt);
  if (!item.ok()) return item.fault();
  designs_.insert(manifest->design_checksums.begin(), manifest->design_checksums.end());
  return lay(*manifest, before->pocket, placement, *std::move(item), false);
}

/// Turned in its pocket as it was in the one before.
MaybeFault Redrawing::lay(const Manifest& manifest, int before, const LedgerPlacement& placement, SheetItem item,
                          bool is_anew) {
  const auto was = std::ranges::find(manifest.pockets, before, &Pocket::number);
  const auto now = std::ranges::find(frame_.pockets, placement.pocket, &Pocket::number);
  if (was != manifest.pockets.end() && now != frame_.pockets.end() && (is_anew || before != placement.pocket)) {
    now->turned = was->turned;
    if (before != placement.pocket) left_[before] = placement.pocket;
    const Bounds box = bounds_of(path_of(item.artwork.blank));
    if (!lies_in(*now, box.width(), box.height(), frame_.plan.jig)) {
      const double width = now->turned ? box.height() : box.width(), height = now->turned ? box.width() : box.height();
      const double play = play_of(frame_.plan.jig);
      return Fault{
          item.item.id + " does not fit pocket " + std::to_string(placement.pocket) + " of " + sheet_.name, "",
          "as it lies there it is " + excess_text(width - now->box.width() - play, height - now->box.height() - play),
          "Name another"};
    }
  }
  items_.push_back(std::move(item));
  pockets_.push_back(placement.pocket);
  return std::nullopt;
}

/// A pocket that was left lies as the one that was taken: so the way back leads to the same bed.
void Redrawing::turn_what_was_left() {
  for (const auto& [left, taken] : left_) {
    if (std::ranges::find(pockets_, left) != pockets_.end()) continue;
    const auto empty = std::ranges::find(frame_.pockets, left, &Pocket::number);
    if (empty != frame_.pockets.end()) {
      empty->turned = std::ranges::find(before_.pockets, taken, &Pocket::number)->turned;
    }
  }
}

Result<Sheet> Redrawing::build(const std::string& name, int number) {
  turn_what_was_left();
  std::erase_if(designs_, [&](const auto& design) {
    return std::ranges::none_of(items_, [&](const SheetItem& item) { return item.item.design == design.first; });
  });
  Result<Sheet> again = build_sheet(frame_, std::move(items_), name, number, pockets_);
  if (again.ok()) again->designs = std::move(designs_);
  return again;
}

}  // namespace

Result<Sheet> drawn_again(Workroom& workroom, Ledger& ledger, const LedgerSheet& sheet,
                          const std::vector<LedgerPlacement>& placements, const std::string& name, int number,
                          const std::optional<SheetItem>& anew) {
  const Result<Manifest> newest = manifest_of(workroom.shop(), sheet);
  if (!newest.ok()) return newest.fault();
  Redrawing drawing(workroom, ledger, sheet, frame_of(*newest));
  for (const LedgerPlacement& placement : placements) {
    if (auto fault = drawing.add(placement, anew)) return *std::move(fault);
  }
  Result<Sheet> again = drawing.build(name, number);
  if (!again.ok()) return again;
  again->date = newest->date;
  again->remake_of = newest->remake_of;
  return again;
}

}  // namespace ordinatio::inline shop
