#include <catch2/catch.hpp>

#include "csv/csv.h"

namespace ordinatio::decoding_test {
using namespace std::string_literals;
using Catch::Contains;

namespace {

DecodedText decoded(std::string_view bytes, std::string_view encoding = "") {
  auto result = decode_text(bytes, encoding, "orders.csv");
  if (!result.ok()) FAIL(describe(result.fault()));
  return *result;
}
std::string refused(std::string_view bytes, std::string_view encoding = "") {
  const auto result = decode_text(bytes, encoding, "orders.csv");
  REQUIRE_FALSE(result.ok());
  return describe(result.fault());
}

}  // namespace

TEST_CASE("the encoding is told from the bytes") {
  struct Case {
    std::string bytes, text, encoding;
  };
  const Case cases[] = {
      {"", "", "UTF-8"},
      {"Order,Text", "Order,Text", "UTF-8"},
      {"Ren\xC3\xA9 \xF0\x9D\x94\xB8", "René 𝔸", "UTF-8"},
      {"\xEF\xBB\xBFRen\xC3\xA9", "René", "UTF-8 with BOM"},
      {"\xEF\xBB\xBF", "", "UTF-8 with BOM"},
      {"\xFF\xFE\x41\x00\xE9\x00\x35\xD8\x38\xDD"s, "Aé𝔸", "UTF-16LE"},
      {"\xFE\xFF\x00\x41\x00\xE9\xD8\x35\xDD\x38"s, "Aé𝔸", "UTF-16BE"},
      {"\xFF\xFE", "", "UTF-16LE"},
      {"Ren\xE9", "René", "windows-1252"},
      {"\x93Zo\xEB\x94 \x80 5 \x85", "“Zoë” € 5 …", "windows-1252"},
      {"\x8E"
       "alo \x9Eluk",
       "Žalo žluk", "windows-1252"},
      {"\xC2", "Â", "windows-1252"},  // half of a sequence
  };
  for (const Case& one : cases) {
    INFO(one.text << " in " << one.encoding);
    const DecodedText result = decoded(one.bytes);
    CHECK(result.text == one.text);
    CHECK(result.encoding == one.encoding);
  }
}

TEST_CASE("every byte of Windows-1252 means what the code page says, or is lost visibly") {
  // Code page 1252's five free places, as in Unicode's mapping file (VENDORS/MICSFT/WINDOWS/CP1252.TXT; from memory).
  for (const int free : {0x81, 0x8D, 0x8F, 0x90, 0x9D}) {
    CHECK(decoded(std::string("a") + static_cast<char>(free) + "b\xE9", "windows-1252").text == "a\uFFFDbé");
    CHECK(decoded(std::string("a") + static_cast<char>(free), "windows-1252").text == "a\uFFFD");
  }
  for (int byte = 0xA0; byte < 0x100; ++byte) {  // the upper half is ISO 8859-1's, and so Unicode's
    const std::string expected = {static_cast<char>(0xC0 | (byte >> 6)), static_cast<char>(0x80 | (byte & 0x3F))};
    CHECK(decoded(std::string(1, static_cast<char>(byte)), "windows-1252").text == expected);
  }
}

TEST_CASE("one damaged row does not turn a file of UTF-8 into Windows-1252") {
  const DecodedText result = decoded("Zoë,Jürgen,Bj\xF8rn,Åsa");
  CHECK(result.encoding == "UTF-8");
  CHECK(result.text == "Zoë,Jürgen,Bj\uFFFDrn,Åsa");
  CHECK(result.told == ", but 1 byte of it is none");
  CHECK(decoded("Zo\xC3\xAB,Bj\xF8rn").text == "Zoë,Bj\uFFFDrn");
  // Good sequences among more bytes that are none are hardly words: they are not believed.
  CHECK(decoded("Zo\xC3\xAB,Bj\xF8rn,Ren\xE9").doubtful.contains("ZoÃ«"));
  // A replacement character that is in the file already is a character like any other.
  CHECK(decoded("Zo\xEF\xBF\xBD").encoding == "UTF-8");
}

TEST_CASE("what cannot be decoded becomes a replacement character") {
  CHECK(decoded("\xEF\xBB\xBF"
                "a\xE9"
                "b")
            .text == "a\uFFFDb");
  CHECK(decoded("a\xE9"
                "b",
                "UTF-8")
            .text == "a\uFFFDb");
  CHECK(decoded("\xFF\xFE\x41\x00\x35\xD8\x42\x00"s).text ==
        "A\uFFFD"
        "B");                                                 // half a surrogate pair
  CHECK(decoded("\xFF\xFE\x41\x00\x42"s).text == "A\uFFFD");  // half a unit at the end
}

TEST_CASE("a long text is decoded without a seam") {
  std::string bytes, text;
  for (int part = 0; part < 20'000; ++part) {
    bytes += "\x35\xD8\x38\xDD\x61\x00"s;
    text += "𝔸a";
  }
  CHECK(decoded("\xFF\xFE" + bytes).text == text);
  CHECK(decoded(text).text == text);
}

TEST_CASE("a named encoding is taken, by any of its names") {
  CHECK(decoded("Ren\xC3\xA9", "windows-1252").text == "RenÃ©");
  CHECK(decoded("Ren\xE9", "cp1252").encoding == "windows-1252");
  CHECK(decoded("Ren\xC3\xA9", "utf8").encoding == "UTF-8");
  CHECK(decoded("\x41\x00\xE9\x00"s, "UTF-16LE").text == "Aé");
  CHECK(decoded("\xFF\xFE\x41\x00"s, "utf-16le").text == "A");
  CHECK(decoded("\xFE\xFF\x00\x41"s, "UTF-16").encoding == "UTF-16BE");
  CHECK(decoded("\xEF\xBB\xBF\xC3\xA9", "UTF-8").encoding == "UTF-8 with BOM");
  CHECK(decoded("\xA4", "ISO-8859-15").text == "€");
}

TEST_CASE("an encoding that cannot be is refused") {
  CHECK(refused("a", "utf-9") ==
        "orders.csv: unknown encoding \"utf-9\". Set encoding to \"UTF-8\", \"UTF-16LE\", \"UTF-16BE\", "
        "\"windows-1252\", "
        "\"windows-1250\" or \"macintosh\", or leave it out of shop.toml.");
  CHECK(
      refused("\xEF\xBB\xBF"
              "a",
              "windows-1252") ==
      "orders.csv: the encoding is not windows-1252: the file begins with the byte order mark of UTF-8. Leave encoding "
      "out of shop.toml, or export the orders again.");
  CHECK_THAT(refused("\xFF\xFE\x41\x00"s, "UTF-16BE"), Contains("byte order mark of UTF-16LE"));
}

TEST_CASE("UTF-16 without a mark is not guessed at") {
  CHECK(refused("O\0r\0d\0"s) ==
        "orders.csv: the encoding is not certain: this looks like UTF-16LE, but it has no byte order mark. Set "
        "encoding = "
        "\"UTF-16LE\" in shop.toml, or save the file as UTF-8.");
  CHECK_THAT(refused("\0O\0r"s), Contains("looks like UTF-16BE"));
  CHECK_THAT(refused("\x1D\x04,\0\"\0T\0e\0x\0t\0\"\0\n\0"s),
             Contains("looks like UTF-16LE"));  // a Cyrillic letter first
  CHECK(decoded("O\0rd"s).text == "O\0rd"s);    // a stray NUL is for the reader of the text to hold
}

TEST_CASE("what is no text is refused by its kind") {
  CHECK(refused("PK\x03\x04\x14") ==
        "orders.csv: this is no text: it is a zip archive, perhaps a spreadsheet's workbook. Save the sheet as CSV and "
        "give that file.");
  CHECK(refused("\xFF\xFE\0\0\x41\0\0\0"s) == "orders.csv: this text is not read: it is UTF-32. Save it as UTF-8.");
  CHECK_THAT(refused("\0\0\xFE\xFF\0\0\0\x41"s), Contains("it is UTF-32"));
}

TEST_CASE("the delimiter is told from the first rows") {
  struct Case {
    std::string text;
    char delimiter;
    std::size_t skip;
  };
  const Case cases[] = {
      {"", ',', 0},
      {"Order\n1\n", ',', 0},
      {"Order,Text\n1,a\n", ',', 0},
      {"Order;Text\n1;a\n", ';', 0},
      {"Order\tText\n1\ta\n", '\t', 0},
      {"Order;Text\n1;a, b\n2;c, d\n", ';', 0},                 // commas in every text, none in the header
      {"Order;Text, lines;Qty\n1;a, b;1\n2;c, d;1\n", ';', 0},  // both part evenly: more columns win
      {"Order;Text, lines\n1;a\n2;b\n", ';', 0},                // the header alone has a comma
      {"Order,Text\n1,a;b\n2,c;d\n", ',', 0},
      {"Order,\"Text; lines\"\n1,\"a;b\"\n", ',', 0},  // a delimiter in quotes parts nothing
      {"Order;\"Text\n1;a\n", ',', 0},                 // no header can be read: any will do
      {"sep=;\nOrder,Text\n", ';', 6},
      {"sep=\t\r\nOrder\tText\n", '\t', 7},
      {"SEP=|\rOrder|Text\n", '|', 6},
      {"sep=,", ',', 5},
      {"sep=", ',', 0},
      {"sep=ab;c\n", ';', 0},  // a header that begins with the same letters
      {"sep=\x7F\nOrder\n", ',', 0},
      {"sep=;x\nOrder;Text\n", ';', 0},  // more than a delimiter is a header
      {"sep=a\nOrder\n", ',', 0},
      {"sep= \nOrder\n", ',', 0},
      {"sep=\"\n", ',', 0},
      {"sep=\xC3\xA9\n", ',', 0},
  };
  for (const Case& one : cases) {
    INFO(one.text);
    const Delimiter found = sniff_delimiter(one.text);
    CHECK(found.character == one.delimiter);
    CHECK(found.skip == one.skip);
  }
  CHECK(sniff_delimiter(std::string_view("sep=;", 4)).skip == 0);  // nothing behind the text's end is read
}

TEST_CASE("words that no encoding of one byte a letter proves are told, and odd ones doubtful") {
  struct Case {
    const char *bytes, *encoding, *word, *readings;  // the doubtful word, or none
  };
  // Codes as in Unicode's mapping files (CP1250.TXT, ROMAN.TXT, CENTEURO.TXT, CP1251.TXT, CP1254.TXT; from memory).
  const Case cases[] = {
      {"\xA3ukasz", "windows-1250", "Łukasz", "\"Łukasz\" in windows-1250"},
      {"\xAF"
       "aneta",
       "windows-1250", "Żaneta", "\"¯aneta\" in windows-1252"},
      {"Pawe\xB3", "windows-1250", "Paweł", "\"Pawe³\" in windows-1252"},
      {"R\xF9\x9E"
       "ena",
       "windows-1250", "Růžena", "\"Rùžena\" in windows-1252"},
      {"Jos\x8E", "macintosh", "José", "\"JosŽ\" in windows-1252"},
      {"M\x9Fller, Jos\x8E", "macintosh", "Müller", "\"MŸller\" in windows-1252"},
      {"\xD0\xF3\xF7\xFC\xB8\xE2\xFB\xF5", "windows-1251", "Ручьёвых", "\"Ðó÷ü¸âûõ\" in windows-1252"},
      {"I\xFE\xFDk \xC7"
       "a\xF0la",
       "windows-1254", "Çağla", "\"Çaðla\" in windows-1252"},
      {"Jos\xE9, Zo\xEB, Fran\xE7ois, Bj\xF8rn, M\xFCller, \xDE\xF3rd\xEDs, S\xE3o, Pe\xF1"
       "a, 5 \x80, O\x92"
       "Brien, "
       "Tilda\x92s, c\x9Cur, 3 m\xB2, 20\xB0"
       "C, N\xBA 5, \x93"
       "Anna\x94, 1941 \x96 2026, \xBFQu\xE9?",
       "windows-1252", nullptr, nullptr},
  };
  for (const Case& one : cases) {
    INFO(one.bytes);
    const DecodedText text = decoded(one.bytes);
    CHECK(text.encoding == one.encoding);
    CHECK_THAT(text.look_at, Contains("its bytes do not prove"));
    CHECK_THAT(text.told, Contains("a guess") && Contains("ICU's detector: "));
    if (one.word == nullptr) {
      for (const auto& [word, fault] : text.doubtful) FAIL_CHECK(word);
      continue;
    }
    REQUIRE(text.doubtful.contains(one.word));
    CHECK_THAT(text.doubtful.at(one.word).why, Contains(one.readings));
  }
  // Words that the likely encodings read alike are not doubtful.
  const DecodedText mixed = decoded("\xA3ukasz, Ada, J\xF3zef");
  CHECK(mixed.doubtful.contains("Łukasz"));
  CHECK_FALSE(mixed.doubtful.contains("Józef"));
  CHECK(decoded("\xA3ukasz", "windows-1250").doubtful.empty());
  CHECK(decoded("Zo\xC3\xAB").doubtful.empty());
}

}  // namespace ordinatio::decoding_test
