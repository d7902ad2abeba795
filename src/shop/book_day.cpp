#include "shop/book_day.h"

#include <algorithm>

#include "base/account.h"
#include "intake/customer_notes.h"
#include "intake/held_rows.h"
#include "orders/orders.h"
#include "shop/day.h"
#include "shop/samples.h"
#include "shop/setting.h"
#include "shop/taking_in.h"
#include "shop/told_languages.h"

namespace ordinatio {
namespace {

bool are_alike(const LedgerItem& a, const LedgerItem& b) {
  return a.order_number == b.order_number && a.ordinal + 1 == b.ordinal && a.words == b.words && a.design == b.design &&
         a.wish == b.wish && a.source == b.source && a.note == b.note && a.customer == b.customer && a.pinned.empty() &&
         b.pinned.empty();
}

/// The day's work in one transaction.
class BookDay {
 public:
  BookDay(const Shop& shop, Workroom& workroom, Ledger& ledger, Outbox& outbox, const DayOptions& options,
          Account& account)
      : workroom_(workroom),
        ledger_(ledger),
        options_(options),
        account_(account),
        composer_(workroom, options.date, options.workers),
        run_(workroom, outbox, {options.svg, options.dxf, options.pdf, options.png},
             {"sheet-", options.date, ledger.next_sheet_number()}, options.workers),
        folder_(folder_in_book(shop, sheets_folder(shop, options.out))) {}

  MaybeFault lay(const std::vector<LedgerItem>& waiting, const std::optional<FreePieces>& pieces,
                 const Progress& progress);
  /// The sheets as the book has them.
  std::vector<NewSheet> planned();
  [[nodiscard]] std::size_t sheets() const { return run_.sheets(); }
  void tell() const { tell_settings(account_, run_.written()); }

 private:
  MaybeFault take(const Order& order, int ordinal, const SetOrder& set);
  bool is_approved(const LedgerItem& item, const Order& order, const SetOrder& set);

  Workroom& workroom_;
  Ledger& ledger_;
  const DayOptions& options_;
  Account& account_;
  Composer composer_;
  SheetRun run_;
  std::string folder_;
  CustomerNotes notes_;
  std::map<std::string, NewPlacement> placed_;  // by item number; pocket and blank come with the sheet
};

/// Whether the item may go on a sheet; if not, what it waits for is told and written down.
bool BookDay::is_approved(const LedgerItem& item, const Order& order, const SetOrder& set) {
  const Result<const Station*> station = workroom_.station(workroom_.design_of(order));
  const bool asked = (*station)->design.approval || !item.approved_hash.empty();
  if (!asked || item.approved_hash == set.artwork->hash) return true;
  const std::string number = with_check(item.number);
  if (item.proofed_hash == set.artwork->hash) {
    ledger_.set_state(item, ItemState::proofed, "it waits for the customer's yes");
    account_.warnings.push_back(number + " waits for the customer's yes: ordinatio approve " + number);
    return false;
  }
  const std::string why = item.approved_hash.empty() ? "it waits for a proof"
                                                     : "it comes out otherwise than was approved: make its proof again";
  ledger_.set_state(item, ItemState::ready, why);
  account_.warnings.push_back(number + ": " + why + ": ordinatio proof --item " + number);
  return false;
}

MaybeFault BookDay::take(const Order& order, int ordinal, const SetOrder& set) {
  const std::string number = item_id(order, ordinal);
  const LedgerItem item = *ledger_.item_numbered(number);
  if (set.held) {
    account_for(account_, number, set);
    ledger_.set_state(item, ItemState::held, describe(*set.held), "program");
    return std::nullopt;
  }
  if (!is_approved(item, order, set)) return std::nullopt;
  account_for(account_, number, set);
  notes_.add(order.number, number, item.note);
  const Result<const Station*> station = workroom_.station(workroom_.design_of(order));
  placed_[number] = {item.id, 0, "", "", (*station)->design.approval};
  return add_to_sheet(run_, workroom_, order, ordinal, set);
}

MaybeFault BookDay::lay(const std::vector<LedgerItem>& waiting, const std::optional<FreePieces>& pieces,
                        const Progress& progress) {
  std::vector<Order> orders = orders_of(waiting);
  tell_languages(orders, ledger_, workroom_);
  if (auto fault = workroom_.open_designs(orders)) return fault;
  const auto on_item = [this](const Order& order, int ordinal, const SetOrder& set) {
    return take(order, ordinal, set);
  };
  MaybeFault fault;
  if (pieces) {
    // Where pieces are short the earlier items have them, and those first in line come first.
    PieceChoice choice(workroom_, pieces->blanks, composer_.typesetters(), options_.date);
    choice.keep_for(pieces->reserved);
    fault = set_on_pieces({workroom_, composer_, run_, account_}, orders, choice, on_item, progress);
  } else {
    std::vector<HeldItem> held;
    hold_wishes(orders, held);
    for (const LedgerItem& item : waiting) {
      const bool asks = !item.pinned.empty() || !item.wish.empty();
      const auto reason = std::ranges::find(held, item.order_number, &HeldItem::id);
      if (!asks || reason == held.end()) continue;
      ledger_.set_state(item, ItemState::held, describe(reason->fault), "program");
      account_.held.push_back({item.number, reason->fault, true});
    }
    fault = set_nominal({workroom_, composer_, run_, account_}, orders, on_item, progress);
  }
  notes_.tell(account_);
  return fault ? fault : run_.finish();
}

std::vector<NewSheet> BookDay::planned() {
  std::vector<NewSheet> sheets;
  for (const auto& [number, written] : run_.written()) {
    NewSheet sheet{{number, written.name, LedgerSheet::Kind::day, {}, options_.date, folder_, false, {}}, {}, {}};
    for (const SheetRun::Laid& laid : written.items) {
      NewPlacement& placement = sheet.placements.emplace_back(placed_.at(laid.item));
      placement.pocket = laid.pocket, placement.blank = laid.blank, placement.hash = laid.hash;
    }
    sheets.push_back(std::move(sheet));
  }
  return sheets;
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
    const bool waits = item.held_by == "person" || item.held_by == "question";
    const std::string mend =
        item.held_by == "person" ? "Let it go: ordinatio release " + with_check(item.number) : answer_to(ledger, item);
    if (waits) account.held.push_back({item.number, {item.reason, item.source, "", mend}, true});
    return waits;
  });
  return items;
}

