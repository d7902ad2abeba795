#include "shop/same_artwork.h"

#include <memory>

#include "manifest/manifest.h"
#include "shop/bookings.h"
#include "shop/recompose.h"

namespace ordinatio::inline shop {
namespace {

/// What was made of the item, as it would be made with what is wanted now.
Result<SheetItem> made_anew(const Shop& shop, Workroom& workroom, const LedgerSheet& sheet, const LedgerItem& item,
                            const NewItem& wanted) {
  const Result<Manifest> manifest = manifest_with(shop, sheet, item.number);
  if (!manifest.ok()) return manifest.fault();
  Result<ManifestItem> before = find_item(*manifest, item.number);
  if (!before.ok()) return before.fault();
  before->item.design = wanted.design.empty() ? shop.default_design : wanted.design;
  before->item.setting = kept_setting(item.setting);  // no export says anything of it
  if (!before->item.setting.design.empty()) before->item.design = before->item.setting.design;
  if (before->set_for) before->piece = *std::exchange(before->set_for, std::nullopt);
  Typesetter typesetter(workroom.fonts());
  return recompose(workroom, typesetter, *manifest, *before, wanted.words);
}

/// What tells two of these questions apart: items alike on one sheet ask the same.
std::string key_of(const LedgerPlacement& placement, const LedgerItem& item, const NewItem& wanted) {
  return placement.hash + "\n" + placement.blank + "\n" + std::to_string(placement.sheet) + "\n" + wanted.design +
         "\n" + item.setting + "\n" + wanted.words;
}

}  // namespace

std::function<bool(Ledger&, const LedgerItem&, const NewItem&)> same_artwork(const Shop& shop) {
  // Opened when it is first asked for: most exports change nothing that is made.
  struct Room {
    std::optional<Workroom> workroom;
    std::map<std::string, bool> known;
  };
  return [&shop, room = std::make_shared<Room>()](Ledger& ledger, const LedgerItem& item, const NewItem& wanted) {
    const auto placement = ledger.placement_of(item.id);
    if (!placement) return false;
    const auto [known, is_new] = room->known.emplace(key_of(*placement, item, wanted), false);
    if (!is_new) return known->second;
    if (!room->workroom) room->workroom.emplace(shop);
    const Result<SheetItem> again = made_anew(shop, *room->workroom, *ledger.sheet(placement->sheet), item, wanted);
    known->second = again.ok() && again->artwork.hash == placement->hash;
    return known->second;
  };
}

}  // namespace ordinatio::inline shop
