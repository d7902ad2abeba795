#include <algorithm>
#include <set>

#include "check/check.h"
#include "shop/outbox.h"

namespace ordinatio {
namespace {

/// The orders' rows that make at least one of the wanted items (all of them where none is named).
std::vector<Order> wanted_orders(const std::vector<Order>& orders, const std::vector<std::string>& items) {
  if (items.empty()) return orders;
  std::vector<Order> wanted;
  for (const Order& order : orders) {
    for (int ordinal = 1; ordinal <= order.quantity; ++ordinal) {
      if (std::ranges::find(items, item_id(order, ordinal)) == items.end()) continue;
      wanted.push_back(order);
      break;
    }
  }
  return wanted;
}

MaybeFault missing_item(const std::vector<Order>& orders, const std::vector<std::string>& items) {
  std::set<std::string> known;
  for (const Order& order : orders) {
    for (int ordinal = 1; ordinal <= order.quantity; ++ordinal) known.insert(item_id(order, ordinal));
  }
  const std::vector<std::string_view> names(known.begin(), known.end());
  for (const std::string& item : items) {
    if (known.contains(item)) continue;
    const auto nearest = nearest_word(item, names);
    return Fault{"there is no item " + item, "--item", "the orders make no item of that number, or its row is held",
                 nearest ? "Did you mean " + *nearest + "?" : "Name an item such as 1042-2: order, hyphen, number"};
  }
  return std::nullopt;
}

}  // namespace

Result<Account> run_proof(const Shop& shop, const ProofOptions& options, const Progress& progress) {
  Result<Orders> read = read_orders(options.orders, shop.orders);
  if (!read) return read.fault();
  if (auto fault = missing_item(read->orders, options.items)) return *std::move(fault);
  const std::vector<Order> orders = wanted_orders(read->orders, options.items);
  Workroom workroom(shop);
  for (const Order& order : orders) {
    const std::string name = workroom.design_of(order);
    if (!order.design.empty() && !workroom.has_design(name)) continue;
    if (const auto station = workroom.station(name); !station) return station.fault();
  }
  Account account;
  if (options.items.empty()) account.held = std::move(read->held);
  account.notes = std::move(read->notes);
  const std::vector<SetOrder> set = Composer(workroom, options.date, 0).set(orders);
  std::vector<ProofPage> pages;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    for (int ordinal = 1; ordinal <= orders[i].quantity; ++ordinal) {
      const std::string id = item_id(orders[i], ordinal);
      if (!options.items.empty() && std::ranges::find(options.items, id) == options.items.end()) continue;
      account_for(account, id, set[i]);
      pages.push_back({{id, workroom.design_of(orders[i]), set[i].inscription, orders[i].source},
                       set[i].artwork,
                       set[i].held,
                       shop.plan.palette});
    }
    if (progress) progress(i + 1, orders.size());
  }
  if (pages.empty())
    return Fault{"there is nothing to prove", options.orders.string(), "no row makes an item", "Mend the rows"};
  const Result<std::string> pdf = write_proof_pdf(pages, shop.name, workroom.fonts());
  if (!pdf) return pdf.fault();
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "proofs");
  if (!outbox) return outbox.fault();
  const Result<std::string> written = (*outbox)->put("proofs.pdf", *pdf);
  if (!written) return written.fault();
  std::vector<const Artwork*> artworks;
  for (const ProofPage& page : pages) {
    if (page.artwork) artworks.push_back(&*page.artwork);
  }
  if (auto fault = check_proofs(*written, artworks)) return *std::move(fault);
  auto files = (*outbox)->deliver();
  if (!files) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio
