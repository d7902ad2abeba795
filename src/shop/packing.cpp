#include "shop/packing.h"

#include <algorithm>

#include "base/phrase.h"
#include "bed/item_number.h"
#include "check/check.h"
#include "intake/held_rows.h"
#include "intake/intake_row.h"
#include "paper/labels.h"
#include "paper/packing_list.h"
#include "shop/parcels.h"
#include "shop/transaction.h"

namespace ordinatio::inline shop {
namespace {

/// Writes the paper, reads it back and delivers it.
MaybeFault deliver_paper(const std::filesystem::path& folder, const std::string& stem, const std::string& pdf,
                         const std::vector<double>& ink, PaperSize paper, Account& account) {
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(folder, stem + ".");
  if (!outbox.ok()) return outbox.fault();
  const Result<std::string> written = (*outbox)->put(stem + ".pdf", pdf);
  if (!written.ok()) return written.fault();
  const Point measures = paper_measures(paper);
  if (auto fault = check_specimen(*written, ink, measures.x, measures.y)) return fault;
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.files = *std::move(files);
  return std::nullopt;
}

/// Where a piece is that does not go into the parcel.
std::string whereabouts(Ledger& ledger, const LedgerItem& item) {
  const std::string because = item.reason.empty() ? "" : ": " + item.reason;
  if (item.state == ItemState::on_sheet) {
    const auto placement = ledger.placement_of(item.id);
    return "on " + ledger.sheet(placement->sheet)->name + ", pocket " + std::to_string(placement->pocket) +
           ", not engraved yet";
  }
  if (item.state == ItemState::held) return "held" + because;
  if (item.state == ItemState::proofed) return "waits for the customer's yes";
  if (item.state == ItemState::packed) return "packed";
  if (item.state == ItemState::spoiled) return "went wrong, waits to be made again" + because;
  return "waits to be laid on a sheet";
}

std::string stand_text(Ledger& ledger, const LedgerItem& item, bool makes_stands) {
  const auto stand = ledger.stand_of(item.id);
  if (!stand) return makes_stands ? "No stand is engraved for it yet" : "";
  if (stand->serial) return "With stand no. " + std::to_string(*stand->serial);
  return "With a stand of " + (stand->batch.empty() ? ledger.sheet(stand->sheet)->name : stand->batch);
}

bool has_stands(Ledger& ledger) {
  return std::ranges::any_of(ledger.sheets(),
                             [](const LedgerSheet& sheet) { return sheet.kind == LedgerSheet::Kind::stands; });
}

/// Gathers parcels from the ledger.
class Gathering {
 public:
  Gathering(Workroom& workroom, Ledger& ledger, Account& account)
      : workroom_(workroom),
        ledger_(ledger),
        account_(account),
        typesetter_(workroom.fonts()),
        makes_stands_(has_stands(ledger)) {}

  Parcel parcel_of(const std::string& order) {
    Parcel parcel;
    parcel.order = order;
    for (const LedgerItem& item : ledger_.items_of_order(order)) {
      if (item.state == ItemState::cancelled) continue;
      add_customer(parcel, item);
      if (item.state == ItemState::engraved) {
        parcel.items.push_back(ready(item));
      } else {
        parcel.missing.push_back({with_check(item.number), meaning_of(item.words, workroom_.cleaning()),
                                  whereabouts(ledger_, item), item.state == ItemState::packed});
      }
    }
    for (const LedgerHeldRow& row : ledger_.open_rows()) {
      if (row.order_number != order) continue;
      parcel.missing.push_back(
          {row_name(row.id), as_it_came(row), "a row of the order that is held: " + reason_of(row)});
    }
    return parcel;
  }

