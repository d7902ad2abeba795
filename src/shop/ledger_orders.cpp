#include <algorithm>

#include "bed/item_number.h"
#include "intake/held_rows.h"
#include "intake/intake.h"
#include "shop/ledger_access.h"
#include "shop/ledger_pieces.h"
#include "shop/ledger_records.h"
#include "shop/taking_in.h"
#include "shop/told_languages.h"

namespace ordinatio::inline shop {
namespace {

MaybeFault check_wanted(Ledger& ledger, const std::vector<std::string>& items) {
  for (const std::string& number : items) {
    const auto item = ledger.item_numbered(number);
    if (item && is_waiting(item->state)) continue;
    if (item) {
      return Fault{"item " + number + " is made already", "--item", "it is " + std::string(name_of(item->state)),
                   "Its sheet's PDF shows it"};
    }
    const auto nearest = ledger.nearest_number(number);
    return Fault{"there is no item " + number, "--item", "the ledger does not know it",
                 nearest ? "Did you mean " + *nearest + "?" : "Look at the list: ordinatio list"};
  }
  return std::nullopt;
}

bool are_alike(const LedgerItem& a, const LedgerItem& b) {
  return a.order_number == b.order_number && a.ordinal + 1 == b.ordinal && a.words == b.words && a.design == b.design &&
         a.wish == b.wish && a.source == b.source && a.note == b.note && a.customer == b.customer &&
         a.setting == b.setting && a.pinned.empty() && b.pinned.empty();
}

/// Items as orders; neighbours of one order that are alike are one order with a quantity.
std::vector<Order> orders_of(const std::vector<LedgerItem>& items) {
  std::vector<Order> orders;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0 && are_alike(items[i - 1], items[i])) {
      ++orders.back().quantity;
    } else {
      orders.push_back(order_of(items[i]));
    }
  }
  return orders;
}

/// How the question about the item's line is answered.
std::string answer_to(Ledger& ledger, const LedgerItem& item) {
  for (const LedgerQuestion& question : ledger.open_questions()) {
    if (question.line == item.line) return "Answer question " + std::to_string(question.id);
  }
  return "Let it go: ordinatio release " + with_check(item.number);
}

/// What waits and is not held by a person or a question; those are told.
std::vector<LedgerItem> items_to_lay(Ledger& ledger, Account& account) {
  std::vector<LedgerItem> items = ledger.waiting_items();
  std::erase_if(items, [&](const LedgerItem& item) {
    const bool waits = waits_for_person(item);
    const std::string mend = item.held_by == HeldBy::person ? "Let it go: ordinatio release " + with_check(item.number)
                                                            : answer_to(ledger, item);
    if (waits) account.held.push_back({item.number, {item.reason, item.source, "", mend}, true});
    return waits;
  });
  return items;
}

}  // namespace

MaybeFault LedgerRecords::take_in(Workroom&, std::optional<ShopExport> given, const std::vector<std::string>& wanted,
                                  Account& account) {
  if (given) take_export_in(shop_, ledger_, given->orders, given->file, given->channel, account);
  tell_held_rows(ledger_, account);
  tell_questions(ledger_, account);
  return check_wanted(ledger_, wanted);
}

/// An export that lies where a workshop without a ledger has its orders is not passed over without a word.
void LedgerRecords::note_unread(Account& account) {
  const Result<std::string> bytes = read_file(shop_.folder / "orders.csv");
  if (!bytes.ok() || ledger_.knows_export(sha256_hex(*bytes))) return;
  account.notes.emplace_back(
      "orders.csv is not taken in: with a ledger that is asked for, ordinatio intake orders.csv");
}

Result<std::optional<FreePieces>> LedgerRecords::pieces(Workroom& workroom, const std::filesystem::path& file,
                                                        Account& account) {
  return pieces_of_ledger(workroom, ledger_, file, account);
}

std::vector<Order> LedgerRecords::orders_to_prove(const Workroom& workroom, bool, Account&) {
  const std::vector<LedgerItem> items = ledger_.waiting_items();
  std::vector<Order> orders = orders_of(items);
  std::size_t first = 0;  // of the order's items
  for (Order& order : orders) {
    if (const auto line = ledger_.line(items[first].line)) order.date = line->ordered;
    first += static_cast<std::size_t>(order.quantity);
  }
  tell_languages(orders, ledger_, workroom);
  return orders;
}

