#include <algorithm>

#include "base/account.h"
#include "design/layers.h"
#include "manifest/manifest.h"
#include "shop/book_day.h"
#include "shop/bookings.h"
#include "shop/recompose.h"
#include "shop/remake.h"
#include "shop/told_languages.h"

namespace ordinatio {
namespace fs = std::filesystem;
namespace {

/// Where the item was made last, well or not.
std::optional<LedgerPlacement> last_made(Ledger& ledger, std::int64_t item) {
  std::optional<LedgerPlacement> last;
  for (const LedgerPlacement& placement : ledger.placements_of(item)) {
    if (placement.state != LedgerPlacement::State::withdrawn) last = placement;
  }
  return last;
}

/// Whether all of the artwork's ink lies in the clear area of a design laid on another piece.
bool goes_on(const Artwork& artwork, const LaidDesign& laid) {
  return std::ranges::all_of(artwork.layers, [&](const Layer& layer) {
    return layer.operation == Operation::guide ||
           distance_outside(laid.clear_area, layer.path, is_filled(layer.operation)) <= edge_slack;
  });
}

/// One item made again.
class BookRemake {
 public:
  BookRemake(const Shop& shop, Ledger& ledger, const RemakeOptions& options, Account& account)
      : shop_(shop), ledger_(ledger), options_(options), account_(account), workroom_(shop) {}
  MaybeFault run();

 private:
  MaybeFault write_off(const LedgerItem& item, const LedgerPlacement& made);
  Result<SheetItem> compose_again(const LedgerItem& item, const ManifestItem& before);
  Result<SheetItem> on_fresh_piece(const LedgerItem& item, SheetItem was);
  std::optional<SheetItem> as_it_was(const SheetItem& was, const Station& station, const Blanks& pieces);
  Result<Manifest> manifest_named(const LedgerSheet& made_on, const std::string& item);
  Result<SheetItem> set_anew(const LedgerItem& item, const FreePieces& pieces);
  MaybeFault make(const LedgerItem& item, const LedgerPlacement& made);
  [[nodiscard]] bool is_exact(const LedgerItem& item) const { return !options_.text && item.words == engraved_words_; }

