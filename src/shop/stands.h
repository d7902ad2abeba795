#pragma once

#include "base/account.h"
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

/// Faults: no count, one that cannot be made, numbers that cannot be.
MaybeFault check_numbers(const StandOptions& options);

}  // namespace ordinatio::inline shop
