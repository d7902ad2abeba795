#pragma once

#include "base/account.h"
#include "bed/jig.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct JigOptions {
  std::string design;  // empty: the shop's
  std::filesystem::path out;
};
/// The board that holds a design's pieces where sheets have them; items_set counts its pockets.
Result<Account> run_jig(const Shop& shop, const JigOptions& options);
/// The same, to be looked at.
Result<Board> board_of(const Shop& shop, const std::string& design);

}  // namespace ordinatio::inline shop
