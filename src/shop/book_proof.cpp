#include <algorithm>

#include "base/account.h"
#include "intake/held_rows.h"
#include "orders/orders.h"
#include "shop/book_day.h"
#include "shop/proof.h"
#include "shop/proving.h"
#include "shop/samples.h"
#include "shop/taking_in.h"
#include "shop/told_languages.h"

namespace ordinatio {
namespace {

MaybeFault check_wanted(Ledger& ledger, const ProofOptions& options) {
  for (const std::string& number : options.items) {
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

/// What was shown is what may be said yes to, on the very piece that it was shown on.
MaybeFault note_proof(Ledger& ledger, const Design& design, const ProvedItem& proved) {
  const LedgerItem item = *ledger.item_numbered(proved.id);
  const bool waits = item.held_by == "person" || item.held_by == "question";
  if (proved.set.held) {
    if (!waits) ledger.set_state(item, ItemState::held, describe(*proved.set.held), "program");
    return std::nullopt;
  }
  const Artwork& artwork = *proved.set.artwork;
  if (proved.no_bed && !waits && !design.approval) {
    ledger.set_state(item, ItemState::held, describe(*proved.no_bed), "program");
    ledger.set_proofed(*ledger.item(item.id), artwork.hash);
    return std::nullopt;
  }
  const bool is_approved = item.state == ItemState::approved && item.approved_hash == artwork.hash;
  // A spoiled one waits to be made again as it was, unless that needs a yes first.
  const bool as_it_was = item.state == ItemState::spoiled && (!design.approval || item.approved_hash == artwork.hash);
  if (!waits && !is_approved && !as_it_was) {
    ledger.set_state(item, design.approval ? ItemState::proofed : ItemState::ready,
                     design.approval ? "it waits for the customer's yes" : "");
  }
  ledger.set_proofed(item, artwork.hash);
  if (!design.approval || artwork.blank.id.empty()) return std::nullopt;
  return ledger.pin(*ledger.item(item.id), artwork.blank.id);
}

MaybeFault prove(const Shop& shop, Ledger& ledger, const ProofOptions& options, const Progress& progress,
                 Account& account) {
  if (auto fault = check_wanted(ledger, options)) return fault;
  Workroom workroom(shop);
  const Result<std::optional<FreePieces>> pieces = pieces_of_book(workroom, ledger, options.blanks, account);
  if (!pieces.ok()) return pieces.fault();
  std::vector<Order> orders = orders_of(ledger.waiting_items());
  tell_languages(orders, ledger, workroom);
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
  if (items.empty()) {
    account.told.emplace_back("Nothing waits to be proved");
    return std::nullopt;
  }
  for (const ProvedItem& item : items) {
    account_for(account, item);
    const std::string name = workroom.design_of(*item.order);
    if (!workroom.has_design(name)) continue;
    const Result<const Station*> station = workroom.station(name);
    if (!station.ok()) return station.fault();
    if (auto fault = note_proof(ledger, (*station)->design, item)) return fault;
  }
  // The pages first: a proof that is written down and was never made could be said yes to.
  return deliver_proofs(workroom, items, options, account, progress);
}

}  // namespace

Result<Account> proof_from_book(const Shop& shop, const ProofOptions& options, const Progress& progress) {
  std::optional<Orders> orders;
  if (!options.orders.empty()) {
    Result<Orders> read = read_orders(options.orders, shop.orders, Repeats::are_lines);
    if (!read.ok()) return read.fault();
    if (auto fault = refuse_samples(*read, options.orders.filename().string(), options.call)) return *std::move(fault);
    orders = *std::move(read);
  }
  return in_book(
      shop, options.call, "proof",
      [&](Ledger& ledger, Account& account) {
        if (orders) take_export_in(shop, ledger, *orders, options.orders, "", account);
        tell_held_rows(ledger, account);
        tell_questions(ledger, account);
        return prove(shop, ledger, options, progress, account);
      },
      orders ? orders->checksum : "");
}

}  // namespace ordinatio
