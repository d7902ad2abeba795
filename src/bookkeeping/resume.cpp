#include <algorithm>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "bookkeeping/pockets.h"
#include "manifest/manifest.h"
#include "shop/bookings.h"
#include "shop/ledger_records.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

/// A bed that was interrupted, from what is booked of it to the sheet of what is left.
class Resume {
 public:
  Resume(const Shop& shop, Ledger& ledger, const ResumeOptions& options, Account& account, Delivery& delivery)
      : shop_(shop),
        ledger_(ledger),
        options_(options),
        account_(account),
        records_(shop, ledger, delivery),
        workroom_(shop) {}
  MaybeFault run();

 private:
  MaybeFault book(const LedgerSheet& sheet);
  MaybeFault write_rest(const LedgerSheet& sheet, const std::vector<LedgerPlacement>& rest);

  const Shop& shop_;
  Ledger& ledger_;
  const ResumeOptions& options_;
  Account& account_;
  LedgerRecords records_;
  Workroom workroom_;
};

MaybeFault Resume::book(const LedgerSheet& sheet) {
  const auto done = placements_in(ledger_, sheet, options_.done, "--done");
  if (!done.ok()) return done.fault();
  if (!options_.spoiled.empty() && options_.reason.empty()) {
    return Fault{"there is no reason", "--reason", "", "Say what happened: the pieces are written off with it"};
  }
  const auto lost = placements_in(ledger_, sheet, options_.spoiled, "--spoiled");
  if (!lost.ok()) return lost.fault();
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

MaybeFault Resume::write_rest(const LedgerSheet& sheet, const std::vector<LedgerPlacement>& rest) {
  const Result<Manifest> manifest = manifest_of(shop_, sheet);
  if (!manifest.ok()) return manifest.fault();
  if (manifest->pockets.empty()) {
    return Fault{"there is one piece, laid by hand", sheet.name, "nothing of it is done", "Run the same sheet again"};
  }
  const int number = ledger_.next_sheet_number();
  Result<Sheet> left = drawn_again(workroom_, ledger_, sheet, rest, numbered("rest-", number), number);
  if (!left.ok()) return left.fault();
  left->remake_of = sheet.name;
  SheetToBook made{*std::move(left), LedgerSheet::Kind::rest, sheet.number, {}};
  tell_setting(account_, made.sheet);
  account_.sheets = 1, account_.items_set = made.sheet.items.size();
  for (std::size_t i = 0; i < rest.size(); ++i) {
    const Artwork& artwork = made.sheet.items[i].artwork;
    made.placements.push_back({rest[i].item, rest[i].pocket, rest[i].blank, artwork.hash, false});
    ledger_.withdraw(rest[i], "it goes on with " + made.sheet.name, BlankFate::free);
  }
  return write_and_book(workroom_, records_, made, options_.out, account_);
}

MaybeFault Resume::run() {
  const auto sheet = sheet_meant(ledger_, options_.sheet);
  if (!sheet.ok()) return sheet.fault();
  if (sheet->kind == LedgerSheet::Kind::stands) {
    return Fault{"stands are not booked one by one", sheet->name, "",
                 "Run the sheet's other pockets from its own file"};
  }
  if (auto fault = book(*sheet)) return fault;
  const std::vector<LedgerPlacement> rest = still_on(ledger_, *sheet);
  return rest.empty() ? std::nullopt : write_rest(*sheet, rest);
}

}  // namespace

Result<Account> run_resume(const Shop& shop, const ResumeOptions& options) {
  return in_ledger(shop, options.call, EntryKind::engraving, [&](Ledger& ledger, Account& account, Delivery& delivery) {
    return Resume(shop, ledger, options, account, delivery).run();
  });
}

}  // namespace ordinatio::inline bookkeeping
