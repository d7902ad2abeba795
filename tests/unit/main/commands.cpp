// The uses and `new`, by the program as a person runs it.
#include <nlohmann/json.hpp>

#include "workshop.h"

namespace ordinatio::commands_test {
using Catch::Matchers::Contains;

TEST_CASE("a new workshop works as it is") {
  const Workshop workshop;
  const Run day = workshop.run("day orders.csv");
  CHECK(day.err == "");
  CHECK_THAT(day.out, Contains("10 items set on 1 sheet, 0 held."));
  for (const char* ending : {"svg", "dxf", "pdf", "json"}) {
    CHECK(fs::exists(workshop.shop() / "out/orders" / (std::string("sheet-001.") + ending)));
  }
}

TEST_CASE("the account comes as data too") {
  const Workshop workshop;
  const Run day = workshop.run("day orders.csv --json --no-pdf");
  const auto account = nlohmann::json::parse(day.out);
  CHECK(account["sheets"] == 1);  // landscape and portrait share it
  CHECK(account["items_set"] == 10);
  CHECK(account["held"].empty());
  CHECK(account["files"].size() == 3);
}

TEST_CASE("an item that cannot be engraved is held with reason and mend, and holds nobody up") {
  const Workshop workshop;
  workshop.write("some.csv",
                 "Order,Text,Quantity,Design\n1,Bee \U0001F41D,1,\n2,Good,2,\n3,,1,\n4,Fine,1,no-such\n5,Ok,x,\n"
                 "6,\"" +
                     std::string(1500, 'M') + "\",1,\n");
  const Run day = workshop.run("day some.csv --no-pdf --json");
  CHECK(day.code == 1);
  const auto account = nlohmann::json::parse(day.out);
  CHECK(account["items_set"] == 2);
  REQUIRE(account["held"].size() == 5);
  const std::string held = account["held"].dump();
  CHECK_THAT(held, Contains("HONEYBEE") && Contains("some.csv:2"));
  CHECK_THAT(held, Contains("no design is called \\\"no-such\\\""));
  CHECK_THAT(held, Contains("the lettering would come to"));
  for (const auto& item : account["held"]) CHECK_FALSE(item["mend"].get<std::string>().empty());
}

TEST_CASE("an order of two texts makes two pieces, each with its own words and number") {
  const Workshop workshop;
  workshop.edit("shop.toml", "# [orders.labels]", "[orders.labels]");
  workshop.edit("shop.toml", "# text = [\"Wording\"]", "text = [\"Words\"]");
  workshop.write("some.csv",
                 "Order,Text,Quantity,Design,Note,Status\n1042,\"Words 2: Bert\nWords 1: Anna\",2,,thank you,\n"
                 "1043,Words: Cleo,1,,,cancelled\n");
  const Run day = workshop.run("day some.csv --no-pdf --json");
  CHECK(day.code == 1);  // the customer's note is worth a look
  CHECK_THAT(day.out, Contains("the customer notes") && Contains("some.csv: cancelled on line 4: passed over"));
  const auto items = nlohmann::json::parse(workshop.read("out/some/sheet-001.json"))["items"];
  REQUIRE(items.size() == 2);
  for (const auto& item : items) CHECK(item["original"] == (item["id"] == "1042-1" ? "Anna" : "Bert"));
  CHECK(items[0]["id"] != items[1]["id"]);
  const Run one = workshop.run("proof some.csv --item 1042-2 --json");
  CHECK(nlohmann::json::parse(one.out)["items_set"] == 1);
}

TEST_CASE("the same orders give the same bytes, and a second run leaves everything as it was") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv").code == 0);
  const auto first = workshop.files();
  REQUIRE(workshop.run("day orders.csv").code == 0);
  CHECK(workshop.files() == first);
}

TEST_CASE("sheets of an earlier run are kept when the orders have changed") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  const std::string before = workshop.read("out/orders/sheet-001.svg");
  workshop.edit("orders.csv", "1874", "1875");
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  CHECK(workshop.read("out/orders/sheet-001.svg") != before);
  CHECK(workshop.read("out/orders/earlier-001/sheet-001.svg") == before);
}

TEST_CASE("proofs come for all items or for one") {
  const Workshop workshop;
  REQUIRE(workshop.run("proof orders.csv").code == 0);
  CHECK(workshop.read("out/proofs/proofs.pdf").substr(0, 5) == "%PDF-");
  const Run one = workshop.run("proof orders.csv --item 1002-2 --json --out one");
  CHECK(nlohmann::json::parse(one.out)["items_set"] == 1);
  const Run none = workshop.run("proof orders.csv --item 1002-9");
  CHECK(none.code == 2);
  CHECK_THAT(none.err, Contains("there is no item 1002-9") && Contains("Did you mean 1002-"));
}

