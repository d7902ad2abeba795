#include "cleaning/text_limits.h"
#include "cleaning/cleaning.h"

#include <catch2/catch.hpp>

#include "text/text.h"

namespace ordinatio::text_limits_test {

namespace {

std::string repeated(std::string_view text, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

/// Why a text is held, or nothing.
std::string held(const std::string& text) {
  const auto inscription = clean_inscription(text);
  return inscription.ok() ? "" : describe(inscription.fault());
}

}  // namespace

TEST_CASE("a text is held by its characters, with their number and the limit") {
  CHECK(held(std::string(text_limits::characters, 'n')).empty());
  CHECK(held(repeated("ñ", text_limits::characters)).empty());
  const std::string one_more = held(std::string(text_limits::characters + 1, 'n'));
  CHECK(one_more.find("the text is too long") != std::string::npos);
  CHECK(one_more.find("2,001 characters") != std::string::npos);
  CHECK(one_more.find("the limit is 2,000") != std::string::npos);
}

TEST_CASE("characters are counted as they are engraved: entities and doubled blanks do not lengthen a text") {
  CHECK(held(repeated("&#110;", text_limits::characters / 2)).empty());
  CHECK(held("Ada" + std::string(5'000, ' ') + "Miller").empty());
}

TEST_CASE("a text is held by its lines, empty ones at its ends left out") {
  const std::string lines = repeated("n\n", text_limits::lines);
  CHECK(held("\n\n" + lines + "\n\n").empty());
  CHECK(held(lines + "n").find("61 lines, and the limit is 60") != std::string::npos);
}

TEST_CASE("a text of twenty million characters is held before it is looked at") {
  CHECK(held(std::string(20'000'000, 'x')).find("20,000,000 characters as it came") != std::string::npos);
  CHECK(held(repeated("\n", 1'000'000)).find("1,000,000 characters as it came") != std::string::npos);
}

TEST_CASE("a letter carries as many marks as any writing has, and no more") {
  const auto is_tower = [](const std::string& text, const char* limit) {
    return held(text).find("more than " + std::string(limit) + " marks on one letter") != std::string::npos;
  };
  CHECK(held("a" + repeated("\u0301", text_limits::accents)).empty());
  CHECK(is_tower("a" + repeated("\u0301", 30), "5"));
  CHECK(is_tower("a" + repeated("\u0301", 2'000), "5"));
  CHECK(is_tower("\u1EA5" + repeated("\u0323", 4), "5"));    // a letter's own count
  CHECK(is_tower("a" + repeated("\u0301\u200D", 30), "5"));  // parted by what shows nothing
  CHECK(is_tower("日" + repeated("\u0301", 6), "5"));
  CHECK(held("b" + repeated("\u0301", 5) + "b" + repeated("\u0301", 5)).empty());
  CHECK(is_tower("\u0F40" + repeated("\u0FB2", 11), "10"));
  for (const char* word : {
           "Nguyễn Thị Ngọc Ưng",
           "j\u0173\u0304\u0301",                         // Lithuanian: ogonek, macron, acute
           "\u03B1\u0304\u0313\u0301\u0345",              // Greek: length, breathing, accent, iota
           "\u05E9\u05BC\u05C1\u05B8\u05BD\u0591\u05AF",  // shin: dagesh, dot, vowel, meteg, accent, circle
           "\u05D9\u05B0\u05E8\u05D5\u05BC\u05E9\u05C1\u05B8\u05DC\u05B7\u05B4\u0597\u05DD",
           "\u0F67\u0F90\u0FB5\u0FA8\u0FB3\u0FBA\u0FBC\u0FBB\u0F82",  // the seal of the ten powers
           "\u0645\u0651\u064E\u0670\u0653",                          // shadda, fatha, small alif, maddah
           "မြွှို့",
           "क्ष्म्य\u0951ं",
       }) {
    INFO(word);
    CHECK(held(word).empty());
  }
}

TEST_CASE("two thousand joiners join nothing, and are left out") {
  const auto inscription = clean_inscription("Ada" + repeated("\u200D", 1'990) + " Bo");
  REQUIRE(inscription.ok());
  CHECK(inscription->lines == std::vector<std::string>{"Ada Bo"});
}

}  // namespace ordinatio::text_limits_test
