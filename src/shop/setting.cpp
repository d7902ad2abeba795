#include "shop/setting.h"

#include <algorithm>

namespace ordinatio {
namespace {

constexpr std::size_t batch = 512;  // orders composed before their sheets are written: what memory holds at once

}  // namespace

MaybeFault set_nominal(Composer& composer, const std::vector<Order>& orders, const TakeItem& take,
                       const Progress& progress) {
  const std::span<const Order> all(orders);
  for (std::size_t done = 0; done < all.size(); done += batch) {
    const auto part = all.subspan(done, std::min(batch, all.size() - done));
    const std::vector<SetOrder> set = composer.set(part);
    for (std::size_t i = 0; i < part.size(); ++i) {
      for (int ordinal = 1; ordinal <= part[i].quantity; ++ordinal) {
        if (auto fault = take(part[i], ordinal, set[i])) return fault;
      }
    }
    if (progress) progress(done + part.size(), all.size());
  }
  return std::nullopt;
}

MaybeFault set_on_pieces(Composer& composer, Workroom& workroom, const std::vector<Order>& orders, PieceChoice& choice,
                         Account& account, const TakeItem& take, const Progress& progress) {
  const std::vector<PlacedItem> items = choice.choose(orders, account.notes);
  for (std::size_t done = 0; done < items.size(); done += batch) {
    const auto part = std::span(items).subspan(done, std::min(batch, items.size() - done));
    const std::vector<SetOrder> sets = set_placed(composer, workroom, orders, part);
    for (std::size_t i = 0; i < part.size(); ++i) {
      if (auto fault = take(orders[part[i].order], part[i].ordinal, sets[i])) return fault;
    }
    if (progress) progress(done + part.size(), items.size());
  }
  return std::nullopt;
}

}  // namespace ordinatio
