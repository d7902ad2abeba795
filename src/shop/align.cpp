#include <algorithm>

#include "base/account.h"
#include "manifest/manifest.h"
#include "shop/align.h"
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
  for (const SheetItem& item : sheet.items) {
    const auto before = std::ranges::find(manifest.items, item.pocket, &ManifestItem::pocket);
    if (before == manifest.items.end()) continue;
    const Transform &now = item.to_bed, &then = before->to_bed;
    const Point corner{manifest.blank_width, manifest.blank_height};
    if (length(now(Point{}) - then(Point{})) <= same_place && length(now(corner) - then(corner)) <= same_place)
      continue;
    return Fault{"item " + item.item.id + " lies elsewhere than on " + manifest.name, "", "",
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
    if (!item.ok()) return item.fault();
    items.push_back(std::move(*item));
    pockets.push_back(before.pocket);
  }
  Result<Sheet> sheet =
      build_sheet(frame_of(manifest), std::move(items), aligned_name(manifest.name), manifest.number, pockets);
  if (!sheet.ok()) return sheet;
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
    marks += (i == 0 ? "" : ", ") + std::to_string(i + 1) + " at " + place_text(manifest.marks[i]);
  }
  fault.why += (fault.why.empty() ? "" : "; ") + ("drawn are the marks " + marks);
  return fault;
}

/// The sheet, as it was drawn, laid to its marks, with what is to be said of it.
Result<Sheet> aligned(const Manifest& manifest, Result<Sheet> sheet, const AlignOptions& options, Account& account) {
  if (!sheet.ok()) return sheet;
  const Result<MeasuredPlaces> measured = read_places(options.measured, "--measured", manifest.marks.size());
  if (!measured.ok()) return with_marks(measured.fault(), manifest);
  MaybeFault off = correct(*sheet, measured->numbers, measured->places, options.allowed);
  if (sheet->correction) {  // marks that do not agree are told before what would leave the bed because of them
    if (auto fault = over_limit(*sheet->correction, options.limit, "--measured")) {
      return with_marks(*std::move(fault), manifest);
    }
  }
  if (off) return with_marks(*std::move(off), manifest);
  account.sheets = 1, account.items_set = sheet->items.size();
  account_for(account, *sheet->correction, sheet->frame.plan.machine);
  tell_setting(account, *sheet);
  return sheet;
}

Result<Account> align_file(const Shop& shop, const AlignOptions& options) {
  const Result<Manifest> manifest = open_manifest(shop, options.manifest);
  if (!manifest.ok()) return manifest.fault();
  if (auto fault = check_marks(*manifest)) return *std::move(fault);
  Workroom workroom(shop);
  Account account;
  const Result<Sheet> sheet = aligned(*manifest, redrawn(*manifest, workroom), options, account);
  if (!sheet.ok()) return sheet.fault();
  auto files = deliver_sheet(workroom, *sheet, options.out.empty() ? shop.folder / "out" / "align" : options.out);
  if (!files.ok()) return files.fault();
  account.files = std::move(*files);
  return account;
}

/// What of the sheet is still to be engraved. Faults: nothing is.
Result<std::vector<LedgerPlacement>> still_to_engrave(Ledger& ledger, const LedgerSheet& sheet, Account& account) {
  std::string left_out;
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    if (placement.state == LedgerPlacement::State::on_sheet) continue;
    left_out += (left_out.empty() ? "" : ", ") + with_check(ledger.item(placement.item)->number) + " in pocket " +
                std::to_string(placement.pocket) + " is " + std::string(name_of(placement.state));
  }
  std::vector<LedgerPlacement> still = still_on(ledger, sheet);
  if (still.empty()) {
    return Fault{"nothing is left on " + sheet.name + " to engrave", "", left_out,
                 "Look at what became of it: ordinatio history " + sheet.name};
  }
  if (!left_out.empty()) account.told.push_back("Left out, for it is not to be engraved there: " + left_out);
  return still;
}

