#include "bed/item_number.h"
#include "shop/bookings.h"
#include "shop/fresh_piece.h"
#include "shop/ledger_records.h"
#include "shop/recompose.h"
#include "shop/sheet_run.h"

namespace ordinatio::inline shop {
namespace {

/// Where the item was made last, well or not.
std::optional<LedgerPlacement> last_made(Ledger& ledger, std::int64_t item) {
  std::optional<LedgerPlacement> last;
  for (const LedgerPlacement& placement : ledger.placements_of(item)) {
    if (placement.state != LedgerPlacement::State::withdrawn) last = placement;
  }
  return last;
}

void write_off(Ledger& ledger, const LedgerItem& item, const LedgerPlacement& made, const std::string& why,
               Account& account) {
  if (made.state == LedgerPlacement::State::spoiled) return;
  const std::string reason = why.empty() ? "made again" : why;
  ledger.spoil(made, reason);
  account.told.push_back(with_check(item.number) + " of " + ledger.sheet(made.sheet)->name + " is written off" +
                         (made.blank.empty() ? "" : " with blank " + made.blank) + ": " + reason);
}

/// The item and where it was made last. Faults: no such item, it is not made yet.
struct MadeItem {
  LedgerItem item;
  LedgerPlacement made;
};
Result<MadeItem> made_item(Ledger& ledger, const RemakeOptions& options) {
  const auto item = item_meant(ledger, options.call, options.item, "Make again");
  if (!item.ok()) return item.fault();
  if (options.text && options.text->find_first_not_of(" \t\r\n") == std::string::npos) {
    return Fault{"there are no words", "--text", "", "Give the words to engrave; \\n begins a new line"};
  }
  const auto made = last_made(ledger, item->id);
  if (!made || item->state == ItemState::cancelled || (is_waiting(item->state) && item->state != ItemState::spoiled)) {
    return Fault{"it is not made yet", item->number, "it is " + std::string(name_of(item->state)),
                 "The next day's sheets have it; ordinatio first " + with_check(item->number) + " puts it first"};
  }
  return MadeItem{*item, *made};
}

/// That of the sheet that --sheet names, by its file or as the ledger knows it; else of the one that the item was made on.
Result<Manifest> manifest_named(const Shop& shop, Ledger& ledger, const RemakeOptions& options, const MadeItem& made) {
  const LedgerSheet made_on = *ledger.sheet(made.made.sheet);
  if (options.manifest.empty()) return manifest_with(shop, made_on, made.item.number);
  std::error_code error;
  if (std::filesystem::exists(options.manifest, error)) return open_manifest(shop, options.manifest);
  const auto sheet = sheet_meant(ledger, options.manifest.string());
  return sheet.ok() ? manifest_with(shop, *sheet, made.item.number) : open_manifest(shop, options.manifest);
}

/// With the words and the setting that the ledger has. The design is as it was, unless another is wished since.
void set_as_wished_now(const Shop& shop, const LedgerItem& item, ToRemake& wanted) {
  wanted.words = item.words;
  Item& before = wanted.before.item;
  const Order order = order_of(item);
  if (order.setting.design != before.setting.design)
    before.design = order.design.empty() ? shop.default_design : order.design;
  before.setting = order.setting;
}

}  // namespace

Result<std::optional<ToRemake>> LedgerRecords::to_remake(Workroom&, const RemakeOptions& options, Account& account) {
  Result<MadeItem> found = made_item(ledger_, options);
  if (!found.ok()) return found.fault();
  const LedgerItem& item = found->item;
  account.told.push_back(named_with_words(item));
  write_off(ledger_, item, found->made, options.reason, account);
  if (options.text) {
    ledger_.set_words(*ledger_.item(item.id), *options.text);
    account.told.push_back("its words are now " + words_in_line(*options.text));
  }
  if (options.later && !options.blank.empty()) {
    return Fault{"--blank has no use with --later", item.number, "the piece is chosen on the day",
                 "Pin it: ordinatio pin " + with_check(item.number) + " " + options.blank};
  }
  if (options.later) {
    account.told.emplace_back("It is first in line on the next day's sheets");
    return std::optional<ToRemake>();
  }
  found->item = *ledger_.item(item.id);
  Result<Manifest> manifest = manifest_named(shop_, ledger_, options, *found);
  if (!manifest.ok()) return manifest.fault();
  const Result<ManifestItem> before = find_item(*manifest, item.number);
  if (!before.ok()) return before.fault();
  ToRemake wanted{*std::move(manifest), *before, options.item};
  const bool is_exact = !options.text && item.words == before->item.inscription.original &&
                        item.setting == setting_text(before->item.setting);
  if (!is_exact) set_as_wished_now(shop_, item, wanted);
  wanted.item = item.id, wanted.sheet = found->made.sheet;
  return std::optional(std::move(wanted));
}

Result<SheetItem> LedgerRecords::on_piece(Workroom& workroom, const ToRemake& wanted, const RemakeOptions& options,
                                          SheetItem again, Account& account) {
  const bool is_measured = !wanted.before.piece.id.empty();
  if (!is_measured && !options.blank.empty()) {
    return Fault{"no piece can be named", "--blank", "the sheet's pieces are not measured", "Leave --blank out"};
  }
  if (!is_measured) return again;
  const PieceSearch search{*ledger_.item(wanted.item), !wanted.words, options.blank, wanted.manifest.date};
  return on_fresh_piece(workroom, ledger_, search, again, account);
}

std::string LedgerRecords::remake_name(const std::string&, int number) { return numbered("remake-", number); }

}  // namespace ordinatio::inline shop