/// Orders, where a file is named: without one the day lays what waits.
Result<std::optional<Orders>> orders_for(const Shop& shop, const DayOptions& options) {
  if (options.orders.empty()) return std::optional<Orders>();
  Result<Orders> orders = read_orders(options.orders, shop.orders, Repeats::are_lines);
  if (!orders.ok()) return orders.fault();
  if (auto fault = refuse_samples(*orders, options.orders.filename().string(), options.call)) return *std::move(fault);
  return std::optional(*std::move(orders));
}

/// An export that lies where a workshop without a ledger has its orders is not passed over without a word.
void note_unread(const Shop& shop, Ledger& ledger, Account& account) {
  const Result<std::string> bytes = read_file(shop.folder / "orders.csv");
  if (!bytes.ok() || ledger.knows_export(sha256_hex(*bytes))) return;
  account.notes.emplace_back(
      "orders.csv is not taken in: with a ledger that is asked for, ordinatio intake orders.csv");
}

MaybeFault lay_what_waits(const Shop& shop, Ledger& ledger, const DayOptions& options, const Progress& progress,
                          Account& account) {
  Workroom workroom(shop);
  const Result<std::optional<FreePieces>> pieces = pieces_of_book(workroom, ledger, options.blanks, account);
  if (!pieces.ok()) return pieces.fault();
  const std::vector<LedgerItem> waiting = items_to_lay(ledger, account);
  if (waiting.empty()) {
    account.told.emplace_back("Nothing waits to be laid on a sheet");
    return std::nullopt;
  }
  Result<std::unique_ptr<Outbox>> outbox =
      Outbox::open(sheets_folder(shop, options.out), sheets_stem, Outbox::Earlier::of_the_name);
  if (!outbox.ok()) return outbox.fault();
  BookDay day(shop, workroom, ledger, **outbox, options, account);
  if (auto fault = day.lay(waiting, *pieces, progress)) return fault;
  account.sheets = day.sheets();
  day.tell();
  return book_sheets(shop, ledger, **outbox, day.planned(), account);
}

/// The export, if there is one, taken in.
void take_orders(const Shop& shop, Ledger& ledger, std::optional<Orders>& orders, const DayOptions& options,
                 Account& account) {
  if (orders) {
    take_export_in(shop, ledger, *orders, options.orders, options.channel, account);
  } else {
    note_unread(shop, ledger, account);
  }
  tell_held_rows(ledger, account);
  tell_questions(ledger, account);
}

/// What would be taken in.
Result<Account> see_day(const Shop& shop, const DayOptions& options, std::optional<Orders>& orders) {
  return to_see(shop, options.call, "day", [&](Ledger& ledger, Account& account) {
    take_orders(shop, ledger, orders, options, account);
    return MaybeFault();
  });
}

}  // namespace

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

Result<Account> day_from_book(const Shop& shop, const DayOptions& options, const Progress& progress) {
  Result<std::optional<Orders>> orders = orders_for(shop, options);
  if (!orders.ok()) return orders.fault();
  if (options.dry_run) return see_day(shop, options, *orders);
  const std::string input = *orders ? (*orders)->checksum : "";
  return in_book(
      shop, options.call, "day",
      [&](Ledger& ledger, Account& account) {
        take_orders(shop, ledger, *orders, options, account);
        return lay_what_waits(shop, ledger, options, progress, account);
      },
      input);
}

}  // namespace ordinatio
