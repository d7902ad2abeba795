#include "plan/plan_words.h"

#include <algorithm>

#include "base/phrase.h"

namespace ordinatio::inline plan {
namespace {

std::string number_words(double value) {
  std::string text;
  append_number(text, value, 2);
  return text;
}

std::string amount(double value, std::string_view thing) {
  return number_words(value) + " " + std::string(thing) + (value == 1 ? "" : "s");
}

/// "Mon-Fri, Sun"
std::string days_words(const std::array<bool, 7>& days) {
  constexpr std::array<std::string_view, 7> names{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  std::string words;
  for (std::size_t first = 0; first < days.size(); ++first) {
    if (!days[first]) continue;
    std::size_t last = first;
    while (last + 1 < days.size() && days[last + 1]) ++last;
    words += (words.empty() ? "" : ", ") + std::string(names[first]);
    if (last > first) words += "-" + std::string(names[last]);
    first = last;
  }
  return words;
}

std::string one_to_other(int low, int high) {
  return low == high ? std::to_string(low) : std::to_string(low) + " to " + std::to_string(high);
}

using Row = std::vector<std::string>;

std::vector<std::string> in_columns(const std::vector<Row>& rows) {
  std::vector<std::size_t> widths(rows.front().size());
  for (const Row& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], row[i].size());
  }
  std::vector<std::string> lines;
  for (const Row& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) line += padded(row[i], widths[i] + 2);
    lines.push_back("  " + line.substr(0, line.find_last_not_of(' ') + 1));
  }
  return lines;
}

}  // namespace

std::string rate_words(const WorkStation& station) {
  if (station.per_hour > 0) return number_words(station.per_hour) + " an hour";
  return std::to_string(station.load) + " a load, " + amount(station.load_hours, "hour") + " a load";
}

std::string hours_words(const WorkStation& station) {
  const std::string people = station.people > 1 ? std::to_string(station.people) + " side by side, " : "";
  return people + amount(station.hours, "hour") + " a day, " + days_words(station.days);
}

std::string breakage_words(const WorkStation& station) {
  return station.breakage > 0 ? number_words(100 * station.breakage) + " % break" : "";
}

std::vector<Purchase> purchases(const PlanTask& task, const Plan& plan) {
  std::vector<Purchase> all;
  for (std::size_t i = 0; i < task.stations.size(); ++i) {
    for (const Need& need : plan.stations[i].needs) all.push_back({task.stations[i].name, need.name, need.count});
  }
  return all;
}

std::string done_words(const PlanTask& task, const Plan& plan) {
  const Spread<Day>& done = plan.done;
  std::string words = "Done by " + day_text(done.middle) + " in half of " + std::to_string(plan.runs) +
                      " runs drawn by lot (seed " + std::to_string(task.seed) + ")";
  if (done.low == done.high) return words + ", and in 9 of 10";
  if (done.low != done.middle) words += ", by " + day_text(done.low) + " in 1 of 10";
  return words + ", by " + day_text(done.high) + " in 9 of 10";
}

std::string prepare_words(const Plan& plan) {
  return "Prepare " + counted(static_cast<std::size_t>(plan.prepared), "piece") + "; " +
         one_to_other(plan.pieces.low, plan.pieces.high) + " are used in 8 runs of 10";
}

std::string slowest_words(const PlanTask& task, const Plan& plan) {
  const StationPlan& station = plan.stations[plan.slowest];
  return in_quotes(task.stations[plan.slowest].name) + " holds everything up: " + amount(station.days, "day") +
         " of work, if it never waits";
}

std::vector<std::string> plan_lines(const PlanTask& task, const Plan& plan) {
  std::vector<Row> rows{{"Station", "Pieces", "Hours", "Days", "First", "Last", "How"}};
  for (std::size_t i = 0; i < task.stations.size(); ++i) {
    const WorkStation& station = task.stations[i];
    const StationPlan& own = plan.stations[i];
    const std::string breakage = breakage_words(station);
    rows.push_back({station.name, std::to_string(own.pieces), number_words(own.hours), std::to_string(own.days),
                    iso_text(own.first), iso_text(own.last),
                    rate_words(station) + "; " + hours_words(station) + (breakage.empty() ? "" : "; " + breakage)});
  }
  std::vector<std::string> lines{counted(static_cast<std::size_t>(task.plaques), "plaque") + " from " +
                                 day_text(task.from) + " on"};
  for (std::string& line : in_columns(rows)) lines.push_back(std::move(line));
  lines.push_back(slowest_words(task, plan));
  lines.push_back(prepare_words(plan));
  for (const Purchase& one : purchases(task, plan)) {
    lines.push_back("To buy for " + in_quotes(one.station) + ": " + std::to_string(one.count) + " × " + one.name);
  }
  lines.push_back(done_words(task, plan));
  return lines;
}

}  // namespace ordinatio::inline plan
