// [[stations]] and [plan] of shop.toml.
#include <catch2/catch.hpp>

#include "read_text.h"
#include "workshop/station_words.h"

namespace ordinatio::stations_test {
using Catch::Contains;

namespace {

std::string message_of_kiln(const std::string& station) {
  return message_of("[[stations]]\nname = \"kiln\"\n" + station);
}

}  // namespace

TEST_CASE("a rate is pieces an hour, minutes a piece, or loads and their hours") {
  CHECK(rate_in("12 an hour")->per_hour == 12);
  CHECK(rate_in(" 0.5 an hour ")->per_hour == 0.5);
  CHECK(rate_in("5 minutes a piece")->per_hour == 12);
  const auto load = rate_in("24 a load, 9 hours a load");
  REQUIRE(load.has_value());
  CHECK(load->per_hour == 0);
  CHECK(load->load == 24);
  CHECK(load->load_hours == 9);
  CHECK(rate_in("1 a load, 1 hour a load").has_value());
  for (const char* words :
       {"", "12", "an hour", "0 an hour", "-3 an hour", "12 a day", "1e9 an hour", "nan an hour", "12 an hour, 3",
        "24 a load", "0 a load, 9 hours a load", "2.5 a load, 9 hours a load", "24 a load, 0 hours a load",
        "24 a load, 9 hours", "24 a load, 9 hours a load, 2", "0 minutes a piece", "999999999 an hour", "300 mm/s"}) {
    INFO(words);
    CHECK_FALSE(rate_in(words).has_value());
  }
}

TEST_CASE("breakage is per cent, below a hundred") {
  CHECK(percent_in("4 %") == 0.04);
  CHECK(percent_in("0%") == 0.0);
  CHECK(percent_in("99.9 %").has_value());
  for (const char* words : {"", "4", "100 %", "-1 %", "0.04 of all", "%"}) CHECK_FALSE(percent_in(words).has_value());
}

TEST_CASE("what is used up is so many of a thing for so many pieces") {
  const auto belt = consumable_in("1 belt for 40 pieces"), oil = consumable_in("0.5 l of oil for cutting for 1 piece");
  REQUIRE((belt && oil));
  CHECK(belt->name == "belt");
  CHECK(belt->count == 1);
  CHECK(belt->pieces == 40);
  CHECK(oil->name == "l of oil for cutting");
  for (const char* words : {"", "1 belt", "belt for 40 pieces", "1 for 40 pieces", "0 belts for 40 pieces",
                            "1 belt for 0 pieces", "1 belt for 40", "1 belt for many pieces"}) {
    INFO(words);
    CHECK_FALSE(consumable_in(words).has_value());
  }
}

TEST_CASE("days of work are names and what lies between them; days off are days of the calendar") {
  CHECK(weekdays_in("Mon-Fri") == std::array{true, true, true, true, true, false, false});
  CHECK(weekdays_in("Tue, Thu-Sat") == std::array{false, true, false, true, true, true, false});
  CHECK(weekdays_in("Sat-Mon") == std::array{true, false, false, false, false, true, true});
  CHECK(weekdays_in("Sunday") == std::array{false, false, false, false, false, false, true});
  for (const char* words : {"", "every day", "Mon-", "-Fri", "Mon,,Tue", "1-5"})
    CHECK_FALSE(weekdays_in(words).has_value());
  const auto off = days_off_in("2026-12-24/2027-01-02");
  REQUIRE(off.has_value());
  CHECK(iso_text(off->first) == "2026-12-24");
  CHECK(iso_text(off->last) == "2027-01-02");
  CHECK(days_off_in("2026-12-24").has_value());
  for (const char* words : {"", "2026-12-24/2026-12-23", "24.12.2026", "2026-12-24/"}) {
    CHECK_FALSE(days_off_in(words).has_value());
  }
}

TEST_CASE("stations stand in the file's order, with what is usual where nothing is said") {
  const auto shop = parse_shop(
      "[plan]\ndays_off = [\"2026-12-24\"]\n[[stations]]\nname = \"grinding\"\nrate = \"12 an hour\"\nhours = "
      "3\npeople = 2\n"
      "days = \"Tue\"\nbreakage = \"4 %\"\nconsumables = [\"1 belt for 40 pieces\"]\n[[stations]]\nname = \"kiln\"\n"
      "rate = \"24 a load, 9 hours a load\"\n",
      "shop.toml");
  REQUIRE(shop.ok());
  REQUIRE(shop->stations.size() == 2);
  CHECK(shop->stations[0].name == "grinding");
  CHECK(shop->stations[0].hours == 3);
  CHECK(shop->stations[0].people == 2);
  CHECK(shop->stations[0].breakage == 0.04);
  CHECK(shop->stations[0].consumables.size() == 1);
  CHECK(shop->stations[1].hours == 8);
  CHECK(shop->stations[1].people == 1);
  CHECK(shop->stations[1].days == std::array{true, true, true, true, true, false, false});
  CHECK(shop->days_off.size() == 1);
  CHECK(parse_shop("", "shop.toml")->stations.empty());
}

TEST_CASE("what a station cannot be is told with its place and the mend") {
  const std::string rate = "rate = \"12 an hour\"\n";
  CHECK(message_of_kiln(rate).empty());
  CHECK_THAT(message_of_kiln(""), Contains("rate") && Contains("12 an hour"));
  CHECK_THAT(message_of_kiln("rate = \"0 an hour\"\n"), Contains("shop.toml:3:") && Contains("says no rate"));
  CHECK_THAT(message_of_kiln(rate + "breakage = \"100 %\"\n"),
             Contains("no share that can break") && Contains("less than"));
  CHECK_THAT(message_of_kiln(rate + "breakage = 4\n"), Contains("breakage"));
  CHECK_THAT(message_of_kiln(rate + "hours = 0\n"), Contains("hours"));
  CHECK_THAT(message_of_kiln(rate + "hours = 25\n"), Contains("hours"));
  CHECK_THAT(message_of_kiln(rate + "people = 0\n"), Contains("people"));
  CHECK_THAT(message_of_kiln(rate + "days = \"sometimes\"\n"), Contains("no days of the week"));
  CHECK_THAT(message_of_kiln(rate + "consumables = [\"belts\"]\n"), Contains("1 belt for 40 pieces"));
  CHECK_THAT(message_of_kiln(rate + "[[stations]]\nname = \"kiln\"\n" + rate), Contains("is there twice"));
  CHECK_THAT(message_of_kiln(rate + "[plan]\ndays_off = [\"Christmas\"]\n"), Contains("is no day"));
  CHECK_THAT(message_of_kiln(rate + "speed = 3\n"), Contains("speed"));
  std::string many = rate;
  for (int i = 0; i < most_stations; ++i) many += "[[stations]]\nname = \"s" + std::to_string(i) + "\"\n" + rate;
  CHECK_THAT(message_of_kiln(many), Contains("one station too many"));
}

}  // namespace ordinatio::stations_test
