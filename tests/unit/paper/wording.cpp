#include "paper/wording.h"

#include <catch2/catch.hpp>

#include "base/base.h"

namespace ordinatio::wording_test {

namespace {

constexpr const char* sign = "\u2423";  // what stands for a space here

std::string visible(const std::string& line) { return make_visible(line, sign).text; }

}  // namespace

TEST_CASE("lines as typed part at every kind of newline, and the empty ones count") {
  using Lines = std::vector<std::string_view>;
  CHECK(lines_as_typed("a\r\nb\nc\rd") == Lines{"a", "b", "c", "d"});
  CHECK(lines_as_typed("a\n\nb\n") == Lines{"a", "", "b", ""});
  CHECK(lines_as_typed("a\n\rb") == Lines{"a", "", "b"});
  CHECK(lines_as_typed("") == Lines{""});
}

TEST_CASE("what cannot be seen is spelled out, and what can be stays as it was typed") {
  struct Case {
    const char *typed, *shown, *why;
  };
  const Case cases[] = {
      {"Anna & Jörg", "Anna & Jörg", "one space between words is plain"},
      {"a\u00A0b", "a[U+00A0]b", "no-break space"},
      {"a\tb", "a[U+0009]b", "tab"},
      {"a\u202Eb", "a[U+202E]b", "bidi override"},
      {"a\u200Bb", "a[U+200B]b", "zero width space"},
      {"a\u200Db", "a[U+200D]b", "a joiner that joins nothing"},
      {"می\u200Cخواهم", "می\u200Cخواهم", "Persian spells with it"},
      {"क्\u200Dष", "क्\u200Dष", "after a virama"},
      {"👩\u200D🚀", "👩\u200D🚀", "an emoji stays whole"},
      {"a\uE000b", "a[U+E000]b", "private use"},
      {"a\uFFFDb", "a[U+FFFD]b", "what was lost in an earlier conversion"},
      {"\u2764\uFE0F", "\u2764\uFE0F", "a variation selector shows in the sign before it"},
      {" a", "\u2423a", "at the beginning"},
      {"a  b", "a \u2423b", "the second of two"},
      {"a  ", "a\u2423\u2423", "at the end"},
      {"  ", "\u2423\u2423", "nothing but spaces"},
      {"a\xFF\xC3", "a[0xFF][0xC3]", "no UTF-8"},
      {"\xED\xA0\x80", "[0xED][0xA0][0x80]", "a surrogate is no UTF-8 either"},
      {"e\u0301", "e\u0301", "a letter carries the mark"},
      {"\u0301e", "[U+0301]e", "no letter carries it"},
      {"a \u0301", "a [U+0301]", "nor does a space"},
      {"a\u00A0\u0301\u0302", "a[U+00A0][U+0301][U+0302]", "nor do our signs"},
      {"\uFE0F\u200Da", "[U+FE0F][U+200D]a", "no letter whose form is chosen, nothing that is joined"},
      {"", "", "nothing"},
  };
  for (const Case& c : cases) {
    INFO(c.why);
    CHECK(visible(c.typed) == c.shown);
  }
}

TEST_CASE("signs of ours are told apart from the customer's own brackets") {
  const Wording wording = make_visible("[x]\u00A0", sign);
  REQUIRE(wording.text == "[x][U+00A0]");
  REQUIRE(wording.odd.size() == wording.text.size());
  for (std::size_t i = 0; i < wording.odd.size(); ++i) CHECK(wording.odd[i] == (i >= 3));
  const Wording part = wording.part(2, 5);
  CHECK(part.text == "][U");
  CHECK(part.odd == std::vector<bool>{false, true, true});
}

TEST_CASE("a grapheme is spelled out with all its code points in one bracket") {
  CHECK(spell_out("😀") == "[U+1F600]");
  CHECK(spell_out("👨\u200D👩") == "[U+1F468 U+200D U+1F469]");
  CHECK(spell_out("A") == "[U+0041]");
}

TEST_CASE("a line runs the way its first letter with a direction runs") {
  CHECK(reads_right_to_left("12 سارة Sara"));
  CHECK(reads_right_to_left("תל אביב"));
  CHECK_FALSE(reads_right_to_left("Sara سارة"));
  CHECK_FALSE(reads_right_to_left("1931 – 2019"));
  CHECK_FALSE(reads_right_to_left("\xFF"));
}

TEST_CASE("lines may end after spaces, between Han characters and between Thai words, and never inside a word") {
  CHECK(line_breaks("one two") == std::vector<std::size_t>{4, 7});
  CHECK(line_breaks("山田").size() == 2);
  CHECK(line_breaks("สวัสดีครับ").size() == 2);
  CHECK(line_breaks("plaque") == std::vector<std::size_t>{6});
  CHECK(line_breaks("").empty());
}

}  // namespace ordinatio::wording_test
