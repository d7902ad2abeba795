#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct AlignOptions {
  std::filesystem::path manifest, out;
  std::vector<std::string> measured;  // "x,y" of every mark in order, or "2:x,y" of some: bed mm
  Registration::Model allowed = Registration::Model::rigid;
  double limit = 0.3;  // mm, of what is left at a mark: three beams' widths, what hand and eye are off by
  LedgerCall call{};   // with a ledger a sheet of the ledger may be named, and what is written becomes part of it
};
/// The sheet of a manifest again, exactly, laid to where its marks were measured.
Result<Account> run_align(const Shop& shop, const AlignOptions& options);

}  // namespace ordinatio::inline shop
