#include "shop/fresh_piece.h"

#include <algorithm>

#include "bed/item_number.h"
#include "design/layers.h"
#include "intake/ledger_words.h"
#include "shop/ledger_access.h"
#include "shop/ledger_pieces.h"
#include "shop/piece_lie.h"
#include "shop/recompose.h"
#include "shop/told_languages.h"

namespace ordinatio::inline shop {
namespace {

/// Whether all of the artwork's ink lies in the clear area of a design laid on another piece.
bool goes_on(const Artwork& artwork, const LaidDesign& laid) {
  return std::ranges::all_of(artwork.layers, [&](const Layer& layer) {
    return layer.operation == Operation::guide ||
           distance_outside(laid.clear_area, layer.path, is_filled(layer.operation)) <= edge_slack;
  });
}

/// One item on its way to another piece.
class FreshPiece {
 public:
  FreshPiece(Workroom& workroom, Ledger& ledger, const PieceSearch& search, Account& account)
      : workroom_(workroom), ledger_(ledger), search_(search), account_(account) {}
  Result<SheetItem> find(const SheetItem& was);

 private:
  std::optional<SheetItem> as_it_was(const SheetItem& was, const Station& station, const Blanks& pieces);
  Result<SheetItem> set_anew(const FreePieces& pieces);

  Workroom& workroom_;
  Ledger& ledger_;
  const PieceSearch& search_;
  Account& account_;
};

Result<SheetItem> FreshPiece::find(const SheetItem& was) {
  const LedgerItem& item = search_.item;
  Account unsaid;  // how the pieces were read is the day's news
  auto pieces = pieces_of_ledger(workroom_, ledger_, {}, unsaid);
  if (!pieces.ok()) return pieces.fault();
  if (!*pieces) {
    return Fault{"no pieces are measured any more", item.number, "it was engraved on a measured piece",
                 "Write [blanks] file = \"blanks.csv\" in shop.toml"};
  }
  const std::string wanted = search_.blank.empty() ? item.pinned : search_.blank;
  const auto others = [&](const BlankRow& row) {
    const auto kept = (*pieces)->reserved.find(row.blank.id);
    return (!wanted.empty() && row.blank.id != wanted) ||
           (kept != (*pieces)->reserved.end() && kept->second != item.number);
  };
  std::erase_if((*pieces)->blanks.rows, others);
  if ((*pieces)->blanks.rows.empty()) {
    return Fault{wanted.empty() ? "no piece is free" : "blank " + wanted + " is not free", item.number, "",
                 "Measure more pieces into the blanks' file, or name another with --blank"};
  }
  if (search_.is_exact) {
    if (auto exact = as_it_was(was, *workroom_.opened(was.item.design), (*pieces)->blanks)) return *std::move(exact);
  }
  Result<SheetItem> anew = set_anew(**pieces);
  if (anew.ok() && search_.is_exact) {
    account_.warnings.push_back(with_check(item.number) +
                                ": no free piece takes it exactly as it was; it is set anew on " +
                                anew->artwork.blank.id + ", with capitals of " + mm_text(anew->artwork.cap_height) +
                                ", before " + mm_text(was.artwork.cap_height));
  }
  return anew;
}

/// On a piece on which it comes out the same by itself; else on one that takes its ink.
std::optional<SheetItem> FreshPiece::as_it_was(const SheetItem& was, const Station& station, const Blanks& pieces) {
  Typesetter typesetter(workroom_.fonts());
  std::vector<LaidDesign> laid;
  for (const BlankRow& row : pieces.rows) {
    const auto blank = as_wanted(row, station, !search_.blank.empty());
    if (!blank) continue;
    Result<LaidDesign> on_piece = laid_on(station.design, *blank);
    if (on_piece.ok()) laid.push_back(*std::move(on_piece));
  }
  SheetItem again = was;
  for (const LaidDesign& on_piece : laid) {
    Result<Artwork> artwork = compose(
        on_piece, {was.item.inscription, search_.date, was.item.number, was.item.told, was.item.setting}, typesetter);
    if (!artwork.ok() || artwork->hash != was.artwork.hash) continue;
    account_.told.push_back("It goes on blank " + on_piece.blank.id + " exactly as it was");
    again.artwork = *std::move(artwork);
    return again;
  }
  for (const LaidDesign& on_piece : laid) {
    if (!goes_on(was.artwork, on_piece)) continue;
    again.artwork = moved_to(was.artwork, on_piece);
    account_.told.push_back("It goes on blank " + on_piece.blank.id + " exactly as it was");
    const Blank& before = *again.artwork.set_for;
    if (!before.chips.empty() || !before.kept_clear.empty()) {
      account_.warnings.push_back(with_check(was.item.id) + " keeps the room that was left for what is on blank " +
                                  before.id + "; give its words again by --text to have it set for this one");
    }
    return again;
  }
  return std::nullopt;
}

Result<SheetItem> FreshPiece::set_anew(const FreePieces& pieces) {
  const LedgerItem& item = search_.item;
  Order order = order_of(item);
  order.blanks.clear();  // the pieces are only those that it may have
  if (!search_.blank.empty()) order.blanks = {search_.blank};
  std::vector<Order> orders{order};
  tell_languages(orders, ledger_, workroom_);
  if (auto fault = workroom_.open_designs(orders)) return *std::move(fault);
  Composer composer(workroom_, search_.date, 0);
  PieceChoice choice(workroom_, pieces.blanks, composer.typesetters(), search_.date);
  choice.save_none();
  std::vector<std::string> notes;
  const std::vector<PlacedItem> placed = choice.choose(orders, notes);
  const std::vector<SetOrder> set = set_placed(composer, workroom_, orders, placed);
  if (set.front().held) return *set.front().held;
  return SheetItem{{item.number,
                    workroom_.design_of(order),
                    set.front().inscription,
                    item.source,
                    {},
                    item.customer,
                    orders.front().told,
                    order.setting},
                   *set.front().artwork,
                   0,
                   {}};
}

}  // namespace

Result<SheetItem> on_fresh_piece(Workroom& workroom, Ledger& ledger, const PieceSearch& search, const SheetItem& was,
                                 Account& account) {
  return FreshPiece(workroom, ledger, search, account).find(was);
}

}  // namespace ordinatio::inline shop
