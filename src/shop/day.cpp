#include "shop/day.h"

#include <set>

#include "base/account.h"
#include "intake/customer_notes.h"
#include "shop/records.h"
#include "shop/setting.h"
#include "shop/sheet_run.h"

namespace ordinatio::inline shop {
namespace {

/// A day's orders laid on sheets.
class DayWork {
 public:
  DayWork(const Workroom& workroom, Records& records, Outbox* outbox, const DayOptions& options, Account& account)
      : workroom_(workroom),
        records_(records),
        options_(options),
        account_(account),
        composer_(workroom, options.date, options.workers),
        run_(workroom, outbox, {options.svg, options.dxf, options.pdf, options.png},
             {"sheet-", options.date, records.next_sheet_number()}, options.workers) {}

  MaybeFault lay(std::vector<Order> orders, const std::optional<FreePieces>& pieces, const Progress& progress);
  MaybeFault book();
  std::vector<Sheet> take_kept() { return run_.take_kept(); }

 private:
  MaybeFault take(const Order& order, int ordinal, SetOrder set);
  MaybeFault add_to_sheet(const Station& station, const std::string& item, const Order& order, SetOrder set);

  const Workroom& workroom_;
  Records& records_;
  const DayOptions& options_;
  Account& account_;
  Composer composer_;
  SheetRun run_;
  CustomerNotes notes_;
  std::set<std::string> promised_;  // items that nobody engraves without the customer's yes
};

MaybeFault DayWork::add_to_sheet(const Station& station, const std::string& item, const Order& order, SetOrder set) {
  Inscription& words = set.inscription;
  return run_.add(station, {{item,
                             workroom_.design_of(order),
                             std::move(words),
                             order.source,
                             {},
                             order.customer,
                             order.told,
                             order.setting},
                            *std::move(set.artwork),
                            0,
                            {}});
}

MaybeFault DayWork::take(const Order& order, int ordinal, SetOrder set) {
  const std::string item = item_id(order, ordinal);
  if (set.held) {
    account_for(account_, item, set);
    records_.note_held(item, *set.held);
    return std::nullopt;
  }
  const Station& station = *workroom_.opened(workroom_.design_of(order));
  if (!records_.may_be_laid(item, station.design, *set.artwork, account_)) return std::nullopt;
  account_for(account_, item, set);
  notes_.add(order.number, item, order.note);
  if (station.design.approval) promised_.insert(item);
  return add_to_sheet(station, item, order, std::move(set));
}

MaybeFault DayWork::lay(std::vector<Order> orders, const std::optional<FreePieces>& pieces, const Progress& progress) {
  const auto on_item = [this](const Order& order, int ordinal, SetOrder set) {
    return take(order, ordinal, std::move(set));
  };
  const Laying laying{workroom_, composer_, run_, account_};
  MaybeFault fault;
  if (pieces) {
    // Where pieces are short the earlier items have them, and those first in line come first.
    PieceChoice choice(workroom_, pieces->blanks, composer_.typesetters(), options_.date);
    choice.keep_for(pieces->reserved);
    fault = set_on_pieces(laying, orders, choice, on_item, progress);
  } else {
    std::vector<HeldItem> held;
    hold_wishes(orders, held);
    records_.hold_orders(held, account_);
    fault = set_nominal(laying, orders, on_item, progress);
  }
  notes_.tell(account_);
  return fault ? fault : run_.finish();
}

MaybeFault DayWork::book() {
  account_.sheets = run_.sheets();
  tell_settings(account_, run_.written());
  tell_times(account_, run_.written());
  std::vector<NewSheet> sheets;
  for (const auto& [number, written] : run_.written()) {
    NewSheet& sheet = sheets.emplace_back();
    sheet.sheet.number = number, sheet.sheet.name = written.name, sheet.sheet.date = options_.date;
    for (const SheetRun::Laid& laid : written.items) {
      sheet.placements.push_back(
          {records_.id_of(laid.item), laid.pocket, laid.blank, laid.hash, promised_.contains(laid.item)});
    }
  }
  return records_.book_sheets(std::move(sheets), account_);
}

/// The export, if there is one, taken in.
MaybeFault take_in(Records& records, Workroom& workroom, std::optional<ShopExport> given, Account& account) {
  if (!given) records.note_unread(account);
  return records.take_in(workroom, std::move(given), {}, account);
}

/// see: where the sheets go that are only looked at; then none is written or booked.
MaybeFault lay_what_waits(Records& records, std::optional<ShopExport> given, const DayOptions& options,
                          const Progress& progress, Account& account, std::vector<Sheet>* see = nullptr) {
  Workroom workroom(records.shop());
  const std::string name = given ? given->file.stem().string() : "";
  if (auto fault = take_in(records, workroom, std::move(given), account)) return fault;
  const Result<std::optional<FreePieces>> pieces = records.pieces(workroom, options.blanks, account);
  if (!pieces.ok()) return pieces.fault();
  std::optional<std::vector<Order>> orders = records.orders_to_lay(workroom, pieces->has_value(), account);
  if (!orders) return std::nullopt;
  if (see == nullptr) {
    if (auto fault = records.open_outbox(options.out, name, "sheet-")) return fault;
  }
  if (auto fault = workroom.open_designs(*orders)) return fault;
  DayWork day(workroom, records, see == nullptr ? &records.outbox() : nullptr, options, account);
  if (auto fault = day.lay(*std::move(orders), *pieces, progress)) return fault;
  if (see == nullptr) return day.book();
  *see = day.take_kept();
  return std::nullopt;
}

}  // namespace

Result<Account> run_day(const Shop& shop, const DayOptions& options, const Progress& progress) {
  if (options.dry_run && shop.ledger.empty()) {
    return Fault{"there is nothing to see beforehand", "--dry-run", "without a ledger no export is taken in",
                 "Leave it out, or write [ledger] file = \"workshop.ledger\" in shop.toml"};
  }
  Result<std::optional<ShopExport>> given = export_named(shop, options.orders, options.channel, options.call);
  if (!given.ok()) return given.fault();
  const std::string checksum = *given ? (*given)->orders.checksum : "";
  if (options.dry_run) {
    return to_see_on_record(shop, options.call, EntryKind::day, [&](Records& records, Account& account) {
      Workroom workroom(shop);
      return take_in(records, workroom, *std::move(given), account);
    });
  }
  const RecordWork work = [&](Records& records, Account& account) {
    return lay_what_waits(records, *std::move(given), options, progress, account);
  };
  return on_record(shop, options.call, EntryKind::day, work, checksum);
}

Result<Account> day_to_see(const Shop& shop, const DayOptions& options, std::vector<Sheet>& sheets,
                           const Progress& progress) {
  Result<std::optional<ShopExport>> given = export_named(shop, options.orders, options.channel, options.call);
  if (!given.ok()) return given.fault();
  const RecordWork work = [&](Records& records, Account& account) {
    return lay_what_waits(records, *std::move(given), options, progress, account, &sheets);
  };
  return shop.ledger.empty() ? on_files(shop, work) : to_see_on_record(shop, options.call, EntryKind::day, work);
}

}  // namespace ordinatio::inline shop
