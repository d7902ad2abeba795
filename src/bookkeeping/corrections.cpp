#include <algorithm>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "bookkeeping/item_setting.h"
#include "bookkeeping/too_late.h"
#include "intake/held_rows.h"
#include "shop/ledger_access.h"
#include "shop/ledger_pieces.h"
#include "shop/renewal.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

MaybeFault correct_words(Ledger& ledger, const LedgerItem& item, const std::string& words, Account& account) {
  if (words.find_first_not_of(" \t\r\n") == std::string::npos) {
    return Fault{"there are no words", "--text", "", "Give the words to engrave; \\n begins a new line"};
  }
  ledger.set_words(item, words);
  // A person's hold and an open question stay; all else is looked at anew.
  if (!waits_for_person(item)) ledger.set_state(item, ItemState::received);
  account.told.push_back(item.number + " says " + words_in_line(words) + ", before " + words_in_line(item.words));
  return std::nullopt;
}

MaybeFault hold(Ledger& ledger, const LedgerItem& item, const std::string& reason, Account& account) {
  if (reason.empty()) {
    return Fault{"there is no reason", "--reason", "", "Say why it is held: it stands in lists and in the history"};
  }
  ledger.set_state(item, ItemState::held, reason, HeldBy::person);
  account.told.push_back(with_check(item.number) + " is held: " + reason);
  return std::nullopt;
}

/// What is engraved stays what it is: a piece that nobody has bought. What is in its parcel is taken out first.
MaybeFault may_be_cancelled(const LedgerItem& item) {
  if (item.state != ItemState::packed && item.state != ItemState::cancelled) return std::nullopt;
  const bool packed = item.state == ItemState::packed;
  return Fault{
      packed ? "it is packed" : "it is cancelled already", item.number, packed ? "" : item.reason,
      packed ? "Take it out of its parcel first: ordinatio undo " + with_check(item.number) : "There is nothing to do"};
}

MaybeFault cancel(Ledger& ledger, const LedgerItem& item, const std::string& reason, Account& account) {
  if (item.state == ItemState::engraved) {
    account.warnings.push_back(with_check(item.number) + " is engraved already: its piece has no customer now");
  } else if (auto fault = ledger.pin(item, "")) {
    return fault;
  }
  ledger.set_first(item, false);
  ledger.set_state(item, ItemState::cancelled, reason.empty() ? "by hand" : reason);
  account.told.push_back(with_check(item.number) + " is cancelled. ordinatio undo " + with_check(item.number) +
                         " takes that back");
  return std::nullopt;
}

MaybeFault release(Ledger& ledger, const LedgerItem& item, Account& account) {
  if (item.state != ItemState::held) {
    return Fault{"it is not held", item.number, "it is " + std::string(name_of(item.state)), "There is nothing to do"};
  }
  const std::vector<LedgerQuestion> questions = ledger.open_questions();
  if (std::ranges::find(questions, item.line, &LedgerQuestion::line) != questions.end()) {
    return Fault{"it waits for an answer", item.number, item.held_by == HeldBy::question ? item.reason : "",
                 "Answer the question: ordinatio list shows it"};
  }
  ledger.set_state(item, ItemState::received);
  account.told.push_back(with_check(item.number) + " goes on");
  return std::nullopt;
}

