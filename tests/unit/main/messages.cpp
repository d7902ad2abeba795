// What a person reads on the terminal, by the program as it is run.
#include <nlohmann/json.hpp>

#include "workshop.h"

namespace ordinatio::messages_test {
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;

namespace {

/// Bytes that would steer a terminal, or the direction of reading, if they came raw.
bool is_harmless(const std::string& text) {
  for (const char* bad : {"\x1B", "\x07", "\x7F", "\u009B", "\u202E", "\u2066", "\u200F", "\r"}) {
    if (text.find(bad) != std::string::npos) return false;
  }
  return true;
}

void keep_ledger(const Workshop& workshop) {
  workshop.edit("shop.toml", "# [ledger]", "[ledger]");
  workshop.edit("shop.toml", "# file = \"workshop.ledger\"", "file = \"workshop.ledger\"");
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("nothing from a cell, a path or an option steers the terminal, and an order number that would is held") {
  const Workshop workshop;
  keep_ledger(workshop);
  workshop.write(
      "o\x1B[31m.csv",
      "Order,Text,Design,Odd\x1B[2J\n1\x1B[31m,Anna,,\n2\u202E,Bert,,\n3\u009B,Cleo,,\n4,Dora\x1B]0;x\x07,,\n"
      "5,Emil,\u202Enone,\n6,Fritz,,\n7\u200F,Gerd,,\n");
  for (const std::string command :
       {"intake 'o\x1B[31m.csv'", "intake 'o\x1B[31m.csv' --json", "list", "list --csv list.csv", "history 6-1",
        "history '\u202E6'", "day --dry-run", "hold 6-1 --yes --reason 'a\x1B[5mb\u202Ec'", "history 6-1",
        "proof --item '1\x1B[7m'", "intake orders.csv --channel 'fair\x1B[7m'", "'day\x1B[7m'", "day 'no\x1B[7m.csv'",
        "blanks 'no\u202E.csv'", "engraved 'sheet-\x1B[7m'", "day --shop 'no\x1B[7m'", "new 'new\x1B[7m'"}) {
    const Run run = workshop.run(command);
    INFO(command << "\n" << run.out << run.err);
    CHECK_FALSE((run.out + run.err).empty());
    CHECK(is_harmless(run.out));
    CHECK(is_harmless(run.err));
  }
  std::string list = workshop.read("list.csv");
  std::erase(list, '\r');
  CHECK(is_harmless(list));
  CHECK_THAT(list, Contains("Dora"));
}

TEST_CASE("an order number that holds a mark of direction or an escape is held, and the others go on") {
  const Workshop workshop;
  workshop.write("some.csv", "Order,Text\n1\x1B[31m,Anna\n2\u202E,Bert\n3\u009B,Cleo\n7\u200F,Gerd\n8,Ida\n");
  const Run run = workshop.run("day some.csv --json");
  CHECK(run.code == 1);
  const auto account = nlohmann::json::parse(run.out);
  CHECK(account["items_set"] == 1);
  REQUIRE(account["held"].size() == 4);
  for (const auto& held : account["held"]) {
    CHECK_THAT(held["what"].get<std::string>(), Contains("holds a line end or a control character"));
  }
}

TEST_CASE("a key in the wrong table is told where it belongs, and a corner by another name what it is called") {
  const Workshop workshop;
  const std::string whole = workshop.read("shop.toml");
  const auto message = [&](const std::string& from, const std::string& to) {
    workshop.write("shop.toml", whole);
    workshop.edit("shop.toml", from, to);
    const Run run = workshop.run("day orders.csv");
    CHECK(run.code == 2);
    return run.err;
  };
  CHECK_THAT(message("[shop]", "spot = 0.1\n[shop]"), Contains("unknown key \"spot\". It belongs in [machine]"));
  CHECK_THAT(message("[machine]", "[machine]\nstand_design = \"stand-words\""), Contains("It belongs in [shop]"));
  CHECK_THAT(message("datum = \"lower-left\"", "datum = \"top-left\""), Contains("The nearest is \"upper-left\""));
  workshop.write("shop.toml", whole);
  workshop.edit("templates/plaque-landscape.toml", "[blank]", "[blank]\nmargin = 5\nabout = \"x\"");
  CHECK_THAT(workshop.run("day orders.csv").err,
             Contains("unknown key \"margin\". It belongs in [clear]") &&
                 Contains("unknown key \"about\". It belongs at the top of the file, above all [ ]"));
}

TEST_CASE("three hundred pieces alike are one line, wherever they are held or told") {
  const Workshop workshop;
  workshop.write("many.csv", "Order,Text,Quantity,Design\n7,\"" + std::string(400, 'm') + "\",300,plaque-landscape\n");
  const Run day = workshop.run("day many.csv");
  CHECK(day.code == 1);
  CHECK_THAT(day.out, Contains("0 items set on 0 sheets, 300 held.") && Contains(", 300 alike"));
  CHECK(count_of(day.out, "the lettering would come to") == 1);
  CHECK_THAT(day.out, Contains("line_breaks = \"free\""));
  std::string blanks = "id,material\n";
  for (int i = 1; i <= 300; ++i) blanks += "S-" + std::to_string(i) + ",glass\n";
  workshop.write("blanks.csv", blanks);
  const Run pieces = workshop.run("blanks");
  CHECK_THAT(pieces.out, Contains("S-1 to S-300, 300 alike"));
  CHECK(count_of(pieces.out, "Is it annealed or tempered?") == 1);
}

TEST_CASE("the account ends with how many files are in which folder") {
  const Workshop workshop;
  CHECK_THAT(workshop.run("day orders.csv --no-pdf --no-dxf --out made").out, EndsWith("2 files in made.\n"));
  CHECK_THAT(workshop.run("proof orders.csv --out made").out, EndsWith("1 file in made: proofs.pdf.\n"));
}

TEST_CASE("times are told in the time of the place, with its zone, and stored as UTC") {
  const Workshop workshop;
  keep_ledger(workshop);
  workshop.write("some.csv", "Order,Text,Quantity,Design\n8,Ida,1,\n");
  REQUIRE(workshop.run("intake some.csv --now 2026-07-01T23:30:00Z", "TZ=CET-1CEST,M3.5.0,M10.5.0/3").code == 0);
  CHECK_THAT(workshop.run("history 8-1", "TZ=CET-1CEST,M3.5.0,M10.5.0/3").out, Contains("2026-07-02 01:30 CEST  "));
  CHECK_THAT(workshop.run("history 8-1", "TZ=EST5").out, Contains("2026-07-01 18:30 EST  "));
  const Run back = workshop.run("intake some.csv --now 2026-06-01T00:00:00Z", "TZ=EST5");
  CHECK(back.code == 2);
  CHECK_THAT(back.err, Contains("it says 2026-05-31 19:00 EST, and the last entry is of 2026-07-01 18:30 EST"));
  CHECK_THAT(workshop.read("workshop.ledger"), Contains("2026-07-01T23:30:00Z") && !Contains("CEST"));
}

}  // namespace ordinatio::messages_test
