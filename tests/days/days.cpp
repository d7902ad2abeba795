// 500 days, ten in each of 50 workshops. Another seed: ORDINATIO_DAYS_SEED=7 days; a longer look: ORDINATIO_DAYS=5000.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>

#include "workshop.h"
#include "written_sheets.h"

using namespace ordinatio::days;

namespace {

unsigned number_from(const char* variable, unsigned otherwise) {
  const char* text = std::getenv(variable);
  const auto number = text == nullptr ? std::nullopt : ordinatio::parse_number(text);
  return number && *number >= 0 ? static_cast<unsigned>(*number) : otherwise;
}

constexpr unsigned days_a_workshop = 10;

}  // namespace

TEST_CASE("whatever the days bring, a sheet holds what is due on pieces that are its own") {
  const unsigned seed = number_from("ORDINATIO_DAYS_SEED", 3103), days = number_from("ORDINATIO_DAYS", 500);
  std::cout << "seed " << seed << ", " << days << " days\n";
  std::map<std::string, int> counts;
  int files = 0, items = 0, laid = 0;
  for (unsigned workshop = 0; workshop * days_a_workshop < days; ++workshop) {
    Workshop shop(seed + workshop);
    WrittenSheets sheets(shop.folder());
    std::string story;
    for (unsigned day = 0; day < days_a_workshop; ++day) {
      shop.day([&](const std::string& done) {
        story += "\n  " + done;
        const auto wrong = sheets.look();
        INFO("seed " << seed + workshop << ", day " << day + 1 << ":" << story);
        for (const std::string& what : wrong) UNSCOPED_INFO(what);
        REQUIRE(wrong.empty());
      });
      story += "\n";
      ++laid;
    }
    for (const auto& [command, count] : shop.counts()) counts[command] += count;
    files += sheets.files(), items += sheets.items();
  }
  for (const auto& [command, count] : counts) std::cout << command << ' ' << count << ", ";
  std::cout << files << " looks at files, " << items << " at items in them\n";
  // Whatever is held, nothing stops a day: what one bed cannot take goes on another.
  CHECK(counts["day"] == laid);
  // Where a command is refused always, nothing was tried.
  for (const char* command : {"undo", "approve", "answer", "proof"}) {
    INFO(command);
    CHECK(counts[command] > 0);
  }
  for (const char* command : {"day", "engraved", "correct", "hold", "release", "cancel", "align", "resume", "remake",
                              "spoil", "move", "take-off"}) {
    INFO(command);
    CHECK(counts[command] > static_cast<int>(days / 50));
  }
}
