#include "intake/held_rows.h"

#include <algorithm>
#include <charconv>
#include <set>

#include "base/account.h"
#include "csv/shown.h"
#include "intake/ledger_words.h"
#include "orders/order_rows.h"

namespace ordinatio::inline intake {
namespace {

/// Whether one row became the other by a mend in one spot, such as a number that was put in: at most so many bytes of it are
/// others, and most of it is the same. Rows of two customers differ in more.
bool is_mended_in_a_spot(std::string_view row, std::string_view mended) {
  constexpr std::size_t spot = 16;  // bytes: a long order number
  const auto first = std::ranges::mismatch(row, mended);
  const std::string_view rest(first.in1, row.end()), mended_rest(first.in2, mended.end());
  const auto last = std::mismatch(rest.rbegin(), rest.rend(), mended_rest.rbegin(), mended_rest.rend()).first;
  const auto other = static_cast<std::size_t>(rest.rend() - last);
  return other <= spot && 2 * other <= row.size();
}

std::string keys_of(const std::vector<IntakeRow>& rows) {
  std::string keys;
  for (const IntakeRow& row : rows) keys += row.key + "\n";
  return keys;
}

/// Whether it stands where the row runs on over several lines: behind a quote that was not closed each was a row of its own.
bool is_part_of(const LedgerHeldRow& held, const Order& order) {
  const std::vector<std::string_view> lines = lines_as_typed(order.row);
  const int at = held.place - line_of(order.source);
  if (lines.size() < 2 || at < 0 || static_cast<std::size_t>(at) >= lines.size()) return false;
  return is_mended_in_a_spot(held.row, lines[static_cast<std::size_t>(at)]);
}

bool has_key(const LedgerHeldRow& held, const std::string& key) {
  return ("\n" + held.beside).find("\n" + key + "\n") != std::string::npos;
}

class HeldRows {
 public:
  HeldRows(Ledger& ledger, const ExportRows& rows, Account& account)
      : ledger_(ledger), rows_(rows), account_(account) {}
  void enter() {
    std::map<std::string, int> alike;
    for (const HeldOrder& row : rows_.orders.rows) see(row, ++alike[row.order.row]);
    for (const LedgerHeldRow& held : ledger_.open_rows()) {
      if (!seen_.contains(held.id)) look_for(held);
    }
  }

 private:
  [[nodiscard]] LedgerHeldRow entry_for(const HeldOrder& row, int occurrence) const;
  void see(const HeldOrder& row, int occurrence);
  void look_for(const LedgerHeldRow& held);
  [[nodiscard]] bool mends(const LedgerHeldRow& held, const IntakeRow& row, std::size_t rows_of_order) const;

