#include <algorithm>

#include "shop/bookings.h"
#include "shop/piece_glass.h"
#include "shop/recompose.h"

namespace ordinatio {
namespace {

/// A bed that was interrupted, from what is booked of it to the sheet of what is left.
class Resume {
 public:
  Resume(const Shop& shop, Ledger& ledger, const ResumeOptions& options, Account& account)
      : shop_(shop), ledger_(ledger), options_(options), account_(account), workroom_(shop) {}
  MaybeFault run();

 private:
  MaybeFault book(const LedgerSheet& sheet);
  Result<Sheet> sheet_of_the_rest(const Manifest& manifest, const std::vector<LedgerPlacement>& rest);
  MaybeFault write_rest(const LedgerSheet& sheet, const std::vector<LedgerPlacement>& rest);

  const Shop& shop_;
  Ledger& ledger_;
  const ResumeOptions& options_;
  Account& account_;
  Workroom workroom_;
};

MaybeFault Resume::book(const LedgerSheet& sheet) {
  const auto done = placements_in(ledger_, sheet, options_.done, "--done");
  if (!done) return done.fault();
  if (!options_.spoiled.empty() && options_.reason.empty()) {
    return Fault{"there is no reason", "--reason", "", "Say what happened: the pieces are written off with it"};
  }
  const auto lost = placements_in(ledger_, sheet, options_.spoiled, "--spoiled");
  if (!lost) return lost.fault();
  for (const LedgerPlacement& placement : *lost) {
    if (std::ranges::find(*done, placement.pocket, &LedgerPlacement::pocket) != done->end()) {
      return Fault{"pocket " + std::to_string(placement.pocket) + " is both done and spoiled", "--spoiled", "",
                   "Name it once"};
    }
  }
  for (const LedgerPlacement& placement : *done) ledger_.mark_engraved(placement);
  for (const LedgerPlacement& placement : *lost) {
    ledger_.spoil(placement, options_.reason);
    account_.told.push_back(named_with_words(*ledger_.item(placement.item)) + " is spoiled; the next day has it first");
  }
  account_.told.push_back(sheet.name + ": " + std::to_string(done->size()) + " engraved, " +
                          std::to_string(lost->size()) + " spoiled, " +
                          std::to_string(still_on(ledger_, sheet).size()) + " left");
  return std::nullopt;
}

Result<Sheet> Resume::sheet_of_the_rest(const Manifest& manifest, const std::vector<LedgerPlacement>& rest) {
  Typesetter typesetter(workroom_.fonts());
  std::vector<SheetItem> items;
  std::vector<int> pockets;
  const auto not_engraved = pieces_not_engraved(workroom_);
  for (const LedgerPlacement& placement : rest) {
    const Result<ManifestItem> before = find_item(manifest, ledger_.item(placement.item)->number);
    if (!before) return before.fault();
    if (auto fault = check_lying(not_engraved, before->piece.id, before->item.id)) return *std::move(fault);
    Result<SheetItem> item = recompose(workroom_, typesetter, manifest, *before, std::nullopt);
    if (!item) return item.fault();
    items.push_back(*std::move(item));
    pockets.push_back(placement.pocket);
  }
  const int number = ledger_.next_sheet_number();
  Result<Sheet> sheet = build_sheet(frame_of(manifest), std::move(items), numbered("rest-", number), number, pockets);
  if (!sheet) return sheet;
  sheet->designs = manifest.design_checksums;
  sheet->date = manifest.date;
  sheet->remake_of = manifest.name;
  return sheet;
}

MaybeFault Resume::write_rest(const LedgerSheet& sheet, const std::vector<LedgerPlacement>& rest) {
  const Result<Manifest> manifest = manifest_of(shop_, sheet);
  if (!manifest) return manifest.fault();
  if (manifest->pockets.empty()) {
    return Fault{"there is one piece, laid by hand", sheet.name, "nothing of it is done", "Run the same sheet again"};
  }
  Result<Sheet> left = sheet_of_the_rest(*manifest, rest);
  if (!left) return left.fault();
  SheetToBook made{*std::move(left), LedgerSheet::Kind::rest, sheet.number, {}};
  account_.sheets = 1, account_.items_set = made.sheet.items.size();
  for (std::size_t i = 0; i < rest.size(); ++i) {
    const Artwork& artwork = made.sheet.items[i].artwork;
    made.placements.push_back({rest[i].item, rest[i].pocket, rest[i].blank, artwork.hash, false});
    ledger_.withdraw(rest[i], "it goes on with " + made.sheet.name, BlankFate::free);
  }
  auto files = write_and_book(workroom_, ledger_, made, sheets_folder(shop_, options_.out));
  if (!files) return files.fault();
  account_.files = *std::move(files);
  return std::nullopt;
}

MaybeFault Resume::run() {
  const auto sheet = sheet_meant(ledger_, options_.sheet);
  if (!sheet) return sheet.fault();
  if (sheet->kind == LedgerSheet::Kind::stands) {
    return Fault{"stands are not booked one by one", sheet->name, "",
                 "Run the sheet's other pockets from its own file"};
  }
  if (auto fault = book(*sheet)) return fault;
  const std::vector<LedgerPlacement> rest = still_on(ledger_, *sheet);
  if (!rest.empty()) return write_rest(*sheet, rest);
  ledger_.commit();
  return std::nullopt;
}

}  // namespace

Result<Account> run_resume(const Shop& shop, const ResumeOptions& options) {
  return guarded([&]() -> Result<Account> {
    const auto ledger = open_book(shop, options.call, Ledger::Access::write);
    if (!ledger) return ledger.fault();
    Account account;
    (*ledger)->begin("engraving");
    if (auto fault = Resume(shop, **ledger, options, account).run()) return *std::move(fault);
    return account;
  });
}

}  // namespace ordinatio
