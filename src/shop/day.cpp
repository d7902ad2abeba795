#include "shop/day.h"
#include "base/account.h"
#include "intake/customer_notes.h"
#include "orders/orders.h"
#include "shop/book_day.h"
#include "shop/setting.h"
#include "shop/sheet_run.h"
#include "shop/told_languages.h"

namespace ordinatio {
namespace {

/// A day's work from files alone: from the orders to their sheets.
Result<Account> day_from_files(const Shop& shop, const DayOptions& options, const Progress& progress) {
  const std::filesystem::path file = options.orders.empty() ? shop.folder / "orders.csv" : options.orders;
  Result<Orders> read = read_orders(file, shop.orders);
  if (!read.ok()) return read.fault();
  Workroom workroom(shop);
  if (auto fault = workroom.open_designs(read->orders)) return *std::move(fault);
  Account account;
  account.held = std::move(read->held);
  account.notes = std::move(read->notes);
  account.warnings = std::move(read->warnings);
  const Result<std::optional<Blanks>> blanks = read_pieces(workroom, options.blanks, account);
  if (!blanks.ok()) return blanks.fault();
  if (!*blanks) hold_wishes(read->orders, account.held);
  std::vector<Order> orders = parted(std::move(read->orders));
  tell_languages(orders, workroom);
  Result<std::unique_ptr<Outbox>> outbox =
      Outbox::open(options.out.empty() ? shop.folder / "out" / file.stem() : options.out, "sheet-");
  if (!outbox.ok()) return outbox.fault();

  Composer composer(workroom, options.date, options.workers);
  SheetRun run(workroom, **outbox, {options.svg, options.dxf, options.pdf, options.png}, {"sheet-", options.date},
               options.workers);
  CustomerNotes notes;
  const auto take = [&](const Order& order, int ordinal, const SetOrder& set) -> MaybeFault {
    account_for(account, item_id(order, ordinal), set);
    if (!set.held) notes.add(order.number, item_id(order, ordinal), order.note);
    return set.held ? std::nullopt : add_to_sheet(run, workroom, order, ordinal, set);
  };
  MaybeFault fault;
  if (*blanks) {
    PieceChoice choice(workroom, **blanks, composer.typesetters(), options.date);
    fault = set_on_pieces({workroom, composer, run, account}, orders, choice, take, progress);
  } else {
    fault = set_nominal({workroom, composer, run, account}, orders, take, progress);
  }
  if (!fault) fault = run.finish();
  if (fault) return *std::move(fault);
  notes.tell(account);
  account.sheets = run.sheets();
  tell_settings(account, run.written());
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace

MaybeFault add_to_sheet(SheetRun& run, Workroom& workroom, const Order& order, int ordinal, const SetOrder& set) {
  const std::string design = workroom.design_of(order);
  const Result<const Station*> station = workroom.station(design);  // opened before: only looked up here
  if (!station.ok()) return station.fault();
  return run.add(**station,
                 {{item_id(order, ordinal), design, set.inscription, order.source, {}, order.customer, order.told},
                  *set.artwork,
                  0,
                  {}});
}

Result<Account> run_day(const Shop& shop, const DayOptions& options, const Progress& progress) {
  return shop.ledger.empty() ? day_from_files(shop, options, progress) : day_from_book(shop, options, progress);
}

}  // namespace ordinatio
