#include <algorithm>

#include "shop/piece_choice.h"
#include "shop/sheet_run.h"

namespace ordinatio {
namespace {

constexpr std::size_t batch = 512;  // orders composed before their sheets are written: what memory holds at once

/// One day's work on its way from orders to sheets.
class Day {
 public:
  Day(Workroom& workroom, Outbox& outbox, const DayOptions& options, Account& account, const Progress& progress)
      : workroom_(workroom),
        composer_(workroom, options.date, options.workers),
        run_(workroom, outbox, {options.svg, options.dxf, options.pdf, options.png}, {"sheet-", options.date},
             options.workers),
        date_(options.date),
        account_(account),
        progress_(progress) {}

  /// Every item on a nominal piece.
  MaybeFault set_nominal(const std::vector<Order>& orders);
  /// Every item on a measured piece of its own.
  MaybeFault set_on_pieces(const std::vector<Order>& orders, const Blanks& blanks);
  MaybeFault finish() {
    if (auto fault = run_.finish()) return fault;
    account_.sheets = run_.sheets();
    return std::nullopt;
  }

 private:
  MaybeFault add(const Order& order, int ordinal, const SetOrder& set);

  Workroom& workroom_;
  Composer composer_;
  SheetRun run_;
  std::string date_;
  Account& account_;
  const Progress& progress_;
};

MaybeFault Day::add(const Order& order, int ordinal, const SetOrder& set) {
  const std::string id = item_id(order, ordinal);
  account_for(account_, id, set);
  if (set.held) return std::nullopt;
  const std::string design = workroom_.design_of(order);
  const Result<const Station*> station = workroom_.station(design);
  if (!station) return station.fault();
  return run_.add(**station, {{id, design, set.inscription, order.source}, *set.artwork, 0, {}});
}

MaybeFault Day::set_nominal(const std::vector<Order>& orders) {
  const std::span<const Order> all(orders);
  for (std::size_t done = 0; done < all.size(); done += batch) {
    const auto part = all.subspan(done, std::min(batch, all.size() - done));
    const std::vector<SetOrder> set = composer_.set(part);
    for (std::size_t i = 0; i < part.size(); ++i) {
      for (int ordinal = 1; ordinal <= part[i].quantity; ++ordinal) {
        if (auto fault = add(part[i], ordinal, set[i])) return fault;
      }
    }
    if (progress_) progress_(done + part.size(), all.size());
  }
  return std::nullopt;
}

MaybeFault Day::set_on_pieces(const std::vector<Order>& orders, const Blanks& blanks) {
  PieceChoice choice(workroom_, blanks, composer_.typesetters(), date_);
  const std::vector<PlacedItem> items = choice.choose(orders, account_.notes);
  for (std::size_t done = 0; done < items.size(); done += batch) {
    const auto part = std::span(items).subspan(done, std::min(batch, items.size() - done));
    const std::vector<SetOrder> sets = set_placed(composer_, workroom_, orders, part);
    for (std::size_t i = 0; i < part.size(); ++i) {
      if (auto fault = add(orders[part[i].order], part[i].ordinal, sets[i])) return fault;
    }
    if (progress_) progress_(done + part.size(), items.size());
  }
  return std::nullopt;
}

}  // namespace

Result<Account> run_day(const Shop& shop, const DayOptions& options, const Progress& progress) {
  Result<Orders> read = read_orders(options.orders, shop.orders);
  if (!read) return read.fault();
  Workroom workroom(shop);
  if (auto fault = workroom.open_designs(read->orders)) return *std::move(fault);
  Account account;
  account.held = std::move(read->held);
  account.notes = std::move(read->notes);
  const Result<std::optional<Blanks>> blanks = read_pieces(workroom, options.blanks, account);
  if (!blanks) return blanks.fault();
  if (!*blanks) hold_wishes(read->orders, account.held);
  read->orders = parted(std::move(read->orders));
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "sheet-");
  if (!outbox) return outbox.fault();

  Day day(workroom, **outbox, options, account, progress);
  auto fault = *blanks ? day.set_on_pieces(read->orders, **blanks) : day.set_nominal(read->orders);
  if (!fault) fault = day.finish();
  if (fault) return *std::move(fault);
  auto files = (*outbox)->deliver();
  if (!files) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio
