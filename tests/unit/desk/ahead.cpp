// The time to come, as the desk shows it.
#include <catch2/catch.hpp>

#include "asked_desk.h"

namespace ordinatio::ahead_test {
using desk_test::AskedDesk;

namespace {

/// Adds to the workshop's shop.toml.
void say_in_shop(AskedDesk& desk, const std::string& words) {
  const Result<std::string> before = read_file(desk.shop() / "shop.toml");
  REQUIRE(before.ok());
  desk.shop().write("shop.toml", *before + words);
}
void give_speeds(AskedDesk& desk) {
  std::string text = *read_file(desk.shop() / "shop.toml");
  const std::string machine = "[machine]\n";
  text.replace(
      text.find(machine), machine.size(),
      machine +
          "scan_speed = \"300 mm/s\"\nscan_pitch = 0.1\nacceleration = \"3000 mm/s²\"\ntravel_speed = \"400 mm/s\"\n");
  desk.shop().write("shop.toml", text);
}

}  // namespace

TEST_CASE("machines and pitches are laid side by side for all that waits, and nothing is booked") {
  AskedDesk desk;
  give_speeds(desk);
  desk.send("/api/intake", "export.csv", "Order,Text,Quantity\n1001,Weir Lane,3\n");
  CHECK(desk.get("/api/hours")["machines"].size() == 1);
  CHECK(desk.get("/api/hours")["settings"].empty());
  desk.post("/api/hours", {{"machines", Json::array()}, {"pitches", {"0.1", "0.2"}}, {"hours", 5}, {"date", ""}});
  const Json work = desk.worked();
  INFO(work.dump());
  CHECK(work["account"]["sheets"] == 0);
  const Json settings = desk.get("/api/hours")["settings"];
  REQUIRE(settings.size() == 2);
  CHECK(settings[0]["pitch"] == 0.1);
  CHECK(settings[1]["pitch"] == 0.2);
  CHECK(settings[0]["beds"] == 1);
  const double fine = settings[0]["seconds"], coarse = settings[1]["seconds"];
  CHECK(fine > 10);
  CHECK(coarse / fine == Approx(0.5).epsilon(0.05));
  CHECK(settings[0]["done"].get<std::string>().starts_with("2026-11-"));
  CHECK(desk.get("/api/item", {{"number", "1001-1"}})["item"]["state"] == "received");
  desk.post("/api/day", {{"date", "2026-11-25"}});
  REQUIRE(desk.worked()["account"]["sheets"] == 1);
  CHECK(desk.get("/api/sheet", {{"name", "sheet-001"}})["time"].get<std::string>().starts_with("estimated time"));
}

TEST_CASE("what is no pitch is refused, and what was seen before stays") {
  AskedDesk desk;
  give_speeds(desk);
  desk.send("/api/intake", "export.csv", "Order,Text,Quantity\n1001,Weir Lane,1\n");
  for (const char* pitch : {"fine", "0", "-1", "1e999"}) {
    INFO(pitch);
    desk.post("/api/hours", {{"machines", Json::array()}, {"pitches", {pitch}}, {"hours", 5}, {"date", ""}});
    CHECK(desk.worked().contains("fault"));
  }
  desk.post("/api/hours", {{"machines", {"none"}}, {"pitches", Json::array()}, {"hours", 5}, {"date", ""}});
  CHECK(desk.worked().contains("fault"));
  CHECK(desk.get("/api/hours")["settings"].empty());
}

TEST_CASE("a card of settings is made of what is typed, and given out; nothing is proposed") {
  AskedDesk desk;
  const Json typed{
      {"speed", "100, 200 mm/s"}, {"power", "20 to 60 by 20 %"}, {"pitch", ""}, {"size", "80x60"}, {"piece", ""}};
  const Json made = desk.post("/api/settings-card", typed);
  INFO(made.dump());
  CHECK(made["account"]["items_set"] == 6);
  const Json files = desk.get("/api/hours")["files"];
  CHECK(files.size() >= 3);
  for (const auto& [key, value] : {std::pair("speed", ""), std::pair("speed", "100"), std::pair("size", "wide"),
                                   std::pair("piece", "S-99"), std::pair("size", "4x4")}) {
    Json other = typed;
    other[key] = value;
    CHECK(desk.post("/api/settings-card", other).contains("fault"));
  }
}

TEST_CASE("plaques are planned over the stations, and the plan is given out as a PDF") {
  AskedDesk desk;
  CHECK(desk.get("/api/plan")["stations"] == 0);
  desk.post("/api/plan", {{"plaques", 20}, {"date", "2026-12-01"}});
  CHECK(desk.worked()["fault"]["what"].get<std::string>().find("station") != std::string::npos);
  say_in_shop(desk,
              "[[stations]]\nname = \"grinding\"\nrate = \"5 an hour\"\nhours = 2\n"
              "[[stations]]\nname = \"engraving\"\nrate = \"12 an hour\"\n");
  CHECK(desk.get("/api/plan")["stations"] == 2);
  CHECK_FALSE(desk.get("/api/plan").contains("plan"));
  desk.post("/api/plan", {{"plaques", 20}, {"date", "2026-12-01"}});
  INFO(desk.worked().dump());
  const Json seen = desk.get("/api/plan");
  REQUIRE(seen.contains("plan"));
  CHECK(seen["plan"]["prepared"] == 20);
  CHECK(seen["plan"]["stations"][0]["days"] == 2);
  CHECK(seen["plan"]["stations"][0]["is_slowest"] == true);
  CHECK(seen["plan"]["stations"][0]["last"] == "2026-12-02");
  CHECK(seen["plan"]["likely"] == "2026-12-03");
  CHECK(seen["files"] == Json::array({"plan.pdf"}));
  for (const double plaques : {-3.0, 0.0, 1e300, -1e300}) {
    desk.post("/api/plan", {{"plaques", plaques}, {"date", "2026-12-01"}});
    CHECK(desk.worked().contains("fault"));
  }
  CHECK(desk.get("/api/plan")["plan"]["plaques"] == 20);
}

}  // namespace ordinatio::ahead_test
