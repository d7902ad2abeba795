#include "intake/line_change.h"

#include <algorithm>

namespace ordinatio::inline intake {
namespace {

std::string from_to(const std::string& before, const std::string& after) {
  return words_in_line(after) + ", before " + words_in_line(before);
}

/// Whether a person has worked on it: what an export changes then is asked.
bool is_corrected(const LedgerItem& item) { return item.words != item.exported || !item.setting.empty(); }

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

bool LineChange::makes_the_same(const LedgerItem& item, const NewItem& wanted) const {
  if (!is_same_wish(item.wish, wanted.wish)) return false;
  const bool same_words = is_the_same(item.exported, wanted.words) || is_the_same(item.words, wanted.words);
  if (same_words && is_same_design(item.design, wanted.design, rules_)) return true;
  return !is_waiting(item.state) && rules_.comes_out_the_same && rules_.comes_out_the_same(ledger_, item, wanted);
}

void LineChange::tell_taken(const LedgerItem& item, const NewItem& wanted, bool stays) {
  const auto tell = [&](const std::string& what) { told_.push_back(item.number + " " + what); };
  if (!is_the_same(item.exported, wanted.words)) {
    tell("says " + from_to(item.exported, wanted.words) + (stays ? "; it comes out the same and stays as it is" : ""));
  }
  if (!is_same_design(item.design, wanted.design, rules_)) tell("has design " + from_to(item.design, wanted.design));
  const bool is_another =
      !is_the_same(item.exported, wanted.words) || !is_same_design(item.design, wanted.design, rules_);
  if (is_another && !item.setting.empty()) tell("keeps its own setting: " + item.setting);
  if (!is_same_wish(item.wish, wanted.wish)) tell("has the wish " + from_to(item.wish, wanted.wish));
  if (!is_the_same(item.note, wanted.note)) tell("has the note " + words_in_line(wanted.note));
  if (!is_the_same(item.customer, wanted.customer)) tell("is ordered by " + words_in_line(wanted.customer));
}

void LineChange::take(const LedgerItem& item, NewItem wanted) {
  const bool was_made = !is_waiting(item.state);
  const bool same = makes_the_same(item, wanted) && !(was_made && wants_other_piece(ledger_, item, wanted));
  if (!same) take_off(item, "the order was changed");
  tell_taken(item, wanted, was_made && same);
  // Other bytes of the same words are no other words: what a person corrected stays.
  if (is_the_same(item.exported, wanted.words)) wanted.words = item.exported;
  const LedgerItem now = *ledger_.item(item.id);
  ledger_.set_exported(now, wanted);
  if (!(was_made && same) && !wanted.pinned.empty() && now.pinned != wanted.pinned) {
    if (const auto fault = ledger_.pin(now, wanted.pinned)) told_.push_back(describe(*fault));
  }
  if (same) return;
  const bool held_by_person = item.state == ItemState::held && item.held_by == HeldBy::person;
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
  const bool same_words = is_the_same(item.exported, wanted->words) && is_the_same(item.note, wanted->note) &&
                          is_the_same(item.customer, wanted->customer);
  if (same && !other_piece && same_words) return Deed::none;
  const bool may_be_taken = waits ? same || !is_corrected(item) : same && !other_piece;
  return forced_ || may_be_taken ? Deed::take : Deed::leave;
}

std::string LineChange::why_left(const LedgerItem& item) const {
  if (item.state == ItemState::cancelled) return item.number + " was cancelled";
  if (is_waiting(item.state) && item.words == item.exported) return item.number + " has a setting of its own";
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

std::vector<std::optional<NewItem>> LineChange::wanted_of(const std::vector<LedgerItem>& items,
                                                          const LedgerLine& line) const {
  std::vector<std::optional<NewItem>> wanted(items.size());
  for (std::size_t i = 0; i < items.size() && i < static_cast<std::size_t>(wanted_items(row_)); ++i) {
    wanted[i] = item_of(row_, i, line.id, items[i].ordinal);
  }
  return wanted;
}

bool LineChange::is_slight(const LedgerLine& line) {
  const std::vector<LedgerItem> items = items_to_keep_first(ledger_.items_of_line(line.id), row_);
  if (items.size() != static_cast<std::size_t>(wanted_items(row_))) return false;
  const auto wanted = wanted_of(items, line);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Deed deed = deed_for(items[i], wanted[i]);
    if (deed == Deed::none) continue;
    const bool other_piece = !wanted[i] || (!wanted[i]->pinned.empty() && items[i].pinned != wanted[i]->pinned);
    if (deed != Deed::take || other_piece || !makes_the_same(items[i], *wanted[i])) return false;
  }
  return true;
}

bool LineChange::apply(const LedgerLine& line) {
  const std::vector<LedgerItem> items = items_to_keep_first(ledger_.items_of_line(line.id), row_);
  const auto wanted = wanted_of(items, line);
  std::vector<Deed> deeds;
  for (std::size_t i = 0; i < items.size(); ++i) deeds.push_back(deed_for(items[i], wanted[i]));
  if (std::ranges::find(deeds, Deed::leave) != deeds.end()) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (deeds[i] == Deed::leave) left_.push_back(why_left(items[i]));
      if (deeds[i] != Deed::none && is_waiting(items[i].state)) doubtful_.push_back(items[i]);
    }
    return false;
  }
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (deeds[i] == Deed::cancel) cancel(items[i]);
    if (deeds[i] == Deed::take) take(items[i], *wanted[i]);
    if (deeds[i] == Deed::revive) revive(items[i], *wanted[i]);
  }
  add_items(line, items.size());
  return true;
}

}  // namespace ordinatio::inline intake
