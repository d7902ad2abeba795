#include "shop/remake.h"

#include <algorithm>

#include "base/account.h"
#include "bed/item_number.h"
#include "shop/bookings.h"
#include "shop/measured.h"
#include "shop/recompose.h"
#include "shop/records.h"
#include "shop/sheet_run.h"
#include "shop/sheet_time.h"

namespace ordinatio::inline shop {

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

MaybeFault write_and_book(const Workroom& workroom, Records& records, const SheetToBook& made,
                          const std::filesystem::path& named, Account& account) {
  if (auto fault = records.open_outbox(named, "remake", made.sheet.name + ".")) return fault;
  const std::optional<SheetTime> time = sheet_time(workroom.shop(), made.sheet);
  if (auto fault = put_sheet(records.outbox(), workroom, made.sheet, {}, time)) return fault;
  tell_times(account, {{made.sheet.name, time}});
  NewSheet sheet{
      {made.sheet.number, made.sheet.name, made.kind, made.of, made.sheet.date, "", false, {}}, made.placements, {}};
  return records.book_sheets({std::move(sheet)}, account);
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

/// The item in a pocket of the bed as it was.
Result<Sheet> lay_in_pocket(const ToRemake& wanted, SheetItem item, const RemakeOptions& options,
                            const std::string& name, int number, Account& account) {
  const Manifest& manifest = wanted.manifest;
  const ManifestItem& before = wanted.before;
  const int pocket = options.pocket.value_or(before.pocket);
  if (manifest.pockets.empty()) {
    return Fault{"item " + wanted.called + " lay in no pocket", options.manifest.string(), "it was laid by hand",
                 "Measure where the piece lies now and give --corners"};
  }
  if (manifest.correction) {
    account.notes.push_back(manifest.name + " was laid as its marks were measured; this sheet is as it was drawn: " +
                            "measure the marks again and align it");
  }
  return build_sheet(frame_for(manifest, before, pocket), {std::move(item)}, name, number, {pocket});
}

/// The item where the corners of its piece were measured.
Result<Sheet> lay_by_corners(const Manifest& manifest, SheetItem item, const RemakeOptions& options,
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

/// Whether the ledger has the item, so that it is to be remade from there.
Result<bool> is_on_record(const Shop& shop, const RemakeOptions& options) {
  if (!has_ledger(shop)) return false;
  const Result<std::string> number = item_typed(options.item);
  if (!number.ok()) return number.fault();
  return guarded([&]() -> Result<bool> {
    const auto ledger = open_ledger(shop, options.call, Ledger::Access::read);
    if (!ledger.ok()) return ledger.fault();
    // An older sheet, from before there was a ledger, is still good for a remake.
    return (*ledger)->item_numbered(*number).has_value() || options.manifest.empty();
  });
}

MaybeFault remake(Records& records, const RemakeOptions& options, Account& account) {
  Workroom workroom(records.shop());
  const Result<std::optional<ToRemake>> found = records.to_remake(workroom, options, account);
  if (!found.ok()) return found.fault();
  if (!*found) return std::nullopt;
  const ToRemake& wanted = **found;
  Typesetter typesetter(workroom.fonts());
  Result<SheetItem> item = recompose(workroom, typesetter, wanted.manifest, wanted.before, wanted.words);
  if (item.ok()) item = records.on_piece(workroom, wanted, options, *std::move(item), account);
  if (!item.ok()) return item.fault();
  account.sheets = account.items_set = 1;
  account.smallest_cap_height = item->artwork.cap_height;
  account.smallest_item = wanted.before.item.id;
  account.smallest_is_numbered = wanted.is_numbered;
  const Design& design = workroom.opened(item->item.design)->design;
  NewPlacement placement{wanted.item, 0, item->artwork.blank.id, item->artwork.hash, design.approval};

  const int number = records.next_sheet_number();
  const std::string name = records.remake_name(wanted.before.item.id, number);
  Result<Sheet> sheet = options.corners.empty()
                            ? lay_in_pocket(wanted, *std::move(item), options, name, number, account)
                            : lay_by_corners(wanted.manifest, *std::move(item), options, name, account);
  if (!sheet.ok()) return sheet.fault();
  placement.pocket = sheet->items.front().pocket;
  sheet->number = number;
  sheet->designs = {{design.name, design.checksum}};
  sheet->date = wanted.manifest.date;
  sheet->remake_of = wanted.manifest.name;
  tell_setting(account, *sheet);
  return write_and_book(workroom, records, {*std::move(sheet), LedgerSheet::Kind::remake, wanted.sheet, {placement}},
                        options.out, account);
}

}  // namespace

Result<Account> run_remake(const Shop& shop, const RemakeOptions& options) {
  const RecordWork work = [&](Records& records, Account& account) { return remake(records, options, account); };
  const Result<bool> known = is_on_record(shop, options);
  if (!known.ok()) return known.fault();
  return *known ? on_record(shop, options.call, EntryKind::remake, work) : on_files(shop, work);
}

}  // namespace ordinatio::inline shop
