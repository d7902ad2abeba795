#include "plan/plan.h"

#include <catch2/catch.hpp>

#include "plan/plan_words.h"

namespace ordinatio::plan_test {

namespace {

Day day(const char* text) { return *day_named(text); }

WorkStation by_hours(const char* name, double per_hour) {
  WorkStation station;
  station.name = name;
  station.per_hour = per_hour;
  return station;
}

WorkStation by_loads(const char* name, int load, double hours) {
  WorkStation station;
  station.name = name;
  station.load = load, station.load_hours = hours;
  return station;
}

PlanTask task_of(std::vector<WorkStation> stations, int plaques, const char* from = "2026-11-30") {
  PlanTask task;
  task.stations = std::move(stations);
  task.plaques = plaques;
  task.from = day(from);
  return task;
}

Plan planned(const PlanTask& task) {
  auto plan = plan_work(task);
  REQUIRE(plan.ok());
  return *plan;
}

std::string fault_of(const PlanTask& task) {
  const auto plan = plan_work(task);
  REQUIRE_FALSE(plan.ok());
  CHECK_FALSE(plan.fault().mend.empty());
  return plan.fault().what;
}

}  // namespace

TEST_CASE("without breakage the work is pieces by rate, and all runs are alike") {
  // 300 pieces at 12 an hour are 25 hours: 4 days of 8, from a Monday to the Thursday.
  PlanTask task = task_of({by_hours("grinding", 12)}, 300);
  const Plan plan = planned(task);
  CHECK(plan.prepared == 300);
  CHECK(plan.stations[0].hours == Approx(25));
  CHECK(plan.stations[0].days == 4);
  CHECK(plan.done.low == day("2026-12-03"));
  CHECK(plan.done.high == day("2026-12-03"));
  CHECK(plan.pieces.low == 300);
  CHECK(plan.pieces.high == 300);
  task.stations[0].people = 2;  // 12.5 hours
  CHECK(planned(task).done.middle == day("2026-12-01"));
}

TEST_CASE("a third of a piece that is left over is done on the next day") {
  // 10 a day and a third: 31 pieces are three days' work, 32 four days'.
  WorkStation station = by_hours("polishing", 31.0 / 24);
  CHECK(planned(task_of({station}, 31)).done.middle == day("2026-12-02"));
  CHECK(planned(task_of({station}, 32)).done.middle == day("2026-12-03"));
  CHECK(planned(task_of({station}, 31)).stations[0].days == 3);
}

TEST_CASE("loads are whole ones, and go on the next day where the hours end") {
  WorkStation kiln = by_loads("firing", 24, 9);
  kiln.hours = 24;
  Plan plan = planned(task_of({kiln}, 50));  // three loads, 27 hours
  CHECK(plan.stations[0].hours == Approx(27));
  CHECK(plan.stations[0].days == 2);
  CHECK(plan.done.middle == day("2026-12-01"));
  kiln.hours = 8;  // 27 hours of 8 a day
  plan = planned(task_of({kiln}, 50));
  CHECK(plan.stations[0].days == 4);
  CHECK(plan.done.middle == day("2026-12-03"));
  kiln.people = 2;  // two kilns: 48 at a time
  CHECK(planned(task_of({kiln}, 50)).stations[0].hours == Approx(18));
}

TEST_CASE("what a station finishes goes on to the next on the day after") {
  const Plan plan = planned(task_of({by_hours("cutting", 12), by_hours("engraving", 12)}, 192));  // 96 a day each
  CHECK(plan.done.middle == day("2026-12-02"));
  CHECK(plan.stations[1].first == day("2026-12-01"));
  CHECK(plan.stations[0].last == day("2026-12-01"));
}

TEST_CASE("a load waits until it is full, or nothing more comes") {
  WorkStation kiln = by_loads("firing", 20, 8);
  // 10 a day: 20 are there on the third day.
  const Plan full = planned(task_of({by_hours("cutting", 1.25), kiln}, 20));
  CHECK(full.stations[1].first == day("2026-12-02"));
  CHECK(full.done.middle == day("2026-12-02"));
  const Plan rest = planned(task_of({by_hours("cutting", 1.25), kiln}, 25));  // the last five alone
  CHECK(rest.done.middle == day("2026-12-03"));
}

TEST_CASE("the station that needs the most weeks holds everything up") {
  WorkStation packing = by_hours("packing", 19);
  packing.days = {false, false, false, false, false, true, false};  // a day a week: 152
  const Plan plan = planned(task_of({by_hours("cutting", 5), by_hours("engraving", 4), packing}, 400));
  CHECK(plan.slowest == 2);  // 2.6 weeks; engraving 100 hours, 2.5 weeks of 40
  CHECK(planned(task_of({by_hours("cutting", 5), by_hours("engraving", 4), by_hours("packing", 20)}, 400)).slowest ==
        1);
}

TEST_CASE("pieces that break are prepared besides, more for each station before") {
  WorkStation one = by_hours("cutting", 12), two = by_hours("engraving", 12);
  two.breakage = 0.05;
  CHECK(planned(task_of({two}, 40)).prepared == 43);
  one.breakage = 0.1;
  const Plan plan = planned(task_of({one, two, by_hours("packing", 12)}, 40));
  CHECK(plan.prepared == 47);  // 40 / 0.95 / 0.9 = 46.8
  CHECK(plan.stations[1].pieces == 43);
  CHECK(plan.stations[2].pieces == 40);
}

TEST_CASE("the pieces used have the negative binomial's tenths") {
  // 40 at 5 %: P(40) = 0.1285, P(≤ 41) = 0.3855, P(≤ 42) = 0.649, P(≤ 43) = 0.833, P(≤ 44) = 0.932.
  WorkStation station = by_hours("engraving", 12);
  station.breakage = 0.05;
  const Plan plan = planned(task_of({station}, 40));
  CHECK(plan.pieces.low == 40);
  CHECK(plan.pieces.middle == 42);
  CHECK(plan.pieces.high == 44);
  CHECK(plan.runs == 2'000);
}

TEST_CASE("what is used up is bought whole, for all pieces that come in") {
  WorkStation grinding = by_hours("grinding", 12);
  grinding.breakage = 0.05;
  grinding.consumables = {{"belt", 1, 40}, {"l of water", 0.1, 1}, {"mask", 2, 100}};
  const Plan plan = planned(task_of({grinding}, 40));  // 43 come in
  REQUIRE(plan.stations[0].needs.size() == 3);
  CHECK(plan.stations[0].needs[0].count == 2);
  CHECK(plan.stations[0].needs[1].count == 5);
  CHECK(plan.stations[0].needs[2].count == 1);
  grinding.consumables = {{"l of water", 0.1, 1}};
  grinding.breakage = 0;
  CHECK(planned(task_of({grinding}, 30)).stations[0].needs[0].count == 3);
}

TEST_CASE("work goes on behind week ends, month ends, leap days and days off") {
  PlanTask task = task_of({by_hours("engraving", 1)}, 24, "2026-01-30");  // three days from a Friday on
  CHECK(planned(task).done.middle == day("2026-02-03"));
  task.off = {{day("2026-02-02"), day("2026-02-03")}};
  CHECK(planned(task).done.middle == day("2026-02-05"));
  CHECK(planned(task_of({by_hours("engraving", 1)}, 24, "2024-02-28")).done.middle == day("2024-03-01"));
  CHECK(planned(task_of({by_hours("engraving", 1)}, 24, "2026-12-31")).done.middle == day("2027-01-04"));
  CHECK(planned(task_of({by_hours("engraving", 1)}, 8, "2026-11-28")).done.middle == day("2026-11-30"));  // a Saturday
}

TEST_CASE("the same seed gives the same plan, and a date with a spread where much breaks") {
  WorkStation station = by_hours("engraving", 2);
  station.breakage = 0.3;
  PlanTask task = task_of({station, by_hours("packing", 10)}, 60);
  const Plan plan = planned(task), again = planned(task);
  const std::vector<std::string> lines = plan_lines(task, plan);
  CHECK(lines == plan_lines(task, again));
  CHECK(plan.done.low <= plan.done.middle);
  CHECK(plan.done.middle <= plan.done.high);
  CHECK(plan.done.low < plan.done.high);
  CHECK(plan.pieces.low < plan.pieces.high);
  task.seed = 2;
  CHECK(plan_lines(task, planned(task)) != lines);  // it is printed
}

TEST_CASE("what can be no plan is refused with the mend") {
  CHECK(fault_of(task_of({}, 40)) == "the workshop has no stations");
  CHECK(fault_of(task_of({by_hours("a", 12)}, 0)) == "0 plaques cannot be planned");
  CHECK(fault_of(task_of({by_hours("a", 12)}, -5)) == "-5 plaques cannot be planned");
  CHECK(fault_of(task_of({by_hours("a", 12)}, 1'000'000)) == "1000000 plaques cannot be planned");
  CHECK(fault_of(task_of({by_hours("a", 0)}, 40)) == "nothing ever comes out of the station \"a\"");
  WorkStation glass = by_hours("glass", 12);
  glass.breakage = 1;
  CHECK(fault_of(task_of({glass}, 40)) == "nothing ever comes out of the station \"glass\"");
  glass.breakage = 0.9999;
  CHECK(fault_of(task_of({glass}, 1'000)) == "too much breaks: more than 500000 pieces would have to be prepared");
  CHECK(fault_of(task_of({by_hours("a", 0.001)}, 100)) == "the work takes longer than ten years");
  WorkStation shut = by_hours("a", 12);
  shut.days = {};
  CHECK(fault_of(task_of({shut}, 40)) == "nothing ever comes out of the station \"a\"");
  CHECK(fault_of(task_of(std::vector<WorkStation>(41, by_hours("a", 12)), 40)) == "the workshop has 41 stations");
  PlanTask closed = task_of({by_hours("a", 12)}, 40);
  closed.off = {{day("2026-01-01"), day("2099-01-01")}};
  CHECK(fault_of(closed) == "the work takes longer than ten years");
}

TEST_CASE("a plan is told as a table, with what to buy and when all is done") {
  WorkStation grinding = by_hours("grinding", 12), kiln = by_loads("firing", 24, 9);
  grinding.consumables = {{"belt", 1, 40}};
  grinding.breakage = 0.05;
  grinding.people = 2;
  kiln.hours = 24;
  kiln.days = {true, true, false, true, true, true, true};
  const PlanTask task = task_of({grinding, kiln}, 40);
  const std::vector<std::string> lines = plan_lines(task, planned(task));
  REQUIRE(lines.size() == 8);
  CHECK(lines[0] == "40 plaques from Mon 30 Nov 2026 on");
  CHECK(lines[1] == "  Station   Pieces  Hours  Days  First       Last        How");
  CHECK(lines[2] ==
        "  grinding  43      1.79   1     2026-11-30  2026-11-30  12 an hour; 2 side by side, 8 hours a day, Mon-Fri; "
        "5 % "
        "break");
  CHECK(lines[3] ==
        "  firing    40      18     1     2026-12-01  2026-12-01  24 a load, 9 hours a load; 24 hours a day, Mon-Tue, "
        "Thu-Sun");
  CHECK(lines[4] == "\"firing\" holds everything up: 1 day of work, if it never waits");
  CHECK(lines[5] == "Prepare 43 pieces; 40 to 44 are used in 8 runs of 10");
  CHECK(lines[6] == "To buy for \"grinding\": 2 × belt");
  CHECK(lines[7].starts_with("Done by Tue 1 Dec 2026 in half of 2000 runs drawn by lot (seed 1)"));
}

}  // namespace ordinatio::plan_test
