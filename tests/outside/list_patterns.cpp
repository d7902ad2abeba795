// Against CLDR's list patterns ("A and B", "A or B"; UTS #35, part 2), version 42 as Debian's ICU 72 formats them.
#include <unicode/listformatter.h>

#include <catch2/catch.hpp>

#include "text/words.h"

using namespace ordinatio;

namespace {

/// The word between two things in a list of the language; empty where it is joined to one of them.
std::string word_between(const char* language, UListFormatterType type) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<icu::ListFormatter> formatter(
      icu::ListFormatter::createInstance(icu::Locale(language), type, ULISTFMT_WIDTH_WIDE, status));
  REQUIRE(U_SUCCESS(status));
  const icu::UnicodeString things[] = {"Mmm", "Nnn"};
  icu::UnicodeString list;
  formatter->format(things, 2, list, status);
  REQUIRE(U_SUCCESS(status));
  std::string text;
  list.findAndReplace(icu::UnicodeString(char16_t{0x00A0}), icu::UnicodeString(u' '));  // Czech glues its words so
  list.toUTF8String(text);
  constexpr std::size_t thing = 3;
  const std::string between = text.substr(thing, text.size() - 2 * thing);
  return between.starts_with(' ') && between.ends_with(' ') ? between.substr(1, between.size() - 2) : "";
}

}  // namespace

TEST_CASE("what joins a list in CLDR is a conjunction in our lists, in each language that we have") {
  constexpr const char* languages[] = {"en", "de", "fr", "es", "it", "pt", "ca", "nl", "da", "nb",
                                       "nn", "sv", "is", "fi", "pl", "cs", "sk", "ru", "uk", "el",
                                       "hu", "ro", "tr", "cy", "ga", "id", "ms", "vi", "fa"};
  std::size_t words = 0;
  for (const char* language : languages) {
    for (const UListFormatterType type : {ULISTFMT_TYPE_AND, ULISTFMT_TYPE_OR}) {
      const std::string word = word_between(language, type);
      INFO(language << ": " << word);
      REQUIRE_FALSE(word.empty());
      ++words;
      if (word == "a(c)") continue;  // Welsh, before consonants and vowels: below
      CHECK(kind_of(word, language) == WordKind::conjunction);
    }
  }
  CHECK(words == 2 * std::size(languages));
  CHECK(kind_of("a", "cy") == WordKind::conjunction);
  CHECK(kind_of("ac", "cy") == WordKind::conjunction);
  CHECK(word_between("he", ULISTFMT_TYPE_OR) == "או");  // "and" is joined to the word behind it
  CHECK(kind_of("או", "he") == WordKind::conjunction);
}
