#include "bed/settings_card.h"

#include <catch2/catch.hpp>
#include <set>

namespace ordinatio::settings_card_test {
namespace {

TrialValues trial(const char* what, const char* text) {
  const Result<TrialValues> values = read_trial_values(what, text);
  if (!values.ok()) FAIL(describe(values.fault()));
  return *values;
}

std::string refused(const char* what, const char* text) {
  const Result<TrialValues> values = read_trial_values(what, text);
  REQUIRE_FALSE(values.ok());
  CHECK_FALSE(values.fault().mend.empty());
  return describe(values.fault());
}

Sheet card(const SettingsCardPlan& plan) {
  const Result<Sheet> sheet = build_settings_card(plan, BedPlan{});
  if (!sheet.ok()) FAIL(describe(sheet.fault()));
  return *sheet;
}

}  // namespace

TEST_CASE("values are a list or steps, always with a unit where there is more than one") {
  CHECK(trial("speed", "100, 200,400 mm/s").values == std::vector<double>{100, 200, 400});
  CHECK(trial("speed", "6000 to 18000 by 6000 mm/min").values == std::vector<double>{6000, 12000, 18000});
  CHECK(trial("speed", "6000, 12000 mm/min").unit == "mm/min");
  CHECK(trial("power", "20 to 80 by 20 %").values == std::vector<double>{20, 40, 60, 80});
  CHECK(trial("pitch", "0.05, 0.1").unit == "mm");
  CHECK(refused("speed", "100, 200").find("has no unit") != std::string::npos);
  CHECK(refused("power", "20").find("% or W") != std::string::npos);
  CHECK(refused("speed", "100 ft/s").find("another unit") != std::string::npos);
  for (const char* text : {"fast mm/s", "100, mm/s", "", "100 to 50 by 10 mm/s", "0, 100 mm/s", "100, 100 mm/s",
                           "1 to 100 by 1 mm/s", "100 to 200 by 0 mm/s"}) {
    INFO(text);
    refused("speed", text);
  }
  refused("power", "50, 101 %");
}

TEST_CASE("each cell lies apart on the card, on a layer and under a name that say its values") {
  const Sheet sheet = card({80, 60, trial("speed", "100, 250.5 mm/s"), trial("power", "20 to 80 by 20 %"), {}});
  std::set<std::string> layers;
  std::vector<Bounds> boxes;
  for (const SheetPart& part : sheet.parts) {
    const Bounds box = bounds_of(part.path);
    CHECK(box.left >= 0);
    CHECK(box.right <= 80);
    CHECK(box.bottom >= 0);
    CHECK(box.top <= 60);
    if (part.operation == Operation::guide) continue;
    for (const Bounds& other : boxes) CHECK_FALSE(overlap(box, other));
    boxes.push_back(box);
    if (part.operation == Operation::engrave) CHECK(layers.insert(part.layer).second);
  }
  CHECK(layers.size() == 8);
  CHECK(layers.contains("SPEED_250_5MM-S_POWER_40PC"));
  const auto cell = std::ranges::find(sheet.parts, "SPEED_100MM-S_POWER_80PC", &SheetPart::layer);
  REQUIRE(cell != sheet.parts.end());
  CHECK(cell->title == "speed 100 mm/s, power 80 %");
  CHECK(std::ranges::count(sheet.parts, Operation::mark, &SheetPart::operation) == 2 + 2 + 4);  // labels
}

TEST_CASE("for machines that follow lines a cell is hatched, at the pitch that is tried") {
  SettingsCardPlan plan{80, 60, trial("speed", "100, 200 mm/s"), trial("pitch", "0.2, 0.4"), HatchPart{}};
  plan.hatch->lines = {0, 1, 1, 0.1, false};
  const Sheet sheet = card(plan);
  const auto points = [&](const char* layer) {
    return std::ranges::find(sheet.parts, layer, &SheetPart::layer)->path.points().size();
  };
  CHECK(std::ranges::count(sheet.parts, Operation::engrave, &SheetPart::operation) == 0);
  CHECK(std::abs(double(points("SPEED_100MM-S_PITCH_0_2MM")) / double(points("SPEED_100MM-S_PITCH_0_4MM")) - 2) < 0.1);
}

TEST_CASE("a card too small for its cells or its labels is refused, with what to do") {
  const TrialValues many = trial("speed", "1 to 12 by 1 mm/s"),
                    long_ones = trial("speed", "100000, 200000, 300000 mm/min");
  for (const SettingsCardPlan& plan : {SettingsCardPlan{30, 60, many, trial("power", "20 %"), {}},
                                       SettingsCardPlan{34, 60, long_ones, trial("power", "10 to 100 by 10 %"), {}}}) {
    const Result<Sheet> sheet = build_settings_card(plan, BedPlan{});
    REQUIRE_FALSE(sheet.ok());
    CHECK(sheet.fault().what.find("too small") != std::string::npos);
    CHECK_FALSE(sheet.fault().mend.empty());
  }
}

}  // namespace ordinatio::settings_card_test
