// What a person wants to know of the weeks to come, and what is worked out of it.
#pragma once

#include "base/account.h"
#include "paper/paper.h"
#include "plan/plan.h"
#include "shop/shop.h"

namespace ordinatio::inline bookkeeping {

struct PlanOptions {
  LedgerCall call{};
  std::optional<int> plaques;  // absent: all of the ledger that are not engraved yet
  std::string from;            // ISO 8601; empty: the day of the call
  std::uint64_t seed = 1;
  PaperSize paper = PaperSize::a4;
  std::filesystem::path out;  // the folder
};

struct WorkPlan {
  PlanTask task;
  Plan plan;
  Account account;
};

/// The plan of the workshop's stations, on the terminal and as plan.pdf.
Result<WorkPlan> run_plan(const Shop& shop, const PlanOptions& options);

}  // namespace ordinatio::inline bookkeeping