MaybeFault correct(const Shop& shop, Ledger& ledger, const CorrectionOptions& options, Account& account) {
  using What = CorrectionOptions::What;
  if (options.what == What::setting) return set_item(shop, ledger, options, account);
  constexpr const char* verbs[] = {"Change the words of", "Hold",   "Let go",  "Pin",
                                   "Put first in line",   "Cancel", "Take off"};
  const auto item = item_meant(ledger, options.call, options.item, verbs[static_cast<int>(options.what)]);
  if (!item.ok()) return item.fault();
  const bool cancels = options.what == What::cancel;
  const bool is_taken_off = options.what == What::take_off;
  const auto lies = ledger.placement_of(item->id);
  const std::string lay = lies ? lies->blank : "";
  const bool takes_off = options.what == What::words || options.what == What::hold || cancels || is_taken_off;
  if (cancels) {
    if (auto fault = may_be_cancelled(*item)) return fault;
  }
  if (is_taken_off && is_waiting(item->state)) return not_on_sheet(*item);
  if (item->state == ItemState::on_sheet && takes_off) {
    const char* why = cancels ? "it was cancelled" : is_taken_off ? "it was taken off" : "it was corrected";
    account.warnings.push_back(take_off_sheet(ledger, *lies, why));
  } else if (!is_waiting(item->state) && !(cancels && item->state == ItemState::engraved)) {
    return too_late(ledger, *item);
  }
  account.told.push_back(named_with_words(*item));
  if (options.what == What::pin && !ledger.blank(options.value)) {
    if (auto fault = note_pieces(shop, ledger)) return fault;
  }
  switch (options.what) {
    case What::words:
      return correct_words(ledger, *item, options.value, account);
    case What::hold:
      return hold(ledger, *item, options.value, account);
    case What::release:
      return release(ledger, *item, account);
    case What::cancel:
      return cancel(ledger, *ledger.item(item->id), options.value, account);
    case What::pin:
      if (auto fault = ledger.pin(*item, options.value)) return fault;
      account.told.push_back(options.value.empty() ? "it may have any blank" : "it has blank " + options.value);
      return std::nullopt;
    case What::first:
      ledger.set_first(*item, true);
      account.told.emplace_back("it is first in line");
      return std::nullopt;
    case What::take_off:
      ledger.set_state(*item, ItemState::received);
      account.told.emplace_back(lay.empty() ? "it waits again" : "it waits again, and piece " + lay + " is free");
      return std::nullopt;
    case What::setting:
      break;  // done above
  }
  return std::nullopt;
}

MaybeFault approve(Ledger& ledger, const LedgerItem& item, Account& account) {
  if (!is_waiting(item.state)) return too_late(ledger, item);
  if (item.proofed_hash.empty() || item.state != ItemState::proofed) {
    return Fault{
        "there is no proof to say yes to", item.number,
        item.state == ItemState::approved ? "it is approved already" : "none of it as it is now waits for a yes",
        "Make one: ordinatio proof --item " + with_check(item.number) + "; its design must have approval = true"};
  }
  ledger.set_approved(item, item.proofed_hash);
  account.told.push_back(named_with_words(item) + " is approved, artwork " + item.proofed_hash.substr(0, 8));
  return std::nullopt;
}

/// Whether an order's parcel is complete is worth a look before it is closed.
void look_at_parcel(Ledger& ledger, const std::string& order, Account& account) {
  std::string open;
  for (const LedgerItem& item : ledger.items_of_order(order)) {
    if (item.state == ItemState::packed || item.state == ItemState::cancelled) continue;
    open += (open.empty() ? "" : ", ") + with_check(item.number) + " is " + std::string(name_of(item.state));
  }
  if (!open.empty()) account.warnings.push_back("order " + order + " is not complete: " + open);
}

MaybeFault pack(Ledger& ledger, const LedgerItem& item, Account& account) {
  if (item.state == ItemState::packed) return std::nullopt;
  if (item.state != ItemState::engraved) {
    return Fault{"it is not engraved", item.number, "it is " + std::string(name_of(item.state)),
                 "Book its sheet first: ordinatio engraved SHEET"};
  }
  ledger.set_state(item, ItemState::packed);
  account.told.push_back(named_with_words(item) + " is packed");
  return std::nullopt;
}

}  // namespace

Result<Account> run_correction(const Shop& shop, const CorrectionOptions& options) {
  return in_ledger(shop, options.call,
                   options.what == CorrectionOptions::What::cancel ? EntryKind::cancelling : EntryKind::correction,
                   [&](Ledger& ledger, Account& account) { return correct(shop, ledger, options, account); });
}

Result<Account> run_approve(const Shop& shop, const ItemsOptions& options) {
  return in_ledger(shop, options.call, EntryKind::approval, [&](Ledger& ledger, Account& account) -> MaybeFault {
    for (const std::string& typed : options.items) {
      const auto item = item_meant(ledger, options.call, typed, "Approve");
      if (!item.ok()) return item.fault();
      if (auto fault = approve(ledger, *item, account)) return fault;
    }
    return std::nullopt;
  });
}

