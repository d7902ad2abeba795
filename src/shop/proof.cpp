#include "shop/proof.h"

#include <algorithm>
#include <map>
#include <utility>

#include "base/account.h"
#include "bed/item_number.h"
#include "check/check.h"
#include "paper/paper.h"
#include "shop/recompose.h"
#include "shop/records.h"

namespace ordinatio::inline shop {
namespace {

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

/// On the pieces that a day's work would give them: all orders have a say in that.
std::vector<ProvedItem> prove_on_pieces(const Workroom& workroom, Composer& composer, const std::vector<Order>& orders,
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

/// On nominal pieces.
std::vector<ProvedItem> prove_nominal(const Workroom& workroom, Composer& composer, const std::vector<Order>& orders,
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

/// One picture to send of each item that is not held, made on all cores.
MaybeFault put_pictures(Outbox& outbox, const Workroom& workroom, const std::vector<ProofPage>& pages,
                        const ProofOptions& options, Account& account) {
  std::map<std::string, const ProofPage*> named;
  for (const ProofPage& page : pages) {
    if (!options.pictures || !page.artwork || page.held) continue;
    const auto& [name, first] = *named.emplace(proof_picture_name(page.item.id), &page).first;
    if (first == &page) continue;
    account.warnings.push_back(with_check(page.item.id) + " has no picture: its file would be called " + name +
                               ", as that of " + with_check(first->item.id) + " is");
  }
  const std::vector<std::pair<std::string, const ProofPage*>> pictures(named.begin(), named.end());
  std::vector<MaybeFault> faults(pictures.size());
  for_each_parallel(pictures.size(), core_count(), [&](std::size_t i, unsigned) {
    const auto& [name, page] = pictures[i];
    const auto png = write_proof_png(*page, workroom.shop().name, workroom.fonts(), options.picture_width);
    const auto written = png.ok() ? outbox.put(name, *png) : png;
    if (!written.ok()) faults[i] = written.fault();
  });
  const auto first = std::ranges::find_if(faults, [](const MaybeFault& fault) { return fault.has_value(); });
  return first == faults.end() ? std::nullopt : *first;
}

/// All plaques, many to a page.
MaybeFault put_contact_sheet(Outbox& outbox, const Workroom& workroom, const std::vector<ProofPage>& pages,
                             const ProofOptions& options) {
  if (!options.contact_sheet) return std::nullopt;
  const auto sheet = write_contact_sheet(pages, workroom.shop().name, workroom.fonts(), options.paper);
  if (!sheet.ok()) return sheet.fault();
  const Result<std::string> written = outbox.put("proof-contact.pdf", sheet->pdf);
  if (!written.ok()) return written.fault();
  const Point paper = paper_measures(options.paper);
  return check_specimen(*written, sheet->ink, paper.x, paper.y);
}

/// Writes the pages and reads them back.
MaybeFault deliver_proofs(const Workroom& workroom, const std::vector<ProvedItem>& items, const ProofOptions& options,
                          Account& account, const Progress& progress) {
  std::vector<ProofPage> pages;
  std::vector<ProvedArtwork> artworks;
  for (const ProvedItem& item : items) {
    pages.push_back({{item.id,
                      workroom.design_of(*item.order),
                      item.set.inscription,
                      item.order->source,
                      {},
                      workroom.readable(item.order->customer),
                      item.order->told,
                      item.order->setting},
                     item.set.artwork,
                     item.set.held,
                     workroom.shop().plan.palette,
                     workroom.readable(item.order->note),
                     workroom.readable(item.order->date)});
    if (progress) progress(pages.size(), items.size());
  }
  for (const ProofPage& page : pages) {
    if (page.artwork) artworks.push_back({&*page.artwork, proof_reduction(*page.artwork, options.paper)});
  }
  const Result<std::string> pdf = write_proof_pdf(pages, workroom.shop().name, workroom.fonts(), options.paper);
  if (!pdf.ok()) return pdf.fault();
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "proof");
  if (!outbox.ok()) return outbox.fault();
  const Result<std::string> written = (*outbox)->put("proofs.pdf", *pdf);
  if (!written.ok()) return written.fault();
  if (auto fault = check_proofs(*written, artworks, proof_ink)) return fault;
  if (auto fault = put_contact_sheet(**outbox, workroom, pages, options)) return fault;
  if (auto fault = put_pictures(**outbox, workroom, pages, options, account)) return fault;
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.files = *std::move(files);
  return std::nullopt;
}

MaybeFault prove(Records& records, std::optional<ShopExport> given, const ProofOptions& options,
                 const Progress& progress, Account& account) {
  Workroom workroom(records.shop());
  if (auto fault = records.take_in(workroom, std::move(given), options.items, account)) return fault;
  const Result<std::optional<FreePieces>> pieces = records.pieces(workroom, options.blanks, account);
  if (!pieces.ok()) return pieces.fault();
  std::vector<Order> orders = records.orders_to_prove(workroom, pieces->has_value(), account);
  if (auto fault = workroom.open_designs(orders)) return fault;
  Composer composer(workroom, options.date, 0);
  std::vector<ProvedItem> items;
  if (*pieces) {
    PieceChoice choice(workroom, (*pieces)->blanks, composer.typesetters(), options.date);
    choice.keep_for((*pieces)->reserved);
    items = prove_on_pieces(workroom, composer, orders, choice, options, account);
  } else {
    hold_wishes(orders, account.held);
    items = prove_nominal(workroom, composer, orders, options);
  }
  if (items.empty()) return records.nothing_to_prove(account);
  for (const ProvedItem& item : items) {
    account_for(account, item);
    const Station* station = workroom.opened(workroom.design_of(*item.order));
    if (station == nullptr) continue;
    if (auto fault = records.note_proof(station->design, item)) return fault;
  }
  // The pages first: a proof that is written down and was never made could be said yes to.
  return deliver_proofs(workroom, items, options, account, progress);
}

}  // namespace

std::string proof_picture_name(const std::string& item) { return plain_name("proof-" + item) + ".png"; }

Result<Account> run_proof(const Shop& shop, const ProofOptions& typed_options, const Progress& progress) {
  const Result<ProofOptions> options = with_bare_items(typed_options);
  if (!options.ok()) return options.fault();
  Result<std::optional<ShopExport>> given = export_named(shop, options->orders, "", options->call);
  if (!given.ok()) return given.fault();
  const std::string checksum = *given ? (*given)->orders.checksum : "";
  const RecordWork work = [&](Records& records, Account& account) {
    return prove(records, *std::move(given), *options, progress, account);
  };
  return on_record(shop, options->call, EntryKind::proof, work, checksum);
}

}  // namespace ordinatio::inline shop
