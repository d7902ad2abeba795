#include <algorithm>

#include "base/account.h"
#include "ledger/ledger.h"
#include "shop/ledger_pieces.h"

namespace ordinatio::inline shop {
namespace {

constexpr int measured_decimals = 3;

void add(std::string& text, const Polygon& polygon) {
  for (const Point p : polygon) {
    append_number(text, p.x, measured_decimals);
    text += ',';
    append_number(text, p.y, measured_decimals);
    text += ' ';
  }
  text += '/';
}

/// The same for rows that measure the same piece.
std::string digest_of(const BlankRow& row) {
  std::string text = row.blank.material + "/" + (row.glass.empty() ? "" : row.glass + "/");
  const auto number = [&text](double value) {
    append_number(text, value, measured_decimals);
    text += '/';
  };
  number(row.blank.thickness.value_or(0));
  add(text, row.blank.outline.vertices);
  for (const double radius : row.blank.outline.radii) number(radius);
  for (const Polygon& chip : row.blank.chips) add(text, chip);
  for (const KeptClear& thing : row.blank.kept_clear) {
    text += thing.name + "/";
    add(text, thing.corners);
    number(thing.radius);
    number(thing.margin);
  }
  return sha256_hex(text).substr(0, 32);
}

/// Notes in the ledger what the row says, and gives the blank as the ledger then has it.
LedgerBlank entered(Ledger& ledger, const BlankRow& row, const std::optional<LedgerBlank>& known) {
  using enum LedgerBlank::State;
  const std::string& id = row.blank.id;
  LedgerBlank now{
      id, row.blank.material, row.width, row.height, digest_of(row), row.used.empty() ? free : used, row.used, {}};
  if (!known) {
    ledger.add_blank(now);
    return now;
  }
  ledger.set_measured(*known, now);
  if (known->state == free && !row.used.empty()) {
    ledger.set_blank_state(id, used, std::nullopt, row.used);
    return now;
  }
  return *known;
}

/// A blank that an item's order named before it was measured is kept for the item now.
void keep_named(Ledger& ledger, std::map<std::string, LedgerBlank>& blanks) {
  for (const LedgerItem& item : ledger.waiting_items()) {
    const auto named = blanks.find(item.pinned);
    if (named == blanks.end() || named->second.state != LedgerBlank::State::free) continue;
    ledger.set_blank_state(named->first, LedgerBlank::State::reserved, item.id);
    named->second.state = LedgerBlank::State::reserved;
    named->second.item = item.id;
  }
}

}  // namespace

Result<std::optional<FreePieces>> pieces_of_ledger(Workroom& workroom, Ledger& ledger,
                                                   const std::filesystem::path& file, Account& account) {
  Result<std::optional<Blanks>> read = read_pieces(workroom, file, account);
  if (!read.ok()) return read.fault();
  if (!*read) return std::optional<FreePieces>();
  std::map<std::string, LedgerBlank> known;
  for (LedgerBlank& blank : ledger.blanks()) known.emplace(blank.id, blank);
  for (const BlankRow& row : (*read)->rows) {
    const auto before = known.find(row.blank.id);
    LedgerBlank now = entered(ledger, row, before == known.end() ? std::nullopt : std::optional(before->second));
    known.insert_or_assign(row.blank.id, std::move(now));
  }
  keep_named(ledger, known);
  FreePieces pieces{**std::move(read), {}};
  std::erase_if(pieces.blanks.rows, [&](const BlankRow& row) {
    const LedgerBlank& blank = known.at(row.blank.id);
    if (blank.state == LedgerBlank::State::reserved) {
      const auto item = ledger.item(*blank.item);
      if (!is_waiting(item->state)) return true;
      pieces.reserved.emplace(row.blank.id, item->number);
      return false;
    }
    return blank.state != LedgerBlank::State::free;
  });
  return std::optional(std::move(pieces));
}

MaybeFault note_pieces(const Shop& shop, Ledger& ledger) {
  if (shop.blanks.file.empty()) return std::nullopt;
  Workroom workroom(shop);
  Account unsaid;  // how they were read is the day's news
  const auto pieces = pieces_of_ledger(workroom, ledger, {}, unsaid);
  return pieces.ok() ? std::nullopt : MaybeFault(pieces.fault());
}

}  // namespace ordinatio::inline shop
