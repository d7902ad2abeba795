// The plan of what waits in a ledger, or of a number that is given.
#include "bookkeeping/work_plan.h"

#include "ledger_shop.h"

namespace ordinatio::work_plan_test {
using Catch::Contains;

namespace {

Shop with_station(const LedgerShop& ledger_shop) {
  Shop shop = ledger_shop.shop();
  WorkStation station;
  station.name = "engraving";
  station.per_hour = 2;
  shop.stations = {station};
  return shop;
}

PlanOptions options_of(const LedgerShop& shop, std::optional<int> plaques, const std::string& from) {
  PlanOptions options;
  options.call = shop.call("plan");
  options.plaques = plaques;
  options.from = from;
  options.out = shop / "out";
  return options;
}

std::string refused_plan(const Result<WorkPlan>& work) {
  REQUIRE_FALSE(work.ok());
  return describe(work.fault());
}

}  // namespace

TEST_CASE("what waits in the ledger is planned, with what lies on sheets; nothing of it is booked") {
  const LedgerShop shop;
  shop.measure(10);
  done(shop.intake("Order,Text,Quantity\n1042,Ada,3\n1043,Ida,2\n"));
  const Shop with = with_station(shop);
  const auto work = run_plan(with, options_of(shop, std::nullopt, "2026-12-01"));
  REQUIRE(work.ok());
  CHECK(work->task.plaques == 5);
  CHECK(work->account.notes.empty());
  CHECK(work->account.entries.empty());
  REQUIRE(work->account.files.size() == 1);
  CHECK(work->account.files[0].filename() == "plan.pdf");
  done(shop.day());
  const auto later = run_plan(with, options_of(shop, std::nullopt, "2026-12-01"));
  REQUIRE(later.ok());
  CHECK(later->task.plaques == 5);
  REQUIRE(later->account.notes.size() == 1);
  CHECK_THAT(later->account.notes[0], Contains("5 items lie on sheets"));
  CHECK(later->plan.done.middle == work->plan.done.middle);
}

TEST_CASE("a number needs no ledger; the day of the call is the first where none is named") {
  const LedgerShop shop;
  const auto work = run_plan(with_station(shop), options_of(shop, 32, ""));
  REQUIRE(work.ok());
  CHECK(iso_text(work->task.from) == "2026-11-10");
  CHECK(iso_text(work->plan.done.middle) == "2026-11-11");  // 16 a day
}

TEST_CASE("no plan without stations, plaques or a day") {
  const LedgerShop shop;
  const Shop with = with_station(shop);
  CHECK_THAT(refused_plan(run_plan(shop.shop(), options_of(shop, 32, ""))), Contains("no stations"));
  CHECK_THAT(refused_plan(run_plan(with, options_of(shop, 32, "tomorrow"))), Contains("is no date"));
  CHECK_THAT(refused_plan(run_plan(with, options_of(shop, 0, ""))), Contains("cannot be planned"));
  shop.measure(2);
  done(shop.intake("Order,Text,Quantity\n1042,Ada,1\n"));
  done(shop.day());
  done(shop.engraved("sheet-001"));
  CHECK_THAT(refused_plan(run_plan(with, options_of(shop, std::nullopt, ""))), Contains("nothing waits"));
  Shop without = with;
  without.ledger.clear();
  CHECK_THAT(refused_plan(run_plan(without, options_of(shop, std::nullopt, ""))), Contains("--plaques 300"));
}

}  // namespace ordinatio::work_plan_test
