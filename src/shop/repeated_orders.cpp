#include <algorithm>
#include <numeric>
#include <span>
#include <tuple>

#include "shop/order_rows.h"

namespace ordinatio {
namespace {

using Group = std::span<const std::size_t>;  // rows of one order number, in the order of the file

bool alike(const Order& a, const Order& b) {
  return std::tie(a.line, a.text, a.texts, a.quantity, a.design, a.blanks, a.wish, a.note) ==
         std::tie(b.line, b.text, b.texts, b.quantity, b.design, b.blanks, b.wish, b.note);
}

/// Rows sorted by order number, those of one number in the order of the file.
std::vector<std::size_t> sort_by_number(const std::vector<Order>& orders) {
  std::vector<std::size_t> rows(orders.size());
  std::iota(rows.begin(), rows.end(), std::size_t{0});
  std::sort(rows.begin(), rows.end(), [&orders](std::size_t a, std::size_t b) {
    const int order = orders[a].number.compare(orders[b].number);
    return order != 0 ? order < 0 : a < b;
  });
  return rows;
}

/// The order numbers that come more than once, by where they come first.
std::vector<Group> find_repeats(const std::vector<std::size_t>& sorted, const std::vector<Order>& orders) {
  std::vector<Group> groups;
  for (auto first = sorted.begin(); first != sorted.end();) {
    const auto last =
        std::find_if(first, sorted.end(), [&](std::size_t row) { return orders[row].number != orders[*first].number; });
    if (last - first > 1) groups.emplace_back(first, last);
    first = last;
  }
  std::sort(groups.begin(), groups.end(), [](Group a, Group b) { return a.front() < b.front(); });
  return groups;
}

/// Where two texts that begin alike for long are shown from: some letters before they part.
std::size_t shown_from(std::string_view a, std::string_view b) {
  constexpr std::size_t shown_alike = 40, kept_before = 20;  // bytes
  const auto parting = std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first;
  auto from = static_cast<std::size_t>(parting - a.begin());
  if (from <= shown_alike) return 0;
  from -= kept_before;
  while ((static_cast<unsigned char>(a[from]) & 0xC0) == 0x80) --from;  // to the start of a UTF-8 character
  return from;
}

/// The first column in which two rows differ, with what each has there.
struct Difference {
  std::string column, word, one, other;
};

/// Of the first item whose text is not the same in both orders, or the first item.
std::pair<std::string, std::string> parting_texts(const Order& one, const Order& other) {
  const auto text = [](const Order& order, std::size_t item) {
    return item < order.texts.size() ? order.texts[item] : order.text;
  };
  const std::size_t items = std::max(one.texts.size(), other.texts.size());
  for (std::size_t item = 0; item < items; ++item) {
    if (text(one, item) != text(other, item)) return {text(one, item), text(other, item)};
  }
  return {one.text, other.text};
}

Difference find_difference(const Order& one, const Order& other, const OrderHeader& header) {
  // What has no column of its own is among the options.
  const auto name = [&](std::optional<std::size_t> column) { return header.names[column.value_or(header.text)]; };
  if (one.line != other.line) return {name(header.line), "line id", shown(one.line), shown(other.line)};
  if (const auto [text, other_text] = parting_texts(one, other); text != other_text) {
    const std::size_t from = shown_from(text, other_text);
    return {header.names[header.text], "text", shown(text, from), shown(other_text, from)};
  }
  if (one.quantity != other.quantity) {
    return {name(header.quantity), "quantity", std::to_string(one.quantity), std::to_string(other.quantity)};
  }
  if (one.design != other.design) return {name(header.design), "design", shown(one.design), shown(other.design)};
  if (one.blanks != other.blanks) return {name(header.blank), "blank", "one", "another"};
  if (one.wish != other.wish) return {name(header.wish), "wish", "one", "another"};
  const std::size_t from = shown_from(one.note, other.note);
  return {name(header.note), "note", shown(one.note, from), shown(other.note, from)};
}

class Settling {
 public:
  Settling(OrderRows& rows, const OrderHeader& header, const std::string& file)
      : rows_(rows), header_(header), file_(file), leaves_(rows.orders.size(), false) {}

  void settle(Group group) {
    const auto odd = std::find_if(group.begin(), group.end(), [&](std::size_t row) {
      return !alike(rows_.orders[row], rows_.orders[group.front()]);
    });
    if (odd == group.end()) return take_once(group);
    for (const std::size_t row : group) {
      const bool like_first = alike(rows_.orders[row], rows_.orders[group.front()]);
      hold(row, like_first ? *odd : group.front());
    }
  }
  /// Takes out the rows that are held or were there before.
  void finish() {
    std::size_t kept = 0;
    for (std::size_t row = 0; row < leaves_.size(); ++row) {
      if (leaves_[row]) continue;
      if (kept != row) rows_.orders[kept] = std::move(rows_.orders[row]);
      ++kept;
    }
    rows_.orders.resize(kept);
    rows_.lines.clear();
    std::stable_sort(rows_.held.begin(), rows_.held.end(),
                     [](const HeldRow& a, const HeldRow& b) { return a.line < b.line; });
  }

 private:
  void take_once(Group group) {
    std::vector<std::size_t> lines;
    for (const std::size_t row : group) lines.push_back(rows_.lines[row]);
    for (const std::size_t row : group.subspan(1)) leaves_[row] = true;
    rows_.repeats.push_back(file_ + ": order " + rows_.orders[group.front()].number + " is there " +
                            (group.size() == 2 ? "twice" : std::to_string(group.size()) + " times") + " alike, on " +
                            list_lines(lines) + ": taken once");
  }
  void hold(std::size_t row, std::size_t rival) {
    const Order &order = rows_.orders[row], &other = rows_.orders[rival];
    const std::size_t line = rows_.lines[row], other_line = rows_.lines[rival];
    const Difference difference = find_difference(order, other, header_);
    Fault fault{
        "order " + order.number + " is there again with another " + difference.word,
        order.source + ", column \"" + difference.column + "\"",
        "line " + std::to_string(line) + " has " + difference.one + ", line " + std::to_string(other_line) + " has " +
            difference.other,
        order.line != other.line
            ? "Keep a ledger, which tells rows by their line ids (see README), or give each row its own number, "
              "such as " +
                  order.number + "a"
            : "Give each row its own number, such as " + order.number +
                  "a, or keep one row and raise its quantity if they are to be alike"};
    rows_.held.push_back({line, {order.number, std::move(fault)}});
    leaves_[row] = true;
  }

  OrderRows& rows_;
  const OrderHeader& header_;
  const std::string& file_;
  std::vector<bool> leaves_;
};

}  // namespace

void settle_repeats(OrderRows& rows, const OrderHeader& header, const std::string& file) {
  const std::vector<std::size_t> sorted = sort_by_number(rows.orders);
  Settling settling(rows, header, file);
  for (const Group group : find_repeats(sorted, rows.orders)) settling.settle(group);
  settling.finish();
}

}  // namespace ordinatio
