#include "text/limits.h"

#include <catch2/catch.hpp>

#include "text/text.h"

using namespace ordinatio;

namespace {

std::string repeated(std::string_view text, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

/// Why a text is held, or nothing.
std::string held(const std::string& text) {
  const auto inscription = clean_inscription(text);
  return inscription ? "" : describe(inscription.fault());
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

TEST_CASE("a letter carries as many marks as a stream-safe text has, and no more") {
  CHECK(held("a" + repeated("\u0301", text_limits::marks)).empty());
  CHECK(held("a" + repeated("\u0301", 2'000)).find("more than 30 marks on one letter") != std::string::npos);
}

TEST_CASE("two thousand joiners join nothing, and are left out") {
  const auto inscription = clean_inscription("Ada" + repeated("\u200D", 1'990) + " Bo");
  REQUIRE(inscription);
  CHECK(inscription->lines == std::vector<std::string>{"Ada Bo"});
}
