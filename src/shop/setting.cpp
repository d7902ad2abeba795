#include "shop/setting.h"
#include "base/account.h"

#include <algorithm>

namespace ordinatio::inline shop {
namespace {

constexpr std::size_t batch = 512;  // orders composed before their sheets are written: what memory holds at once

/// All items of the orders whose designs have a bed and say how thick their pieces are.
std::vector<SheetRun::Coming> coming_nominal(const Workroom& workroom, const std::vector<Order>& orders) {
  std::vector<SheetRun::Coming> coming;
  for (const Order& order : orders) {
    const Station* station = workroom.opened(workroom.design_of(order));
    if (station == nullptr || !station->design.blank.thickness) continue;
    for (int ordinal = 1; ordinal <= order.quantity; ++ordinal) {
      coming.push_back({item_id(order, ordinal), station, &station->design.blank});
    }
  }
  return coming;
}

std::vector<SheetRun::Coming> coming_on_pieces(const Workroom& workroom, const std::vector<Order>& orders,
                                               const std::vector<PlacedItem>& items) {
  std::vector<SheetRun::Coming> coming;
  for (const PlacedItem& item : items) {
    if (item.held) continue;
    const Order& order = orders[item.order];
    const Station* station = workroom.opened(workroom.design_of(order));
    if (station != nullptr) coming.push_back({item_id(order, item.ordinal), station, &item.laid->blank});
  }
  return coming;
}

}  // namespace

SetOrder held_without_bed(const Workroom& workroom, const Order& order, SetOrder set) {
  if (set.held) return set;
  if (auto fault = workroom.no_bed_for(order)) return {std::move(set.inscription), {}, std::move(fault)};
  return set;
}

MaybeFault set_nominal(const Laying& at, const std::vector<Order>& orders, const TakeItem& take,
                       const Progress& progress) {
  at.run.expect(coming_nominal(at.workroom, orders));
  const std::span<const Order> all(orders);
  for (std::size_t done = 0; done < all.size(); done += batch) {
    const auto part = all.subspan(done, std::min(batch, all.size() - done));
    std::vector<SetOrder> set = at.composer.set(part);
    for (std::size_t i = 0; i < part.size(); ++i) {
      set[i] = held_without_bed(at.workroom, part[i], std::move(set[i]));
      for (int ordinal = 1; ordinal <= part[i].quantity; ++ordinal) {
        const bool is_last = ordinal == part[i].quantity;
        if (auto fault = take(part[i], ordinal, is_last ? std::move(set[i]) : set[i])) return fault;
      }
    }
    if (progress) progress(done + part.size(), all.size());
  }
  return std::nullopt;
}

MaybeFault set_on_pieces(const Laying& at, const std::vector<Order>& orders, PieceChoice& choice, const TakeItem& take,
                         const Progress& progress) {
  const std::vector<PlacedItem> items = choice.choose(orders, at.account.notes);
  at.run.expect(coming_on_pieces(at.workroom, orders, items));
  for (std::size_t done = 0; done < items.size(); done += batch) {
    const auto part = std::span(items).subspan(done, std::min(batch, items.size() - done));
    std::vector<SetOrder> sets = set_placed(at.composer, at.workroom, orders, part);
    for (std::size_t i = 0; i < part.size(); ++i) {
      if (auto fault = take(orders[part[i].order], part[i].ordinal, std::move(sets[i]))) return fault;
    }
    if (progress) progress(done + part.size(), items.size());
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline shop
