#include "paper/lettering.h"

#include <catch2/catch.hpp>

namespace ordinatio::lettering_test {

namespace {

const FontLibrary& fonts() {
  static const FontLibrary library("no/fonts/of/our/own");
  return library;
}

Lettering lettering() {
  Result<Lettering> made = Lettering::with(fonts());
  if (!made.ok()) throw std::runtime_error(describe(made.fault()));
  return *std::move(made);
}

std::string joined(const std::vector<SetLine>& lines) {
  std::string text;
  for (const SetLine& line : lines) text += line.shaped.text;
  return text;
}

}  // namespace

TEST_CASE("what no face draws is spelled out, and the letters around it are drawn") {
  Lettering letters = lettering();
  CHECK(letters.set("Happy 😀 birthday", 3.5).shaped.text == "Happy [U+1F600] birthday");
  CHECK(letters.set("👨\u200D👩\u200D👧 x", 3.5).shaped.text == "[U+1F468 U+200D U+1F469 U+200D U+1F467] x");
  CHECK(letters.set("\u0301alone", 3.5).shaped.text == "[U+0301]alone");  // no letter for the mark to sit on
  CHECK(letters.set("\xFF", 3.5).shaped.text == "[0xFF]");
  CHECK(letters.set("", 3.5).shaped.text.empty());
}

TEST_CASE("every script that can be engraved can be read on the page too") {
  Lettering letters = lettering();
  for (const std::string text : {"Łukasz Żółć", "ΑΘΗΝΑ", "Москва", "Երևան", "თბილისი", "سارة", "תל אביב", "นางสาวสมหญิง",
                                 "शांति", "বাংলা", "தமிழ்", "山田花子", "한국어"}) {
    CHECK(letters.set(text, 3.5).shaped.text == text);
  }
}

TEST_CASE("a column's lines keep to its width and lose no byte") {
  Lettering letters = lettering();
  const std::string texts[] = {
      "Here the wheel turned for two hundred years, and here it turns again, by the work of many hands",
      "山田花子は水車小屋で働いています。山田花子は水車小屋で働いています。",
      "سارة العلي تعمل في الطاحونة كل يوم من الصباح إلى المساء",
      "นางสาวสมหญิงทำงานที่โรงสีทุกวันตั้งแต่เช้าจนถึงเย็น",
      std::string(300, 'W'),
      "Aword" + std::string(200, 'i') + " and 😀 more",
  };
  for (const std::string& text : texts) {
    for (const double width : {12.0, 40.0, 84.0}) {
      const std::vector<SetLine> lines = letters.set_column(text, 3.5, width);
      CHECK(joined(lines) == letters.set(text, 3.5).shaped.text);
      for (const SetLine& line : lines) {
        const bool ends_in_space = line.shaped.text.ends_with(' ');  // which hangs over the edge, unseen
        CHECK(line.width() <= width + (ends_in_space ? 2 : 0));
      }
    }
  }
}

TEST_CASE("a column breaks between words where it can") {
  Lettering letters = lettering();
  const std::vector<SetLine> lines = letters.set_column("one two three four five six seven", 3.5, 25);
  REQUIRE(lines.size() > 2);
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) CHECK(lines[i].shaped.text.ends_with(' '));
}

TEST_CASE("a column narrower than a letter still ends") {
  CHECK(lettering().set_column("WWW", 3.5, 0.1).size() == 3);
  CHECK(lettering().set_column("", 3.5, 0.1).size() == 1);
}

TEST_CASE("a long text without a place to break is set in little time") {
  Lettering letters = lettering();
  CHECK(letters.set_column(std::string(20'000, 'x'), 3.5, 84).size() > 300);
}

TEST_CASE("glyphs are drawn for every cluster, whichever way the text runs") {
  Lettering letters = lettering();
  Canvas canvas = Canvas::pdf("x");
  canvas.start_page(100, 100);
  // Cairo refuses clusters that do not cover text and glyphs exactly, and the canvas says so at the end.
  for (const std::string text : {"ﬁne office", "شكرا Sara شكرا 12", "क्षत्रिय", "é́", "กำ", "  ", "a\u00A0😀b"}) {
    letters.draw(canvas, letters.set(text, 3.5), {10, 10}, Colour{});
  }
  const Result<std::string> pdf = canvas.finish();
  CHECK((pdf.ok() ? "" : describe(pdf.fault())) == "");
}

}  // namespace ordinatio::lettering_test
