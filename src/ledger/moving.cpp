// Items that change their pockets or their pieces on a sheet, there and back.
#include <algorithm>

#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/place_text.h"

namespace ordinatio::inline ledger {
namespace {

using State = LedgerPlacement::State;

/// The pocket that a row had before; nothing where it is as it was.
std::optional<std::string> pocket_in(const std::vector<std::pair<std::string, std::optional<std::string>>>& fields) {
  const auto pocket = std::ranges::find(fields, "pocket", [](const auto& field) { return field.first; });
  return pocket == fields.end() ? std::nullopt : pocket->second;
}

bool lies_elsewhere(const std::vector<std::pair<std::string, std::optional<std::string>>>& fields) {
  return std::ranges::any_of(fields,
                             [](const auto& field) { return field.first == "pocket" || field.first == "blank"; });
}

}  // namespace

void Ledger::set_pockets(const std::map<std::int64_t, std::string>& pockets) {
  std::map<std::int64_t, std::optional<std::string>> before;
  for (const auto& [id, pocket] : pockets) {
    before[id] = database_->text("SELECT pocket FROM placement WHERE id = ?", id);
    database_->run("UPDATE placement SET pocket = -id WHERE id = ?", id);  // no two in one pocket, not for a moment
  }
  for (const auto& [id, pocket] : pockets) {
    database_->run("UPDATE placement SET pocket = ? WHERE id = ?", std::int64_t{std::stoll(pocket)}, id);
    may_come_right(id);
    note("placement", id, "pocket", before[id], pocket);
  }
}

void Ledger::note_place(const LedgerPlacement& placement) {
  note("item", placement.item, "~place", std::nullopt,
       place_text(sheet(placement.sheet)->name, placement.pocket, placement.blank));
}

void Ledger::move_to_pocket(const LedgerPlacement& placement, int pocket) {
  const std::vector<LedgerPlacement> all = placements_on(placement.sheet);
  const auto other = std::ranges::find(all, pocket, &LedgerPlacement::pocket);
  std::map<std::int64_t, std::string> pockets{{placement.id, std::to_string(pocket)}};
  if (other != all.end()) pockets.emplace(other->id, std::to_string(placement.pocket));
  set_pockets(pockets);
  for (const LedgerPlacement& moved : placements_on(placement.sheet)) {
    if (pockets.contains(moved.id) && moved.state == State::on_sheet) note_place(moved);
  }
}

MaybeFault Ledger::move_to_piece(const LedgerPlacement& placement, const NewPlacement& now) {
  if (auto fault = may_be_placed(now)) return fault;
  const LedgerItem placed = *item(placement.item);
  set("placement", placement.id, {{"blank", now.blank}, {"hash", now.hash}});
  set("item", placed.id, {{"pinned", ""}});
  set_blank_state(placement.blank, LedgerBlank::State::free, std::nullopt);
  set_blank_state(now.blank, LedgerBlank::State::reserved, placed.id);
  note("blank", now.blank, "~place", std::nullopt,
       place_text(sheet(placement.sheet)->name, placement.pocket, now.blank) + ", item " + placed.number);
  note_place(*placement_of(placed.id));
  return std::nullopt;
}

std::optional<std::string> Ledger::lies_otherwise(const std::vector<FormerRow>& rows, const std::string& table,
                                                  const Subject& subject) {
  std::vector<LedgerPlacement> moved;
  for (const FormerRow& row : rows) {
    if (row.table != "placement" || !lies_elsewhere(row.fields)) continue;
    const std::int64_t id = std::get<std::int64_t>(row.subject);
    const auto of = database_->number("SELECT item FROM placement WHERE id = ?", id);
    const std::vector<LedgerPlacement> all = placements_of(*of);
    moved.push_back(*std::ranges::find(all, id, &LedgerPlacement::id));
    const LedgerPlacement& one = moved.back();
    if (one.state == State::engraved || one.state == State::spoiled) {
      return item(one.item)->number + " is " + std::string(name_of(one.state)) + " there since";
    }
    if (one.state != State::on_sheet && table == "item" && subject == Subject(one.item)) {
      return "it has come off the sheet since";
    }
  }
  for (const FormerRow& row : rows) {
    const auto pocket = pocket_in(row.fields);
    if (row.table != "placement" || !pocket) continue;
    const auto one = std::ranges::find(moved, std::get<std::int64_t>(row.subject), &LedgerPlacement::id);
    for (const LedgerPlacement& there : placements_on(one->sheet)) {
      const bool goes_too = std::ranges::find(moved, there.id, &LedgerPlacement::id) != moved.end();
      if (std::to_string(there.pocket) == *pocket && !goes_too) {
        return item(there.item)->number + " has pocket " + *pocket + " by now";
      }
    }
  }
  return std::nullopt;
}

std::vector<std::int64_t> Ledger::lay_back(const std::vector<FormerRow>& rows) {
  std::map<std::int64_t, std::string> pockets;
  std::vector<std::int64_t> moved, items;
  for (const FormerRow& row : rows) {
    if (row.table != "placement" || !lies_elsewhere(row.fields)) continue;
    moved.push_back(std::get<std::int64_t>(row.subject));
    if (const auto pocket = pocket_in(row.fields)) pockets.emplace(moved.back(), *pocket);
  }
  set_pockets(pockets);
  for (const std::int64_t id : moved) {
    const auto of = database_->number("SELECT item FROM placement WHERE id = ? AND state = 'on sheet'", id);
    if (!of) continue;
    const LedgerPlacement placement = *placement_of(*of);
    mark_undrawn(placement);
    note_place(placement);
    items.push_back(*of);
  }
  return items;
}

}  // namespace ordinatio::inline ledger
