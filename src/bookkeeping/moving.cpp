#include <algorithm>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "bookkeeping/too_late.h"
#include "shop/bookings.h"
#include "shop/fresh_piece.h"
#include "shop/ledger_access.h"
#include "shop/ledger_pieces.h"
#include "shop/renewal.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

using PlacedState = LedgerPlacement::State;

/// An item on its way to another pocket of its sheet, or to another piece in its pocket.
class Move {
 public:
  Move(const Shop& shop, Ledger& ledger, const MoveOptions& options, Account& account, Delivery& delivery)
      : shop_(shop), ledger_(ledger), options_(options), account_(account), delivery_(delivery) {}
  MaybeFault run();

 private:
  MaybeFault find();
  MaybeFault may_have_pocket(const Manifest& manifest);
  MaybeFault may_have_piece();
  MaybeFault to_pocket(Workroom& workroom, const Manifest& manifest);
  MaybeFault to_piece(Workroom& workroom, const Manifest& manifest);
  void tell_pocket(const LedgerPlacement& lies, int before);

  const Shop& shop_;
  Ledger& ledger_;
  const MoveOptions& options_;
  Account& account_;
  Delivery& delivery_;
  LedgerItem item_;
  LedgerPlacement lies_;
  LedgerSheet sheet_;
};

std::string pocket_text(int pocket) { return "pocket " + std::to_string(pocket); }

MaybeFault Move::find() {
  Result<LedgerItem> item = item_meant(ledger_, options_.call, options_.item, "Move");
  if (!item.ok()) return item.fault();
  item_ = *std::move(item);
  if (item_.state != ItemState::on_sheet) {
    return is_waiting(item_.state) ? not_on_sheet(item_) : too_late(ledger_, item_);
  }
  lies_ = *ledger_.placement_of(item_.id);
  sheet_ = *ledger_.sheet(lies_.sheet);
  if (lies_.pocket != 0) return std::nullopt;
  return Fault{"it lies in no pocket", item_.number, "it is laid by hand on " + sheet_.name,
               "Take it off: ordinatio take-off " + with_check(item_.number)};
}

MaybeFault Move::may_have_pocket(const Manifest& manifest) {
  const int wanted = *options_.pocket;
  const std::string what = "it cannot have " + pocket_text(wanted) + " of " + sheet_.name;
  if (std::ranges::find(manifest.pockets, wanted, &Pocket::number) == manifest.pockets.end()) {
    return Fault{what, "--pocket", "its bed has pockets 1 to " + std::to_string(manifest.pockets.size()),
                 "Name one of these"};
  }
  if (wanted == lies_.pocket) return Fault{"it lies there already", item_.number, "", "There is nothing to do"};
  for (const LedgerPlacement& there : ledger_.placements_on(sheet_.number)) {
    const bool is_settled = there.state == PlacedState::engraved || there.state == PlacedState::spoiled;
    if (there.pocket != wanted || !is_settled) continue;
    return Fault{what, "--pocket",
                 with_check(ledger_.item(there.item)->number) + " in it is " + std::string(name_of(there.state)),
                 "Name another pocket"};
  }
  return std::nullopt;
}

MaybeFault Move::may_have_piece() {
  const std::string& wanted = options_.piece;
  if (lies_.blank.empty()) {
    return Fault{"no piece can be named", "--piece", "the pieces of " + sheet_.name + " are not measured",
                 "Lay any piece into its pocket"};
  }
  if (wanted == lies_.blank) return Fault{"it is on that piece already", item_.number, "", "There is nothing to do"};
  if (auto fault = note_pieces(shop_, ledger_)) return fault;
  const auto piece = ledger_.blank(wanted);
  if (!piece) {
    return Fault{"there is no piece " + wanted, "--piece", "nothing of that name is measured",
                 "Look at the stock: ordinatio stock"};
  }
  if (piece->state == LedgerBlank::State::free) return std::nullopt;
  return Fault{"piece " + wanted + " is not free", "--piece",
               "it is " + std::string(name_of(piece->state)) +
                   (piece->item             ? ": item " + with_check(ledger_.item(*piece->item)->number) + " has it"
                    : piece->reason.empty() ? ""
                                            : ": " + piece->reason),
               "Name another piece"};
}

