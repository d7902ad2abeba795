// Against Unicode's own auxiliary/LineBreakTest.txt, version 15.0.0 as ICU 72, from Debian's unicode-data (UAX #14).
#include <algorithm>
#include <catch2/catch.hpp>
#include <charconv>
#include <fstream>
#include <set>
#include <sstream>

#include "base/utf8.h"
#include "cleaning/letters.h"
#include "text/line_rules.h"
#include "text/text.h"

using namespace ordinatio;

namespace {

struct Row {
  std::size_t number = 0;  // of the file's line
  std::string text;
  std::vector<std::size_t> places;  // bytes, neither the text's start nor its end
};

std::vector<Row> rows() {
  std::ifstream file("/usr/share/unicode/auxiliary/LineBreakTest.txt");
  std::vector<Row> rows;
  std::size_t number = 0;
  for (std::string line; std::getline(file, line);) {
    ++number;
    line.resize(std::min(line.find('#'), line.size()));
    if (line.find_first_not_of(" \t") == std::string::npos) continue;
    Row row{number, {}, {}};
    std::istringstream stream(line);
    for (std::string word; stream >> word;) {
      if (word == "÷") {
        row.places.push_back(row.text.size());
      } else if (word != "×") {
        std::uint32_t code = 0;
        std::from_chars(word.data(), word.data() + word.size(), code, 16);
        append_utf8(row.text, code);
      }
    }
    row.places.pop_back();  // the ÷ at the end
    rows.push_back(std::move(row));
  }
  return rows;
}

// ICU's line rules depart from UAX #14 on purpose: they keep a HYPHEN-MINUS at a word's beginning with its letter, and a
// decimal point at a number's beginning with its digits, so that a line may begin with ".35" after a blank.
const std::set<std::size_t> hyphen_rows{2265, 2267, 2421, 2423, 2425, 2427, 2429, 2431};
const std::set<std::size_t> decimal_rows{2873, 2875, 7477, 7576, 7577, 7578, 7579,
                                         7580, 7581, 7583, 7584, 7585, 7586, 7587};

/// A place before a number's leading point that follows a blank.
bool is_before_decimal(const Row& row, std::size_t place) {
  return decimal_rows.contains(row.number) && place > 0 && row.text[place - 1] == ' ' && row.text[place] == '.';
}

bool is_allowed(const Row& row, std::size_t place) {
  return std::ranges::binary_search(row.places, place) || is_before_decimal(row, place);
}

}  // namespace

TEST_CASE("lines may be broken where Unicode's test file breaks them, but for 22 rows that ICU keeps together") {
  LineRules rules;
  std::set<std::size_t> different;
  std::size_t count = 0;
  for (const Row& row : rows()) {
    ++count;
    const std::vector<std::size_t> places = rules.places(row.text, "en");
    if (places == row.places) continue;
    different.insert(row.number);
    INFO("line " << row.number);
    CHECK(std::ranges::all_of(places, [&](std::size_t place) { return is_allowed(row, place); }));
  }
  std::set<std::size_t> expected = hyphen_rows;
  expected.insert(decimal_rows.begin(), decimal_rows.end());
  CHECK(different == expected);
  CHECK(count == 7'654);
}

TEST_CASE("no line is ever broken where Unicode forbids it, in any language that is broken by Unicode's own rules") {
  LineBreaker breaker;
  std::size_t taken = 0;
  for (const char* language : {"", "en", "de", "ru", "th", "ko", "zh", "ar"}) {
    for (const Row& row : rows()) {
      std::size_t end = 0;
      for (const BreakPlace& place : breaker.places(row.text, language)) {
        INFO("line " << row.number << ", " << language);
        REQUIRE(is_allowed(row, place.begin));
        REQUIRE(place.end <= place.begin);
        REQUIRE(place.end > end);
        end = place.begin;
        ++taken;
      }
    }
  }
  CHECK(taken > 8 * 1'000);
}
