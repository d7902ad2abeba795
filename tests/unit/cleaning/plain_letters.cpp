#include <catch2/catch.hpp>

#include "cleaning/cleaning.h"
#include "text/text.h"

namespace ordinatio::plain_letters_test {

TEST_CASE("ligatures are taken apart, and mathematical letters become plain, with a note") {
  struct Case {
    const char *original, *cleaned, *note;  // note: the first, empty for none
  };
  const Case cases[] = {
      {"\uFB01n", "fin", "U+FB01 LATIN SMALL LIGATURE FI was taken apart"},
      {"o\uFB03ce", "office", "U+FB03 LATIN SMALL LIGATURE FFI was taken apart"},
      {"Be\uFB06", "Best", "U+FB06 LATIN SMALL LIGATURE ST was taken apart"},
      {"𝓐𝓷𝓷𝓪", "Anna", "mathematical letters became plain ones"},
      {"𝟚𝟘𝟚𝟜 ℝ", "2024 R", "mathematical letters became plain ones"},
      {"𝗝𝗼𝘀𝗲\u0301", "José", "mathematical letters became plain ones"},
      {"℃ Å ½ ™", "℃ Å ½ ™", ""},
  };
  for (const Case& c : cases) {
    INFO(c.original);
    const auto inscription = clean_inscription(c.original);
    REQUIRE(inscription.ok());
    CHECK(inscription->lines == std::vector<std::string>{c.cleaned});
    CHECK(inscription->original == c.original);
    CHECK((inscription->notes.empty() ? "" : inscription->notes.front().rule) == c.note);
    if (*c.note != '\0') CHECK(inscription->notes.front().weight == CleaningNote::Weight::note);
  }
}

TEST_CASE("an inscription knows that mathematical letters stood in it") {
  CHECK(clean_inscription("Anna\n𝓐da")->mathematical);
  CHECK_FALSE(clean_inscription("Ada")->mathematical);
}

}  // namespace ordinatio::plain_letters_test
