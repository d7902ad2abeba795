// Against Unicode's own SpecialCasing.txt and UnicodeData.txt, version 15.0.0 as ICU 72, from Debian's unicode-data.
#include <unicode/uloc.h>
#include <unicode/ulocdata.h>
#include <unicode/uset.h>

#include <array>
#include <catch2/catch.hpp>
#include <charconv>
#include <fstream>
#include <set>
#include <sstream>

#include "base/utf8.h"
#include "cleaning/letters.h"
#include "text/text.h"

using namespace ordinatio;

namespace {

char32_t code_point(const std::string& hex) {
  std::uint32_t value = 0;
  std::from_chars(hex.data(), hex.data() + hex.size(), value, 16);
  return value;
}

std::string text_of(const std::string& codes) {
  std::string text;
  std::istringstream stream(codes);
  for (std::string code; stream >> code;) append_utf8(text, code_point(code));
  return text;
}

std::string composed(const std::string& text) {
  Letters letters = *read_letters(text);
  compose(letters);
  return write_letters(letters);
}

std::vector<std::vector<std::string>> rows_of(const char* path) {
  std::ifstream file(path);
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(file, line);) {
    line.resize(std::min(line.find('#'), line.size()));
    std::vector<std::string> fields;
    std::istringstream stream(line);
    for (std::string field; std::getline(stream, field, ';');) {
      field.erase(0, std::min(field.find_first_not_of(' '), field.size()));
      fields.push_back(field);
    }
    if (fields.size() > 3) rows.push_back(std::move(fields));
  }
  return rows;
}

const std::vector<std::vector<std::string>>& special_rows() {
  static const auto rows = rows_of("/usr/share/unicode/SpecialCasing.txt");
  return rows;
}

/// Greek capitals lose their accents here in every language, which SpecialCasing.txt leaves to languages.
bool is_greek(char32_t c) { return (c >= 0x370 && c <= 0x3FF) || (c >= 0x1F00 && c <= 0x1FFF); }

}  // namespace

TEST_CASE("letters that become several change their case as Unicode lists it") {
  std::size_t rows = 0, greek = 0;
  for (const auto& row : special_rows()) {
    const char32_t letter = code_point(row[0]);
    if (row.size() > 4 && !row[4].empty()) continue;  // those with conditions come below
    if (letter == U'İ') continue;                     // it is Turkish in any language: below
    const std::string typed = text_of(row[0]);
    INFO(row[0]);
    CHECK(in_case(typed, LetterCase::lower, "en") == composed(text_of(row[1])));
    CHECK(in_case(typed, LetterCase::title, "en") == composed(text_of(row[2])));
    if (!is_greek(letter)) CHECK(in_case(typed, LetterCase::upper, "en") == composed(text_of(row[3])));
    greek += is_greek(letter) ? 1 : 0;
    ++rows;
  }
  CHECK(rows == 102);
  CHECK(greek == 81);
}

TEST_CASE("rules with a language or a condition hold, each in the surroundings that it asks for") {
  struct Around {
    const char *condition, *before, *after;
  };
  // What stands around the letter, and is not changed by lowering.
  constexpr std::array surroundings{Around{"", "", ""}, Around{"More_Above", "", "\u0300"},
                                    Around{"Not_Before_Dot", "", ""}, Around{"Final_Sigma", "α", ""}};
  std::size_t rows = 0;
  for (const auto& row : special_rows()) {
    if (row.size() < 5 || row[4].empty()) continue;
    std::istringstream words(row[4]);
    std::string language, condition;
    words >> language >> condition;
    if (language.size() > 2) condition = std::exchange(language, "el");
    if (condition == "After_I" || condition == "After_Soft_Dotted") continue;  // below
    const auto* around = std::find_if(surroundings.begin(), surroundings.end(),
                                      [&](const Around& a) { return a.condition == condition; });
    INFO(row[0] << " " << row[4]);
    REQUIRE(around != surroundings.end());
    const auto in_place = [&](const std::string& letter) { return around->before + letter + around->after; };
    CHECK(in_case(in_place(text_of(row[0])), LetterCase::lower, language) == composed(in_place(text_of(row[1]))));
    if (condition.empty()) CHECK(in_case(text_of(row[0]), LetterCase::upper, language) == composed(text_of(row[3])));
    ++rows;
  }
  CHECK(rows == 13);
  for (const char* turkic : {"tr", "az"}) CHECK(in_case("I\u0307", LetterCase::lower, turkic) == "i");
  CHECK(in_case("i\u0307", LetterCase::upper, "lt") == "I");
  CHECK(in_case("i\u0307", LetterCase::title, "lt") == "I");
}

TEST_CASE("a word with a letter that only Turkish and its kin have goes by their rules in any language") {
  // Which languages have a letter, by ICU's copy of CLDR 42 (exemplar characters).
  const auto languages_with = [](UChar32 letter) {
    std::set<std::string> languages;
    for (int i = 0; i < uloc_countAvailable(); ++i) {
      UErrorCode status = U_ZERO_ERROR;
      ULocaleData* data = ulocdata_open(uloc_getAvailable(i), &status);
      USet* letters = ulocdata_getExemplarSet(data, nullptr, USET_ADD_CASE_MAPPINGS, ULOCDATA_ES_STANDARD, &status);
      char language[16] = "";
      uloc_getLanguage(uloc_getAvailable(i), language, sizeof language, &status);
      if (U_SUCCESS(status) && uset_contains(letters, letter)) languages.insert(language);
      uset_close(letters);
      ulocdata_close(data);
    }
    return languages;
  };
  const std::set<std::string> turkic{"az", "tr"};
  for (const char32_t letter : {U'ı', U'İ', U'ğ', U'Ğ'}) {
    CHECK(languages_with(static_cast<UChar32>(letter)) == turkic);
    std::string word;
    append_utf8(word, letter);
    for (const char* language : {"en", "de", "nl", "lt", "ku"}) {
      CHECK(in_case(word + "i", LetterCase::upper, language) == in_case(word + "i", LetterCase::upper, "tr"));
      CHECK(in_case(word + "I", LetterCase::lower, language) == in_case(word + "I", LetterCase::lower, "tr"));
      CHECK(in_case("i I", LetterCase::upper, language) == "I I");
    }
  }
  CHECK(languages_with(U'ş') != turkic);  // so it tells nothing alone
}

TEST_CASE("all other letters change their case as UnicodeData says") {
  std::set<char32_t> special;
  for (const auto& row : special_rows()) special.insert(code_point(row[0]));
  std::size_t letters = 0;
  for (const auto& row : rows_of("/usr/share/unicode/UnicodeData.txt")) {
    const char32_t letter = code_point(row[0]);
    if (special.contains(letter) || row.size() < 14 || (row[12].empty() && row[13].empty())) continue;
    const std::string typed = text_of(row[0]);
    INFO(row[0]);
    if (!is_greek(letter))
      CHECK(in_case(typed, LetterCase::upper, "en") == composed(text_of(row[12].empty() ? row[0] : row[12])));
    CHECK(in_case(typed, LetterCase::lower, "en") == composed(text_of(row[13].empty() ? row[0] : row[13])));
    ++letters;
  }
  CHECK(letters > 2'700);
}
