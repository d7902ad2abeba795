#include <catch2/catch.hpp>

#include "read_text.h"

namespace ordinatio::machine_table_test {
using Catch::Contains;

namespace {

const std::string moving =
    "scan_speed = \"300 mm/s\"\nscan_pitch = 0.1\ntravel_speed = \"500 mm/s\"\n"
    "acceleration = \"3000 mm/s2\"\n";
const std::string two = "[[machines]]\nname = \"the large one\"\nwidth = 900\nheight = 600\n" + moving +
                        "[[machines]]\nname = \"the old one\"\nwidth = 300\nheight = 200\n";

}  // namespace

TEST_CASE("[machine] is the workshop's only one, and has no time without a speed") {
  const Shop shop = shop_of("[machine]\nwidth = 900\nheight = 600\n");
  REQUIRE(shop.machines.size() == 1);
  CHECK(shop.plan.machine.width == 900);
  CHECK(shop.plan.machine.name.empty());
  CHECK(motion_for(shop, "") == nullptr);
  CHECK(motion_for(shop_of("[machine]\nacceleration = \"3000 mm/s2\"\nscan_pitch = 0.1\n"), "") == nullptr);
}

TEST_CASE("a machine's motion is read with its units, mm/s and mm/min alike") {
  const Shop shop = shop_of(
      "[machine]\nspot = 0.08\nscan_speed = \"18000 mm/min\"\nscore_speed = \"20 mm/s\"\ncut_speed = \"300 mm/min\"\n"
      "mark_speed = \"40mm/s\"\ntravel_speed = \"30000 mm/min\"\nacceleration = \"3000 mm/s²\"\nscan_pitch = 0.05\n"
      "run_up = 20\nscanning = \"one-way\"\nsettle = \"20 ms\"\nfactor = 1.18\n");
  const Motion* motion = motion_for(shop, "");
  REQUIRE(motion != nullptr);
  CHECK(motion->scan_speed == Approx(300));
  CHECK(motion->score_speed == Approx(20));
  CHECK(motion->cut_speed == Approx(5));
  CHECK(motion->mark_speed == Approx(40));
  CHECK(motion->travel_speed == Approx(500));
  CHECK(motion->acceleration == Approx(3000));
  CHECK(motion->scan_pitch == 0.05);
  CHECK(motion->run_up == 20);
  CHECK_FALSE(motion->both_ways);
  CHECK(motion->settle == Approx(0.02));
  CHECK(motion->factor == 1.18);
  CHECK(motion->corner == Approx(0.04));  // half the spot
}

TEST_CASE("a speed without a unit, or none, or absurd, is refused with its line and how to write it") {
  const auto message = [](const std::string& value) { return message_of("[machine]\nscan_speed = " + value + "\n"); };
  CHECK_THAT(message("300"), Contains("shop.toml:2:14") && Contains("scan_speed has no unit") &&
                                 Contains("Write, for example: scan_speed = \"300 mm/s\" or \"18000 mm/min\""));
  CHECK_THAT(message("300.5"), Contains("has no unit"));
  for (const char* text : {"\"300\"", "\"fast\"", "\"300 m/s\"", "\"nan mm/s\"", "\"inf mm/s\"", "\"\"", "true"}) {
    INFO(text);
    CHECK_THAT(message(text), Contains("shop.toml:2:14") && Contains("scan_speed"));
  }
  for (const char* text : {"\"0 mm/s\"", "\"-300 mm/s\"", "\"1e9 mm/s\"", "\"0.001 mm/s\"", "\"1e300 mm/min\""}) {
    INFO(text);
    CHECK_THAT(message(text), Contains("shop.toml:2:14") && Contains("must be from 0.01 mm/s to 20000 mm/s"));
  }
}

TEST_CASE("what a speed needs beside it is asked for") {
  CHECK_THAT(message_of("[machine]\nscan_speed = \"300 mm/s\"\n"), Contains("travel_speed is missing") &&
                                                                       Contains("acceleration is missing") &&
                                                                       Contains("scan_pitch is missing"));
  CHECK_THAT(
      message_of("[machine]\ncut_speed = \"5 mm/s\"\ntravel_speed = \"50 mm/s\"\nacceleration = \"100 mm/s2\"\n"),
      Catch::Equals(""));
  CHECK_THAT(message_of("[machine]\nsettle = 20\n"), Contains("settle has no unit"));
  CHECK_THAT(message_of("[machine]\nacceleration = \"3000 mm/s\"\n"), Contains("is no number with its unit"));
  CHECK_THAT(message_of("[machine]\nfactor = 0\n"), Contains("factor"));
  CHECK_THAT(message_of("[machine]\nscan_pitch = 0.001\n"), Contains("scan_pitch"));
  CHECK_THAT(message_of("[machine]\nscanning = \"both\"\n"), Contains("one of both-ways, one-way"));
}

TEST_CASE("a scan speed that the bed is too short for, or the run-up, is refused") {
  // 2,000² / (2 · 1,000) = 2,000 mm; 300² / (2 · 3,000) = 15 mm.
  CHECK_THAT(message_of("[machine]\nscan_speed = \"2000 mm/s\"\nscan_pitch = 0.1\ntravel_speed = \"500 mm/s\"\n"
                        "acceleration = \"1000 mm/s2\"\n"),
             Contains("scan_speed is not reached on this bed") && Contains("2000 mm"));
  CHECK_THAT(message_of("[machine]\n" + moving + "run_up = 14\n"),
             Contains("run_up is too short") && Contains("15 mm"));
  CHECK(message_of("[machine]\n" + moving + "run_up = 15\n").empty());
}

TEST_CASE("of several machines the first is the sheets', and another may be chosen: the bed goes with it") {
  Shop shop = shop_of(two);
  REQUIRE(shop.machines.size() == 2);
  CHECK(shop.plan.machine.name == "the large one");
  CHECK(shop.plan.machine.width == 900);
  CHECK(motion_for(shop, "the large one") != nullptr);
  CHECK(motion_for(shop, "the old one") == nullptr);
  CHECK(motion_for(shop, "a lost one") == nullptr);
  CHECK(motion_for(shop, "") == motion_for(shop, "the large one"));  // of a sheet from before it had a name
  CHECK_FALSE(choose_machine(shop, "the old one"));
  CHECK(shop.plan.machine.width == 300);
  const MaybeFault fault = choose_machine(shop, "the new one");
  REQUIRE(fault);
  CHECK_THAT(describe(*fault),
             Contains("there is no machine \"the new one\"") && Contains("the large one, the old one"));
}

TEST_CASE("a board that does not lie on the chosen machine's bed is told") {
  Shop shop =
      shop_of(two + "[jig]\nrows = 2\ncolumns = 2\npitch = [300, 200]\nfirst = [100, 100]\npocket = [100, 60]\n");
  const MaybeFault fault = choose_machine(shop, "the old one");
  REQUIRE(fault);
  CHECK_THAT(describe(*fault), Contains("[jig]"));
}

TEST_CASE("machines have names of their own, and stand in one way alone") {
  CHECK_THAT(message_of("[machine]\nwidth = 300\n" + two), Contains("machines stand beside [machine]"));
  CHECK_THAT(message_of("[[machines]]\nwidth = 300\n"), Contains("machines.name is missing"));
  CHECK_THAT(message_of(two + "[[machines]]\nname = \"the old one\"\n"), Contains("is another machine's, too"));
  CHECK_THAT(message_of("[[machines]]\nname = \"a, b\"\n"), Contains("is no name for a machine"));
  CHECK_THAT(message_of("[[machines]]\nname = \"\"\n"), Contains("is no name for a machine"));
  std::string many;
  for (int i = 0; i < 21; ++i) many += "[[machines]]\nname = \"m" + std::to_string(i) + "\"\n";
  CHECK_THAT(message_of(many), Contains("are too many"));
}

}  // namespace ordinatio::machine_table_test
