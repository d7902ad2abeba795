#include <algorithm>
#include <map>

#include "base/utf8.h"
#include "csv/shown.h"
#include "orders/order_rows.h"

namespace ordinatio::inline orders {
namespace {

/// All that a row says, as one text: parts with their lengths in front, so that no two rows read alike.
std::string all_of(const Order& order) {
  std::string text;
  const auto add = [&text](const std::string& part) { text += std::to_string(part.size()) + ":" + part; };
  for (const auto* list : {&order.texts, &order.blanks}) {
    text += std::to_string(list->size()) + ";";
    for (const std::string& one : *list) add(one);
  }
  for (const std::string& part :
       {order.line, order.text, std::to_string(order.quantity), order.design, wish_text(order.wish), order.note}) {
    add(part);
  }
  return text;
}

/// Where two texts that begin alike for long are shown from: some letters before they part.
std::size_t shown_from(std::string_view a, std::string_view b) {
  constexpr std::size_t shown_alike = 40, kept_before = 20;  // bytes
  const auto parting = std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first;
  auto from = static_cast<std::size_t>(parting - a.begin());
  if (from <= shown_alike) return 0;
  from -= kept_before;
  while (continues_character(a[from])) --from;  // to the start of a UTF-8 character
  return from;
}

/// The first thing in which two rows with the same words differ, with what each has there.
struct Difference {
  std::string word, one, other;
};

Difference find_difference(const Order& one, const Order& other) {
  if (one.quantity != other.quantity) {
    return {"quantity", std::to_string(one.quantity), std::to_string(other.quantity)};
  }
  if (one.design != other.design) return {"design", shown(one.design), shown(other.design)};
  if (one.blanks != other.blanks) return {"blank", "one", "another"};
  if (one.wish != other.wish) return {"wish", "one", "another"};
  const std::size_t from = shown_from(one.note, other.note);
  return {"note", shown(one.note, from), shown(other.note, from)};
}

/// The rows of one order as they come.
struct Group {
  int next = 1;                                           // the number of its next item
  std::map<std::string, std::size_t> rows;                // all that a row says → the first that says it
  std::map<std::size_t, std::vector<std::size_t>> again;  // that row → the lines on which it is there
};

class Settling {
 public:
  Settling(OrderRows& rows, const OrderHeader& header)
      : rows_(rows), header_(header), leaves_(rows.orders.size(), false) {}

  void settle() {
    auto kept = rows_.kept.begin();
    for (std::size_t row = 0; row < rows_.orders.size(); ++row) {
      for (; kept != rows_.kept.end() && kept->line < rows_.lines[row]; ++kept)
        count(groups_[kept->order], kept->items);
      take(row, groups_[rows_.orders[row].number]);
    }
    for (std::size_t row = 0; row < rows_.orders.size(); ++row) note_repeats(row);
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
  /// False where there are more than items are numbered.
  static bool count(Group& group, int items) {
    if (items > items_limit - group.next + 1) return false;
    group.next += items;
    return true;
  }

  void take(std::size_t row, Group& group) {
    Order& order = rows_.orders[row];
    const std::size_t line = rows_.lines[row];
    const auto [first, is_new] = group.rows.emplace(all_of(order), row);
    if (!is_new) {
      std::vector<std::size_t>& lines = group.again[first->second];
      if (lines.empty()) lines.push_back(rows_.lines[first->second]);
      lines.push_back(line);
      leaves_[row] = true;
      return;
    }
    order.first = group.next;
    if (!count(group, order.quantity)) return hold(row);
    if (group.rows.size() > 1) look_at(row, group);
  }

  /// A row that is another one of its order, or perhaps the same one, changed.
  void look_at(std::size_t row, const Group& group) {
    const Order& order = rows_.orders[row];
    rows_.remarks[static_cast<std::size_t>(Remark::further)].push_back(rows_.lines[row]);
    for (const auto& [said, other] : group.rows) {
      const Order& before = rows_.orders[other];
      if (other == row || before.line != order.line || before.text != order.text || before.texts != order.texts)
        continue;
      const Difference difference = find_difference(before, order);
      rows_.warnings.push_back(header_.file + ": order " + order.number + " has the same words on " +
                               list_lines({rows_.lines[other], rows_.lines[row]}) + ", with another " +
                               difference.word + " (" + difference.one + ", " + difference.other +
                               "): taken as further items; take one of the rows out if they are one");
      return;
    }
  }

  void note_repeats(std::size_t row) {
    const auto group = groups_.find(rows_.orders[row].number);
    const auto again = group->second.again.find(row);
    if (again == group->second.again.end()) return;
    const std::size_t times = again->second.size();
    rows_.repeats.push_back(header_.file + ": order " + group->first + " is there " +
                            (times == 2 ? "twice" : std::to_string(times) + " times") + " alike, on " +
                            list_lines(again->second) + ": taken once");
  }

  void hold(std::size_t row) {
    const Order& order = rows_.orders[row];
    Fault fault{"order " + order.number + " has too many items", order.source,
                "one order has up to " + std::to_string(items_limit), "Give the row a number of its own"};
    rows_.held.push_back({rows_.lines[row], {order.number, std::move(fault)}});
    leaves_[row] = true;
  }

  OrderRows& rows_;
  const OrderHeader& header_;
  std::map<std::string, Group> groups_;
  std::vector<bool> leaves_;
};

}  // namespace

void settle_repeats(OrderRows& rows, const OrderHeader& header) {
  Settling settling(rows, header);
  settling.settle();
  settling.finish();
}

}  // namespace ordinatio::inline orders