 private:
  void add_customer(Parcel& parcel, const LedgerItem& item) {
    const ParcelHead& head = workroom_.shop().packing;
    if (head.name && parcel.customer.empty()) parcel.customer = workroom_.readable(item.customer);
    const std::string address = head.address ? workroom_.readable(ledger_.line(item.line)->address) : "";
    if (!address.empty() && std::ranges::find(parcel.addresses, address) == parcel.addresses.end())
      parcel.addresses.push_back(address);
    const std::string note = workroom_.readable(item.note);
    if (!note.empty() && std::ranges::find(parcel.notes, note) == parcel.notes.end()) parcel.notes.push_back(note);
  }
  ParcelItem ready(const LedgerItem& item) {
    ParcelItem piece{with_check(item.number), meaning_of(item.words, workroom_.cleaning()),
                     stand_text(ledger_, item, makes_stands_)};
    Result<Artwork> artwork = artwork_of(workroom_, typesetter_, ledger_, item);
    if (artwork.ok()) {
      piece.artwork = *std::move(artwork);
    } else {
      piece.no_picture = "No picture: " + artwork.fault().what;
      account_.warnings.push_back(with_check(item.number) + " has no picture: " + describe(artwork.fault()));
    }
    return piece;
  }

  Workroom& workroom_;
  Ledger& ledger_;
  Account& account_;
  Typesetter typesetter_;
  bool makes_stands_;
};

MaybeFault unknown_order(Ledger& ledger, const std::string& order) {
  if (!ledger.items_of_order(order).empty()) return std::nullopt;
  return Fault{"there is no order " + order, "", "the ledger does not know it", "Look at the list: ordinatio list"};
}

/// Ends a command that finds nothing ready.
MaybeFault nothing_ready(Account& account) {
  account.told.emplace_back("nothing is engraved and not packed yet");
  return std::nullopt;
}

}  // namespace

Result<Account> run_packing(const Shop& shop, const PackingOptions& options) {
  return from_ledger(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    Workroom workroom(shop);
    Gathering gathering(workroom, ledger, account);
    std::vector<Parcel> parcels;
    std::size_t pieces = 0, open = 0;
    for (const std::string& order : options.orders.empty() ? orders_to_pack(ledger) : options.orders) {
      if (auto fault = unknown_order(ledger, order)) return fault;
      if (std::ranges::find(parcels, order, &Parcel::order) != parcels.end()) continue;
      Parcel parcel = gathering.parcel_of(order);
      pieces += parcel.items.size();
      open += std::ranges::any_of(parcel.missing, [](const MissingItem& item) { return !item.was_packed; }) ? 1 : 0;
      if (parcel.items.empty())
        account.warnings.push_back("nothing of order " + order + " is engraved and not packed yet");
      parcels.push_back(std::move(parcel));
    }
    if (parcels.empty()) return nothing_ready(account);
    const Result<PackingList> list = write_packing_list(parcels, shop.name, workroom.fonts(), options.paper);
    if (!list.ok()) return list.fault();
    account.told.push_back(counted(parcels.size(), "order") + ", " + counted(pieces, "piece") + " to pack" +
                           (open == 0 ? "" : "; of " + counted(open, "order") + " something is still missing"));
    return deliver_paper(options.out, "packing", list->pdf, list->ink, options.paper, account);
  });
}

Result<Account> run_labels(const Shop& shop, const LabelOptions& options) {
  return from_ledger(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const Result<std::vector<LedgerItem>> items = items_to_pack(ledger, options.items);
    if (!items.ok()) return items.fault();
    if (items->empty()) return nothing_ready(account);
    std::vector<LabelItem> wanted;
    const Workroom workroom(shop);
    for (const LedgerItem& item : *items)
      wanted.push_back({with_check(item.number), meaning_of(item.words, workroom.cleaning())});
    const Result<Labels> labels = write_labels(wanted, shop.labels, options.first, shop.name, workroom.fonts());
    if (!labels.ok()) return labels.fault();
    account.told.push_back(counted(wanted.size(), "label"));
    return deliver_paper(options.out, "labels", labels->pdf, labels->ink, shop.labels.paper, account);
  });
}

}  // namespace ordinatio::inline shop
