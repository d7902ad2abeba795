#include "cleaning/mojibake.h"

#include <catch2/catch.hpp>

#include "base/utf8.h"

namespace ordinatio::mojibake_test {

namespace {

/// The text as it looks when its UTF-8 is read as Latin-1, byte by byte.
std::string read_as_latin1(std::string_view text) {
  std::string misread;
  for (const char byte : text) append_utf8(misread, static_cast<unsigned char>(byte));
  return misread;
}

bool is_mojibake(std::string_view text) { return find_mojibake(*read_letters(text)).has_value(); }

}  // namespace

TEST_CASE("UTF-8 that was read as Windows-1252 or Latin-1 is recognised") {
  for (const char* text : {"AmÃ©lie",     "zvaigznÄ“",  "EglÄ—",         "eÌ‚",
                           "AndrÃ©",      "MÃ¼hle",     "Itâ€™s",        "â€œAdaâ€\u009D",
                           "5 â‚¬",       "Adaâ„¢",     "â™¥",           "Ã‰va",
                           "Ã…se",        "Â½",         "2Â°",           "MaÅ‚gorzata",
                           "Å½eljko",     "BucureÈ™ti", "Nguyá»…n",      "Lê Thá»‹",
                           "eÌ\u0081",    "ðŸ˜€",       "ï»¿Ada",        "Ð\u0090Ð½Ð½Ð°",
                           "ä½\u00A0å¥½", "ÎœÎ±ÏÎ¯Î±",  "×©×œ×•×\u009D", "Ã\u00A0la carte",
                           "â€” x",       "RENÃ‰E"}) {
    INFO(text);
    CHECK(is_mojibake(text));
  }
  for (const char* text : {"é", "Müller", "’", "Ж и", "Łódź", "山田", "שלום", "ơn", "ễ", "\U0001F600", "Ș"}) {
    INFO(text);
    CHECK(is_mojibake(read_as_latin1(text)));
  }
}

TEST_CASE("the letter that was meant is named") {
  const auto result = clean_inscription("Ada & AmÃ©lie");
  REQUIRE_FALSE(result.ok());
  CHECK(result.fault().what == "U+00C3 LATIN CAPITAL LETTER A WITH TILDE, U+00A9 COPYRIGHT SIGN");
  CHECK(result.fault().where == "line 1, character 9");
  CHECK(result.fault().why == "“Ã©” looks like “é” read in the wrong encoding");
  CHECK_FALSE(clean_inscription("Itâ€™s").ok());
  CHECK_FALSE(clean_inscription("Andr&Atilde;&copy;").ok());
  CHECK_FALSE(clean_inscription("Andr\u00C3\u200B\u00A9").ok());  // parted by an invisible space
  CHECK_FALSE(clean_inscription("AndrA\u0303\u00A9").ok());       // in decomposed letters
  CHECK_FALSE(clean_inscription("\u00C3\u0085se").ok());          // its second half is a line break to others
}

TEST_CASE("accented words beside closing punctuation, signs and blanks are not mistaken for it") {
  for (const char* text :
       {"“CAFÉ”",    "LUNEDÌ–VENERDÌ", "SÍ—no",     "COSÌ…poi", "CAFÉ™",    "IRMÃ…", "IRMû",  "«IRMû",
        "ANDRÉ’S",   "« Chez André »", "« voilà »", "fiancé…”", "„Ä“",      "Gruß…", "Spaß”", "groß²",
        "100 × 150", "PERÚ…",          "São João",  "Øster Å",  "Ångström", "pâ…",   "COSÌ”", "Düğün",
        "Ñandú",     "ÀÉÎÕÜ",          "ÃÃ",        "Äß",       "está»…",   "15 °C", "½ × ¾", "Crème brûlée — Noël"}) {
    INFO(text);
    CHECK_FALSE(is_mojibake(text));
  }
}

}  // namespace ordinatio::mojibake_test
