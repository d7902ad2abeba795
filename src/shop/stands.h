#pragma once

#include "base/account.h"
#include "design/design.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct StandOptions {
  std::optional<int> count;  // with a ledger: absent for as many as engraved items lack
  std::string date, design;
  std::filesystem::path out;
  /// Of the first stand, where the design has a place for a serial number; the next has one more, and they are called by
  /// their numbers.
  std::optional<int> first_number = {};
  LedgerCall call{};
  std::string batch{};  // written down in the ledger
};
/// Faults: a design for a customer's words, one that wants a number where none is given, a number that cannot be.
Result<Account> run_stands(const Shop& shop, const StandOptions& options, const Progress& progress = {});

/// The underside of the first of them, to be looked at. Faults: as above, but for the count.
Result<Artwork> stand_of(const Shop& shop, StandOptions options);

/// Faults: no count, one that cannot be made, numbers that cannot be.
MaybeFault check_numbers(const StandOptions& options);

}  // namespace ordinatio::inline shop