/// Where it lies now, and what is to be laid there.
void Move::tell_pocket(const LedgerPlacement& lies, int before) {
  const LedgerItem item = *ledger_.item(lies.item);
  account_.told.push_back(named_with_words(item) + " goes from " + pocket_text(before) + " to " +
                          pocket_text(lies.pocket) + " of " + sheet_.name);
  if (!lies.blank.empty()) {
    account_.warnings.push_back("Put piece " + lies.blank + " into " + pocket_text(lies.pocket) + " of " + sheet_.name +
                                ": it lay in " + pocket_text(before));
  }
}

MaybeFault Move::to_pocket(Workroom& workroom, const Manifest& manifest) {
  if (auto fault = may_have_pocket(manifest)) return fault;
  const std::vector<LedgerPlacement> before = still_on(ledger_, sheet_);
  ledger_.move_to_pocket(lies_, *options_.pocket);
  tell_pocket(*ledger_.placement_of(item_.id), lies_.pocket);
  bool is_shared = false;
  for (const LedgerPlacement& other : before) {
    if (other.pocket != *options_.pocket) continue;
    tell_pocket(*ledger_.placement_of(other.item), other.pocket);
    is_shared = true;
  }
  if (lies_.blank.empty() && !is_shared) {
    account_.warnings.push_back("Lay a piece into " + pocket_text(*options_.pocket) + " of " + sheet_.name + ": " +
                                pocket_text(lies_.pocket) + " needs none now");
  }
  return write_anew(workroom, ledger_, delivery_, sheet_,
                    item_.number + " goes from " + pocket_text(lies_.pocket) + " to " + pocket_text(*options_.pocket),
                    account_);
}

MaybeFault Move::to_piece(Workroom& workroom, const Manifest& manifest) {
  if (auto fault = may_have_piece()) return fault;
  const Result<Manifest> drawn = manifest_with(shop_, sheet_, item_.number);
  if (!drawn.ok()) return drawn.fault();
  const Result<ManifestItem> was = find_item(*drawn, item_.number);
  if (!was.ok()) return was.fault();
  Account unsaid;
  const PieceSearch search{item_, false, options_.piece, manifest.date};
  const Result<SheetItem> anew = on_fresh_piece(workroom, ledger_, search, {}, unsaid);
  if (!anew.ok()) return anew.fault();
  const Artwork& artwork = anew->artwork;
  const bool needs_approval = workroom.opened(anew->item.design)->design.approval;
  const NewPlacement now{item_.id, lies_.pocket, options_.piece, artwork.hash, needs_approval};
  if (auto fault = ledger_.move_to_piece(lies_, now)) {
    const std::string number = with_check(item_.number);
    fault->mend = "Let the customer see it on that piece: ordinatio take-off " + number + ", ordinatio pin " + number +
                  " " + options_.piece + ", ordinatio proof --item " + number;
    return fault;
  }
  account_.told.push_back(named_with_words(item_) + " goes from piece " + lies_.blank + " to " + options_.piece +
                          ", with capitals of " + mm_text(artwork.cap_height) + ", before " + mm_text(was->cap_height) +
                          "; " + lies_.blank + " is free again");
  account_.warnings.push_back("Put piece " + options_.piece + " into " + pocket_text(lies_.pocket) + " of " +
                              sheet_.name + ": " + lies_.blank + " lay there");
  return write_anew(workroom, ledger_, delivery_, sheet_,
                    item_.number + " goes from piece " + lies_.blank + " to " + options_.piece, account_, *anew);
}

MaybeFault Move::run() {
  if (auto fault = find()) return fault;
  const Result<Manifest> manifest = manifest_of(shop_, sheet_);
  if (!manifest.ok()) return manifest.fault();
  const Shop shop = shop_as_written(shop_, sheet_);
  Workroom workroom(shop);
  return options_.pocket ? to_pocket(workroom, *manifest) : to_piece(workroom, *manifest);
}

}  // namespace

Result<Account> run_move(const Shop& shop, const MoveOptions& options) {
  return in_ledger(shop, options.call, EntryKind::moving, [&](Ledger& ledger, Account& account, Delivery& delivery) {
    return Move(shop, ledger, options, account, delivery).run();
  });
}

}  // namespace ordinatio::inline bookkeeping
