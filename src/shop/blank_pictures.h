#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct BlankOptions {
  std::filesystem::path blanks, out;
  std::string design;  // whose blank is the nominal piece; empty: the shop's default
};
/// Pictures of every measured piece, as the program understood it. Rows that contradict themselves are held.
Result<Account> run_blanks(const Shop& shop, const BlankOptions& options);

}  // namespace ordinatio::inline shop
