#include <algorithm>

#include "orders/orders.h"

namespace ordinatio::inline orders {
namespace {

/// The items of an order from `begin` to before `end`, counted from 0.
Order part_of(const Order& order, std::size_t begin, std::size_t end) {
  Order part = order;
  part.first = order.first + static_cast<int>(begin);
  part.quantity = static_cast<int>(end - begin);
  part.text = order.texts[begin];
  part.texts.clear();
  const auto piece = [&](std::size_t at) {
    return order.blanks.begin() + static_cast<std::ptrdiff_t>(std::min(at, order.blanks.size()));
  };
  part.blanks.assign(piece(begin), piece(end));
  return part;
}

}  // namespace

std::vector<Order> parted(std::vector<Order> orders) {
  std::vector<Order> parts;
  parts.reserve(orders.size());
  for (Order& order : orders) {
    if (order.texts.empty()) {
      parts.push_back(std::move(order));
      continue;
    }
    for (std::size_t begin = 0, end = 0; begin < order.texts.size(); begin = end) {
      while (end < order.texts.size() && order.texts[end] == order.texts[begin]) ++end;
      parts.push_back(part_of(order, begin, end));
    }
  }
  return parts;
}

}  // namespace ordinatio::inline orders
