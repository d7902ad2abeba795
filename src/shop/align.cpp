#include "shop/align.h"

#include "base/account.h"
#include "shop/bookings.h"
#include "shop/measured.h"
#include "shop/recompose.h"
#include "shop/records.h"
#include "shop/sheet_time.h"

namespace ordinatio::inline shop {
namespace {

constexpr std::string_view aligned_ending = "-aligned";

std::string aligned_name(const std::string& name) {
  return plain_name(name.ends_with(aligned_ending) ? name : name + std::string(aligned_ending));
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

/// Whether the ledger has the sheet, so that what is written of it belongs there.
Result<bool> is_on_record(const Shop& shop, const AlignOptions& options) {
  if (!has_ledger(shop)) return false;
  return guarded([&]() -> Result<bool> {
    const auto ledger = open_ledger(shop, options.call, Ledger::Access::read);
    if (!ledger.ok()) return ledger.fault();
    const auto sheet = sheet_to_align(**ledger, options.manifest);
    if (!sheet.ok()) return sheet.fault();
    return sheet->has_value();
  });
}

MaybeFault align(Records& records, const AlignOptions& options, Account& account) {
  const Result<Manifest> manifest = records.manifest_to_align(options);
  if (!manifest.ok()) return manifest.fault();
  Workroom workroom(records.shop());
  const std::string name = aligned_name(manifest->name);
  const Result<Sheet> sheet = aligned(*manifest, records.redraw(workroom, *manifest, name, account), options, account);
  if (!sheet.ok()) return sheet.fault();
  if (auto fault = records.open_aligned(options.out, name)) return fault;
  if (auto fault = put_sheet(records.outbox(), workroom, *sheet, {}, sheet_time(workroom.shop(), *sheet))) return fault;
  return records.book_aligned(name, account);
}

}  // namespace

Result<Account> run_align(const Shop& shop, const AlignOptions& options) {
  const RecordWork work = [&](Records& records, Account& account) { return align(records, options, account); };
  const Result<bool> known = is_on_record(shop, options);
  if (!known.ok()) return known.fault();
  return *known ? on_record(shop, options.call, EntryKind::align, work) : on_files(shop, work);
}

}  // namespace ordinatio::inline shop
