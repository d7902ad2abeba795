#pragma once

#include "base/account.h"
#include "bed/cutting.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct PanesOptions {
  std::filesystem::path panes, out;
  std::string piece;    // "101.6x152.4", mm; empty: the blank of the default design
  double kerf = 3;      // mm
  double breakage = 0;  // share of the pieces that is expected to break
  std::function<void(const std::vector<CuttingPlan>& plans)> shown = {};  // sees them before their files are made
};
/// Cutting plans for reclaimed panes: cutting.pdf for the saw, blanks.csv for what comes of it.
Result<Account> run_panes(const Shop& shop, const PanesOptions& options, const Progress& progress = {});

}  // namespace ordinatio::inline shop
