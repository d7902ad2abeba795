// Tempered and other safety glass, by the program as a person runs it.
#include <nlohmann/json.hpp>

#include "workshop.h"

namespace ordinatio::glass_test {
using Catch::Matchers::Contains;

namespace {

const std::string neither = "tempered glass, or other safety glass, is neither cut nor engraved";
const std::string which = "it is not said what glass this is";

/// Pieces are measured, and the orders are two.
void measure(const Workshop& workshop, const std::string& blanks) {
  workshop.edit("shop.toml", "# [blanks]", "[blanks]");
  workshop.edit("shop.toml", "# file = \"blanks.csv\"", "file = \"blanks.csv\"");
  workshop.write("blanks.csv", blanks);
  workshop.write("orders.csv", "Order,Text,Quantity,Design\n7,Anna,1,plaque-landscape\n8,Bert,1,plaque-landscape\n");
}

}  // namespace

TEST_CASE("a pane with a word of safety glass in any cell is not planned, and glass without its kind is asked") {
  const Workshop workshop;
  workshop.write("panes.csv",
                 "id,width,height,material,glass,note,origin\nA,500,250,tempered glass,,,\nB,500,250,glass,,,\n"
                 "C,500,250,glass,annealed,ESG,\nD,500,250,slate,,,toughened\nE,500,250,glass,annealed,not tempered,\n"
                 "F,500,250,glass,annealed,clear,\n");
  const Run run = workshop.run("panes --piece 150x100");
  CHECK(run.code == 1);
  CHECK_THAT(run.out,
             Contains("4 held.") && Contains("A  panes.csv:2:11, column \"material\": " + neither) &&
                 Contains("B  panes.csv:3:17, column \"glass\": " + which) &&
                 Contains("Is it annealed or tempered? Fill in glass") &&
                 Contains("C  panes.csv:4:26, column \"note\": what is said of the glass contradicts itself") &&
                 Contains("D  panes.csv:5:19, column \"origin\": " + neither));
  const std::string blanks = workshop.read("out/panes/blanks.csv");
  CHECK_THAT(blanks, Contains("id,material,glass,width") && Contains("E-1,glass,annealed,150") && !Contains("A-1"));
}

TEST_CASE("no day engraves a measured piece of safety glass, and none has it laid, proofed or made again") {
  const Workshop workshop;
  measure(workshop, "id,material,note\nP-1,glass,tempered\nP-2,slate,\n");
  const Run day = workshop.run("day --json");
  CHECK(day.code == 1);
  const auto account = nlohmann::json::parse(day.out);
  CHECK(account["items_set"] == 1);
  CHECK_THAT(account["held"].dump(), Contains(neither));
  CHECK_THAT(workshop.run("blanks").out, Contains(neither));
  CHECK_THAT(workshop.run("proof").out, Contains(neither));
}

TEST_CASE("a piece that is found to be tempered once it lies on a sheet is not laid again") {
  const Workshop workshop;
  measure(workshop, "id,note\nP-1,\nP-2,\n");
  REQUIRE(workshop.run("day").code == 0);
  workshop.write("blanks.csv", "id,note\nP-1,tempered\nP-2,tempered\n");
  const Run align = workshop.run("align out/orders/sheet-001.json --measured 12,12 588,12 12,388 588,388");
  CHECK(align.code == 2);
  CHECK_THAT(align.err, Contains(neither) && Contains("blank P-") && Contains("of item 7-1"));
  const Run remake = workshop.run("remake 7-1 --sheet out/orders/sheet-001.json");
  CHECK(remake.code == 2);
  CHECK_THAT(remake.err, Contains(neither));
}

TEST_CASE("with a ledger, too: neither resumed nor aligned, and remade on another piece alone") {
  const Workshop workshop;
  measure(workshop, "id,note\nP-1,\nP-2,\nP-3,\n");
  workshop.edit("shop.toml", "# [ledger]", "[ledger]");
  workshop.edit("shop.toml", "# file = \"workshop.ledger\"", "file = \"workshop.ledger\"");
  REQUIRE(workshop.run("day orders.csv").code == 0);
  const auto items = nlohmann::json::parse(workshop.read("out/sheets/sheet-001.json"))["items"];
  REQUIRE(items.size() == 2);
  workshop.write("blanks.csv", "id,note\nP-1,tempered\nP-2,tempered\nP-3,tempered\n");
  const Run resume = workshop.run("resume sheet-001 --done 1 --yes");
  CHECK(resume.code == 2);
  CHECK_THAT(resume.err, Contains(neither) && Contains("ordinatio hold"));
  CHECK_THAT(workshop.run("align sheet-001 --measured 12,12 588,12 12,388 588,388").err, Contains(neither));
  CHECK(workshop.run("remake 7-1 --yes").code == 2);
}

TEST_CASE("a design whose material is tempered glass holds its own orders and no others") {
  const Workshop workshop;
  workshop.edit("templates/plaque-portrait.toml", "[blank]", "[blank]\nmaterial = \"tempered glass\"");
  const Run day = workshop.run("day orders.csv --json");
  CHECK(day.code == 1);
  const auto account = nlohmann::json::parse(day.out);
  CHECK(account["items_set"] == 8);
  CHECK(account["held"].size() == 2);
  CHECK_THAT(account["held"].dump(), Contains(neither) && Contains("design plaque-portrait, material"));
  workshop.edit("templates/stand-words.toml", "[blank]", "[blank]\nmaterial = \"toughened glass\"");
  const Run stands = workshop.run("stands --count 2 --date 2026-11-25");
  CHECK(stands.code == 2);
  CHECK_THAT(stands.err, Contains(neither));
}

}  // namespace ordinatio::glass_test
