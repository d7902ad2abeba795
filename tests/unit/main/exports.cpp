// Exports as they come: what would spoil a piece is held or asked about, by whatever way it came in.
#include "workshop.h"

namespace ordinatio::exports_test {
using Catch::Matchers::Contains;

namespace {

/// A day of a CSV file, without pictures.
Run day_of(const Workshop& workshop, const std::string& csv) {
  workshop.write("export.csv", csv);
  return workshop.run("day export.csv --no-pdf --no-dxf --date 2026-11-25");
}

/// A week's workshop with a ledger and the orders in it.
void keep_ledger(const Workshop& workshop, const std::string& csv) {
  workshop.edit("shop.toml", "# [ledger]", "[ledger]");
  workshop.edit("shop.toml", "# file = \"workshop.ledger\"", "file = \"workshop.ledger\"");
  workshop.write("export.csv", csv);
  const Run run = workshop.run("intake export.csv --now 2026-11-25T08:00:00Z");
  INFO(run.out << run.err);
  REQUIRE(run.code <= 1);
}

}  // namespace

TEST_CASE("texts that all begin with one label are held until shop.toml says what it is") {
  const Workshop workshop;
  const std::string head = "Order,Text,Quantity,Design\n";
  const std::string options = head +
                              "1,Wording: Anna; Ribbon: red,1,\n2,wording: Bert; Ribbon: blue,1,\n"
                              "3,Ribbon: red; Wording: Cleo,1,\n4,Dora,1,\n";
  const Run run = day_of(workshop, options);
  CHECK(run.code == 1);
  CHECK_THAT(run.out,
             Contains("1 item set") && Contains("3 held") && Contains("[orders.labels]") && Contains("\"Wording:\""));
  SECTION("a file of one row") { CHECK_THAT(day_of(workshop, head + "1,Wording: Anna,1,\n").out, Contains("1 held")); }
  SECTION("two labels in one of many texts") {
    CHECK_THAT(day_of(workshop, head + "1,Wording: Anna; Ribbon: red,1,\n2,Bert,1,\n3,Cleo,1,\n").out,
               Contains("1 held") && Contains("another one stands behind it"));
  }
  SECTION("words that only look like a label") {
    workshop.edit("shop.toml", "# [orders.labels]", "[orders.labels]");
    workshop.edit("shop.toml", "# words = [\"Love\"]", "words = [\"Love\"]");
    const Run love = day_of(workshop, head + "1,Love: Mum,1,\n");
    INFO(love.out << love.err);
    CHECK(love.code == 0);
    CHECK(day_of(workshop, head + "1,\"Anna\nBorn: 1940\",1,\n2,\"Bert\nBorn: 1941\",1,\n").code == 0);
  }
}

TEST_CASE("a column that shop.toml names and the file lacks is said, and one that is near it is asked about") {
  const Workshop workshop;
  const Run none = day_of(workshop, "Order,Text,Design\n1,Anna,\n");
  CHECK(none.code == 1);
  CHECK_THAT(none.out, Contains("Worth a look") && Contains("no column \"Quantity\", which shop.toml names"));
  CHECK_THAT(none.out, Contains("no column \"Status\": no row is taken for cancelled"));
  const auto before = workshop.files();
  for (const std::string header : {"Qty", "Quantitiy", "QUANTITY", "Item quantity", "Quantities", "Quant."}) {
    INFO(header);
    workshop.write("export.csv", "Order,Text," + header + ",Design\n1,Anna,3,\n");
    const auto files = workshop.files();
    const Run asked = workshop.run("day export.csv");
    CHECK(asked.code == 2);
    CHECK_THAT(asked.err, Contains("no column \"Quantity\"") && Contains("\"" + header + "\"") &&
                              Contains("quantity = \"" + header + "\""));
    CHECK(workshop.files() == files);
  }
  CHECK(day_of(workshop, "Order,Text,Quantity,Design,Order status\n1,Anna,1,,cancelled\n").code == 1);
  workshop.edit("shop.toml", "quantity = \"Quantity\"", "quantity = \"\"");
  CHECK(day_of(workshop, "Order,Text,Qty,Design\n1,Anna,3,\n").code == 0);
}

TEST_CASE("what a spreadsheet or a web page left is never engraved, by whatever way it came") {
  const Workshop workshop;
  const std::string head = "Order,Text,Quantity,Design\n";
  SECTION("a file's text") {
    const Run run = day_of(workshop, head +
                                         "1,Anna<br>Bert,1,\n2,Cleo_x000D_,1,\n3,#NAME?,1,\n4,=CONCAT(A1),1,\n"
                                         "5,<b>Dora</b>,1,\n6,= love,1,\n");
    CHECK(run.code == 1);
    CHECK_THAT(run.out, Contains("3 items set") && Contains("3 held"));
    const std::string manifest = workshop.read("out/export/sheet-001.json");
    CHECK_THAT(manifest, !Contains("br>\",\n") && Contains("“<br>” began a new line"));
  }
  SECTION("an option") {
    workshop.edit("shop.toml", "# [orders.labels]", "[orders.labels]");
    workshop.edit("shop.toml", "# text = [\"Wording\"]", "text = [\"Wording\"]");
    workshop.edit("shop.toml", "# other = [\"Ribbon\", \"Box\"]", "other = [\"Ribbon\", \"Box\"]");
    const Run run =
        day_of(workshop, head + "1,Wording: #REF!; Ribbon: red,1,\n2,Wording: =A1,1,\n3,Wording: Anna,1,\n");
    CHECK_THAT(run.out, Contains("1 item set") && Contains("2 held"));
  }
  SECTION("a correction and a remake") {
    keep_ledger(workshop, head + "1,Anna,1,\n");
    CHECK(workshop.run("correct 1-1 --text '#VALUE!' --yes --now 2026-11-25T08:01:00Z").code <= 2);
    const Run day = workshop.run("day export.csv --no-pdf --no-dxf --now 2026-11-25T08:02:00Z");
    CHECK_THAT(day.out + day.err, !Contains("1 item set"));
    CHECK(workshop.run("correct 1-1 --text Anna --yes --now 2026-11-25T08:03:00Z").code == 0);
    REQUIRE(workshop.run("day export.csv --no-pdf --no-dxf --now 2026-11-25T08:04:00Z").code == 0);
    CHECK(workshop.run("engraved sheet-001 --now 2026-11-25T08:05:00Z").code == 0);
    const auto before = workshop.files();
    const Run remake = workshop.run("remake 1-1 --reason x --text '=CONCAT(A1)' --yes --now 2026-11-25T08:06:00Z");
    CHECK(remake.code == 2);
    CHECK_THAT(remake.err, Contains("formula"));
  }
}

TEST_CASE("a file that does not say its encoding is not believed where letters go together in no language") {
  const Workshop workshop;
  const std::string head = "Order,Text,Quantity,Design\n";
  // Łukasz i Żaneta, Grześ and Ada in Windows-1250 (codes as in Unicode's CP1250.TXT; from memory).
  const std::string central = head +
                              "1,\xA3ukasz i \xAF"
                              "aneta,1,\n2,Grze\x9C,1,\n3,Ada,1,\n";
  const Run run = day_of(workshop, central);
  CHECK(run.code == 1);
  CHECK_THAT(run.out, Contains("1 item set") && Contains("2 held"));
  CHECK_THAT(run.out, Contains("\"Łukasz\" in windows-1250") && Contains("\"£ukasz\" in windows-1252"));
  CHECK_THAT(run.out, Contains("Worth a look") && Contains("ICU's detector") && !Contains("told from its bytes"));
  // José in a Mac's encoding (ROMAN.TXT; from memory).
  CHECK_THAT(day_of(workshop, head + "1,Jos\x8E,1,\n2,Ada,1,\n").out,
             Contains("1 held") && Contains("\"José\" in macintosh") && Contains("\"JosŽ\" in windows-1252"));
  const Run western = day_of(workshop, head + "1,Jos\xE9 & Zo\xEB,1,\n");
  CHECK(western.code == 1);
  CHECK_THAT(western.out, Contains("1 item set") && Contains("read as windows-1252, which its bytes do not prove") &&
                              Contains("\"José\", \"Zoë\""));
  // One bad byte in UTF-8.
  const Run damaged = day_of(workshop, head + "1,Zo\xC3\xAB,1,\n2,Bj\xF8rn,1,\n");
  CHECK_THAT(damaged.out, Contains("1 item set") && Contains("1 held") && Contains("a character is lost"));
  workshop.edit("shop.toml", "# encoding = \"windows-1252\"", "encoding = \"windows-1250\"");
  const Run set = day_of(workshop, central);
  CHECK(set.code == 0);
  CHECK_THAT(set.out, Contains("3 items set") && Contains("read as windows-1250, as set in shop.toml"));
}

TEST_CASE("two rows of one order are further items of it, with a ledger and without") {
  const Workshop workshop;
  const std::string rows = "Order,Text,Quantity,Design\n1042,Kitchen,1,\n7,Ada,1,\n1042,Bathroom,2,\n";
  const Run run = day_of(workshop, rows);
  INFO(run.out << run.err);
  CHECK(run.code == 0);
  CHECK_THAT(run.out, Contains("4 items set") && Contains("further items of it"));
  const std::string manifest = workshop.read("out/export/sheet-001.json");
  for (const char* id : {"\"1042-1\"", "\"1042-2\"", "\"1042-3\""}) CHECK_THAT(manifest, Contains(id));
  CHECK(workshop.run("proof export.csv --item 1042-3").code == 0);
  CHECK(workshop.run("remake 1042-2 --sheet out/export/sheet-001.json").code == 0);
  CHECK_THAT(workshop.read("out/remake/remake-1042-2.json"), Contains("Bathroom"));
  SECTION("a row that is held or cancelled keeps its numbers") {
    workshop.edit("shop.toml", "# status = \"Status\"", "status = \"Status\"");
    const std::string head = "Order,Text,Quantity,Design,Status\n";
    for (const std::string first : {"1042,#NAME?,1,,", "1042,,1,,", "1042,Kitchen,1,,cancelled"}) {
      INFO(first);
      day_of(workshop, head + first + "\n1042,Bathroom,1,,\n");
      CHECK_THAT(workshop.read("out/export/sheet-001.json"), Contains("1042-2"));
    }
  }
  SECTION("the same row again is one") {
    const Run again = day_of(workshop, rows + "1042,Kitchen,1,\n");
    CHECK_THAT(again.out, Contains("4 items set") && Contains("taken once"));
  }
  SECTION("the same words with another quantity may be one row, changed") {
    const Run changed = day_of(workshop, rows + "7,Ada,2,\n");
    CHECK(changed.code == 1);
    CHECK_THAT(changed.out, Contains("6 items set") && Contains("take one of the rows out if they are one"));
  }
}

TEST_CASE("what the customer chose decides the design, the face and the size") {
  const Workshop workshop;
  workshop.edit("shop.toml", "\n[machine]", R"(
[[orders.choice]]
column = "Wood"
[orders.choice.words]
"Oak" = { design = "plaque-landscape" }
"Oak, large" = { design = "plaque-landscape", size = [200, 133] }
"Elm" = { design = "plaque-portrait" }
[[orders.choice]]
column = "Hand"
[orders.choice.words]
"Script" = { face = "script" }
"Plain" = { design = "plaque-landscape" }

[machine])");
  const std::string head = "Order,Text,Quantity,Design,Wood,Hand\n";
  const Run run = day_of(workshop, head + "1,Ada,1,,OAK,\n2,Bert,1,,\"oak,  large\",script\n3,Cleo,1,,,Script\n");
  INFO(run.out << run.err);
  CHECK(run.code == 0);
  std::string manifests;
  for (const auto& [name, text] : workshop.files()) {
    if (name.starts_with("out/export/") && name.ends_with(".json")) manifests += text;
  }
  CHECK_THAT(manifests, Contains("\"design\": \"plaque-landscape\"") &&
                            Contains("\"design\": \"plaque-landscape, face script, size 200x133\"") &&
                            Contains("\"design\": \"plaque-landscape, face script\""));
  const Run unknown =
      day_of(workshop, head + "1,Ada,1,,Ash,\n2,Bert,1,,Elm,Plain\n3,Cleo,1,plaque-portrait,Oak,\n4,Dora,1,,,\n");
  CHECK(unknown.code == 1);
  CHECK_THAT(unknown.out, Contains("1 item set") && Contains("3 held") && Contains("what \"Ash\" stands for") &&
                              Contains("\"Elm\", \"Oak\", \"Oak, large\"") && Contains("two things are chosen"));
  CHECK(workshop.run("day export.csv").code <= 1);
  workshop.write("lacking.csv", "Order,Text,Quantity,Design,Hand\n1,Ada,1,,\n");
  CHECK(workshop.run("day lacking.csv").code == 2);
  SECTION("made again exactly, from files and in a ledger") {
    day_of(workshop, head + "2,Bert,1,,\"Oak, large\",Script\n");
    CHECK(workshop.run("remake 2-1 --sheet out/export/sheet-001.json").code == 0);
    CHECK(workshop.run("align out/export/sheet-001.json --measured 20,20 580,20 20,380 580,380 --limit 20").code <= 1);
    keep_ledger(workshop, head + "2,Bert,2,,\"Oak, large\",Script\n");
    REQUIRE(workshop.run("day export.csv --no-pdf --now 2026-11-25T08:02:00Z").code == 0);
    REQUIRE(workshop.run("resume sheet-001 --done 1 --yes --now 2026-11-25T08:03:00Z").code == 0);
    REQUIRE(workshop.run("engraved rest-002 --now 2026-11-25T08:04:00Z").code == 0);
    const Run remake = workshop.run("remake 2-1 --reason x --yes --now 2026-11-25T08:05:00Z");
    INFO(remake.out << remake.err);
    CHECK(remake.code == 0);
    CHECK_THAT(workshop.read("out/sheets/remake-003.json"), Contains("face script, size 200x133"));
  }
}

}  // namespace ordinatio::exports_test
