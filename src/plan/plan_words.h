// What a plan says, for terminals and papers alike.
#pragma once

#include <string>
#include <vector>

#include "plan/plan.h"

namespace ordinatio::inline plan {

/// "12 an hour, 2 side by side", "24 a load, 9 hours a load".
std::string rate_words(const WorkStation& station);
/// "3 hours a day, Mon-Fri"; "2 side by side, …" where there are more.
std::string hours_words(const WorkStation& station);
/// "4 % break"; empty where nothing does.
std::string breakage_words(const WorkStation& station);
/// What is to be bought for a station.
struct Purchase {
  std::string station, name;
  int count = 0;
};
std::vector<Purchase> purchases(const PlanTask& task, const Plan& plan);

/// "Done by Wed 16 Dec 2026 …", with the spread and how it was found.
std::string done_words(const PlanTask& task, const Plan& plan);
/// "Prepare 67 pieces …"
std::string prepare_words(const Plan& plan);
/// "engraving holds everything up …"
std::string slowest_words(const PlanTask& task, const Plan& plan);
/// All of it as lines of a terminal, the stations in columns.
std::vector<std::string> plan_lines(const PlanTask& task, const Plan& plan);

}  // namespace ordinatio::inline plan
