#include "shop/ledger_access.h"
#include "shop/ledger_records.h"

namespace ordinatio::inline shop {

int LedgerRecords::next_sheet_number() { return ledger_.next_sheet_number(); }

MaybeFault LedgerRecords::open_outbox(const std::filesystem::path& named, const std::string&, const std::string&) {
  const std::filesystem::path folder = named.empty() ? shop_.folder / "out" / "sheets" : named;
  auto opened = Outbox::open(folder, sheets_stem, Outbox::Earlier::of_the_name);
  if (!opened.ok()) return opened.fault();
  delivery_.outbox = *std::move(opened);
  folder_ = folder_in_ledger(shop_, folder);
  return std::nullopt;
}

MaybeFault LedgerRecords::book_sheets(std::vector<NewSheet> sheets, Account& account) {
  for (NewSheet& sheet : sheets) sheet.sheet.folder = folder_;
  return ordinatio::book_sheets(ledger_, delivery_, std::move(sheets), account);
}

}  // namespace ordinatio::inline shop
