#include <algorithm>
#include <iterator>

#include "base/account.h"
#include "orders/orders.h"
#include "shop/piece_choice.h"

namespace ordinatio::inline shop {

Result<std::optional<Blanks>> read_pieces(Workroom& workroom, const std::filesystem::path& file, Account& account) {
  const Shop& shop = workroom.shop();
  if (file.empty() && shop.blanks.file.empty()) return std::optional<Blanks>();
  const Result<const Station*> station = workroom.station(shop.default_design);
  if (!station.ok()) return station.fault();
  const LaidDesign& nominal = (*station)->design;
  Result<Blanks> blanks = read_blanks(file.empty() ? shop.folder / shop.blanks.file : file, nominal.width,
                                      nominal.height, nominal.blank.outline);
  if (!blanks.ok()) return blanks.fault();
  std::ranges::copy(blanks->held, std::back_inserter(account.held));
  std::ranges::copy(blanks->notes, std::back_inserter(account.notes));
  return std::optional(std::move(*blanks));
}

std::vector<SetOrder> set_placed(Composer& composer, const Workroom& workroom, const std::vector<Order>& orders,
                                 std::span<const PlacedItem> items) {
  std::vector<LaidOrder> laid;
  for (const PlacedItem& item : items) {
    if (!item.held) laid.push_back({&orders[item.order], item.laid, item.records});
  }
  std::vector<SetOrder> composed = composer.set(laid), sets;
  std::size_t next = 0;
  for (const PlacedItem& item : items) {
    if (!item.held) {
      sets.push_back(std::move(composed[next++]));
      continue;
    }
    const Order& order = orders[item.order];
    SetOrder& set = sets.emplace_back();
    set.inscription.original = order.text;
    if (auto cleaned = clean_inscription(order.text, workroom.cleaning()); cleaned.ok())
      set.inscription = std::move(*cleaned);
    set.held = item.held;
    set.held->where = order.source + (set.held->where.empty() ? "" : ", " + set.held->where);
  }
  return sets;
}

void hold_wishes(std::vector<Order>& orders, std::vector<HeldItem>& held) {
  const auto asks = [](const Order& order) { return !order.blanks.empty() || order.wish != PieceWish{}; };
  for (const Order& order : orders) {
    if (!asks(order)) continue;
    held.push_back({order.number,
                    {"a piece is asked for, and no pieces are measured", order.source, "the workshop names no blanks",
                     "Write [blanks] file = \"blanks.csv\" in shop.toml, or empty the row's wish"}});
  }
  std::erase_if(orders, asks);
}

}  // namespace ordinatio::inline shop