TEST_CASE("a remake is exactly what it was, alone, with the same marks, in any pocket") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  REQUIRE(workshop.run("remake 1001-1 --sheet out/orders/sheet-001.json --pocket 3").code == 0);
  const auto before = nlohmann::json::parse(workshop.read("out/orders/sheet-001.json"));
  const auto after = nlohmann::json::parse(workshop.read("out/remake/remake-1001-1.json"));
  REQUIRE(after["items"].size() == 1);
  CHECK(after["items"][0]["hash"] == before["items"][0]["hash"]);
  CHECK(after["items"][0]["pocket"] == 3);
  CHECK(after["marks"] == before["marks"]);
  CHECK(after["remake_of"] == "sheet-001");
}

TEST_CASE("a remake with corrected words is set anew") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  REQUIRE(workshop.run("remake 1001-1 --sheet out/orders/sheet-001.json --text 'Rowan Cottage 1873'").code == 0);
  const auto after = nlohmann::json::parse(workshop.read("out/remake/remake-1001-1.json"));
  CHECK(after["items"][0]["lines"][0] == "Rowan Cottage 1873");
}

TEST_CASE("a remake refuses another font, another design, and a manifest edited by hand") {
  const Workshop workshop;
  // The design's face from the workshop's own folder, so that it can be exchanged.
  fs::copy_file("/usr/share/fonts/truetype/vollkorn/Vollkorn-SemiBold.ttf", workshop.shop() / "fonts/own.ttf");
  workshop.edit("templates/plaque-landscape.toml", "\"serif\"", "\"own.ttf\"");
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  const std::string command = "remake 1001-1 --sheet out/orders/sheet-001.json";
  REQUIRE(workshop.run(command).code == 0);
  const auto before = workshop.files();
  SECTION("another font under the same name") {
    fs::copy_file("/usr/share/fonts/truetype/vollkorn/Vollkorn-Bold.ttf", workshop.shop() / "fonts/own.ttf",
                  fs::copy_options::overwrite_existing);
    const Run run = workshop.run(command);
    CHECK(run.code == 2);
    CHECK_THAT(run.err, Contains("the font of item 1001-1 is another one now") && Contains("checksum"));
  }
  SECTION("another design under the same name") {
    workshop.edit("templates/plaque-landscape.toml", "max = 25", "max = 24");
    const Run run = workshop.run(command);
    CHECK(run.code == 2);
    CHECK_THAT(run.err, Contains("design plaque-landscape has changed since sheet-001"));
  }
  SECTION("a manifest edited by hand") {
    workshop.edit("out/orders/sheet-001.json", "Rowan", "Rowen");
    const Run run = workshop.run(command);
    CHECK(run.code == 2);
    CHECK_THAT(run.err, Contains("sheet-001.json") && Contains("changed by hand"));
  }
  SECTION("an item that is not on the sheet") {
    const Run run = workshop.run("remake 1001-7 --sheet out/orders/sheet-001.json");
    CHECK(run.code == 2);
    CHECK_THAT(run.err, Contains("item 1001-7 is not on sheet-001") && Contains("Did you mean 1001-1?"));
    CHECK(workshop.files() == before);
  }
  SECTION("a pocket that the jig has not") {
    const Run run = workshop.run(command + " --pocket 99");
    CHECK(run.code == 2);
    CHECK_THAT(run.err, Contains("there is no pocket 99"));
    CHECK(workshop.files() == before);
  }
}

TEST_CASE("stands bear the date that was given, in the design's form") {
  const Workshop workshop;
  REQUIRE(workshop.run("stands --count 24 --date 2026-11-25").code == 0);
  const auto manifest = nlohmann::json::parse(workshop.read("out/stands/stands-001.json"));
  CHECK(manifest["date"] == "2026-11-25");
  const std::string words = workshop.read("out/stands/stands-001.svg");
  REQUIRE(workshop.run("stands --count 24 --date 2026-11-26 --out other").code == 0);
  CHECK(workshop.read("other/stands-001.svg") != words);
  const Run bad = workshop.run("stands --count 24 --date 2026-02-30");
  CHECK(bad.code == 2);
  CHECK_THAT(bad.err, Contains("\"2026-02-30\" is no date"));
}

