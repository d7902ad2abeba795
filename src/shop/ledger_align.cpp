#include <algorithm>

#include "bed/item_number.h"
#include "shop/bookings.h"
#include "shop/ledger_records.h"
#include "shop/redrawing.h"

namespace ordinatio::inline shop {
namespace {

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

}  // namespace

Result<std::optional<LedgerSheet>> sheet_to_align(Ledger& ledger, const std::filesystem::path& named) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(named, error)) {
    const Result<LedgerSheet> sheet = sheet_meant(ledger, named.string());
    if (!sheet.ok()) return sheet.fault();
    return std::optional(*sheet);
  }
  const Result<std::string> bytes = read_file(named);
  if (!bytes.ok()) return bytes.fault();
  return ledger.sheet_with_file(sha256_hex(*bytes));
}

Result<Manifest> LedgerRecords::manifest_to_align(const AlignOptions& options) {
  const auto sheet = sheet_to_align(ledger_, options.manifest);
  if (!sheet.ok()) return sheet.fault();
  aligned_ = **sheet;
  return manifest_of(shop_, aligned_);
}

/// Stands whole, else what is still to be engraved.
Result<Sheet> LedgerRecords::redraw(Workroom& workroom, const Manifest& manifest, const std::string& name,
                                    Account& account) {
  if (aligned_.kind == LedgerSheet::Kind::stands) return redrawn(manifest, workroom, name);
  const auto still = still_to_engrave(ledger_, aligned_, account);
  if (!still.ok()) return still.fault();
  if (auto fault = check_marks(manifest)) return *std::move(fault);
  Result<Sheet> again = drawn_again(workroom, ledger_, aligned_, *still, name, aligned_.number);
  if (!again.ok()) return again;
  if (auto fault = check_places(manifest, *again)) return *std::move(fault);
  return again;
}

MaybeFault LedgerRecords::open_aligned(const std::filesystem::path& named, const std::string& name) {
  is_copy_ = !named.empty();
  auto opened = is_copy_ ? Outbox::open(named, name + ".")
                         : Outbox::open(folder_on_disk(shop_, aligned_), sheets_stem, Outbox::Earlier::of_the_name);
  if (!opened.ok()) return opened.fault();
  delivery_.outbox = *std::move(opened);
  return std::nullopt;
}

MaybeFault LedgerRecords::book_aligned(const std::string& name, Account& account) {
  account.files = outbox().files();
  if (is_copy_) return std::nullopt;
  std::vector<std::string> before;
  for (const auto& file : account.files) {
    if (aligned_.files.contains(file.filename().string())) before.push_back(file.filename().string());
  }
  const auto planned =
      plan_files(shop_, ledger_, delivery_, aligned_, before, "laid to its marks as they were measured: " + name);
  return planned.ok() ? std::nullopt : MaybeFault(planned.fault());
}

}  // namespace ordinatio::inline shop
