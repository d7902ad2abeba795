// How long sheets take: told by the day, on papers and in manifests, and compared, in a workshop as it is new.
#include "shop/machine_time.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/account.h"
#include "shop/day.h"
#include "workshop/toml_edit.h"

namespace ordinatio::machine_time_test {
using Catch::Contains;
namespace fs = std::filesystem;
using Json = nlohmann::json;

namespace {

constexpr const char* two_machines = R"([[machines]]
name = "large"
width = 600
height = 400
scan_speed = "300 mm/s"
scan_pitch = 0.1
travel_speed = "500 mm/s"
acceleration = "3000 mm/s2"
mark_speed = "40 mm/s"
[[machines]]
name = "small"
width = 300
height = 260
scan_speed = "100 mm/s"
scan_pitch = 0.1
travel_speed = "200 mm/s"
acceleration = "1000 mm/s2"
mark_speed = "40 mm/s"
)";

/// With twelve orders.
class TimedShop {
 public:
  TimedShop() : folder_(fs::temp_directory_path() / ("ordinatio-time-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    REQUIRE_FALSE(new_shop(folder_));
    std::string orders = "Order,Text,Quantity\n";
    for (int i = 0; i < 12; ++i) orders += std::to_string(1001 + i) + ",Weir Lane " + std::to_string(i) + ",1\n";
    REQUIRE_FALSE(write_file(folder_ / "orders.csv", orders));
    read();
  }
  ~TimedShop() { fs::remove_all(folder_); }
  TimedShop(const TimedShop&) = delete;
  TimedShop& operator=(const TimedShop&) = delete;

  [[nodiscard]] const Shop& shop() const { return shop_; }
  [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_ / name; }
  void read() { shop_ = *read_shop(folder_); }
  void give_speeds() {
    const TomlEdit edits[] = {{"machine", "scan_speed", "\"300 mm/s\""},
                              {"machine", "scan_pitch", "0.1"},
                              {"machine", "travel_speed", "\"500 mm/s\""},
                              {"machine", "acceleration", "\"3000 mm/s2\""},
                              {"machine", "mark_speed", "\"40 mm/s\""}};
    REQUIRE_FALSE(edit_toml(folder_ / "shop.toml", edits));
    read();
  }
  void give_machines() {
    REQUIRE_FALSE(write_file(folder_ / "shop.toml", two_machines));
    read();
  }
  void keep_ledger() {
    const TomlEdit edit{"ledger", "file", "\"workshop.ledger\""};
    REQUIRE_FALSE(edit_toml(folder_ / "shop.toml", std::span(&edit, 1)));
    read();
  }
  Account day(const std::string& machine = "") const {
    Shop on_it = shop_;
    if (!machine.empty()) REQUIRE_FALSE(choose_machine(on_it, machine));
    DayOptions options;
    options.orders = folder_ / "orders.csv", options.out = folder_ / "day",
    options.svg = options.dxf = options.pdf = false;
    options.call.now = "2026-11-25T08:00:00Z";
    auto account = run_day(on_it, options);
    if (!account.ok()) FAIL(describe(account.fault()));
    return *std::move(account);
  }
  Account time(TimeOptions options) const {
    options.call.now = "2026-11-25T09:00:00Z";
    auto account = run_time(shop_, options);
    if (!account.ok()) FAIL(describe(account.fault()));
    return *std::move(account);
  }
  [[nodiscard]] std::string refusal(const TimeOptions& options) const {
    const auto account = run_time(shop_, options);
    return account.ok() ? "" : describe(account.fault());
  }
  [[nodiscard]] Json manifest(const std::string& sheet) const {
    return Json::parse(*read_file(folder_ / "day" / (sheet + ".json")));
  }

 private:
  fs::path folder_;
  Shop shop_;
};

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

}  // namespace

TEST_CASE("without speeds no output has a time, and the command says what is missing") {
  const TimedShop workshop;
  CHECK_THAT(joined(workshop.day().told), !Contains("time"));
  CHECK_FALSE(workshop.manifest("sheet-001").contains("estimate"));
  CHECK_FALSE(workshop.manifest("sheet-001").at("machine").contains("name"));
  CHECK_THAT(workshop.refusal({}), Contains("no speed of the machine is told") && Contains("shop.toml"));
}

TEST_CASE("with speeds the day and the manifest say the same time, and the items have their shares of it") {
  TimedShop workshop;
  workshop.give_speeds();
  const Account account = workshop.day();
  const Json estimate = workshop.manifest("sheet-001").at("estimate");
  const double seconds = estimate.at("time");
  CHECK(seconds > 600);
  CHECK(estimate.at("engrave").get<double>() + estimate.at("mark").get<double>() == Approx(seconds).margin(1));
  double items = 0;
  for (const auto& [item, share] : estimate.at("items").items()) items += share.get<double>();
  CHECK(items == Approx(estimate.at("engrave").get<double>()).margin(12));
  const std::string words = "estimated time " + std::to_string(static_cast<int>(std::round(seconds / 60)) / 60) + " h";
  CHECK_THAT(joined(account.told), Contains("sheet-001: " + words) && Contains("row by row"));
}

TEST_CASE("a sheet alone is taken apart, and comes to what its manifest says") {
  TimedShop workshop;
  workshop.give_speeds();
  const Account day = workshop.day();
  TimeOptions options;
  options.sheets = {(workshop / "day/sheet-001.json").string()};
  const Account account = workshop.time(options);
  const std::string told = joined(account.told);
  CHECK_THAT(told, Contains(day.told.front()));
  CHECK_THAT(told, Contains("piece by piece") && Contains("the whole bed in one go") && Contains("scan lines"));
  CHECK_THAT(told, Contains("  1001-1/E "));
  CHECK(account.files.empty());
}

TEST_CASE("pitches stand side by side; days and the last of them follow from the hours") {
  TimedShop workshop;
  workshop.give_speeds();
  TimeOptions options;
  options.pitches = {0.05, 0.1}, options.hours = 0.5, options.from = "2026-11-28";
  std::vector<TimedSetting> settings;
  options.shown = [&](const std::vector<TimedSetting>& all) { settings = all; };
  const Account account = workshop.time(options);
  REQUIRE(account.told.size() >= 3);
  const std::string &head = account.told[account.told.size() - 3], &fine = account.told[account.told.size() - 2],
                    &usual = account.told.back();
  CHECK_THAT(head, Contains("days of 0.5 h") && Contains("done on"));
  CHECK_THAT(fine, Contains("0.05 mm"));
  CHECK_THAT(usual, Contains("0.1 mm"));
  CHECK(fine.size() == usual.size());  // columns stand below one another
  CHECK_FALSE(fs::exists(workshop / "out"));
  // What the day lays, at half an hour a day.
  const Account day = workshop.day();
  double seconds = 0;
  for (std::size_t i = 1; i <= day.sheets; ++i) {
    seconds += workshop.manifest("sheet-00" + std::to_string(i)).at("estimate").at("time").get<double>();
  }
  const int days = static_cast<int>(std::ceil((seconds - 60) / 1800));
  CHECK(days > 3);
  REQUIRE(settings.size() == 2);
  CHECK(settings[0].seconds > 1.9 * settings[1].seconds);  // twice as many lines
  CHECK(settings[1].seconds == Approx(seconds).margin(static_cast<double>(day.sheets)));
  CHECK(settings[1].days == days);
  CHECK(settings[1].plaques_an_hour == Approx(12 / (seconds / 3600)).epsilon(0.01));
  CHECK_THAT(usual, Contains("  " + std::to_string(days) + " ") &&
                        Contains("2026-12-" + std::string(days < 13 ? "0" : "") + std::to_string(days - 3)));
}

TEST_CASE("a machine's sheets are laid on its bed, and know it") {
  TimedShop workshop;
  workshop.give_machines();
  const std::size_t sheets_of_small = workshop.day("small").sheets;
  const std::size_t sheets_of_large = workshop.day("large").sheets;
  CHECK(sheets_of_small > sheets_of_large);
  CHECK(workshop.manifest("sheet-001").at("machine").at("name") == "large");
  const double large = workshop.manifest("sheet-001").at("estimate").at("time");
  TimeOptions options;
  options.machines = {"large", "small"};
  std::vector<TimedSetting> settings;
  options.shown = [&](const std::vector<TimedSetting>& all) { settings = all; };
  const std::string table = joined(workshop.time(options).told);
  REQUIRE(settings.size() == 2);
  CHECK(settings[0].beds == sheets_of_large);
  CHECK(settings[1].beds == sheets_of_small);
  CHECK_THAT(table, Contains("\nlarge ") && Contains("\nsmall "));
  workshop.day("small");
  CHECK(workshop.manifest("sheet-001").at("machine").at("name") == "small");
  CHECK(workshop.manifest("sheet-001").at("machine").at("width") == 300);
  CHECK(workshop.manifest("sheet-001").at("estimate").at("time").get<double>() != large);
  options.machines = {"lost"};
  CHECK_THAT(workshop.refusal(options), Contains("there is no machine \"lost\""));
}

TEST_CASE("a machine that cannot be told to fill looks no faster than one that fills") {
  TimedShop workshop;
  std::string shop = two_machines;
  const std::string fills = "scan_speed = \"100 mm/s\"\n";
  shop.erase(shop.find(fills), fills.size());
  const std::string marks = "mark_speed = \"40 mm/s\"\n";
  shop.erase(shop.find(marks), marks.size());  // of the large one: its marks are a minute of its bed
  REQUIRE_FALSE(write_file(workshop / "shop.toml", shop));
  workshop.read();
  TimeOptions options;
  options.machines = {"large", "small"};
  std::vector<TimedSetting> settings;
  options.shown = [&](const std::vector<TimedSetting>& all) { settings = all; };
  const Account account = workshop.time(options);
  REQUIRE(settings.size() == 2);
  CHECK(settings[0].is_whole);
  CHECK_FALSE(settings[1].is_whole);
  CHECK_THAT(account.told.back(), Contains("small") && Contains("not known"));
  CHECK_THAT(joined(account.notes), Contains("in no sum"));
}

TEST_CASE("a timed bed fits the factor, which is kept where that is asked for, and then estimates as it was") {
  TimedShop workshop;
  workshop.give_speeds();
  workshop.day();
  const double before = workshop.manifest("sheet-001").at("estimate").at("time");
  TimeOptions options;
  options.sheets = {(workshop / "day/sheet-001.json").string()};
  options.took = {1.25 * before};
  CHECK_THAT(joined(workshop.time(options).told),
             Contains("25 % longer") && Contains("For shop.toml, in [machine]: factor = 1.25"));
  CHECK_THAT(*read_file(workshop / "shop.toml"), !Contains("\nfactor = "));
  options.keep = true;
  CHECK_THAT(joined(workshop.time(options).told), Contains("shop.toml has factor = 1.25 now"));
  workshop.read();
  CHECK(motion_for(workshop.shop(), "")->factor == 1.25);
  workshop.day();
  CHECK(workshop.manifest("sheet-001").at("estimate").at("time").get<double>() == Approx(1.25 * before).margin(1));
  // The same bed again: nothing is to be changed.
  CHECK_THAT(joined(workshop.time(options).told), Contains("factor = 1.25"));
}

TEST_CASE("of several machines the factor goes to the one that was timed") {
  TimedShop workshop;
  workshop.give_machines();
  workshop.day("small");
  TimeOptions options;
  options.sheets = {(workshop / "day/sheet-001.json").string()};
  options.took = {2 * workshop.manifest("sheet-001").at("estimate").at("time").get<double>()};
  options.keep = true;
  workshop.time(options);
  workshop.read();
  CHECK(motion_for(workshop.shop(), "small")->factor == Approx(2).epsilon(0.001));
  CHECK(motion_for(workshop.shop(), "large")->factor == 1);
}

TEST_CASE("with a ledger all that waits and all that lies on beds is counted, and nothing is booked") {
  TimedShop workshop;
  workshop.give_speeds();
  workshop.keep_ledger();
  const std::size_t sheets = workshop.day().sheets;
  REQUIRE_FALSE(write_file(workshop / "more.csv", "Order,Text,Quantity\n2001,Mill Race,1\n"));
  TimeOptions options;
  std::vector<TimedSetting> settings;
  options.shown = [&](const std::vector<TimedSetting>& all) { settings = all; };
  const Account laid = workshop.time(options);
  REQUIRE(settings.size() == 1);
  CHECK(settings.front().beds == sheets);
  options.orders = workshop / "more.csv";
  const std::string more = joined(workshop.time(options).told);
  CHECK_THAT(more, Contains("2001-1/"));
  CHECK(workshop.time(TimeOptions{}).told == laid.told);
}

TEST_CASE("what cannot be compared is refused with its mend") {
  TimedShop workshop;
  workshop.give_speeds();
  const auto refused = [&](const TimeOptions& options) { return workshop.refusal(options); };
  TimeOptions options;
  options.pitches = {0};
  CHECK_THAT(refused(options), Contains("--pitch"));
  options.pitches = {NAN};
  CHECK_THAT(refused(options), Contains("--pitch"));
  options.pitches.assign(41, 0.1);
  CHECK_THAT(refused(options), Contains("too many settings"));
  options = {};
  for (const double hours : {0.0, -5.0, 25.0, double(NAN)}) {
    options.hours = hours;
    CHECK_THAT(refused(options), Contains("--hours"));
  }
  options = {};
  options.from = "tomorrow";
  CHECK_THAT(refused(options), Contains("is no date"));
  options = {};
  options.keep = true;
  CHECK_THAT(refused(options), Contains("there is no factor to keep"));
  options = {};
  for (const double seconds : {0.0, -60.0, 3.7e6, double(NAN), HUGE_VAL}) {
    options.took = {seconds};
    CHECK_THAT(refused(options), Contains("1000 hours at the most"));
  }
  options.took = {600};
  CHECK_THAT(refused(options), Contains("0 sheets and 1 time are given"));
  workshop.day();
  options.sheets = {(workshop / "day/sheet-001.json").string()};
  options.took = {1};
  CHECK_THAT(refused(options), Contains("0.1 to 10 is allowed"));
}

}  // namespace ordinatio::machine_time_test
