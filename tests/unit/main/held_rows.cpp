// Rows that are no order stand in the ledger until they come mended or are let go.
#include "ledger_workshop.h"

namespace ordinatio::held_rows_test {
using Catch::Contains;

namespace {

constexpr const char* head = "Order,Text,Quantity,Customer\n";

std::string export_of(const std::string& rows) { return head + rows; }

/// What is still held, from the list.
std::string held(const LedgerWorkshop& shop) {
  const std::string list = shop.at("list").out;
  std::string rows;
  for (std::size_t at = list.find("row-"); at != std::string::npos; at = list.find("row-", at + 1)) {
    if (at == 0 || list[at - 1] == '\n') rows += list.substr(at, list.find(' ', at) - at) + " ";
  }
  return rows;
}

}  // namespace

TEST_CASE("every row that intake holds stands in the list as it came, with its reason, and is added once") {
  LedgerWorkshop shop;
  const std::string rows = export_of(
      ",Kitchen,1,Ada Wren\n7002,Bathroom,two,Ida Poole\n7003,,1,Ina\n7004,Attic,1,Ivo,too many\n1.2E+12,Barn,1,Uta\n"
      "7006,\"Shed \" broken,1,Ola\n7007,Mill House,1,Ulf\n");
  const Run first = shop.intake("monday.csv", rows);
  CHECK(first.code == 1);
  CHECK_THAT(first.out, Contains("1 new item of 1 new order") && Contains("Held:"));
  CHECK(held(shop) == "row-1 row-2 row-3 row-4 row-5 row-6 ");
  const std::string list = shop.at("list").out;
  CHECK_THAT(list, Contains("row-2  held: monday.csv:3, order \"7002\": the quantity \"two\" cannot be made") &&
                       Contains("It came as \"7002,Bathroom,two,Ida Poole\""));
  CHECK_THAT(list, Contains("row-6  held: monday.csv:7") && Contains("broken,1,Ola"));
  const std::string before = shop.at("history row-2").out;
  CHECK_THAT(before, Contains("row-2 is held") && Contains("2026-11-25"));
  CHECK_THAT(shop.at("history 7002").out, Contains("row-2 is held"));
  CHECK_THAT(shop.at("history bathroom").out, Contains("row-2 is held"));
  CHECK_THAT(shop.at("list 'ida poole'").out, Contains("row-2") && !Contains("row-1") && !Contains("Mill House"));

  shop.must(shop.at("intake monday.csv"));
  shop.must(shop.intake("tuesday.csv", rows));
  CHECK(held(shop) == "row-1 row-2 row-3 row-4 row-5 row-6 ");
  CHECK(shop.at("history row-2").out.find("tuesday.csv:3") != std::string::npos);
  CHECK(shop.at("check").code == 0);
}

TEST_CASE("a held row goes when an export brings it mended, and only then") {
  LedgerWorkshop shop;
  shop.must(
      shop.intake("monday.csv", export_of("7001,Kitchen,1,Ada\n7001,Bathroom,two,Ada\n7002,,1,Ida\n,Barn,1,Uta\n")));
  CHECK(held(shop) == "row-1 row-2 row-3 ");

  // The order's other row alone mends nothing, nor does another customer's.
  shop.must(shop.intake("tuesday.csv", export_of("7001,Kitchen,1,Ada\n7009,Barn,1,Ulf\n")));
  CHECK(held(shop) == "row-1 row-2 row-3 ");

  const Run mended =
      shop.intake("wednesday.csv", export_of("7001,Kitchen,1,Ada\n7001,Bathroom,2,Ada\n7002,Otter Pool,1,Ida\n"));
  CHECK_THAT(mended.out, Contains("row-1 (monday.csv:3) came mended as order 7001, \"Bathroom\"") &&
                             Contains("row-2 (monday.csv:4) came mended as order 7002, \"Otter Pool\""));
  CHECK(held(shop) == "row-3 ");

  // Mended in the file itself: the same place, and it reads alike.
  shop.must(shop.intake(
      "monday.csv", export_of("7001,Kitchen,1,Ada\n7001,Bathroom,2,Ada\n7002,Otter Pool,1,Ida\n7003,Barn,1,Uta\n")));
  CHECK(held(shop).empty());
  CHECK_THAT(shop.at("history row-3").out, Contains("row-3 is mended"));
  CHECK_THAT(shop.at("history 7003-1").out, Contains("\"Barn\""));

  // An old file read again holds nothing anew, and what was mended by mistake is held again by undo.
  shop.must(shop.intake("old.csv", export_of("7001,Kitchen,1,Ada\n7001,Bathroom,two,Ada\n")));
  CHECK(held(shop).empty());
  shop.must(shop.at("undo row-1"));
  CHECK(held(shop) == "row-1 ");
  CHECK(shop.at("check").code == 0);
}

TEST_CASE("a held row is told by its line id, and comes right where shop.toml did not know its options") {
  LedgerWorkshop shop;
  shop.edit("shop.toml", "decode_entities = true", "decode_entities = true\nlabels = { text = [\"Wording\"] }");
  const std::string rows = "Order,Line,Text\n7001,L1,Wording: Rose Cottage\n7001,L2,Inscription: Otter Pool\n";
  shop.must(shop.intake("monday.csv", rows));
  CHECK(held(shop) == "row-1 ");
  shop.edit("shop.toml", "text = [\"Wording\"]", "text = [\"Wording\", \"Inscription\"]");
  shop.must(shop.at("intake monday.csv"));
  CHECK(held(shop).empty());
  CHECK_THAT(shop.at("list").out, Contains("Rose Cottage") && Contains("Otter Pool"));
}

TEST_CASE("a row is let go by a person, stays let go, and the letting go is taken back") {
  LedgerWorkshop shop;
  const std::string rows = export_of("7001,Kitchen,1,Ada\n7002,,1,Ida\n");
  shop.must(shop.intake("monday.csv", rows));
  CHECK(shop.at("let-go row-9").code == 2);
  const Run gone = shop.at("let-go row-1");
  CHECK(gone.code == 0);
  CHECK_THAT(gone.out, Contains("row-1 is let go: \"7002,,1,Ida\""));
  CHECK(shop.at("let-go 1").code == 2);
  shop.must(shop.intake("tuesday.csv", rows));
  CHECK(held(shop).empty());
  CHECK(shop.at("undo row-1").code == 0);
  CHECK(held(shop) == "row-1 ");
  CHECK_THAT(shop.day().out, Contains("row-1") && Contains("ordinatio let-go row-1"));
  CHECK_THAT(shop.at("history row-1").out, Contains("let go") && Contains("open"));
}

TEST_CASE("two rows that are held alike are two, and without a ledger nothing is kept of them") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", export_of(",Barn,1,Uta\n,Barn,1,Uta\n")));
  CHECK(held(shop) == "row-1 row-2 ");
  Workshop files;
  files.write("mine.csv", "Order,Text,Quantity\n,Barn,1\n7001,Kitchen,1\n");
  const Run day = files.run("day mine.csv --no-dxf --no-pdf");
  CHECK(day.code == 1);
  CHECK_THAT(day.out, Contains("line 2  mine.csv:2:1") && !Contains("row-"));
}

