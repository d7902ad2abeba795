#include "shop/parcels.h"

#include <algorithm>

#include "shop/bookings.h"
#include "shop/recompose.h"

namespace ordinatio::inline shop {

std::vector<std::string> orders_to_pack(Ledger& ledger) {
  std::vector<std::string> orders;
  for (const LedgerItem& item : ledger.items_in(ItemState::engraved)) {
    if (std::ranges::find(orders, item.order_number) == orders.end()) orders.push_back(item.order_number);
  }
  return orders;
}

Result<std::vector<LedgerItem>> items_to_pack(Ledger& ledger, const std::vector<std::string>& typed) {
  std::vector<LedgerItem> items;
  for (const std::string& one : typed) {
    const Result<std::string> number = item_typed(one);
    if (!number.ok()) return number.fault();
    auto item = ledger.item_numbered(*number);
    if (!item) {
      const auto nearest = ledger.nearest_number(*number);
      return Fault{"there is no item " + *number, "", "the ledger does not know it",
                   nearest ? "Did you mean " + *nearest + "?" : "Look at the list: ordinatio list"};
    }
    if (std::ranges::find(items, item->id, &LedgerItem::id) == items.end()) items.push_back(*std::move(item));
  }
  if (!typed.empty()) return items;
  for (const std::string& order : orders_to_pack(ledger)) {
    for (LedgerItem& item : ledger.items_of_order(order)) {
      if (item.state == ItemState::engraved) items.push_back(std::move(item));
    }
  }
  return items;
}

Result<Artwork> artwork_of(Workroom& workroom, Typesetter& typesetter, Ledger& ledger, const LedgerItem& item) {
  const auto placement = ledger.placement_of(item.id);
  const auto sheet = placement ? ledger.sheet(placement->sheet) : std::nullopt;
  if (!sheet) return Fault{item.number + " is on no sheet", "", "", ""};
  const Result<Manifest> manifest = manifest_with(workroom.shop(), *sheet, item.number);
  if (!manifest.ok()) return manifest.fault();
  const Result<ManifestItem> drawn = find_item(*manifest, item.number);
  if (!drawn.ok()) return drawn.fault();
  Result<SheetItem> again = recompose(workroom, typesetter, *manifest, *drawn, std::nullopt);
  if (!again.ok()) return again.fault();
  return std::move(again->artwork);
}

}  // namespace ordinatio::inline shop
