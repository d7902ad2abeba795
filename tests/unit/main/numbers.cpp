// Items' numbers and stands' numbers as a person types and reads them.
#include <nlohmann/json.hpp>

#include "base/check_character.h"
#include "workshop.h"

namespace ordinatio::numbers_test {
using Catch::Contains;

namespace {

/// "1001-1" and its payload "100100001" make "1001-1/" and the check character.
std::string checked(const std::string& item, const std::string& payload) {
  return item + "/" + check_character(payload);
}

}  // namespace

TEST_CASE("the account on the terminal tells items by their numbers with the check character, as data without") {
  const Workshop workshop;
  workshop.write("some.csv", "Order,Text,Quantity,Design\n1,Bee \U0001F41D,1,\n2,Good,1,\n2026-11,Ok,x,\n");
  const Run told = workshop.run("day some.csv --no-pdf");
  CHECK(told.code == 1);
  CHECK_THAT(told.out, Contains("  " + checked("1-1", "100001") + "  some.csv:2"));
  CHECK_THAT(told.out, Contains("  2026-11  "));  // an order's number
  CHECK_THAT(told.out, Contains("cap height, " + checked("2-1", "200001") + ".\n"));
  const auto account = nlohmann::json::parse(workshop.run("day some.csv --no-pdf --json").out);
  CHECK(account["smallest_item"] == "2-1");
  CHECK(account["held"][1]["id"] == "1-1");
}

TEST_CASE("an item is named with its check character, and a wrong one changes nothing") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  const std::string item = checked("1001-1", "100100001");
  CHECK(workshop.run("remake " + item + " --sheet out/orders/sheet-001.json").code == 0);
  CHECK(workshop.run("proof orders.csv --item " + item).code == 0);
  const auto before = workshop.files();
  const std::string wrong = item.substr(0, item.size() - 1) + (item.back() == '7' ? '8' : '7');
  for (const std::string command : {"remake --sheet out/orders/sheet-001.json ", "proof orders.csv --item "}) {
    const Run run = workshop.run(command + wrong);
    CHECK(run.code == 2);
    CHECK_THAT(run.err, Contains("the check character of 1001-1 is not ") &&
                            Contains("Look at the number on the sheet or in the list again"));
    CHECK_FALSE(Contains(item).match(run.err));
    CHECK(workshop.files() == before);
  }
}

TEST_CASE("stands are numbered from the number that was given, where their design has a place for it") {
  const Workshop workshop;
  workshop.edit("templates/stand-logo.toml", "date = \"iso\"", "number = \"serial\"");
  const std::string command = "stands --count 3 --date 2026-11-25 --design stand-logo";
  const Run none = workshop.run(command);
  CHECK(none.code == 2);
  CHECK_THAT(none.err, Contains("no serial number is given") && Contains("--first-number"));
  REQUIRE(workshop.run(command + " --first-number 25").code == 0);
  const auto manifest = nlohmann::json::parse(workshop.read("out/stands/stands-001.json"));
  CHECK(manifest["items"][2]["number"] == "027");
  CHECK(manifest["items"][2]["id"] == "stand-027");
}

}  // namespace ordinatio::numbers_test
