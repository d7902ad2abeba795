#include <algorithm>

#include "base/account.h"
#include "bed/item_number.h"
#include "manifest/manifest.h"
#include "shop/bookings.h"
#include "shop/measured.h"
#include "shop/piece_glass.h"
#include "shop/recompose.h"
#include "shop/remake.h"

namespace ordinatio {

Result<ManifestItem> find_item(const Manifest& manifest, const std::string& id) {
  std::vector<std::string_view> known;
  for (const ManifestItem& item : manifest.items) {
    if (item.item.id == id) return item;
    known.push_back(item.item.id);
  }
  const auto nearest = nearest_word(id, known);
  return Fault{"item " + id + " is not on " + manifest.name, "", "the sheet holds other items",
               nearest ? "Did you mean " + *nearest + "?" : "Name an item of this sheet, or another sheet"};
}

namespace {

/// The bed as it was then, where the pocket takes the item as the one did that it lay in.
Frame frame_for(const Manifest& manifest, const ManifestItem& before, int pocket) {
  Frame frame = frame_of(manifest);
  const auto was = std::ranges::find(manifest.pockets, before.pocket, &Pocket::number);
  const auto now = std::ranges::find(frame.pockets, pocket, &Pocket::number);
  if (was != manifest.pockets.end() && now != frame.pockets.end()) now->turned = was->turned;
  return frame;
}

}  // namespace

Result<Sheet> lay_remake_in_pocket(const Manifest& manifest, SheetItem item, const ManifestItem& before,
                                   const RemakeOptions& options, const std::string& name, int number,
                                   Account& account) {
  const int pocket = options.pocket.value_or(before.pocket);
  if (manifest.pockets.empty()) {
    return Fault{"item " + options.item + " lay in no pocket", options.manifest.string(), "it was laid by hand",
                 "Measure where the piece lies now and give --corners"};
  }
  if (manifest.correction) {
    account.notes.push_back(manifest.name + " was laid as its marks were measured; this sheet is as it was drawn: " +
                            "measure the marks again and align it");
  }
  return build_sheet(frame_for(manifest, before, pocket), {std::move(item)}, name, number, {pocket});
}

Result<Sheet> lay_remake_by_hand(const Manifest& manifest, SheetItem item, const RemakeOptions& options,
                                 const std::string& name, Account& account) {
  if (options.pocket) {
    return Fault{"a piece that is laid by hand lies in no pocket", "--pocket", "",
                 "Give --pocket or --corners, not both"};
  }
  const Result<MeasuredPlaces> corners = read_places(options.corners, "--corners", 0);
  if (!corners.ok()) return corners.fault();
  if (!std::ranges::is_sorted(corners->numbers)) {
    return Fault{"the corners are not in their order", "--corners", "",
                 "Give the lower left, the lower right and, if there are four, the upper right and the upper left"};
  }
  Result<Sheet> sheet = lay_by_hand(manifest.plan, std::move(item), corners->places, name);
  if (!sheet.ok()) {
    Fault fault = sheet.fault();
    if (fault.where.empty()) fault.where = "--corners";
    return fault;
  }
  if (auto fault = over_limit(*sheet->correction, options.limit, "--corners")) return *std::move(fault);
  account_for(account, *sheet->correction, manifest.plan.machine);
  return sheet;
}

namespace {

/// From a sheet's manifest alone.
Result<Account> remake_from_files(const Shop& shop, const RemakeOptions& typed_options) {
  Result<std::string> number = item_typed(typed_options.item);
  if (!number.ok()) return number.fault();
  RemakeOptions options = typed_options;
  options.item = *std::move(number);
  if (options.manifest.empty()) {
    return Fault{"no sheet is named", "--sheet", "without a ledger the program does not know where the item was",
                 "Give the manifest (.json) of the sheet that it was on"};
  }
  if (options.later || !options.blank.empty()) {
    return Fault{"that needs a ledger", options.later ? "--later" : "--blank",
                 "the ledger keeps what waits and what is free",
                 "Write [ledger] file = \"workshop.ledger\" into shop.toml"};
  }
  const Result<Manifest> manifest = open_manifest(shop, options.manifest);
  if (!manifest.ok()) return manifest.fault();
  const Result<ManifestItem> before = find_item(*manifest, options.item);
  if (!before.ok()) return before.fault();
  Workroom workroom(shop);
  if (auto fault = check_lying(pieces_not_engraved(workroom), before->piece.id, before->item.id))
    return *std::move(fault);
  Typesetter typesetter(workroom.fonts());
  Result<SheetItem> item = recompose(workroom, typesetter, *manifest, *before, options.text);
  if (!item.ok()) return item.fault();
  Account account;
  account.sheets = account.items_set = 1;
  account.smallest_cap_height = item->artwork.cap_height;
  account.smallest_item = options.item;
  account.smallest_is_numbered = !before->item.source.empty();  // a stand has none
  const std::string design = item->item.design;
  const std::string name = plain_name("remake-" + options.item);
  Result<Sheet> sheet = options.corners.empty()
                            ? lay_remake_in_pocket(*manifest, std::move(*item), *before, options, name, 1, account)
                            : lay_remake_by_hand(*manifest, std::move(*item), options, name, account);
  if (!sheet.ok()) return sheet.fault();
  const Result<const Station*> station = workroom.station(design);  // opened before: only looked up here
  if (!station.ok()) return station.fault();
  sheet->designs = {{design, (*station)->design.checksum}};
  sheet->date = manifest->date;
  sheet->remake_of = manifest->name;
  tell_setting(account, *sheet);
  auto files = deliver_sheet(workroom, *sheet, options.out.empty() ? shop.folder / "out" / "remake" : options.out);
  if (!files.ok()) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace

Result<Account> run_remake(const Shop& shop, const RemakeOptions& options) {
  const Result<bool> in_book = is_in_book(shop, options);
  if (!in_book.ok()) return in_book.fault();
  return *in_book ? remake_from_book(shop, options) : remake_from_files(shop, options);
}

}  // namespace ordinatio