std::optional<std::vector<Order>> LedgerRecords::orders_to_lay(const Workroom& workroom, bool, Account& account) {
  to_lay_ = items_to_lay(ledger_, account);
  if (to_lay_.empty()) {
    account.told.emplace_back("Nothing waits to be laid on a sheet");
    return std::nullopt;
  }
  std::vector<Order> orders = orders_of(to_lay_);
  tell_languages(orders, ledger_, workroom);
  return orders;
}

void LedgerRecords::hold_orders(const std::vector<HeldItem>& held, Account& account) {
  for (const LedgerItem& item : to_lay_) {
    const bool asks = !item.pinned.empty() || !item.wish.empty();
    const auto reason = std::ranges::find(held, item.order_number, &HeldItem::id);
    if (!asks || reason == held.end()) continue;
    ledger_.set_state(item, ItemState::held, describe(reason->fault), HeldBy::program);
    account.held.push_back({item.number, reason->fault, true});
  }
}

bool LedgerRecords::may_be_laid(const std::string& number, const Design& design, const Artwork& artwork,
                                Account& account) {
  const LedgerItem item = *ledger_.item_numbered(number);
  const bool asked = design.approval || !item.approved_hash.empty();
  if (!asked || item.approved_hash == artwork.hash) return true;
  const std::string shown = with_check(number);
  if (item.proofed_hash == artwork.hash) {
    ledger_.set_state(item, ItemState::proofed, "it waits for the customer's yes");
    account.warnings.push_back(shown + " waits for the customer's yes: ordinatio approve " + shown);
    return false;
  }
  const std::string why = item.approved_hash.empty() ? "it waits for a proof"
                                                     : "it comes out otherwise than was approved: make its proof again";
  ledger_.set_state(item, ItemState::ready, why);
  account.warnings.push_back(shown + ": " + why + ": ordinatio proof --item " + shown);
  return false;
}

void LedgerRecords::note_held(const std::string& item, const Fault& fault) {
  ledger_.set_state(*ledger_.item_numbered(item), ItemState::held, describe(fault), HeldBy::program);
}

std::int64_t LedgerRecords::id_of(const std::string& item) { return ledger_.item_numbered(item)->id; }

/// What was shown is what may be said yes to, on the very piece that it was shown on.
MaybeFault LedgerRecords::note_proof(const Design& design, const ProvedItem& proved) {
  const LedgerItem item = *ledger_.item_numbered(proved.id);
  const bool waits = waits_for_person(item);
  if (proved.set.held) {
    if (!waits) ledger_.set_state(item, ItemState::held, describe(*proved.set.held), HeldBy::program);
    return std::nullopt;
  }
  const Artwork& artwork = *proved.set.artwork;
  if (proved.no_bed && !waits && !design.approval) {
    ledger_.set_state(item, ItemState::held, describe(*proved.no_bed), HeldBy::program);
    ledger_.set_proofed(*ledger_.item(item.id), artwork.hash);
    return std::nullopt;
  }
  const bool is_approved = item.state == ItemState::approved && item.approved_hash == artwork.hash;
  // A spoiled one waits to be made again as it was, unless that needs a yes first.
  const bool as_it_was = item.state == ItemState::spoiled && (!design.approval || item.approved_hash == artwork.hash);
  if (!waits && !is_approved && !as_it_was) {
    ledger_.set_state(item, design.approval ? ItemState::proofed : ItemState::ready,
                      design.approval ? "it waits for the customer's yes" : "");
  }
  ledger_.set_proofed(item, artwork.hash);
  if (!design.approval || artwork.blank.id.empty()) return std::nullopt;
  return ledger_.pin(*ledger_.item(item.id), artwork.blank.id);
}

MaybeFault LedgerRecords::nothing_to_prove(Account& account) {
  account.told.emplace_back("Nothing waits to be proved");
  return std::nullopt;
}

}  // namespace ordinatio::inline shop