TEST_CASE("a specimen shows the catalogue's faces for engraving, then the workshop's own") {
  const Workshop workshop;
  fs::copy_file("/usr/share/fonts/opentype/cabin/Cabin-Bold.otf", workshop.shop() / "fonts/sturdy.otf");
  const Run run = workshop.run("specimen --json");
  CHECK(run.code == 0);
  const auto account = nlohmann::json::parse(run.out);
  CHECK(account["items_set"] == 11);
  CHECK(account["files"] == nlohmann::json::array({"./out/specimen/specimen.pdf"}));
  const std::string before = workshop.read("out/specimen/specimen.pdf");
  CHECK(before.substr(0, 5) == "%PDF-");
  const auto files = workshop.files();
  REQUIRE(workshop.run("specimen").code == 0);
  CHECK(workshop.files() == files);
  REQUIRE(workshop.run("specimen --text 'Leat & Sluice 1902'").code == 0);
  CHECK(workshop.read("out/specimen/specimen.pdf") != before);
  CHECK(workshop.read("out/specimen/earlier-001/specimen.pdf") == before);
  const Run one = workshop.run("specimen --font sturdy.otf --out one");
  CHECK_THAT(one.out, Contains("1 face shown, 0 held."));
}

TEST_CASE("a specimen of designs shows each of them, and those of stands, with words that suit it") {
  const Workshop workshop;
  const Run run = workshop.run("specimen --designs --json");
  INFO(run.out << run.err);
  CHECK(run.code == 0);
  const auto account = nlohmann::json::parse(run.out);
  CHECK(account["items_set"] == 8);
  CHECK(account["files"] == nlohmann::json::array({"./out/specimen/designs.pdf", "./out/specimen/designs.png"}));
  const std::string before = workshop.read("out/specimen/designs.png");
  REQUIRE(workshop.run("specimen --designs").code == 0);
  CHECK(workshop.read("out/specimen/designs.png") == before);
  CHECK_FALSE(fs::exists(workshop.shop() / "out/specimen/earlier-001"));

  const Run one = workshop.run("specimen --design house-number --text '7b' --out one");
  CHECK(one.code == 0);
  CHECK_THAT(one.out, Contains("1 design shown, 0 held."));
  CHECK(workshop.run("specimen --design hous-number --out two").code == 2);
  CHECK_THAT(workshop.run("specimen --design house-number --font sans").err,
             Contains("--font and --design do not go together"));

  // A sample that cannot be engraved is held, and holds no other up.
  workshop.edit("templates/house-number.toml", "\"7b\"", "\"7\U0001F41D\"");
  const Run held = workshop.run("specimen --designs");
  CHECK(held.code == 1);
  CHECK_THAT(held.out,
             Contains("8 designs shown, 1 held.") && Contains("house-number, sample 2") && Contains("HONEYBEE"));
}

TEST_CASE("a font file of one's own that is none is told, and the other faces are shown") {
  const Workshop workshop;
  workshop.write("fonts/broken.otf", "no font");
  const Run run = workshop.run("specimen");
  CHECK(run.code == 1);
  CHECK_THAT(run.out, Contains("10 faces shown, 1 held.") && Contains("broken.otf") && Contains("this is no font"));
  CHECK(workshop.run("specimen --font broken.otf --out one").code == 2);
}

TEST_CASE("a font file of one's own engraves the day's orders") {
  const Workshop workshop;
  fs::copy_file("/usr/share/fonts/opentype/cabin/Cabin-Bold.otf", workshop.shop() / "fonts/sturdy.otf");
  workshop.edit("templates/plaque-landscape.toml", "\"serif\"", "\"sturdy.otf\"");
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  const auto manifest = nlohmann::json::parse(workshop.read("out/orders/sheet-001.json"));
  CHECK_THAT(manifest["items"][0]["faces"].dump(), Contains("sturdy.otf"));
}

TEST_CASE("nothing of a terminal's dress goes into a pipe") {
  const Workshop workshop;
  const Run day = workshop.run("day orders.csv --no-pdf");
  CHECK(day.out.find('\033') == std::string::npos);
  CHECK(day.err == "");
}

TEST_CASE("help is a page with an example") {
  const Workshop workshop;
  const Run help = workshop.run("--help");
  CHECK(help.code == 0);
  CHECK_THAT(help.out, Contains("ordinatio day orders.csv") && Contains("Never leave it running"));
}

}  // namespace ordinatio::commands_test
