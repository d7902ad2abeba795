#include <catch2/catch.hpp>

#include "text/text.h"

namespace ordinatio::capitals_test {

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
      // Where a word's letters tell its language, its rules hold in any other's text, for this word alone.
      {"en", "Yıldırım irmak", "YILDIRIM IRMAK", "yıldırım irmak", "Yıldırım Irmak"},
      {"en", "İnci dikiş", "İNCİ DİKİŞ", "inci dikiş", "İnci Dikiş"},
      {"de", "DİLEK IŞIK", "DİLEK IŞIK", "dilek ışık", "Dilek Işık"},
      {"de", "Işik & Dilan", "IŞIK & DILAN", "işik & dilan", "Işik & Dilan"},  // Kurdish has ş, and no dotless i
      {"nl", "ığdır ijs", "IĞDIR IJS", "ığdır ijs", "Iğdır IJs"},
      {"en", "doği", "DOĞİ", "doği", "Doği"},
      {"tr", "Μύλος ırmak", "ΜΥΛΟΣ IRMAK", "μύλος ırmak", "Μύλος Irmak"},
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
  CHECK(title("McDONALD") == "McDONALD");
  CHECK(title("Ada McMILL-DiVALE") == "Ada McMILL-DiVALE");
  CHECK(title("ADA-McMILL") == "Ada-McMILL");
  CHECK(title("BO MCMILL") == "Bo McMill");
  CHECK(title("MCI MC") == "Mci Mc");
  CHECK(title("O'MCMILL O’VALE") == "O'McMill O’Vale");
  CHECK(title("BUILT MDCCCLXXIV, MCMIX") == "Built MDCCCLXXIV, MCMIX");
  CHECK(title("LIV CIVIL MIMIC DIX") == "Liv Civil Mimic Dix");
  CHECK(title("AN DER STRAßE") == "An Der Straße");
}

TEST_CASE("a line in another case is in NFC, and whole where letters change their length") {
  CHECK(in_case("\u01F0", LetterCase::upper, "en") == "J\u030C");
  CHECK(in_case("J\u030C", LetterCase::lower, "en") == "\u01F0");
  CHECK(in_case("ﬁn", LetterCase::upper, "en") == "FIN");
  CHECK(in_case("ŉ", LetterCase::upper, "en") == "ʼN");
}

}  // namespace ordinatio::capitals_test
