#include <algorithm>
#include <set>
#include <utility>

#include "base/account.h"
#include "bed/item_number.h"
#include "check/check.h"
#include "orders/orders.h"
#include "paper/paper.h"
#include "shop/proof.h"
#include "shop/proving.h"
#include "shop/told_languages.h"

namespace ordinatio {

namespace {

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
                 nearest ? "Did you mean " + *nearest + "?" : "Name an item such as 1002-2: order, hyphen, number"};
  }
  return std::nullopt;
}

/// The items by their bare numbers, however they were typed.
Result<ProofOptions> with_bare_items(ProofOptions options) {
  for (std::string& item : options.items) {
    Result<std::string> number = item_typed(item);
    if (!number.ok()) {
      Fault fault = number.fault();
      fault.where = "--item";
      return fault;
    }
    item = *std::move(number);
  }
  return options;
}

bool is_wanted(const ProofOptions& options, const std::string& id) {
  return options.items.empty() || std::ranges::find(options.items, id) != options.items.end();
}

}  // namespace

std::vector<ProvedItem> prove_on_pieces(Workroom& workroom, Composer& composer, const std::vector<Order>& orders,
                                        PieceChoice& choice, const ProofOptions& options, Account& account) {
  std::vector<PlacedItem> items = choice.choose(orders, account.notes);
  std::erase_if(items,
                [&](const PlacedItem& item) { return !is_wanted(options, item_id(orders[item.order], item.ordinal)); });
  std::vector<MaybeFault> no_bed(items.size());
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].without_bed == nullptr) continue;
    no_bed[i] = std::exchange(items[i].held, std::nullopt);
    items[i].laid = items[i].without_bed;
  }
  std::vector<SetOrder> sets = set_placed(composer, workroom, orders, items);
  std::vector<ProvedItem> proved;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Order& order = orders[items[i].order];
    proved.push_back({&order, item_id(order, items[i].ordinal), std::move(sets[i]), std::move(no_bed[i])});
  }
  return proved;
}

std::vector<ProvedItem> prove_nominal(Workroom& workroom, Composer& composer, const std::vector<Order>& orders,
                                      const ProofOptions& options) {
  std::vector<Order> wanted;
  std::vector<std::pair<const Order*, std::string>> items;
  std::vector<std::size_t> set_of;
  for (const Order& order : orders) {
    const std::size_t before = items.size();
    for (int ordinal = 1; ordinal <= order.quantity; ++ordinal) {
      const std::string id = item_id(order, ordinal);
      if (!is_wanted(options, id)) continue;
      items.emplace_back(&order, id);
      set_of.push_back(wanted.size());
    }
    if (items.size() > before) wanted.push_back(order);
  }
  const std::vector<SetOrder> sets = composer.set(wanted);
  std::vector<ProvedItem> proved;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Order& order = *items[i].first;
    proved.push_back({&order, items[i].second, sets[set_of[i]], workroom.no_bed_for(order)});
  }
  return proved;
}

void account_for(Account& account, const ProvedItem& item) {
  account_for(account, item.id, item.set);
  if (item.set.held || !item.no_bed) return;
  account.warnings.push_back(with_check(item.id) + " has a proof, but no sheet can take it: " + describe(*item.no_bed));
}

MaybeFault deliver_proofs(Workroom& workroom, const std::vector<ProvedItem>& items, const ProofOptions& options,
                          Account& account, const Progress& progress) {
  std::vector<ProofPage> pages;
  std::vector<const Artwork*> artworks;
  for (const ProvedItem& item : items) {
    pages.push_back({{item.id,
                      workroom.design_of(*item.order),
                      item.set.inscription,
                      item.order->source,
                      {},
                      item.order->customer,
                      item.order->told},
                     item.set.artwork,
                     item.set.held,
                     workroom.shop().plan.palette,
                     item.order->note});
    if (progress) progress(pages.size(), items.size());
  }
  for (const ProofPage& page : pages) {
    if (page.artwork) artworks.push_back(&*page.artwork);
  }
  const Result<std::string> pdf = write_proof_pdf(pages, workroom.shop().name, workroom.fonts());
  if (!pdf.ok()) return pdf.fault();
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "proofs");
  if (!outbox.ok()) return outbox.fault();
  const Result<std::string> written = (*outbox)->put("proofs.pdf", *pdf);
  if (!written.ok()) return written.fault();
  if (auto fault = check_proofs(*written, artworks)) return fault;
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.files = *std::move(files);
  return std::nullopt;
}

namespace {

Result<Account> proof_from_files(const Shop& shop, const ProofOptions& options, const Progress& progress) {
  const std::filesystem::path file = options.orders.empty() ? shop.folder / "orders.csv" : options.orders;
  Result<Orders> read = read_orders(file, shop.orders);
  if (!read.ok()) return read.fault();
  if (auto fault = missing_item(read->orders, options.items)) return *std::move(fault);
  Workroom workroom(shop);
  if (auto fault = workroom.open_designs(read->orders)) return *std::move(fault);
  Account account;
  if (options.items.empty()) account.held = std::move(read->held);
  account.notes = std::move(read->notes);
  account.warnings = std::move(read->warnings);
  const Result<std::optional<Blanks>> blanks = read_pieces(workroom, options.blanks, account);
  if (!blanks.ok()) return blanks.fault();
  if (!*blanks) hold_wishes(read->orders, account.held);
  read->orders = parted(std::move(read->orders));
  tell_languages(read->orders, workroom);
  Composer composer(workroom, options.date, 0);
  std::vector<ProvedItem> items;
  if (*blanks) {
    PieceChoice choice(workroom, **blanks, composer.typesetters(), options.date);
    items = prove_on_pieces(workroom, composer, read->orders, choice, options, account);
  } else {
    items = prove_nominal(workroom, composer, read->orders, options);
  }
  for (const ProvedItem& item : items) account_for(account, item);
  if (items.empty()) {
    return Fault{"there is nothing to make a proof of", file.string(), "no row makes an item", "Mend the rows"};
  }
  if (auto fault = deliver_proofs(workroom, items, options, account, progress)) return *std::move(fault);
  return account;
}

}  // namespace

Result<Account> run_proof(const Shop& shop, const ProofOptions& typed_options, const Progress& progress) {
  const Result<ProofOptions> bare = with_bare_items(typed_options);
  if (!bare.ok()) return bare.fault();
  return shop.ledger.empty() ? proof_from_files(shop, *bare, progress) : proof_from_book(shop, *bare, progress);
}

}  // namespace ordinatio
