#include "plan/plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/phrase.h"
#include "base/share.h"
#include "plan/breakage.h"
#include "plan/course.h"

namespace ordinatio::inline plan {
namespace {

constexpr int most_runs = 2'000, fewest_runs = 100;
constexpr double plan_work_limit = 2e7;  // pieces that break and stations' days over all runs: a second or two
constexpr double count_rounding = 1e-9;  // 3 · 0.1 belts are 0.3

MaybeFault check_task(const PlanTask& task) {
  if (task.stations.empty()) {
    return Fault{"the workshop has no stations", "shop.toml", "a plan needs to know what a piece goes through",
                 "Write a table [[stations]] for each, as `ordinatio help stations` shows"};
  }
  if (task.stations.size() > most_stations) {
    return Fault{"the workshop has " + std::to_string(task.stations.size()) + " stations", "shop.toml",
                 std::to_string(most_stations) + " are allowed", "Put some of them together"};
  }
  if (task.plaques < 1 || task.plaques > most_plaques) {
    return Fault{std::to_string(task.plaques) + " plaques cannot be planned", "--plaques", "",
                 "Give a number from 1 to " + std::to_string(most_plaques)};
  }
  for (const WorkStation& station : task.stations) {
    const bool goes_on = station.per_hour > 0 || (station.load > 0 && station.load_hours > 0);
    const bool is_open = std::ranges::find(station.days, true) != station.days.end();
    if (goes_on && is_open && station.hours > 0 && station.people > 0 && station.breakage >= 0 &&
        station.breakage < 1) {
      continue;
    }
    return Fault{"nothing ever comes out of the station " + in_quotes(station.name), "shop.toml",
                 "it has no rate, no hours, or all of it breaks", "Give it a rate, hours and days"};
  }
  return std::nullopt;
}

/// Pieces that must come in at each station.
Result<std::vector<int>> pieces_in(const PlanTask& task) {
  std::vector<int> pieces(task.stations.size());
  double whole = 1;
  for (std::size_t i = pieces.size(); i-- > 0;) {
    whole *= 1 - task.stations[i].breakage;
    const auto needed = to_prepare(task.plaques, 1 - whole);
    if (!needed || *needed > most_prepared) {
      return Fault{"too much breaks: more than " + std::to_string(most_prepared) + " pieces would have to be prepared",
                   "shop.toml", "from the station " + in_quotes(task.stations[i].name) + " on",
                   "Look at the breakage of the stations"};
    }
    pieces[i] = *needed;
  }
  return pieces;
}

StationPlan plan_of(const WorkStation& station, int pieces) {
  StationPlan plan;
  plan.pieces = pieces;
  if (station.per_hour > 0) {
    plan.hours = pieces / (station.per_hour * station.people);
  } else {
    plan.hours = std::ceil(static_cast<double>(pieces) / (station.load * station.people)) * station.load_hours;
  }
  plan.days = static_cast<int>(std::min(std::ceil(plan.hours / station.hours - count_rounding), 1e9));
  for (const Consumable& used : station.consumables) {
    const double count = std::ceil(pieces * used.count / used.pieces - count_rounding);
    plan.needs.push_back({used.name, static_cast<int>(std::min(count, 1e9))});
  }
  return plan;
}

double weeks_of(const WorkStation& station, const StationPlan& plan) {
  return plan.hours / (station.hours * static_cast<double>(std::ranges::count(station.days, true)));
}

/// Of sorted runs, by nearest rank.
template <class T>
Spread<T> spread_of(std::vector<T> runs) {
  std::ranges::sort(runs);
  const auto at = [&](std::size_t tenths) { return runs[(tenths * runs.size() + 9) / 10 - 1]; };
  return {at(1), at(5), at(9)};
}

Fault too_long() {
  return {"the work takes longer than ten years", "shop.toml", "", "Look at the stations' rates, hours and days"};
}

int runs_for(const PlanTask& task, const Course& course, int prepared) {
  const double work = prepared - task.plaques + static_cast<double>(task.stations.size()) * (course.done + 1.0);
  return static_cast<int>(std::clamp(plan_work_limit / work, double{fewest_runs}, double{most_runs}));
}

/// All runs, each with lots of its own.
void draw_runs(const PlanTask& task, Plan& plan) {
  std::vector<int> pieces;
  std::vector<Day> days;
  Lots seeds(task.seed);
  for (int run = 0; run < plan.runs; ++run) {
    Lots lots(seeds.next());
    pieces.push_back(begun_until(task.plaques, whole_share(task.stations), lots));
    const Breakage by_lot = [&](std::size_t station, int count) {
      return broken_of(count, task.stations[station].breakage, lots);
    };
    const auto course = course_of(task, plan.prepared, by_lot);
    // A run beyond the limit, of which nothing more is known, counts as long as that.
    days.push_back(task.from + std::chrono::days(course ? course->done : longest_plan));
  }
  plan.pieces = spread_of(std::move(pieces));
  plan.done = spread_of(std::move(days));
}

/// As many as on average, rounded so that the sums are right.
class AverageBreakage {
 public:
  explicit AverageBreakage(const PlanTask& task) : task_(task), broken_(task.stations.size()) {}
  int operator()(std::size_t station, int pieces) {
    double& broken = broken_[station];
    broken += pieces * task_.stations[station].breakage;
    const int whole = static_cast<int>(std::floor(broken + count_rounding));
    broken -= whole;
    return whole;
  }

 private:
  const PlanTask& task_;
  std::vector<double> broken_;
};

}  // namespace

Result<Plan> plan_work(const PlanTask& task) {
  if (auto fault = check_task(task)) return *std::move(fault);
  const Result<std::vector<int>> pieces = pieces_in(task);
  if (!pieces.ok()) return pieces.fault();
  Plan plan;
  plan.prepared = pieces->front();
  for (std::size_t i = 0; i < task.stations.size(); ++i)
    plan.stations.push_back(plan_of(task.stations[i], (*pieces)[i]));
  for (std::size_t i = 1; i < task.stations.size(); ++i) {
    const double weeks = weeks_of(task.stations[i], plan.stations[i]);
    if (weeks > weeks_of(task.stations[plan.slowest], plan.stations[plan.slowest])) plan.slowest = i;
  }
  const auto course = course_of(task, plan.prepared, AverageBreakage(task));
  if (!course) return too_long();
  for (std::size_t i = 0; i < task.stations.size(); ++i) {
    plan.stations[i].first = task.from + std::chrono::days(std::max(course->first[i], 0));
    plan.stations[i].last = task.from + std::chrono::days(std::max(course->last[i], 0));
  }
  plan.runs = runs_for(task, *course, plan.prepared);
  draw_runs(task, plan);
  return plan;
}

}  // namespace ordinatio::inline plan
