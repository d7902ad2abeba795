#include "shop/line_change.h"

#include <algorithm>

namespace ordinatio {
namespace {

std::string from_to(const std::string& before, const std::string& after) {
  return words_in_line(after) + ", before " + words_in_line(before);
}

bool says_the_same(const LedgerItem& item, const NewItem& wanted) {
  return item.exported == wanted.words && item.design == wanted.design && item.wish == wanted.wish &&
         item.note == wanted.note && (wanted.pinned.empty() || item.pinned == wanted.pinned);
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
      return item.state == ItemState::cancelled ? 2 : is_waiting(item.state) ? 1 : 0;
    };
    std::ranges::stable_sort(items, {}, rank);
  }
  return items;
}

void LineChange::leave(const LedgerItem& item, const std::string& why) {
  left_.push_back(why);
  if (is_waiting(item.state)) doubtful_.push_back(item);
}

void LineChange::take_off(const LedgerItem& item, const std::string& reason) {
  const auto placement = ledger_.placement_of(item.id);
  if (!placement) return;
  const bool engraved = placement->state == LedgerPlacement::State::engraved;
  if (!engraved) {
    told_.push_back(item.number + " comes off " + ledger_.sheet(placement->sheet)->name + ", pocket " +
                    std::to_string(placement->pocket) + ": do not engrave it there");
  }
  ledger_.withdraw(*placement, reason, engraved ? BlankFate::spoiled : BlankFate::free);
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
  const bool same_words = item.words == wanted.words && item.design == wanted.design && item.wish == wanted.wish;
  if (!same_words) take_off(item, "the order was changed");
  LedgerItem now = *ledger_.item(item.id);
  ledger_.set_exported(now, wanted);
  if (item.exported != wanted.words) told_.push_back(item.number + " says " + from_to(item.exported, wanted.words));
  if (item.design != wanted.design) told_.push_back(item.number + " has design " + from_to(item.design, wanted.design));
  if (item.wish != wanted.wish) told_.push_back(item.number + " has the wish " + from_to(item.wish, wanted.wish));
  if (item.note != wanted.note) told_.push_back(item.number + " has the note " + words_in_line(wanted.note));
  if (!wanted.pinned.empty() && item.pinned != wanted.pinned) {
    if (const auto fault = ledger_.pin(now, wanted.pinned)) told_.push_back(describe(*fault));
  }
  if (same_words) return;
  const bool held_by_person = item.state == ItemState::held && item.held_by == "person";
  if (!held_by_person) ledger_.set_state(*ledger_.item(item.id), ItemState::received);
  if (was_made) ledger_.set_first(*ledger_.item(item.id), true);
}

void LineChange::revive(const LedgerItem& item, const NewItem& wanted) {
  if (!forced_) return leave(item, item.number + " was cancelled");
  const auto placement = ledger_.placement_of(item.id);  // of a piece that was engraved before
  ledger_.set_state(item, placement ? ItemState::engraved : ItemState::received);
  told_.push_back(item.number + " is wanted again");
  const LedgerItem now = *ledger_.item(item.id);
  if (!says_the_same(now, wanted)) take(now, wanted);
}

void LineChange::change(const LedgerItem& item, const NewItem& wanted) {
  if (item.state == ItemState::cancelled) return revive(item, wanted);
  if (says_the_same(item, wanted)) return;
  const bool same_words = item.words == wanted.words && item.design == wanted.design && item.wish == wanted.wish;
  const bool corrected = item.words != item.exported && item.exported != wanted.words && item.words != wanted.words;
  if (forced_ || same_words || (is_waiting(item.state) && !corrected)) return take(item, wanted);
  leave(item, corrected && is_waiting(item.state) ? "the words of " + item.number + " were corrected by hand"
                                                  : where_it_is(ledger_, item));
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
  const auto wanted = static_cast<std::size_t>(wanted_items(row_));
  for (std::size_t i = 0; i < items.size(); ++i) {
    const LedgerItem& item = items[i];
    if (i < wanted) {
      change(item, item_of(row_, i, line.id, item.ordinal));
    } else if (item.state != ItemState::cancelled) {
      if (forced_ || is_waiting(item.state)) {
        cancel(item);
      } else {
        leave(item, where_it_is(ledger_, item));
      }
    }
  }
  add_items(line, items.size());
  return left_.empty();
}

}  // namespace ordinatio
