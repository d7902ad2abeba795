#include "cleaning/entities.h"

#include <catch2/catch.hpp>

namespace ordinatio::entities_test {

namespace {

struct Decoding {
  std::string text, decoded, notes;
};

/// The decoded text and the rules that were applied, or what was objected to.
Decoding decode(const std::string& text) {
  Letters letters = *read_letters(text);
  Findings findings;
  if (const auto objection = decode_entities(letters, findings)) return {text, "refused: " + objection->what, ""};
  std::string notes;
  for (const Finding& finding : findings) {
    if (!notes.empty()) notes += "\n";
    notes += (finding.weight == CleaningNote::Weight::warning ? "! " : "") + std::to_string(finding.offset) + " " +
             finding.rule;
  }
  return {text, write_letters(letters), notes};
}

void check(const std::vector<Decoding>& cases) {
  for (const Decoding& expected : cases) {
    INFO(expected.text);
    const Decoding got = decode(expected.text);
    CHECK(got.decoded == expected.decoded);
    CHECK(got.notes == expected.notes);
  }
}

}  // namespace

TEST_CASE("entities are decoded once, by name, decimal and hexadecimal number") {
  check({
      {"Tom &amp; Anna", "Tom & Anna", "4 &amp; became &"},
      {"Andr&eacute;&Eacute;", "Andr\u00E9\u00C9", "4 &eacute; became \u00E9\n12 &Eacute; became \u00C9"},
      {"&#233;&#xE9;&#XE9;&#x0000e9;", "\u00E9\u00E9\u00E9\u00E9",
       "0 &#233; became \u00E9\n6 &#xE9; became \u00E9\n12 &#XE9; became \u00E9\n18 &#x0000e9; became \u00E9"},
      {"&apos;&quot;&lt;&gt;", "'\"<>", "0 &apos; became '\n6 &quot; became \"\n12 &lt; became <\n16 &gt; became >"},
      {"a&nbsp;b", "a\u00A0b", "1 &nbsp; became U+00A0 NO-BREAK SPACE"},
      {"&thetasym;&hearts;&#x1F600;", "\u03D1\u2665\U0001F600",
       "0 &thetasym; became \u03D1\n10 &hearts; became \u2665\n18 &#x1F600; became \U0001F600"},
      {"a&#10;b&#9;c&#13;", "a\nb\tc\r",
       "1 &#10; became U+000A LINE FEED\n7 &#9; became U+0009 CHARACTER TABULATION\n12 &#13; became U+000D CARRIAGE "
       "RETURN"},
  });
}

TEST_CASE("a text that a second pass would change is flagged") {
  check({
      {"&amp;lt;b", "&lt;b", "0 &amp; became &\n! 0 &lt; still stands there after decoding once: check what was meant"},
      {"&amp;#233;", "&#233;",
       "0 &amp; became &\n! 0 &#233; still stands there after decoding once: check what was meant"},
      {"&am&#112;;", "&amp;",
       "3 &#112; became p\n! 0 &amp; still stands there after decoding once: check what was meant"},
      {"&amp;unknown;", "&unknown;", "0 &amp; became &"},
  });
}

TEST_CASE("what is no entity stays as typed, with a warning where it looks like one") {
  check({
      {"Anna & Bo", "Anna & Bo", ""},
      {"AT&T", "AT&T", ""},
      {"&;&&#;&#x;&1;", "&;&&#;&#x;&1;", ""},
      {"Q&A;", "Q&A;", "! 1 &A; is no HTML entity that is known: left as typed"},
      {"&EACUTE;", "&EACUTE;", "! 0 &EACUTE; is no HTML entity that is known: left as typed"},
      {"Tom &amp Bo", "Tom &amp Bo", "! 4 &amp looks like an HTML entity without its semicolon: left as typed"},
      {"&#39 &#x27", "&#39 &#x27",
       "! 0 &#39 looks like an HTML entity without its semicolon: left as typed\n"
       "! 5 &#x27 looks like an HTML entity without its semicolon: left as typed"},
      {"&ampere", "&ampere", ""},
  });
  const std::string long_name = "&" + std::string(1000, 'a') + ";";
  check({{long_name, long_name, ""}});
}

TEST_CASE("numbers of controls, surrogates and nothing are refused") {
  check({
      {"&#0;", "refused: &#0; (U+0000 NULL)", ""},
      {"a&#x7;", "refused: &#x7; (U+0007 ALERT)", ""},
      {"&#127;", "refused: &#127; (U+007F DELETE)", ""},
      {"&#146;", "refused: &#146; (U+0092 PRIVATE USE TWO)", ""},
      {"&#xD83D;", "refused: &#xD83D; (U+D83D (half of a UTF-16 pair))", ""},
      {"&#x110000;", "refused: &#x110000;", ""},
      {"&#99999999999999999999;", "refused: &#99999999999999999999;", ""},
  });
  CHECK(decode("&#x10FFFD;").decoded == "\U0010FFFD");
}

TEST_CASE("entities take part in cleaning only when they are to be decoded") {
  CHECK(clean_inscription("Tom &amp; Anna")->lines[0] == "Tom & Anna");
  CHECK(clean_inscription("Tom &amp; Anna")->original == "Tom &amp; Anna");
  CHECK(clean_inscription("Tom &amp; Anna", {"", false})->lines[0] == "Tom &amp; Anna");
  CHECK(clean_inscription("a&#10;b")->lines == std::vector<std::string>{"a", "b"});
  const auto notes = clean_inscription("&amp;\n&eacute; &nbsp; x")->notes;
  REQUIRE(notes.size() == 4);
  CHECK((notes[1].line == 2 && notes[1].column == 1));
  CHECK(notes[2].rule == "3 spaces in a row became one");
  CHECK((notes[3].line == 2 && notes[3].column == 10));
  const auto refused = clean_inscription("Ada\nBo &#7;");
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.fault().where == "line 2, character 4");
}

TEST_CASE("a name is known by its exact case") {
  CHECK(named_character("Dagger") == U'\u2021');
  CHECK(named_character("dagger") == U'\u2020');
  CHECK(named_character("yuml") == U'\u00FF');
  CHECK(named_character("diams") == U'\u2666');
  CHECK_FALSE(named_character("DAGGER").has_value());
  CHECK_FALSE(named_character("").has_value());
  CHECK_FALSE(named_character("amp apos").has_value());
  CHECK_FALSE(named_character("thetasyms").has_value());
}

}  // namespace ordinatio::entities_test
