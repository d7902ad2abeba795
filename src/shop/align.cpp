#include "shop/bookings.h"
#include "shop/measured.h"
#include "shop/piece_glass.h"
#include "shop/recompose.h"

namespace ordinatio {
namespace {

constexpr std::string_view ending = "-aligned";
constexpr double same_place = 1e-6;  // mm: two ways of computing one place

std::string aligned_name(const std::string& name) {
  return plain_name(name.ends_with(ending) ? name : name + std::string(ending));
}

MaybeFault check_marks(const Manifest& manifest) {
  if (!manifest.marks.empty()) return std::nullopt;
  return Fault{manifest.name + " has no marks", "", "its piece was laid by hand",
               "Measure the piece's corners again and remake it with --corners"};
}

/// Where the manifest is not that of a corrected sheet, everything must lie again where it lay.
MaybeFault check_places(const Manifest& manifest, const Sheet& sheet) {
  if (manifest.correction) return std::nullopt;
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    const Transform &now = sheet.items[i].to_bed, &then = manifest.items[i].to_bed;
    const Point corner{manifest.blank_width, manifest.blank_height};
    if (length(now(Point{}) - then(Point{})) <= same_place && length(now(corner) - then(corner)) <= same_place)
      continue;
    return Fault{"item " + sheet.items[i].item.id + " lies elsewhere than on " + manifest.name, "", "",
                 "Was the sheet made by another version of the program? Make the day's sheets anew"};
  }
  return std::nullopt;
}

/// The manifest's sheet as it was drawn.
Result<Sheet> redrawn(const Manifest& manifest, Workroom& workroom) {
  Typesetter typesetter(workroom.fonts());
  std::vector<SheetItem> items;
  std::vector<int> pockets;
  const auto not_engraved = pieces_not_engraved(workroom);
  for (const ManifestItem& before : manifest.items) {
    if (auto fault = check_lying(not_engraved, before.piece.id, before.item.id)) return *std::move(fault);
    Result<SheetItem> item = recompose(workroom, typesetter, manifest, before, std::nullopt);
    if (!item) return item.fault();
    items.push_back(std::move(*item));
    pockets.push_back(before.pocket);
  }
  Result<Sheet> sheet =
      build_sheet(frame_of(manifest), std::move(items), aligned_name(manifest.name), manifest.number, pockets);
  if (!sheet) return sheet;
  if (auto fault = check_places(manifest, *sheet)) return *std::move(fault);
  sheet->designs = manifest.design_checksums;
  sheet->date = manifest.date;
  sheet->remake_of = manifest.remake_of;
  return sheet;
}

/// With what is left out of a Fault's place, the option that the places came by, and with where the marks are drawn.
Fault with_marks(Fault fault, const Manifest& manifest) {
  if (fault.where.empty()) fault.where = "--measured";
  std::string marks;
  for (std::size_t i = 0; i < manifest.marks.size(); ++i) {
    marks += (i == 0 ? "mark " : ", ") + std::to_string(i + 1) + " at " + place_text(manifest.marks[i]);
  }
  fault.why += (fault.why.empty() ? "" : "; ") + ("they are drawn with " + marks);
  return fault;
}

/// The sheet laid to its marks, with what is to be said of it.
Result<Sheet> aligned(const Manifest& manifest, Workroom& workroom, const AlignOptions& options, Account& account) {
  if (auto fault = check_marks(manifest)) return *std::move(fault);
  const Result<MeasuredPlaces> measured = read_places(options.measured, "--measured", manifest.marks.size());
  if (!measured) return with_marks(measured.fault(), manifest);
  Result<Sheet> sheet = redrawn(manifest, workroom);
  if (!sheet) return sheet;
  MaybeFault off = correct(*sheet, measured->numbers, measured->places, options.allowed);
  if (sheet->correction) {  // marks that do not agree are told before what would leave the bed because of them
    if (auto fault = over_limit(*sheet->correction, options.limit, "--measured")) {
      return with_marks(*std::move(fault), manifest);
    }
  }
  if (off) return with_marks(*std::move(off), manifest);
  account.sheets = 1, account.items_set = sheet->items.size();
  account_for(account, *sheet->correction, sheet->frame.plan.machine);
  return sheet;
}

Result<Account> align_file(const Shop& shop, const AlignOptions& options) {
  const Result<Manifest> manifest = open_manifest(options.manifest);
  if (!manifest) return manifest.fault();
  Workroom workroom(shop);
  Account account;
  const Result<Sheet> sheet = aligned(*manifest, workroom, options, account);
  if (!sheet) return sheet.fault();
  auto files = deliver_sheet(workroom, *sheet, options.out.empty() ? shop.folder / "out" / "align" : options.out);
  if (!files) return files.fault();
  account.files = std::move(*files);
  return account;
}

/// Beside the sheet's own files, and booked with them.
Result<Account> align_in_book(const Shop& shop, const AlignOptions& options) {
  return guarded([&]() -> Result<Account> {
    const auto ledger = open_book(shop, options.call, Ledger::Access::write);
    if (!ledger) return ledger.fault();
    const Result<LedgerSheet> known = sheet_meant(**ledger, options.manifest.string());
    if (!known) return known.fault();
    const Result<Manifest> manifest = manifest_of(shop, *known);
    if (!manifest) return manifest.fault();
    Workroom workroom(shop);
    Account account;
    const Result<Sheet> sheet = aligned(*manifest, workroom, options, account);
    if (!sheet) return sheet.fault();
    Result<std::unique_ptr<Outbox>> outbox =
        Outbox::open(folder_on_disk(shop, *known), sheets_stem, Outbox::Earlier::of_the_name);
    if (!outbox) return outbox.fault();
    if (auto fault = put_sheet(**outbox, workroom, *sheet, {})) return *std::move(fault);
    (*ledger)->begin("align");
    auto files = book_files(**ledger, **outbox, *known, "laid to its marks as they were measured: " + sheet->name);
    if (!files) return files.fault();
    account.files = *std::move(files);
    return account;
  });
}

/// Whether the ledger has the sheet, so that what is written of it belongs there. With --out it is a copy for elsewhere.
Result<bool> is_of_book(const Shop& shop, const AlignOptions& options) {
  if (!has_book(shop) || !options.out.empty()) return false;
  return guarded([&]() -> Result<bool> {
    const auto ledger = open_book(shop, options.call, Ledger::Access::read);
    if (!ledger) return ledger.fault();
    std::error_code error;
    return sheet_meant(**ledger, options.manifest.string()).ok() || !std::filesystem::exists(options.manifest, error);
  });
}

}  // namespace

Result<Account> run_align(const Shop& shop, const AlignOptions& options) {
  const Result<bool> of_book = is_of_book(shop, options);
  if (!of_book) return of_book.fault();
  return *of_book ? align_in_book(shop, options) : align_file(shop, options);
}

}  // namespace ordinatio