Result<Account> run_pack(const Shop& shop, const ItemsOptions& options) {
  return in_ledger(shop, options.call, EntryKind::packing, [&](Ledger& ledger, Account& account) -> MaybeFault {
    std::vector<LedgerItem> items;
    for (const std::string& typed : options.items) {
      auto item = item_meant(ledger, options.call, typed, "Pack");
      if (!item.ok()) return item.fault();
      items.push_back(*std::move(item));
    }
    for (const std::string& order : options.orders) {
      const auto all = ledger.items_of_order(order);
      if (all.empty()) {
        return Fault{"there is no order " + order, "--order", "the ledger does not know it",
                     "Look at the list: ordinatio list"};
      }
      std::ranges::copy_if(all, std::back_inserter(items),
                           [](const LedgerItem& item) { return item.state == ItemState::engraved; });
    }
    std::vector<std::string> orders;
    for (const LedgerItem& item : items) {
      if (auto fault = pack(ledger, item, account)) return fault;
      if (std::ranges::find(orders, item.order_number) == orders.end()) orders.push_back(item.order_number);
    }
    for (const std::string& order : orders) look_at_parcel(ledger, order, account);
    if (items.empty()) account.told.emplace_back("nothing of it is engraved and not packed yet");
    return std::nullopt;
  });
}

namespace {

/// What was taken back, and the items that it was about.
void tell_undone(Ledger& ledger, const std::string& name, const Ledger::Undone& undone, Account& account) {
  account.told.push_back(name + ": taken back is \"" + undone.cause + "\"");
  for (const std::int64_t id : undone.items) {
    const LedgerItem item = *ledger.item(id);
    account.told.push_back("  " + named_with_words(item) + " is " + std::string(name_of(item.state)) +
                           (item.state == ItemState::cancelled ? "" : " again"));
  }
  for (const std::int64_t id : undone.moved) {
    const LedgerPlacement lies = *ledger.placement_of(id);
    account.warnings.push_back(
        "Put " + (lies.blank.empty() ? with_check(ledger.item(id)->number) : "piece " + lies.blank) + " into pocket " +
        std::to_string(lies.pocket) + " of " + ledger.sheet(lies.sheet)->name + " again");
  }
}

MaybeFault undo(const Shop& shop, Ledger& ledger, const UndoOptions& options, Account& account) {
  const auto number = item_typed(options.subject);
  if (number.ok() && ledger.item_numbered(*number)) {
    const auto item = item_meant(ledger, options.call, options.subject, "Take back the last correction of");
    if (!item.ok()) return item.fault();
    const auto undone = ledger.undo(*item);
    if (!undone.ok()) return undone.fault();
    tell_undone(ledger, with_check(item->number), *undone, account);
    mark_lacking(shop, ledger, undone->items);
    return std::nullopt;
  }
  if (options.subject.starts_with("row-")) {
    const auto row = row_meant(ledger, options.subject);
    if (!row.ok()) return row.fault();
    const auto undone = ledger.undo(*row);
    if (!undone.ok()) return undone.fault();
    account.told.push_back(options.subject + " is held again: " + reason_of(*row));
    return std::nullopt;
  }
  const auto sheet = sheet_meant(ledger, options.subject);
  if (!sheet.ok()) {
    return Fault{"there is no item and no sheet " + options.subject, "", "the ledger does not know it",
                 "Name an item such as 1002-2, or a sheet such as sheet-003"};
  }
  const auto undone = ledger.undo(*sheet);
  if (!undone.ok()) return undone.fault();
  tell_undone(ledger, sheet->name, *undone, account);
  mark_lacking(shop, ledger, undone->items);
  return std::nullopt;
}

}  // namespace

Result<Account> run_undo(const Shop& shop, const UndoOptions& options) {
  return in_ledger(shop, options.call, EntryKind::undo,
                   [&](Ledger& ledger, Account& account) { return undo(shop, ledger, options, account); });
}

}  // namespace ordinatio::inline bookkeeping
