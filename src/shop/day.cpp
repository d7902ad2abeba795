#include "shop/sheet_run.h"

namespace ordinatio {
namespace {

constexpr std::size_t batch = 512;  // orders composed before their sheets are written: what memory holds at once

/// Opens every design that the orders name, before the cores share the work. A name that the workshop has not is left
/// to hold its items; a design that cannot be read stops the command.
MaybeFault open_designs(Workroom& workroom, const std::vector<Order>& orders) {
  for (const Order& order : orders) {
    const std::string name = workroom.design_of(order);
    if (!order.design.empty() && !workroom.has_design(name)) continue;
    if (const auto station = workroom.station(name); !station) return station.fault();
  }
  return std::nullopt;
}

MaybeFault add_items(SheetRun& run, Workroom& workroom, Account& account, const Order& order, const SetOrder& set) {
  for (int ordinal = 1; ordinal <= order.quantity; ++ordinal) {
    const std::string id = item_id(order, ordinal);
    account_for(account, id, set);
    if (set.held) continue;
    const std::string design = workroom.design_of(order);
    const Result<const Station*> station = workroom.station(design);
    if (!station) return station.fault();
    if (auto fault = run.add(**station, {{id, design, set.inscription, order.source}, *set.artwork, 0, {}}))
      return fault;
  }
  return std::nullopt;
}

}  // namespace

Result<Account> run_day(const Shop& shop, const DayOptions& options, const Progress& progress) {
  Result<Orders> read = read_orders(options.orders, shop.orders);
  if (!read) return read.fault();
  Workroom workroom(shop);
  if (auto fault = open_designs(workroom, read->orders)) return *std::move(fault);
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "sheet-");
  if (!outbox) return outbox.fault();

  Account account;
  account.held = std::move(read->held);
  account.notes = std::move(read->notes);
  Composer composer(workroom, options.date, options.workers);
  SheetRun run(workroom, **outbox, {options.svg, options.dxf, options.pdf, options.png}, {"sheet-", options.date},
               options.workers);
  const std::span<const Order> orders(read->orders);
  for (std::size_t done = 0; done < orders.size(); done += batch) {
    const auto part = orders.subspan(done, std::min(batch, orders.size() - done));
    const std::vector<SetOrder> set = composer.set(part);
    for (std::size_t i = 0; i < part.size(); ++i) {
      if (auto fault = add_items(run, workroom, account, part[i], set[i])) return *std::move(fault);
    }
    if (progress) progress(done + part.size(), orders.size());
  }
  if (auto fault = run.finish()) return *std::move(fault);
  account.sheets = run.sheets();
  auto files = (*outbox)->deliver();
  if (!files) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio
