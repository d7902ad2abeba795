#include "shop/line_change.h"

#include <algorithm>

namespace ordinatio {
namespace {

std::string from_to(const std::string& before, const std::string& after) {
  return words_in_line(after) + ", before " + words_in_line(before);
}

/// Whether what was engraved of it would be the same: a correction stands until the export itself says other words.
bool makes_the_same(const LedgerItem& item, const NewItem& wanted) {
  const bool same_words = item.exported == wanted.words || item.words == wanted.words;
  return same_words && item.design == wanted.design && item.wish == wanted.wish;
}

bool is_corrected(const LedgerItem& item) { return item.words != item.exported; }

/// Whether an item that is made is wanted on another piece, which could still be had.
bool wants_other_piece(Ledger& ledger, const LedgerItem& item, const NewItem& wanted) {
  if (wanted.pinned.empty() || item.pinned == wanted.pinned) return false;
  const auto placement = ledger.placement_of(item.id);
  if (placement && placement->blank == wanted.pinned) return false;
  const auto piece = ledger.blank(wanted.pinned);
  return !piece || piece->state == LedgerBlank::State::free;
}

/// "1042-1 is engraved", "1042-2 is on sheet-003".
std::string where_it_is(Ledger& ledger, const LedgerItem& item) {
  if (item.state == ItemState::on_sheet) {
    if (const auto placement = ledger.placement_of(item.id)) {
      return item.number + " is on " + ledger.sheet(placement->sheet)->name;
    }
  }
  return item.number + " is " + std::string(name_of(item.state));
}

}  // namespace

std::vector<LedgerItem> items_to_keep_first(std::vector<LedgerItem> items, const IntakeRow& row) {
  if (row.order.texts.empty()) {
    const auto rank = [](const LedgerItem& item) {
      if (item.state == ItemState::cancelled) return 3;
      return !is_waiting(item.state) ? 0 : is_corrected(item) ? 1 : 2;
    };
    std::ranges::stable_sort(items, {}, rank);
  }
  return items;
}

void LineChange::take_off(const LedgerItem& item, const std::string& reason) {
  const auto placement = ledger_.placement_of(item.id);
  if (!placement) return;
  if (placement->state == LedgerPlacement::State::on_sheet) {
    told_.push_back(take_off_sheet(ledger_, *placement, reason));
    return;
  }
  ledger_.withdraw(*placement, reason, BlankFate::spoiled);
  told_.push_back("the piece on which " + item.number + " was engraved" +
                  (placement->blank.empty() ? "" : ", blank " + placement->blank + ",") + " is written off");
}

void LineChange::cancel(const LedgerItem& item) {
  // What is engraved stays what it is: a piece that nobody has bought.
  const bool engraved = item.state == ItemState::engraved || item.state == ItemState::packed;
  if (!engraved) take_off(item, "the order was cancelled");
  const LedgerItem now = *ledger_.item(item.id);
  if (!now.pinned.empty() && !engraved) (void)ledger_.pin(now, "");
  ledger_.set_first(now, false);
  ledger_.set_state(now, ItemState::cancelled, "the export says so");
  told_.push_back(item.number + " is cancelled");
}

void LineChange::take(const LedgerItem& item, const NewItem& wanted) {
  const bool was_made = !is_waiting(item.state);
  const bool same = makes_the_same(item, wanted) && !(was_made && wants_other_piece(ledger_, item, wanted));
  if (!same) take_off(item, "the order was changed");
  const LedgerItem now = *ledger_.item(item.id);
  ledger_.set_exported(now, wanted);
  if (item.exported != wanted.words) told_.push_back(item.number + " says " + from_to(item.exported, wanted.words));
  if (item.design != wanted.design) told_.push_back(item.number + " has design " + from_to(item.design, wanted.design));
  if (item.wish != wanted.wish) told_.push_back(item.number + " has the wish " + from_to(item.wish, wanted.wish));
  if (item.note != wanted.note) told_.push_back(item.number + " has the note " + words_in_line(wanted.note));
  if (!(was_made && same) && !wanted.pinned.empty() && now.pinned != wanted.pinned) {
    if (const auto fault = ledger_.pin(now, wanted.pinned)) told_.push_back(describe(*fault));
  }
  if (same) return;
  const bool held_by_person = item.state == ItemState::held && item.held_by == "person";
  if (!held_by_person) ledger_.set_state(*ledger_.item(item.id), ItemState::received);
  if (was_made) ledger_.set_first(*ledger_.item(item.id), true);
}

void LineChange::revive(const LedgerItem& item, const NewItem& wanted) {
  const auto placement = ledger_.placement_of(item.id);  // of a piece that was engraved before
  ledger_.set_state(item, placement ? ItemState::engraved : ItemState::received);
  told_.push_back(item.number + " is wanted again");
  const LedgerItem now = *ledger_.item(item.id);
  if (deed_for(now, wanted) == Deed::take) take(now, wanted);
}

LineChange::Deed LineChange::deed_for(const LedgerItem& item, const std::optional<NewItem>& wanted) const {
  const bool waits = is_waiting(item.state), cancelled = item.state == ItemState::cancelled;
  if (!wanted) return cancelled ? Deed::none : forced_ || (waits && !is_corrected(item)) ? Deed::cancel : Deed::leave;
  if (cancelled) return forced_ ? Deed::revive : Deed::leave;
  const bool other_piece =
      waits ? !wanted->pinned.empty() && item.pinned != wanted->pinned : wants_other_piece(ledger_, item, *wanted);
  const bool same = makes_the_same(item, *wanted);
  if (same && !other_piece && item.exported == wanted->words && item.note == wanted->note) return Deed::none;
  const bool may_be_taken = waits ? same || !is_corrected(item) : same && !other_piece;
  return forced_ || may_be_taken ? Deed::take : Deed::leave;
}

std::string LineChange::why_left(const LedgerItem& item) const {
  if (item.state == ItemState::cancelled) return item.number + " was cancelled";
  if (is_waiting(item.state)) return "the words of " + item.number + " were corrected by hand";
  return where_it_is(ledger_, item);
}

void LineChange::add_items(const LedgerLine& line, std::size_t from) {
  for (auto i = from; i < static_cast<std::size_t>(wanted_items(row_)); ++i) {
    const int ordinal = ledger_.next_ordinal(line.order_number);
    ledger_.add_item(item_of(row_, i, line.id, ordinal));
    told_.push_back(line.order_number + "-" + std::to_string(ordinal) + " is added to its order");
  }
}

bool LineChange::apply(const LedgerLine& line) {
  const std::vector<LedgerItem> items = items_to_keep_first(ledger_.items_of_line(line.id), row_);
  const auto wanted = [&](std::size_t i) {
    const bool is_wanted = i < static_cast<std::size_t>(wanted_items(row_));
    return is_wanted ? std::optional(item_of(row_, i, line.id, items[i].ordinal)) : std::nullopt;
  };
  std::vector<Deed> deeds;
  for (std::size_t i = 0; i < items.size(); ++i) deeds.push_back(deed_for(items[i], wanted(i)));
  if (std::ranges::find(deeds, Deed::leave) != deeds.end()) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (deeds[i] == Deed::leave) left_.push_back(why_left(items[i]));
      if (deeds[i] != Deed::none && is_waiting(items[i].state)) doubtful_.push_back(items[i]);
    }
    return false;
  }
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (deeds[i] == Deed::cancel) cancel(items[i]);
    if (deeds[i] == Deed::take) take(items[i], *wanted(i));
    if (deeds[i] == Deed::revive) revive(items[i], *wanted(i));
  }
  add_items(line, items.size());
  return true;
}

}  // namespace ordinatio