/// The sheet of the book as it is now: stands whole, else what is still to be engraved.
Result<Sheet> drawn_as_it_stands(Workroom& workroom, Ledger& ledger, const LedgerSheet& sheet, const Manifest& manifest,
                                 Account& account) {
  if (sheet.kind == LedgerSheet::Kind::stands) return redrawn(manifest, workroom);
  const auto still = still_to_engrave(ledger, sheet, account);
  if (!still.ok()) return still.fault();
  if (auto fault = check_marks(manifest)) return *std::move(fault);
  Result<Sheet> again = drawn_again(workroom, ledger, sheet, *still, aligned_name(sheet.name), sheet.number);
  if (!again.ok()) return again;
  if (auto fault = check_places(manifest, *again)) return *std::move(fault);
  return again;
}

/// Beside the sheet's own files, and booked with them; with --out a copy for elsewhere.
MaybeFault align_sheet(const Shop& shop, Ledger& ledger, const AlignOptions& options, const LedgerSheet& known,
                       Account& account) {
  const Result<Manifest> manifest = manifest_of(shop, known);
  if (!manifest.ok()) return manifest.fault();
  Workroom workroom(shop);
  const Result<Sheet> sheet =
      aligned(*manifest, drawn_as_it_stands(workroom, ledger, known, *manifest, account), options, account);
  if (!sheet.ok()) return sheet.fault();
  if (!options.out.empty()) {
    auto files = deliver_sheet(workroom, *sheet, options.out);
    if (!files.ok()) return files.fault();
    account.files = *std::move(files);
    return std::nullopt;
  }
  const auto outbox = Outbox::open(folder_on_disk(shop, known), sheets_stem, Outbox::Earlier::of_the_name);
  if (!outbox.ok()) return outbox.fault();
  if (auto fault = put_sheet(**outbox, workroom, *sheet, {})) return fault;
  account.files = (*outbox)->files();
  std::vector<std::string> before;
  for (const auto& file : account.files) {
    if (known.files.contains(file.filename().string())) before.push_back(file.filename().string());
  }
  const auto planned =
      plan_files(shop, ledger, **outbox, known, before, "laid to its marks as they were measured: " + sheet->name);
  if (!planned.ok()) return planned.fault();
  commit(shop, ledger, account);
  return deliver_files(ledger, **outbox, known);
}

/// The sheet of the book that is meant: by its name, or by a file of it, which may be one that was moved aside. Nothing where
/// another file is named. Faults: no such sheet and no such file.
Result<std::optional<LedgerSheet>> sheet_of_book(Ledger& ledger, const AlignOptions& options) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(options.manifest, error)) {
    const Result<LedgerSheet> sheet = sheet_meant(ledger, options.manifest.string());
    if (!sheet.ok()) return sheet.fault();
    return std::optional(*sheet);
  }
  const Result<std::string> bytes = read_file(options.manifest);
  if (!bytes.ok()) return bytes.fault();
  return ledger.sheet_with_file(sha256_hex(*bytes));
}

/// Whether the ledger has the sheet, so that what is written of it belongs there.
Result<bool> is_of_book(const Shop& shop, const AlignOptions& options) {
  if (!has_book(shop)) return false;
  return guarded([&]() -> Result<bool> {
    const auto ledger = open_book(shop, options.call, Ledger::Access::read);
    if (!ledger.ok()) return ledger.fault();
    const auto sheet = sheet_of_book(**ledger, options);
    if (!sheet.ok()) return sheet.fault();
    return sheet->has_value();
  });
}

Result<Account> align_in_book(const Shop& shop, const AlignOptions& options) {
  return in_book(shop, options.call, "align", [&](Ledger& ledger, Account& account) -> MaybeFault {
    const auto sheet = sheet_of_book(ledger, options);
    if (!sheet.ok()) return sheet.fault();
    return align_sheet(shop, ledger, options, **sheet, account);
  });
}

}  // namespace

Result<Account> run_align(const Shop& shop, const AlignOptions& options) {
  const Result<bool> of_book = is_of_book(shop, options);
  if (!of_book.ok()) return of_book.fault();
  return *of_book ? align_in_book(shop, options) : align_file(shop, options);
}

}  // namespace ordinatio
