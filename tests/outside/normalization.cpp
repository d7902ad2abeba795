// Against Unicode's own test files, version 15.0.0 as ICU 72, from Debian's unicode-data:
// NormalizationTest.txt.bz2 (UAX #15) and auxiliary/GraphemeBreakTest.txt (UAX #29).
#include <catch2/catch.hpp>
#include <charconv>
#include <cstdio>
#include <fstream>
#include <memory>
#include <set>
#include <sstream>

#include "base/utf8.h"
#include "cleaning/letters.h"

using namespace ordinatio;

namespace {

char32_t code_point(std::string_view hex) {
  std::uint32_t value = 0;
  std::from_chars(hex.data(), hex.data() + hex.size(), value, 16);
  return value;
}

/// "0044 0307" as letters.
Letters letters_of(const std::string& codes) {
  Letters letters;
  std::istringstream stream(codes);
  for (std::string code; stream >> code;) letters.push_back({code_point(code), letters.size()});
  return letters;
}

std::string composed(Letters letters) {
  compose(letters);
  return write_letters(letters);
}

std::string output_of(const char* command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command, "r"), pclose);
  REQUIRE(pipe != nullptr);
  std::string text;
  char block[4096];
  for (std::size_t size; (size = fread(block, 1, sizeof block, pipe.get())) > 0;) text.append(block, size);
  return text;
}

struct Row {
  std::string part;
  std::vector<std::string> columns;  // source; NFC; NFD; NFKC; NFKD
};

std::vector<Row> normalization_rows() {
  std::istringstream file(output_of("bzip2 -dc /usr/share/unicode/NormalizationTest.txt.bz2"));
  std::vector<Row> rows;
  std::string part;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with("@")) part = line.substr(0, 6);
    if (line.empty() || line[0] == '#' || line[0] == '@') continue;
    Row row{part, {}};
    std::istringstream fields(line);
    for (std::string field; row.columns.size() < 5 && std::getline(fields, field, ';');) row.columns.push_back(field);
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace

TEST_CASE("NFC is Unicode's, in every row of its test file") {
  const auto rows = normalization_rows();
  CHECK(rows.size() > 19'000);
  for (const Row& row : rows) {
    INFO(row.columns[0]);
    const std::string nfc = write_letters(letters_of(row.columns[1]));
    const std::string nfkc = write_letters(letters_of(row.columns[3]));
    for (const int column : {0, 1, 2})
      REQUIRE(composed(letters_of(row.columns[static_cast<std::size_t>(column)])) == nfc);
    for (const int column : {3, 4})
      REQUIRE(composed(letters_of(row.columns[static_cast<std::size_t>(column)])) == nfkc);
  }
}

TEST_CASE("characters that the test file does not list stay as they are") {
  std::set<char32_t> listed;
  for (const Row& row : normalization_rows())
    if (row.part == "@Part1") listed.insert(code_point(row.columns[0]));
  CHECK(listed.size() > 16'000);
  for (char32_t character = 0; character < 0x110000; ++character) {
    if (listed.contains(character) || (character >= 0xD800 && character < 0xE000)) continue;
    Letters letters = {{character, 0}};
    REQUIRE(compose(letters).empty());
    REQUIRE(letters[0].character == character);
  }
}

TEST_CASE("a text that is cleaned without a note is the test file's NFC") {
  std::size_t cleaned = 0;
  for (const Row& row : normalization_rows()) {
    const auto inscription = clean_inscription(write_letters(letters_of(row.columns[0])));
    if (!inscription.ok()) continue;
    bool noted = false;
    for (const CleaningNote& note : inscription->notes) noted = noted || note.weight == CleaningNote::Weight::note;
    if (noted) continue;
    INFO(row.columns[0]);
    REQUIRE(inscription->lines == std::vector{write_letters(letters_of(row.columns[1]))});
    ++cleaned;
  }
  CHECK(cleaned > 17'900);
}

TEST_CASE("graphemes part where Unicode's test file parts them") {
  std::ifstream file("/usr/share/unicode/auxiliary/GraphemeBreakTest.txt");
  std::size_t cases = 0;
  for (std::string line; std::getline(file, line);) {
    line.resize(std::min(line.find('#'), line.size()));
    if (line.empty()) continue;
    std::vector<std::string> expected;
    std::string text;
    std::istringstream stream(line);
    for (std::string word; stream >> word;) {
      if (word == "÷")
        expected.emplace_back();
      else if (word != "×")
        append_utf8(expected.back(), code_point(word));
    }
    expected.pop_back();  // the ÷ at the end begins nothing
    for (const std::string& grapheme : expected) text += grapheme;
    INFO(line);
    const auto graphemes = graphemes_of(text);
    CHECK(std::vector<std::string>(graphemes.begin(), graphemes.end()) == expected);
    ++cases;
  }
  CHECK(cases == 602);
}
