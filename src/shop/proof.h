#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct ProofOptions {
  std::filesystem::path orders, out;
  std::filesystem::path blanks;    // empty: as shop.toml says
  std::vector<std::string> items;  // empty: all
  std::string date;
  LedgerCall call{};
};
Result<Account> run_proof(const Shop& shop, const ProofOptions& options, const Progress& progress = {});

}  // namespace ordinatio::inline shop
