#include "orders/column_guess.h"

#include <catch2/catch.hpp>

namespace ordinatio::column_guess_test {

namespace {

ColumnGuess guessed(std::string_view text, const std::vector<std::string>& designs = {"slate", "slate-upright"}) {
  const Result<ExportHead> head = read_export_head(text, "export.csv", {}, 200);
  REQUIRE(head.ok());
  return guess_columns(*head, designs);
}

using Meaning = GuessedLabel::Meaning;

}  // namespace

TEST_CASE("columns are told by the words of their headers, in some languages") {
  const OrderColumns english =
      guessed("Order number,Date,Inscription,Qty,Style,Customer\n2601,2026-11-12,Weir,1,,A. Miller\n").columns;
  CHECK(english.order == "Order number");
  CHECK(english.text == "Inscription");
  CHECK(english.quantity == "Qty");
  CHECK(english.design == "Style");
  CHECK(english.name == "Customer");
  CHECK(english.date == "Date");
  CHECK(english.status.empty());
  const OrderColumns german = guessed("Bestellnummer;Wunschtext;Menge;Bemerkung\n17;Am Wehr;2;eilig\n").columns;
  CHECK(german.order == "Bestellnummer");
  CHECK(german.text == "Wunschtext");
  CHECK(german.quantity == "Menge");
  CHECK(german.note == "Bemerkung");
  CHECK(guessed("Zamówienie\tNapis\tIlość\n9\tMłyn\t1\n").columns.text == "Napis");
}

TEST_CASE("where headers say nothing, cells do") {
  const OrderColumns columns = guessed(
                                   "A,B,C,D\nK-1001,Weir Lane and the Ford,1,slate\nK-1002,Mill House,2,slate\n"
                                   "K-1003,The Old Forge by the Water,1,slate-upright\nK-1004,Rowan,1,slate\n")
                                   .columns;
  CHECK(columns.order == "A");
  CHECK(columns.text == "B");
  CHECK(columns.quantity == "C");
  CHECK(columns.design == "D");
}

TEST_CASE("a header outweighs cells, and a column is taken once") {
  const OrderColumns columns =
      guessed("Number of pieces,Order,Words\n2601,4,Weir\n2602,5,A far longer text than that\n2603,6,Ford\n").columns;
  CHECK(columns.order == "Order");
  CHECK(columns.text == "Words");
  const OrderColumns once = guessed("Text,Text 2\nWeir,Ford\n").columns;
  CHECK(once.text == "Text");
}

TEST_CASE("options in the cells are found with their labels, and what they are likely for") {
  const ColumnGuess guess = guessed(
      "Order,Options\n1,\"Wording: Anna and Tom; Wood: oak; A note: soon\"\n2,\"Wording: Weir; Wood: ash\"\n"
      "3,\"Wording: Ford End; Wood: oak; A note: no hurry\"\n");
  REQUIRE(guess.labels.size() == 3);
  CHECK(guess.labels[0].label == "Wording");
  CHECK(guess.labels[0].meaning == Meaning::words);
  CHECK(guess.labels[0].sample == "Anna and Tom");
  CHECK(guess.labels[1].meaning == Meaning::other);
  CHECK(guess.labels[2].meaning == Meaning::note);
}

TEST_CASE("labels that no known word names: the longest values are the customer's words") {
  const ColumnGuess guess = guessed(
      "Order,Options\n1,\"Zeilen: Anna und Tom am Wehr | Farbe: rot\"\n2,\"Zeilen: Mühlenhaus an der Furt | Farbe: "
      "blau\"\n");
  REQUIRE(guess.labels.size() == 2);
  CHECK(guess.labels[0].meaning == Meaning::words);
  CHECK(guess.labels[1].meaning == Meaning::other);
}

TEST_CASE("a text that holds a colon now and then is no cell of options") {
  CHECK(guessed("Order,Text\n1,Weir Lane\n2,\"Est.: 1874\"\n3,Ford End\n4,Mill\n").labels.empty());
}

TEST_CASE("an export that cannot be read costs a fault, a malformed row is passed over") {
  CHECK_FALSE(read_export_head("", "export.csv", {}, 10).ok());
  const auto head = read_export_head("Order,Text\n1\n2,Weir\n3,Ford,x\n\n4,Mill\n", "export.csv", {}, 10);
  REQUIRE(head.ok());
  CHECK(head->rows.size() == 2);
  CHECK(guess_columns({"", ',', {"", ""}, {}}, {}).columns.text.empty());
}

}  // namespace ordinatio::column_guess_test
