// What several commands do with sheets of the ledger.
#pragma once

#include "base/account.h"
#include "check/check.h"
#include "manifest/manifest.h"
#include "shop/ledger_access.h"
#include "shop/records.h"
#include "shop/sheet_run.h"

namespace ordinatio::inline shop {

/// What is not settled yet on the sheet.
std::vector<LedgerPlacement> still_on(Ledger& ledger, const LedgerSheet& sheet);

/// The manifest of a sheet of the ledger. Faults: it is gone, or is not what was written.
Result<Manifest> manifest_of(const Shop& shop, const LedgerSheet& sheet);
/// The newest manifest of the sheet in which the item stands: what has come off it stands in one that was moved aside.
Result<Manifest> manifest_with(const Shop& shop, const LedgerSheet& sheet, const std::string& item);

/// The item of a manifest, by its number.
Result<ManifestItem> find_item(const Manifest& manifest, const std::string& id);

/// What lay in these places of the sheet, exactly as it was, on the same bed with the same marks. anew: one of them that is on
/// another piece now, as it is set there. Faults: what has moved does not fit where it lies now.
Result<Sheet> drawn_again(Workroom& workroom, Ledger& ledger, const LedgerSheet& sheet,
                          const std::vector<LedgerPlacement>& placements, const std::string& name, int number,
                          const std::optional<SheetItem>& anew = {});

/// The sheet of the ledger that is meant: by its name, or by a file of it, which may be one that was moved aside. Nothing where
/// another file is named. Faults: no such sheet and no such file.
Result<std::optional<LedgerSheet>> sheet_to_align(Ledger& ledger, const std::filesystem::path& named);

/// Writes one sheet of the ledger and books it: into `named`, else where sheets go.
struct SheetToBook {
  Sheet sheet;
  LedgerSheet::Kind kind = LedgerSheet::Kind::remake;
  std::optional<int> of;
  std::vector<NewPlacement> placements;
};
MaybeFault write_and_book(const Workroom& workroom, Records& records, const SheetToBook& made,
                          const std::filesystem::path& named, Account& account);

}  // namespace ordinatio::inline shop
