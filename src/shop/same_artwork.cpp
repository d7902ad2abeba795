#include "shop/same_artwork.h"

#include <memory>

#include "shop/bookings.h"
#include "shop/recompose.h"

namespace ordinatio {
namespace {

/// What was made of the item, as it would be made with what is wanted now.
Result<SheetItem> made_anew(const Shop& shop, Workroom& workroom, const LedgerSheet& sheet, const LedgerItem& item,
                            const NewItem& wanted) {
  const Result<Manifest> manifest = manifest_of(shop, sheet);
  if (!manifest) return manifest.fault();
  Result<ManifestItem> before = find_item(*manifest, item.number);
  if (!before) return before.fault();
  before->item.design = wanted.design.empty() ? shop.default_design : wanted.design;
  if (before->set_for) before->piece = *std::exchange(before->set_for, std::nullopt);
  Typesetter typesetter(workroom.fonts());
  return recompose(workroom, typesetter, *manifest, *before, wanted.words);
}

}  // namespace

std::function<bool(Ledger&, const LedgerItem&, const NewItem&)> same_artwork(const Shop& shop) {
  // Opened when it is first asked for: most exports change nothing that is made.
  auto workroom = std::make_shared<std::optional<Workroom>>();
  return [&shop, workroom](Ledger& ledger, const LedgerItem& item, const NewItem& wanted) {
    const auto placement = ledger.placement_of(item.id);
    if (!placement) return false;
    if (!*workroom) workroom->emplace(shop);
    const Result<SheetItem> again = made_anew(shop, **workroom, *ledger.sheet(placement->sheet), item, wanted);
    return again.ok() && again->artwork.hash == placement->hash;
  };
}

}  // namespace ordinatio