TEST_CASE("the lines of a row whose quote was not closed go with it") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", "Order,Text,Quantity\n7001,\"Rose\nCottage,1\n7002,Barn,1\n"));
  CHECK(held(shop) == "row-1 row-2 ");
  shop.must(shop.intake("monday.csv", "Order,Text,Quantity\n7001,\"Rose\nCottage\",1\n7002,Barn,1\n"));
  CHECK(held(shop).empty());
  CHECK_THAT(shop.at("list rose").out, Contains("\"Rose / Cottage\""));
}

TEST_CASE("the very file read in another encoding mends its own rows") {
  LedgerWorkshop shop;
  shop.edit("shop.toml", "decode_entities = true", "decode_entities = true\nencoding = \"UTF-8\"");
  shop.must(shop.intake("monday.csv", "Order,Text,Quantity\n7001,Zo\xEB,1\n7002,Barn,1\n"));
  CHECK(held(shop) == "row-1 ");
  shop.edit("shop.toml", "encoding = \"UTF-8\"", "encoding = \"windows-1252\"");
  shop.must(shop.at("intake monday.csv"));
  CHECK(held(shop).empty());
  CHECK_THAT(shop.at("list").out, Contains("\"Zoë\""));
}

}  // namespace ordinatio::held_rows_test