  Ledger& ledger_;
  const ExportRows& rows_;
  Account& account_;
  std::set<std::int64_t> seen_;      // open rows that are in this file still
  std::set<const IntakeRow*> used_;  // a row mends one
};

LedgerHeldRow HeldRows::entry_for(const HeldOrder& row, int occurrence) const {
  const Order& order = row.order;
  LedgerHeldRow held;
  held.row = order.row, held.occurrence = occurrence;
  held.channel = rows_.channel, held.file = rows_.file, held.checksum = rows_.orders.checksum, held.place = row.place;
  held.order_number = order.number, held.line_id = order.line, held.customer = order.customer;
  held.reason = row.fault.what, held.mend = row.fault.mend;
  if (!row.fault.why.empty()) held.reason += ": " + row.fault.why;
  const auto group = std::ranges::find_if(
      rows_.groups, [&](const std::vector<IntakeRow>& rows) { return rows.front().order.number == order.number; });
  if (group != rows_.groups.end()) held.beside = keys_of(*group);
  return held;
}

void HeldRows::see(const HeldOrder& row, int occurrence) {
  const LedgerHeldRow now = entry_for(row, occurrence);
  const auto known = ledger_.held_row_as(now.row, now.channel, occurrence);
  if (!known) {
    seen_.insert(ledger_.add_held_row(now));
  } else if (known->state == LedgerHeldRow::State::open) {
    ledger_.see_again(*known, now);
    seen_.insert(known->id);
  }
}

/// By evidence alone, from the strongest: the very row, or what stands in its place in the very file, read otherwise now; its
/// line id; its order, where no other row of it is missing; a mend in one spot.
bool HeldRows::mends(const LedgerHeldRow& held, const IntakeRow& row, std::size_t rows_of_order) const {
  const Order& order = row.order;
  const bool in_its_place = order.source == rows_.file + ":" + std::to_string(held.place);
  if (held.row == order.row || (held.checksum == rows_.orders.checksum && in_its_place)) return true;
  if (held.file == rows_.file && is_part_of(held, order)) return true;
  if (rows_.was_read || held.channel != rows_.channel) return false;
  // An id that another row had in the same file tells nothing.
  if (!held.line_id.empty() && row.has_id && !has_key(held, held.line_id)) {
    return held.line_id == order.line && (held.order_number.empty() || held.order_number == order.number);
  }
  const bool in_a_spot = is_mended_in_a_spot(held.row, order.row);
  if (!held.order_number.empty()) {
    if (held.order_number != order.number || has_key(held, row.key)) return false;
    return rows_of_order > static_cast<std::size_t>(std::ranges::count(held.beside, '\n')) || in_a_spot;
  }
  // Without a number it may be anybody's.
  return held.file == rows_.file && in_its_place && in_a_spot;
}

void HeldRows::look_for(const LedgerHeldRow& held) {
  for (const std::vector<IntakeRow>& group : rows_.groups) {
    for (const IntakeRow& row : group) {
      const bool is_part = held.file == rows_.file && is_part_of(held, row.order);
      if ((used_.contains(&row) && !is_part) || !mends(held, row, group.size())) continue;
      used_.insert(&row);
      ledger_.settle(held, LedgerHeldRow::State::mended);
      account_.told.push_back(row_name(held.id) + " (" + held.file + ":" + std::to_string(held.place) +
                              (row.order.cancelled ? ") came cancelled as order " : ") came mended as order ") +
                              row.order.number + ", " + words_in_line(row.order.text) + " (" + row.order.source + ")");
      return;
    }
  }
}

}  // namespace

void enter_held_rows(Ledger& ledger, const ExportRows& rows, Account& account) {
  HeldRows(ledger, rows, account).enter();
}

std::string reason_of(const LedgerHeldRow& row) {
  return row.file + ":" + std::to_string(row.place) +
         (row.order_number.empty() ? "" : ", order " + words_in_line(row.order_number)) + ": " + row.reason;
}

std::string as_it_came(const LedgerHeldRow& row) { return shown_whole(row.row); }

void tell_held_rows(Ledger& ledger, Account& account) {
  for (const LedgerHeldRow& row : ledger.open_rows()) {
    const std::string name = row_name(row.id);
    account.held.push_back({name,
                            {row.reason,
                             row.file + ":" + std::to_string(row.place) +
                                 (row.order_number.empty() ? "" : ", order " + words_in_line(row.order_number)),
                             "it came as " + as_it_came(row),
                             (row.mend.empty() ? "Mend it" : row.mend) +
                                 ". Then take the export in again, or let the row go: ordinatio let-go " + name}});
  }
}

Result<LedgerHeldRow> row_meant(Ledger& ledger, const std::string& typed) {
  std::string_view digits = typed;
  if (digits.starts_with("row-")) digits.remove_prefix(4);
  std::int64_t id = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), id);
  const bool is_number = error == std::errc() && end == digits.data() + digits.size();
  if (auto row = is_number ? ledger.held_row(id) : std::nullopt) return *std::move(row);
  return Fault{"there is no row " + words_in_line(typed), "", "the ledger holds none of that name",
               "Look at those that are held: ordinatio list"};
}

}  // namespace ordinatio::inline intake
