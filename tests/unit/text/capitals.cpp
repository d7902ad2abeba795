#include <catch2/catch.hpp>

#include "text/text.h"

using namespace ordinatio;

namespace {

struct Case {
  const char *language, *typed, *upper, *lower, *title;
};

}  // namespace

TEST_CASE("letters change their case as their language has it") {
  // Rules of Unicode's SpecialCasing.txt (tests/outside/casing.cpp reads it), words of our own; Dutch and Greek from memory.
  const Case cases[] = {
      {"en", "Ada Miller", "ADA MILLER", "ada miller", "Ada Miller"},
      {"en", "bo o'neill iv", "BO O'NEILL IV", "bo o'neill iv", "Bo O'neill Iv"},
      {"tr", "Işıl dilİ", "IŞIL DİLİ", "ışıl dili", "Işıl Dilİ"},
      {"tr", "irmak", "İRMAK", "irmak", "İrmak"},
      {"az", "ilham", "İLHAM", "ilham", "İlham"},
      {"en", "irmak", "IRMAK", "irmak", "Irmak"},
      {"de", "Weißmühle", "WEISSMÜHLE", "weißmühle", "Weißmühle"},
      {"de", "WEIẞ", "WEIẞ", "weiß", "Weiß"},
      {"de-CH", "groß", "GROSS", "groß", "Groß"},
      {"el", "Μύλος Άννας", "ΜΥΛΟΣ ΑΝΝΑΣ", "μύλος άννας", "Μύλος Άννας"},
      {"en", "Μύλος", "ΜΥΛΟΣ", "μύλος", "Μύλος"},
      {"el", "ΜΥΛΟΣ ΣΑΣ", "ΜΥΛΟΣ ΣΑΣ", "μυλος σας", "Μυλος Σας"},
      {"el", "μαΐου", "ΜΑΪΟΥ", "μαΐου", "Μαΐου"},
      {"nl", "ijsmolen", "IJSMOLEN", "ijsmolen", "IJsmolen"},
      {"en", "ijsmolen", "IJSMOLEN", "ijsmolen", "Ijsmolen"},
      {"nl", "IJSMOLEN", "IJSMOLEN", "ijsmolen", "IJsmolen"},
      {"lt", "Į\u0301", "Į\u0301", "į\u0307\u0301", "Į\u0301"},
      {"lt", "i\u0307\u0301", "Í", "i\u0307\u0301", "Í"},
      {"ru", "мельница", "МЕЛЬНИЦА", "мельница", "Мельница"},
      {"ja", "水車", "水車", "水車", "水車"},
      {"no-such-language", "ada", "ADA", "ada", "Ada"},
  };
  for (const Case& c : cases) {
    INFO(c.language << ": " << c.typed);
    CHECK(in_case(c.typed, LetterCase::upper, c.language) == c.upper);
    CHECK(in_case(c.typed, LetterCase::lower, c.language) == c.lower);
    CHECK(in_case(c.typed, LetterCase::title, c.language) == c.title);
    CHECK(in_case(c.typed, LetterCase::as_typed, c.language) == c.typed);
  }
}

TEST_CASE("a title leaves capitals inside a word, initials and numerals, and tames a word of capitals") {
  const auto title = [](const char* line) { return in_case(line, LetterCase::title, "en"); };
  CHECK(title("ada McMill") == "Ada McMill");
  CHECK(title("ADA MILLER") == "Ada Miller");
  CHECK(title("J.R. MILLERSON III") == "J.R. Millerson III");
  CHECK(title("BO O'NEILL AND ADA MILL-SMITH") == "Bo O'Neill And Ada Mill-Smith");
  CHECK(title("(ada)  bo") == "(Ada)  Bo");
  CHECK(title("").empty());
}

TEST_CASE("a line in another case is in NFC, and whole where letters change their length") {
  CHECK(in_case("\u01F0", LetterCase::upper, "en") == "J\u030C");
  CHECK(in_case("J\u030C", LetterCase::lower, "en") == "\u01F0");
  CHECK(in_case("ﬁn", LetterCase::upper, "en") == "FIN");
  CHECK(in_case("ŉ", LetterCase::upper, "en") == "ʼN");
}
