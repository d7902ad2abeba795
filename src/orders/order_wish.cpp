#include "csv/cells.h"
#include "csv/shown.h"
#include "orders/order_rows.h"
#include "orders/orders.h"

namespace ordinatio::inline orders {

Result<PieceWish> parse_wish(std::string_view cell, const std::string& where) {
  PieceWish wish;
  for (const std::string_view part : parts_in(cell)) {
    const std::size_t colon = part.find(':');
    const std::string_view key = trimmed(part.substr(0, colon));
    const std::string_view value = colon == std::string::npos ? std::string_view() : trimmed(part.substr(colon + 1));
    if (key == "keep" && !value.empty()) {
      wish.keep.emplace_back(value);
    } else if (key == "size" && value == "full") {
      wish.full_size = true;
    } else {
      return Fault{"the wish " + shown(part) + " is not understood", where, "it would be passed over without a word",
                   "Write `keep: stamp` or `size: full`, or leave it empty"};
    }
  }
  return wish;
}

std::string wish_text(const PieceWish& wish) {
  std::string text;
  for (const std::string& name : wish.keep) text += (text.empty() ? "keep: " : "; keep: ") + name;
  if (wish.full_size) text += text.empty() ? "size: full" : "; size: full";
  return text;
}

}  // namespace ordinatio::inline orders
