// Against Unicode 15.0.0's data from Debian's unicode-data: UnicodeData.txt and NameAliases.txt (names), emoji-test.txt
// (UTS #51); and against the entity sets of HTML 4.01 (section 24) from Debian's w3c-sgml-lib.
#include <catch2/catch.hpp>
#include <charconv>
#include <fstream>
#include <map>
#include <sstream>

#include "base/utf8.h"
#include "cleaning/entities.h"

using namespace ordinatio;

namespace {

char32_t code_point(std::string_view digits, int base = 16) {
  std::uint32_t value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value, base);
  return value;
}

std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields;
  std::istringstream stream(line);
  for (std::string field; std::getline(stream, field, ';');) fields.push_back(field);
  return fields;
}

/// Each line of a file of Unicode's, comments left out, in its fields.
std::vector<std::vector<std::string>> rows_of(const std::string& name) {
  std::ifstream file("/usr/share/unicode/" + name);
  REQUIRE(file.is_open());
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(file, line);)
    if (!line.empty() && line[0] != '#') rows.push_back(fields_of(line));
  return rows;
}

}  // namespace

TEST_CASE("characters bear the names of UnicodeData.txt") {
  std::size_t names = 0;
  for (const auto& row : rows_of("UnicodeData.txt")) {
    if (row[1].starts_with("<")) continue;  // a range, or a control
    REQUIRE(character_name(code_point(row[0])) == "U+" + row[0] + " " + row[1]);
    ++names;
  }
  CHECK(names > 34'000);
}

TEST_CASE("controls bear the first of their names in NameAliases.txt") {
  std::map<std::string, std::string> first;
  for (const auto& row : rows_of("NameAliases.txt"))
    if (row[2] == "control" || row[2] == "figment") first.try_emplace(row[0], row[1]);
  CHECK(first.size() == 65);
  for (const auto& [code, name] : first) CHECK(character_name(code_point(code)) == "U+" + code + " " + name);
}

TEST_CASE("every emoji of emoji-test.txt is held as one character") {
  std::map<std::string, std::size_t> held;
  for (const auto& row : rows_of("emoji/emoji-test.txt")) {
    std::string emoji, status;
    std::istringstream codes(row[0]), words(row[1]);
    for (std::string code; codes >> code;) append_utf8(emoji, code_point(code));
    words >> status;
    if (status == "component") continue;  // skin tones and hair, which go with others
    const auto result = clean_inscription("Ada " + emoji + "!");
    INFO(row[0] << row[1]);
    if (result.ok()) {
      // A sign such as ♥ or ✝, which is an emoji only when U+FE0F says so.
      REQUIRE((status == "unqualified" && row[0].find(' ') == row[0].find_last_of("0123456789ABCDEF") + 1));
      continue;
    }
    ++held[status];
    REQUIRE(result.fault().where == "line 1, character 5");
    REQUIRE(result.fault().why.starts_with("“" + emoji + "” is an emoji"));
  }
  CHECK(held["fully-qualified"] == 3655);
  CHECK(held["minimally-qualified"] == 827);
}

TEST_CASE("entities stand for what HTML 4.01 says") {
  const std::string folder = "/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-html401-19991224/";
  std::size_t names = 0;
  for (const char* set : {"HTMLlat1.ent", "HTMLsymbol.ent", "HTMLspecial.ent"}) {
    std::ifstream file(folder + set);
    REQUIRE(file.is_open());
    for (std::string line; std::getline(file, line);) {
      // <!ENTITY nbsp   CDATA "&#160;" -- …
      std::istringstream words(line);
      std::string declaration, name, type, number;
      if (!(words >> declaration >> name >> type >> number) || declaration != "<!ENTITY" || type != "CDATA") continue;
      INFO(name);
      CHECK(named_character(name) == code_point(std::string_view(number).substr(3), 10));
      ++names;
    }
  }
  CHECK(names == 252);
}
