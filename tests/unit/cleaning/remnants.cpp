// What shops and spreadsheets leave in a text is a line end, or holds the item; it is never engraved.
#include "cleaning/remnants.h"
#include "cleaning/cleaning.h"

#include <catch2/catch.hpp>

#include "text/text.h"

namespace ordinatio::remnants_test {

namespace {

/// The lines, parted by " / ", or "held: what".
std::string cleaned(std::string_view text) {
  const auto result = clean_inscription(text);
  if (!result.ok()) return "held: " + result.fault().what;
  std::string lines;
  for (const std::string& line : result->lines) lines += (lines.empty() ? "" : " / ") + line;
  return lines;
}

/// The notes' weights and rules.
std::string notes(std::string_view text) {
  const auto result = clean_inscription(text);
  REQUIRE(result.ok());
  std::string all;
  for (const CleaningNote& note : result->notes) {
    if (note.weight != CleaningNote::Weight::silent) {
      all += (note.weight == CleaningNote::Weight::warning ? "warning: " : "note: ") + note.rule;
    }
  }
  return all;
}

}  // namespace

TEST_CASE("what stands for a line end in an export begins a new line, and that is noted") {
  for (const char* text :
       {"Anna<br>Bert", "Anna<br/>Bert", "Anna<BR />Bert", "Anna</br>Bert", "Anna<br clear=\"all\">Bert",
        "Anna <br>\r\nBert", "Anna&lt;br&gt;Bert", "Anna\\nBert", "Anna\\r\\nBert", "Anna\\\\nBert", "Anna_x000D_Bert",
        "Anna_x000D_\nBert", "Anna_x000d__x000a_Bert", "Anna_x000A_Bert", "Anna<br>Bert<br>", "_x000D_\nAnna\nBert"}) {
    INFO(text);
    CHECK(cleaned(text) == "Anna / Bert");
    CHECK_FALSE(notes(text).empty());
  }
  CHECK(cleaned("Anna<br><br>Bert") == "Anna /  / Bert");
  CHECK(notes("Anna<br>Bert") == "note: “<br>” began a new line");
  CHECK(notes("Anna_x000D_\nBert") == "note: “_x000D_” began a new line");
  // It may be part of the words: a person looks.
  CHECK(notes("The Bar\\nook") == "warning: “\\n” began a new line");
}

TEST_CASE("markup, escapes and what a spreadsheet shows without a result hold a text") {
  for (const char* text : {"<b>Anna</b>",
                           "Anna</p>",
                           "<p>Anna",
                           "<span style=\"x\">Anna",
                           "Anna &lt;i&gt;",
                           "<!-- x --> Anna",
                           "<x y=1>Anna",
                           "Anna\\tBert",
                           "Anna\\'s",
                           "Ren\\u00e9",
                           "Ren_x00E9_",
                           "Anna\\r",
                           "#NAME?",
                           "Anna #REF!",
                           "#VALUE!",
                           "#N/A",
                           "#DIV/0!",
                           "#WERT!",
                           "#####",
                           "=CONCAT(A1)",
                           "=A1",
                           "= $B$2 & \" x\"",
                           "=Sheet1!A1",
                           "=cmd|' /C'!A0",
                           "='Our sheet'!B2",
                           "=-SUM(A1:B2)",
                           "=B2&C2",
                           "=Table1[Name]",
                           "=\"Anna\"&B1",
                           " =CONCAT(A1)",
                           "=1*A1"}) {
    INFO(text);
    CHECK(cleaned(text).starts_with("held: "));
  }
  CHECK(cleaned("Anna <b>& Bert</b>") == "held: “<b>”");
  CHECK(cleaned("Anna\nsays #NAME?") == "held: “#NAME?”");
  CHECK(clean_inscription("Anna\nsays #NAME?").fault().where == "line 2, character 6");
  CHECK(cleaned("=CONCAT(A1)") == "held: “=CONCAT(A1)”");
  CHECK(cleaned("<b\u2060r>Anna") == "held: “<br>”");  // it was not one when lines were parted
}

TEST_CASE("words that look a little like such things stay") {
  for (const char* text : {"= love", "=E=mc²", "=1+1", "A = B", "=)", "= A happy home", "Anna <3 Bert", "<< Anna >>",
                           "<Anna>", "a < b > c", "No. #1 Dad", "#home", "AC\\DC", "\\o/", "snake_x_case", "_x12_",
                           "Anna & Bert", "#1MUM!", "Road to #NAMEless"}) {
    INFO(text);
    CHECK(cleaned(text) == text);
    CHECK(notes(text).empty());
  }
}

TEST_CASE("a guard against spreadsheets is taken off, as it is from an order's number") {
  CHECK(cleaned("=\"Anna\"") == "Anna");
  CHECK(cleaned("=\"Anna \"\"Ann\"\" Lee\"") == "Anna \"Ann\" Lee");
  CHECK(notes("=\"Anna\"") == "note: a spreadsheet's guard =\"…\" was taken off");
  CHECK(clean_inscription("=\"Anna\"")->original == "=\"Anna\"");
}

}  // namespace ordinatio::remnants_test
