#include <algorithm>

#include "intake/held_rows.h"
#include "intake/intake.h"
#include "shop/book_access.h"
#include "shop/book_day.h"
#include "shop/ledger_pieces.h"
#include "shop/ledger_records.h"
#include "shop/taking_in.h"
#include "shop/told_languages.h"

namespace ordinatio {
namespace {

/// Whether only a person lets it go on.
bool waits_for_person(const LedgerItem& item) { return item.held_by == "person" || item.held_by == "question"; }

MaybeFault check_wanted(Ledger& ledger, const std::vector<std::string>& items) {
  for (const std::string& number : items) {
    const auto item = ledger.item_numbered(number);
    if (item && is_waiting(item->state)) continue;
    if (item) {
      return Fault{"item " + number + " is made already", "--item", "it is " + std::string(name_of(item->state)),
                   "Its sheet's PDF shows it"};
    }
    const auto nearest = ledger.nearest_number(number);
    return Fault{"there is no item " + number, "--item", "the ledger does not know it",
                 nearest ? "Did you mean " + *nearest + "?" : "Look at the list: ordinatio list"};
  }
  return std::nullopt;
}

}  // namespace

MaybeFault LedgerRecords::take_in(Workroom&, std::optional<ShopExport> given, const std::vector<std::string>& wanted,
                                  Account& account) {
  if (given) take_export_in(shop_, ledger_, given->orders, given->file, given->channel, account);
  tell_held_rows(ledger_, account);
  tell_questions(ledger_, account);
  return check_wanted(ledger_, wanted);
}

Result<std::optional<FreePieces>> LedgerRecords::pieces(Workroom& workroom, const std::filesystem::path& file,
                                                        Account& account) {
  return pieces_of_book(workroom, ledger_, file, account);
}

std::vector<Order> LedgerRecords::orders_to_prove(const Workroom& workroom, bool, Account&) {
  std::vector<Order> orders = orders_of(ledger_.waiting_items());
  tell_languages(orders, ledger_, workroom);
  return orders;
}

/// What was shown is what may be said yes to, on the very piece that it was shown on.
MaybeFault LedgerRecords::note_proof(const Design& design, const ProvedItem& proved) {
  const LedgerItem item = *ledger_.item_numbered(proved.id);
  const bool waits = waits_for_person(item);
  if (proved.set.held) {
    if (!waits) ledger_.set_state(item, ItemState::held, describe(*proved.set.held), "program");
    return std::nullopt;
  }
  const Artwork& artwork = *proved.set.artwork;
  if (proved.no_bed && !waits && !design.approval) {
    ledger_.set_state(item, ItemState::held, describe(*proved.no_bed), "program");
    ledger_.set_proofed(*ledger_.item(item.id), artwork.hash);
    return std::nullopt;
  }
  const bool is_approved = item.state == ItemState::approved && item.approved_hash == artwork.hash;
  // A spoiled one waits to be made again as it was, unless that needs a yes first.
  const bool as_it_was = item.state == ItemState::spoiled && (!design.approval || item.approved_hash == artwork.hash);
  if (!waits && !is_approved && !as_it_was) {
    ledger_.set_state(item, design.approval ? ItemState::proofed : ItemState::ready,
                      design.approval ? "it waits for the customer's yes" : "");
  }
  ledger_.set_proofed(item, artwork.hash);
  if (!design.approval || artwork.blank.id.empty()) return std::nullopt;
  return ledger_.pin(*ledger_.item(item.id), artwork.blank.id);
}

MaybeFault LedgerRecords::nothing_to_prove(Account& account) {
  account.told.emplace_back("Nothing waits to be proved");
  return std::nullopt;
}

}  // namespace ordinatio