  const Shop& shop_;
  Ledger& ledger_;
  const RemakeOptions& options_;
  Account& account_;
  Workroom workroom_;
  Manifest manifest_;
  std::string engraved_words_;  // as the customer's words were when it was engraved
};

MaybeFault BookRemake::write_off(const LedgerItem& item, const LedgerPlacement& made) {
  if (made.state == LedgerPlacement::State::spoiled) return std::nullopt;
  const std::string reason = options_.reason.empty() ? "made again" : options_.reason;
  ledger_.spoil(made, reason);
  account_.told.push_back(with_check(item.number) + " of " + ledger_.sheet(made.sheet)->name + " is written off" +
                          (made.blank.empty() ? "" : " with blank " + made.blank) + ": " + reason);
  return std::nullopt;
}

MaybeFault BookRemake::run() {
  const auto item = item_meant(ledger_, options_.call, options_.item, "Make again");
  if (!item.ok()) return item.fault();
  if (options_.text && options_.text->find_first_not_of(" \t\r\n") == std::string::npos) {
    return Fault{"there are no words", "--text", "", "Give the words to engrave; \\n begins a new line"};
  }
  const auto made = last_made(ledger_, item->id);
  if (!made || item->state == ItemState::cancelled || (is_waiting(item->state) && item->state != ItemState::spoiled)) {
    return Fault{"it is not made yet", item->number, "it is " + std::string(name_of(item->state)),
                 "The next day's sheets have it; ordinatio first " + with_check(item->number) + " puts it first"};
  }
  account_.told.push_back(named_with_words(*item));
  if (auto fault = write_off(*item, *made)) return fault;
  if (options_.text) {
    ledger_.set_words(*ledger_.item(item->id), *options_.text);
    account_.told.push_back("its words are now " + words_in_line(*options_.text));
  }
  if (options_.later && !options_.blank.empty()) {
    return Fault{"--blank has no use with --later", item->number, "the piece is chosen on the day",
                 "Pin it: ordinatio pin " + with_check(item->number) + " " + options_.blank};
  }
  if (!options_.later) return make(*ledger_.item(item->id), *made);
  account_.told.emplace_back("It is first in line on the next day's sheets");
  return std::nullopt;
}

Result<SheetItem> BookRemake::compose_again(const LedgerItem& item, const ManifestItem& before) {
  Typesetter typesetter(workroom_.fonts());
  const std::optional<std::string> words = is_exact(item) ? std::nullopt : std::optional(item.words);
  Result<SheetItem> again = recompose(workroom_, typesetter, manifest_, before, words);
  if (again.ok() && before.piece.id.empty() && !options_.blank.empty()) {
    return Fault{"no piece can be named", "--blank", "the sheet's pieces are not measured", "Leave --blank out"};
  }
  if (!again.ok() || before.piece.id.empty()) return again;
  return on_fresh_piece(item, *std::move(again));
}

/// What was engraved on a measured piece needs another one: a free one that takes it as it was; or, where none does or the
/// words are others, the one on which it comes out best.
Result<SheetItem> BookRemake::on_fresh_piece(const LedgerItem& item, SheetItem was) {
  Account unsaid;  // how the pieces were read is the day's news
  auto pieces = pieces_of_book(workroom_, ledger_, {}, unsaid);
  if (!pieces.ok()) return pieces.fault();
  if (!*pieces) {
    return Fault{"no pieces are measured any more", item.number, "it was engraved on a measured piece",
                 "Write [blanks] file = \"blanks.csv\" in shop.toml"};
  }
  const std::string wanted = options_.blank.empty() ? item.pinned : options_.blank;
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
  const Result<const Station*> station = workroom_.station(was.item.design);
  if (!station.ok()) return station.fault();
  if (is_exact(item)) {
    if (auto exact = as_it_was(was, **station, (*pieces)->blanks)) return *std::move(exact);
  }
  Result<SheetItem> anew = set_anew(item, **pieces);
  if (anew.ok() && is_exact(item)) {
    account_.warnings.push_back(with_check(item.number) +
                                ": no free piece takes it exactly as it was; it is set anew on " +
                                anew->artwork.blank.id + ", with capitals of " + mm_text(anew->artwork.cap_height) +
                                ", before " + mm_text(was.artwork.cap_height));
  }
  return anew;
}

/// On a piece on which it comes out the same by itself; else on one that takes its ink.
std::optional<SheetItem> BookRemake::as_it_was(const SheetItem& was, const Station& station, const Blanks& pieces) {
  Typesetter typesetter(workroom_.fonts());
  std::vector<LaidDesign> laid;
  for (const BlankRow& row : pieces.rows) {
    const auto blank = as_wanted(row, station, !options_.blank.empty());
    if (!blank) continue;
    if (Result<LaidDesign> on_piece = laid_on(station.design, *blank); on_piece.ok())
      laid.push_back(*std::move(on_piece));
  }
  SheetItem again = was;
  for (const LaidDesign& on_piece : laid) {
    Result<Artwork> artwork =
        compose(on_piece, {was.item.inscription, manifest_.date, was.item.number, was.item.told}, typesetter);
    if (!artwork || artwork->hash != was.artwork.hash) continue;
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

Result<SheetItem> BookRemake::set_anew(const LedgerItem& item, const FreePieces& pieces) {
  Order order = order_of(item);
  order.blanks.clear();  // the pieces are only those that it may have
  if (!options_.blank.empty()) order.blanks = {options_.blank};
  std::vector<Order> orders{order};
  tell_languages(orders, ledger_, workroom_);
  if (auto fault = workroom_.open_designs(orders)) return *std::move(fault);
  Composer composer(workroom_, manifest_.date, 0);
  PieceChoice choice(workroom_, pieces.blanks, composer.typesetters(), manifest_.date);
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
                    orders.front().told},
                   *set.front().artwork,
                   0,
                   {}};
}

/// That of the sheet that --sheet names, by its file or as the book knows it; else of the one that the item was made on.
Result<Manifest> BookRemake::manifest_named(const LedgerSheet& made_on, const std::string& item) {
  if (options_.manifest.empty()) return manifest_with(shop_, made_on, item);
  std::error_code error;
  if (std::filesystem::exists(options_.manifest, error)) return open_manifest(shop_, options_.manifest);
  const auto sheet = sheet_meant(ledger_, options_.manifest.string());
  return sheet.ok() ? manifest_with(shop_, *sheet, item) : open_manifest(shop_, options_.manifest);
}

MaybeFault BookRemake::make(const LedgerItem& item, const LedgerPlacement& made) {
  const LedgerSheet before_sheet = *ledger_.sheet(made.sheet);
  Result<Manifest> manifest = manifest_named(before_sheet, item.number);
  if (!manifest.ok()) return manifest.fault();
  manifest_ = *std::move(manifest);
  const Result<ManifestItem> before = find_item(manifest_, item.number);
  if (!before.ok()) return before.fault();
  engraved_words_ = before->item.inscription.original;
  Result<SheetItem> again = compose_again(item, *before);
  if (!again.ok()) return again.fault();
  const Artwork& artwork = again->artwork;
  account_.sheets = account_.items_set = 1;
  account_.smallest_cap_height = artwork.cap_height;
  account_.smallest_item = item.number;
  account_.smallest_is_numbered = true;
  const std::string design = again->item.design;
  const Result<const Station*> station = workroom_.station(design);
  if (!station.ok()) return station.fault();
  NewPlacement placement{item.id, 0, artwork.blank.id, artwork.hash, (*station)->design.approval};

  const int number = ledger_.next_sheet_number();
  const std::string name = numbered("remake-", number);
  Result<Sheet> sheet =
      options_.corners.empty()
          ? lay_remake_in_pocket(manifest_, *std::move(again), *before, options_, name, number, account_)
          : lay_remake_by_hand(manifest_, *std::move(again), options_, name, account_);
  if (!sheet.ok()) return sheet.fault();
  placement.pocket = sheet->items.front().pocket;
  sheet->number = number;
  sheet->designs = {{design, (*station)->design.checksum}};
  sheet->date = manifest_.date;
  sheet->remake_of = manifest_.name;
  tell_setting(account_, *sheet);
  return write_and_book(workroom_, ledger_, {*std::move(sheet), LedgerSheet::Kind::remake, made.sheet, {placement}},
                        sheets_folder(shop_, options_.out), account_);
}

}  // namespace

MaybeFault write_and_book(const Workroom& workroom, Ledger& ledger, const SheetToBook& made, const fs::path& folder,
                          Account& account) {
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(folder, sheets_stem, Outbox::Earlier::of_the_name);
  if (!outbox.ok()) return outbox.fault();
  if (auto fault = put_sheet(**outbox, workroom, made.sheet, {})) return *std::move(fault);
  NewSheet sheet{{made.sheet.number,
                  made.sheet.name,
                  made.kind,
                  made.of,
                  made.sheet.date,
                  folder_in_book(workroom.shop(), folder),
                  false,
                  {}},
                 made.placements,
                 {}};
  return book_sheets(workroom.shop(), ledger, **outbox, {std::move(sheet)}, account);
}

Result<bool> is_in_book(const Shop& shop, const RemakeOptions& options) {
  if (!has_book(shop)) return false;
  const Result<std::string> number = item_typed(options.item);
  if (!number.ok()) return number.fault();
  return guarded([&]() -> Result<bool> {
    const auto ledger = open_book(shop, options.call, Ledger::Access::read);
    if (!ledger.ok()) return ledger.fault();
    // An older sheet, from before there was a ledger, is still good for a remake.
    return (*ledger)->item_numbered(*number).has_value() || options.manifest.empty();
  });
}

Result<Account> remake_from_book(const Shop& shop, const RemakeOptions& options) {
  return in_book(shop, options.call, "remake",
                 [&](Ledger& ledger, Account& account) { return BookRemake(shop, ledger, options, account).run(); });
}

}  // namespace ordinatio
