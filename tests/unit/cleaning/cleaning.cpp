#include "cleaning/cleaning.h"
#include "cleaning/two_ways.h"

#include <catch2/catch.hpp>
#include <random>

#include "text/text.h"

namespace ordinatio::cleaning_test {

namespace {

using Weight = CleaningNote::Weight;

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i) text += (i > 0 ? "\n" : "") + lines[i];
  return text;
}

/// The cleaned lines, or "held: what, where".
std::string cleaned(std::string_view text, const CleaningRules& rules = {}) {
  const auto result = clean_inscription(text, rules);
  return result.ok() ? joined(result->lines) : "held: " + result.fault().what + ", " + result.fault().where;
}

/// "note 1:4 a tab became a space", one a line.
std::string notes(const Inscription& inscription) {
  constexpr const char* words[] = {"silent", "note", "warning"};
  std::string text;
  for (const CleaningNote& note : inscription.notes)
    text += (text.empty() ? "" : "\n") + std::string(words[static_cast<int>(note.weight)]) + " " +
            std::to_string(note.line) + ":" + std::to_string(note.column) + " " + note.rule;
  return text;
}

std::string notes(std::string_view text, const CleaningRules& rules = {}) {
  const auto result = clean_inscription(text, rules);
  return result.ok() ? notes(*result) : "held";
}

struct Change {
  std::string original, cleaned, notes;
};

void check(const std::vector<Change>& changes, const CleaningRules& rules = {}) {
  for (const Change& change : changes) {
    INFO(change.original);
    CHECK(cleaned(change.original, rules) == change.cleaned);
    CHECK(notes(change.original, rules) == change.notes);
    if (const auto result = clean_inscription(change.original, rules); result.ok())
      CHECK(result->original == change.original);
  }
}

struct Held {
  std::string original, what, where, why;
};

void check(const std::vector<Held>& texts) {
  for (const Held& held : texts) {
    INFO(held.original);
    const auto result = clean_inscription(held.original);
    REQUIRE_FALSE(result.ok());
    CHECK(result.fault().what == held.what);
    CHECK(result.fault().where == held.where);
    CHECK(result.fault().why.find(held.why) != std::string::npos);
    CHECK_FALSE(result.fault().mend.empty());
  }
}

void check_untouched(const std::vector<std::string>& texts) {
  for (const std::string& text : texts) {
    INFO(text);
    CHECK(cleaned(text) == text);
    CHECK(notes(text).empty());
  }
}

}  // namespace

TEST_CASE("line ends, outer blanks, a leading byte order mark and NFC are put right silently") {
  const std::string nfc = "written in Unicode's composed form (NFC)", blanks = "spaces at the line's end left out";
  check(std::vector<Change>{
      {"Ada\r\nBo", "Ada\nBo", "silent 1:4 U+000D CARRIAGE RETURN began a new line"},
      {"Ada\rBo", "Ada\nBo", "silent 1:4 U+000D CARRIAGE RETURN began a new line"},
      {"Ada\u2028Bo", "Ada\nBo", "silent 1:4 U+2028 LINE SEPARATOR began a new line"},
      {"Ada\u2029Bo", "Ada\nBo", "silent 1:4 U+2029 PARAGRAPH SEPARATOR began a new line"},
      {"Ada\u0085Bo", "Ada\nBo", "silent 1:4 U+0085 NEXT LINE began a new line"},
      {" Ada\n Bo\t ", "Ada\nBo", "silent 1:1 " + blanks + "\nsilent 2:1 " + blanks + "\nsilent 2:4 " + blanks},
      {"\u00A0Ada\u3000", "Ada", "silent 1:1 " + blanks + "\nsilent 1:5 " + blanks},
      {"\uFEFFAda", "Ada", "silent 1:1 byte order mark at the start left out"},
      {"Ame\u0301lie", "Am\u00E9lie", "silent 1:3 " + nfc},
      {"5 k\u212B", "5 k\u00C5", "silent 1:4 " + nfc},
  });
}

TEST_CASE("empty lines go at the ends, and inside leave one behind") {
  const std::string outer = "an empty line at the text's end left out", inner = "a second empty line in a row left out";
  check(std::vector<Change>{
      {"\n\nAda\n", "Ada", "silent 1:1 " + outer + "\nsilent 2:1 " + outer + "\nsilent 4:1 " + outer},
      {"Ada\n\nBo", "Ada\n\nBo", ""},
      {"Ada\n\n\n\nBo", "Ada\n\nBo", "note 3:1 " + inner + "\nnote 4:1 " + inner},
      {"Ada\n \nBo", "Ada\n\nBo", "silent 2:1 spaces at the line's end left out"},
      {"Ada\n\u200E\nBo", "Ada\n\nBo", "note 2:1 a line that shows nothing was emptied"},
  });
}

TEST_CASE("tabs, odd and repeated spaces become one space, with one note a run") {
  check(std::vector<Change>{
      {"Ada\tBo", "Ada Bo", "note 1:4 a tab became a space"},
      {"Ada   Bo  Cy", "Ada Bo Cy", "note 1:4 3 spaces in a row became one\nnote 1:9 2 spaces in a row became one"},
      {"Ada \u00A0\tBo", "Ada Bo", "note 1:4 3 spaces in a row became one"},
      {"Ada\u2009Bo", "Ada Bo", "note 1:4 U+2009 THIN SPACE became a space"},
      {"Ada\u2007Bo", "Ada Bo", "note 1:4 U+2007 FIGURE SPACE became a space"},
      {"Ada\u205FBo", "Ada Bo", "note 1:4 U+205F MEDIUM MATHEMATICAL SPACE became a space"},
      {"山\u3000川", "山 川", "note 1:2 U+3000 IDEOGRAPHIC SPACE became a space"},
  });
  // U+0020 and U+00A0 carry marks that stand alone; a tab does not.
  CHECK(cleaned("a  \u0301b") == "a  \u0301b");
  CHECK(cleaned("\u00A0\u0301b") == "\u00A0\u0301b");
  CHECK(cleaned("a\t\u0301b") == "a \u0301b");
  for (char32_t space = 0x2000; space <= 0x200A; ++space) {
    const std::string bytes = {'\xE2', '\x80', static_cast<char>(0x80 + (space & 0x3F))};
    CHECK(cleaned("Ada" + bytes + "Bo") == "Ada Bo");
    CHECK(notes("Ada" + bytes + "Bo").find("became a space") != std::string::npos);
  }
}

TEST_CASE("a space that glues two words stays, unless it is an export's only kind") {
  check_untouched({"Ada\u00A0Bo", "Joyeux No\u00EBl\u202F!", "3\u202Fkg", "Dr.\u00A0Ada Miller\nDr.\u00A0Bo",
                   "Ada\u00A0M\nBo\u00A0M", "a\u00A0b\u00A0c\u00A0d e"});
  const std::string glue = "a non-breaking space became a space";
  check(std::vector<Change>{
      {"Ada\u00A0M\u00A0Bo\u00A0C", "Ada M Bo C", "note 1:4 " + glue + "\nnote 1:6 " + glue + "\nnote 1:9 " + glue},
      {"Ada\u00A0M\nBo\u202FM\nCy\u00A0M", "Ada M\nBo M\nCy M",
       "note 1:4 " + glue + "\nnote 2:3 U+202F NARROW NO-BREAK SPACE became a space\nnote 3:3 " + glue},
      // Blanks at an end count neither way: cleaning twice is cleaning once.
      {"a\u00A0b\u00A0c\u00A0d ", "a b c d",
       "note 1:2 " + glue + "\nnote 1:4 " + glue + "\nnote 1:6 " + glue +
           "\nsilent 1:8 spaces at the line's end left out"},
      {"Ada\u00A0", "Ada", "silent 1:4 spaces at the line's end left out"},
      {"Ada\u00A0\u00A0Bo", "Ada Bo", "note 1:4 2 spaces in a row became one"},
      {"Ada\u00A0\tBo", "Ada Bo", "note 1:4 2 spaces in a row became one"},
      {"Ada\u00A0\u200E\u00A0Bo", "Ada \u200EBo",
       "note 1:4 " + glue + "\nnote 1:6 a second space, behind an invisible mark, left out"},
      {"Ada\u00A0\u200EBo", "Ada \u200EBo", "note 1:4 " + glue},
      {"Ada\u200E\u00A0Bo", "Ada\u200E Bo", "note 1:5 " + glue},
  });
  CHECK(notes("SEE\u00A0NOTE").find("looks like a remark") != std::string::npos);
  CHECK(notes("ADA\u00A0MILLER").find("all capitals") != std::string::npos);
}

TEST_CASE("invisible characters that mean nothing are left out with a note") {
  check(std::vector<Change>{
      {"Mühl\u00ADrad", "Mühlrad", "note 1:5 soft hyphen left out"},
      {"Ada\u2060Bo", "AdaBo", "note 1:4 word joiner left out"},
      {"Ada\uFEFFBo", "AdaBo", "note 1:4 byte order mark left out"},
      {"Ada\u200DBo", "AdaBo", "note 1:3 zero width joiner that joins nothing left out"},
      {"Ada\u200CBo", "AdaBo", "note 1:3 zero width non-joiner that parts nothing left out"},
      {"f\u2063x", "fx", "note 1:2 invisible sign of mathematics left out"},
      {"\u2665\uFE0E Bo", "\u2665 Bo", "note 1:1 request for text instead of an emoji (U+FE0E) left out"},
      {"Ada\uFE0F", "Ada", "note 1:3 request for an emoji (U+FE0F) after what is none left out"},
      {"A\U000E0101", "A", "note 1:1 variation selector that selects nothing left out"},
      {"a\u180Bb", "ab", "note 1:1 Mongolian selector after what is not Mongolian left out"},
      {"a\u034Fb", "ab", "note 1:1 combining grapheme joiner between no marks left out"},
      // A word joiner between letter and accent kept them apart.
      {"e\u2060\u0301", "\u00E9", "silent 1:1 written in Unicode's composed form (NFC)\nnote 1:2 word joiner left out"},
      {"a \u200B b", "a b", "note 1:2 2 spaces in a row became one\nnote 1:3 zero width space left out"},
  });
  for (const char* sign : {"\u2061", "\u2062", "\u2063", "\u2064"})
    CHECK(cleaned("f" + std::string(sign) + "x") == "fx");
}

TEST_CASE("spaces around a mark of direction are one, and at the line's ends none") {
  const std::string second = " a second space, behind an invisible mark, left out";
  const std::string outer = "spaces at the line's end left out";
  check(std::vector<Change>{
      {"a \u200E b", "a \u200Eb", "note 1:4" + second},
      {"a \u200F  b", "a \u200Fb", "note 1:4" + second},
      {"a \u200E \u200F b", "a \u200E\u200Fb", "note 1:4" + second + "\nnote 1:6" + second},
      {"a \u2066 b\u2069 \u200E c", "a \u2066b\u2069 \u200Ec", "note 1:4" + second + "\nnote 1:9" + second},
      {"a  \u200Eb", "a \u200Eb", "note 1:2 2 spaces in a row became one"},
      {"\u200E a", "\u200Ea", "silent 1:2 " + outer},
      {"a \u200F", "a\u200F", "silent 1:2 " + outer},
      {" \u200E a \u200F ", "\u200Ea\u200F",
       "silent 1:1 " + outer + "\nsilent 1:3 " + outer + "\nsilent 1:5 " + outer + "\nsilent 1:7 " + outer},
  });
  check_untouched({"a \u200Eb", "a\u200E b", "\u200Ea b\u200F"});
}

TEST_CASE("a zero width space is a space where words tell, and held where they do not") {
  const std::string became = "a zero width space became a space", out = "zero width space left out";
  check(std::vector<Change>{
      {"Ada\u200BBo", "Ada Bo", "note 1:4 " + became},
      {"Зоя\u200BЛев", "Зоя Лев", "note 1:4 " + became},
      {"Ada,\u200Bbo", "Ada, bo", "note 1:5 " + became},
      {"Ada\u200B\u200BBo", "Ada Bo", "note 1:4 " + out + "\nnote 1:5 " + became},
      {"Ada \u200BBo", "Ada Bo", "note 1:5 " + out},
      {"\u200BAda\u200B", "Ada", "note 1:1 " + out + "\nnote 1:5 " + out},
      {"Ada\u200B&\u200BBo", "Ada&Bo", "note 1:4 " + out + "\nnote 1:6 " + out},
      {"e\u200B\u0301", "\u00E9", "silent 1:1 written in Unicode's composed form (NFC)\nnote 1:2 " + out},
  });
  const std::string what = "U+200B ZERO WIDTH SPACE", why = "nobody can tell whether these are two words or one";
  check(std::vector<Held>{
      {"mill\u200Bwheel", what, "line 1, character 5", why},
      {"Ada\nMILL\u200BWHEEL", what, "line 2, character 5", why},
      {"1874\u200B1924", what, "line 1, character 5", why},
      {"טחנה\u200Bטחנה", what, "line 1, character 5", why},
      {"물레\u200B방아", what, "line 1, character 3", why},
  });
  // Between letters that are written without spaces it says where a line may end.
  check_untouched({"กังหัน\u200Bน้ำ", "កង្ហារ\u200Bទឹក", "ရေ\u200Bစက်", "水車\u200B小屋"});
  CHECK(cleaned("Ada\u200Bน้ำ") == "Ada\u200Bน้ำ");
  check(std::vector<Change>{
      {"น้ำ\u200B\u200Bน้ำ", "น้ำ\u200Bน้ำ", "note 1:2 " + out},
      {"น้ำ\u200B น้ำ\u200B", "น้ำ น้ำ", "note 1:2 " + out + "\nnote 1:5 " + out},
  });
}

TEST_CASE("joiners stay where they change how letters look") {
  check_untouched({
      "\u0639\u0644\u06CC\u200C\u0631\u0636\u0627",               // Persian Ali-Reza: the yeh ends its stroke
      "\u0645\u06CC\u200C\u0631\u0648\u0645",                     // Persian mi-ravam
      "\u0628\u064E\u200C\u0628",                                 // over a vowel mark
      "\u0661\u0664\u0660\u0662 \u0647\u200D",                    // Persian heh kept in its joined form for a year
      "\u0915\u094D\u200D\u0937",                                 // Devanagari half KA before SSA
      "\u0915\u094D\u200C\u0937",                                 // Devanagari KA with a visible virama
      "\u0995\u09CD\u200D\u09B7",                                 // Bengali half KA
      "\u09B0\u200D\u09CD\u09AF\u09BE\u099A\u09C7\u09B2",         // Bengali Rachel: RA with ya-phalaa
      "\u0D9A\u0DCA\u200D\u0DBB",                                 // Sinhala rakaransaya
      "\u0D28\u0D4D\u200D",                                       // Malayalam chillu, spelt the old way
      "\u845B\U000E0100\u57CE",                                   // Han with an ideographic variant
      "\u200E(\u05D3\u05E0\u05D4)\u200F\u061C",                   // direction marks
      "\u2067\u05D3\u05E0\u05D4\u2069 & Ben", "\u202BBen\u202C",  // isolates and embeddings that end
  });
}

TEST_CASE("joiners that change nothing in a joining script are left out") {
  const std::string parts_nothing = "zero width non-joiner that parts nothing left out";
  check(std::vector<Change>{
      // Reh never joins to what follows, so there is nothing to part.
      {"\u0631\u200C\u0636", "\u0631\u0636", "note 1:1 " + parts_nothing},
      {"\u0639\u0644\u06CC\u200C", "\u0639\u0644\u06CC", "note 1:3 " + parts_nothing},
      {"\u0915\u200D\u0937", "\u0915\u0937", "note 1:1 zero width joiner that joins nothing left out"},
  });
}

TEST_CASE("names of many scripts, fractions, quotes and typos pass untouched") {
  check_untouched({
      "Anna & Bo",
      "“Anna” & ‘Bo’ 'n' \"Cy\"",
      "Teh best Dad evr!!",
      "damn good",
      "\u00BD cup \u2122 \u00A9 \u00AE",
      "№ 5 · 10 m² — 3 × 4",
      "Nguyễn Thị Ngọc Hậu",
      "தமிழ்ச்செல்வி",
      "พิมพ์ชนก",
      "김서연",
      "שָׁלוֹם",
      "אֵלִיָּהוּ",
      "محمّد",
      "ناستعلیق",
      "क्षितिज",
      "সৃষ্টি",
      "Ελένη",
      "Օրինակ",
      "თამარ",
      "さくらさん",
      "髙橋",
      "ヴァイオリン",
      "Tシャツ",
      "李小龍",
      "Łukasz",
      "Ağaç",
      "\u1EA0\u0307",
      "\u2665 \u263A \u271D \u260E",
      "#1 Dad",
      "3*4",
      "7",
      "\u1680\u1681",
      "✓ done",
      "O\u2019Neil-Smythe",
  });
}

TEST_CASE("Hangul letters and Hebrew points come out in NFC") {
  CHECK(cleaned("\u1112\u1161\u11AB\u1100\u1173\u11AF") == "\uD55C\uAE00");
  CHECK(cleaned("\u05E9\u05B8\u05C1") == "\u05E9\u05B8\u05C1");
  CHECK(cleaned("\uFB2A") == "\u05E9\u05C1");   // a composition exclusion: NFC takes it apart
  CHECK(cleaned("e\u0302\u0323") == "\u1EC7");  // ệ, marks in the other order
}

TEST_CASE("NFC is never NFKC") {
  for (const char* text : {"\u00BD", "\u2122", "\u00B2", "\uFF21", "\u2460", "\u3392"}) CHECK(cleaned(text) == text);
}

TEST_CASE("words of mixed scripts, capitals, replaced ideographs and labels draw a warning") {
  const std::string scripts = " has letters of more than one script, which may only look alike";
  const std::string remark = " looks like a remark, not like words to engrave";
  check(std::vector<Change>{
      {"for P\u0430ul", "for P\u0430ul", "warning 1:5 “P\u0430ul”" + scripts},
      {"\u039Fle", "\u039Fle", "warning 1:1 “\u039Fle”" + scripts},
      {"\u041B\u044E\u0431\u0430 & Ada", "\u041B\u044E\u0431\u0430 & Ada", ""},
      {"\u041B\u044E\u0431\u0430-Ada", "\u041B\u044E\u0431\u0430-Ada", ""},
      {"\u5C71\u0430", "\u5C71\u0430", "warning 1:1 “\u5C71\u0430”" + scripts},
      {"TO MY MUM", "TO MY MUM", "warning 1:1 all capitals: engraved as typed"},
      {"\n  MUM\nDAD", "MUM\nDAD",
       "silent 1:1 an empty line at the text's end left out\nsilent 2:1 spaces at the line's end left out\n"
       "warning 2:3 all capitals: engraved as typed"},
      {"\u0394\u0399\u0391 \u0396\u03A9\u0397\u03A3", "\u0394\u0399\u0391 \u0396\u03A9\u0397\u03A3",
       "warning 1:1 all capitals: engraved as typed"},
      {"MARGARET", "MARGARET", ""},
      {"A B & C D", "A B & C D", ""},
      {"FOR MY Mum", "FOR MY Mum", ""},
      {"\uF9D1", "\u516D",
       "warning 1:1 U+F9D1 CJK COMPATIBILITY IDEOGRAPH-F9D1 became the ordinary ideograph, which may look different\n"
       "silent 1:1 written in Unicode's composed form (NFC)"},
      {"\uFA0E", "\uFA0E", ""},  // one of twelve that stand among the compatibility ideographs and are none
      {"a \u0301b", "a \u0301b", "warning 1:2 U+0301 COMBINING ACUTE ACCENT has no letter to stand on"},
  });
  for (const char* label :
       {"none",   "None.",  "N/A", "n/a", "n.a.", "See note", "(see notes)", "as above", "As Above!",   "-", "--",
        "\u2014", "\u2026", "?",   "tbc", "TBC",  "tba",      "ditto",       "null",     "no engraving"}) {
    INFO(label);
    CHECK(notes(label).find(remark) != std::string::npos);
    CHECK(cleaned(label) == label);
  }
  for (const char* name :
       {"Nona", "- Mum -", "None but you", "noné", "As above, so below", "1 None", "none\nof us", "\u2665"})
    CHECK(notes(name).empty());
}

TEST_CASE("emoji hold, each sequence as one character") {
  const std::string why = "is an emoji";
  check(std::vector<Held>{
      {"Ada \U0001F600", "U+1F600 GRINNING FACE", "line 1, character 5", "“\U0001F600” " + why},
      {"\u00E9\nAda \u2764\uFE0F", "U+2764 HEAVY BLACK HEART, U+FE0F VARIATION SELECTOR-16", "line 2, character 5",
       why},
      {"1\uFE0F\u20E3", "U+0031 DIGIT ONE, U+FE0F VARIATION SELECTOR-16, U+20E3 COMBINING ENCLOSING KEYCAP",
       "line 1, character 1", "“1\uFE0F\u20E3” " + why},
      {"#\u20E3", "U+0023 NUMBER SIGN, U+20E3 COMBINING ENCLOSING KEYCAP", "line 1, character 1", why},
      {"\U0001F1EB\U0001F1F7!",
       "U+1F1EB REGIONAL INDICATOR SYMBOL LETTER F, U+1F1F7 REGIONAL INDICATOR SYMBOL LETTER R", "line 1, character 1",
       "“\U0001F1EB\U0001F1F7” " + why},
      {"ab\U0001F3F4\U000E0067\U000E0062\U000E0073\U000E0063\U000E0074\U000E007F",
       "U+1F3F4 WAVING BLACK FLAG, U+E0067 TAG LATIN SMALL LETTER G, U+E0062 TAG LATIN SMALL LETTER B, "
       "U+E0073 TAG LATIN SMALL LETTER S and 3 more",
       "line 1, character 3", why},
      {"\U0001F468\u200D\U0001F469\u200D\U0001F467x",
       "U+1F468 MAN, U+200D ZERO WIDTH JOINER, U+1F469 WOMAN, U+200D ZERO WIDTH JOINER and 1 more",
       "line 1, character 1", "“\U0001F468\u200D\U0001F469\u200D\U0001F467” " + why},
      {"\u261D\U0001F3FD", "U+261D WHITE UP POINTING INDEX, U+1F3FD EMOJI MODIFIER FITZPATRICK TYPE-4",
       "line 1, character 1", why},
      {"\u00A9\uFE0F", "U+00A9 COPYRIGHT SIGN, U+FE0F VARIATION SELECTOR-16", "line 1, character 1", why},
      {"\u231A\uFE0E", "U+231A WATCH, U+FE0E VARIATION SELECTOR-15", "line 1, character 1", why},
      {"\u2764\u200D\U0001F525", "U+2764 HEAVY BLACK HEART, U+200D ZERO WIDTH JOINER, U+1F525 FIRE",
       "line 1, character 1", why},
      // What is left out between them does not hide a keycap.
      {"1\u200B\u20E3", "U+0031 DIGIT ONE, U+20E3 COMBINING ENCLOSING KEYCAP", "line 1, character 1", why},
  });
}

TEST_CASE("bidi overrides and directions that do not end hold") {
  check(std::vector<Held>{
      {"Ada \u202EoB\u202C", "U+202E RIGHT-TO-LEFT OVERRIDE", "line 1, character 5", "turns the direction"},
      {"\u202DAda\u202C", "U+202D LEFT-TO-RIGHT OVERRIDE", "line 1, character 1", "turns the direction"},
      {"\u202BAda", "U+202B RIGHT-TO-LEFT EMBEDDING", "line 1, character 1", "does not end in this line"},
      {"\u2067Ada\nBo\u2069", "U+2067 RIGHT-TO-LEFT ISOLATE", "line 1, character 1", "does not end in this line"},
      {"Ada\u202C", "U+202C POP DIRECTIONAL FORMATTING", "line 1, character 4", "not begun in this line"},
      {"\u2066\u202AAda\u2069\u202C", "U+2069 POP DIRECTIONAL ISOLATE", "line 1, character 6",
       "not begun in this line"},
  });
}

TEST_CASE("tags, private use, unassigned and other characters without a letter hold") {
  check(std::vector<Held>{
      {"Ada\U000E0041", "U+E0041 TAG LATIN CAPITAL LETTER A", "line 1, character 3", "invisible tag"},
      {"\uE000", "U+E000 (private use)", "line 1, character 1", "one font only"},
      {"\U00100000", "U+100000 (private use)", "line 1, character 1", "one font only"},
      {"\u0378", "U+0378 (unassigned)", "line 1, character 1", "no such character"},
      {"\uFFFE", "U+FFFE (not a character)", "line 1, character 1", "never a letter"},
      {"\uFDD0", "U+FDD0 (not a character)", "line 1, character 1", "never a letter"},
      {"Ada\u3164", "U+3164 HANGUL FILLER", "line 1, character 4", "fills an empty field"},
      {"\uFFFC", "U+FFFC OBJECT REPLACEMENT CHARACTER", "line 1, character 1", "picture"},
      {"\uFFF9a", "U+FFF9 INTERLINEAR ANNOTATION ANCHOR", "line 1, character 1", "note between the lines"},
      {"\u206A", "U+206A INHIBIT SYMMETRIC SWAPPING", "line 1, character 1", "withdrawn"},
  });
}

TEST_CASE("controls, lost letters and broken encodings refuse the text") {
  const std::string cut = "cut in two", not_utf8 = "not UTF-8", control = "a control character";
  check(std::vector<Held>{
      {std::string("A\0b", 3), "U+0000 NULL", "line 1, character 2", control},
      {"Ada\nB\x07", "U+0007 ALERT", "line 2, character 2", control},
      {"Ada\x1B[0m", "U+001B ESCAPE", "line 1, character 4", control},
      {"Ada\x0B", "U+000B LINE TABULATION", "line 1, character 4", control},
      {"Ada\x7F", "U+007F DELETE", "line 1, character 4", control},
      {"Ada\u0090", "U+0090 DEVICE CONTROL STRING", "line 1, character 4", control},
      {"Am\uFFFDlie", "U+FFFD REPLACEMENT CHARACTER", "line 1, character 3", "a letter was lost"},
      {"\u00E9t\xE9", "byte E9", "line 1, character 3 (byte 4)", not_utf8},
      {"Ada\nBo\x80", "byte 80", "line 2, character 3 (byte 7)", not_utf8},
      {"\xC0\xAF", "byte C0", "line 1, character 1 (byte 1)", not_utf8},
      {"\xF4\x90\x80\x80", "byte F4", "line 1, character 1 (byte 1)", not_utf8},
      {"\xE2\x82", "byte E2", "line 1, character 1 (byte 1)", not_utf8},
      {"Bo \xED\xA0\xBD!", "U+D83D (half of a UTF-16 pair)", "line 1, character 4 (byte 4)", cut},
      {"\xED\xBF\xBF", "U+DFFF (half of a UTF-16 pair)", "line 1, character 1 (byte 1)", cut},
  });
}

TEST_CASE("a text that shows nothing is a fault") {
  for (const char* text :
       {"", " ", "\n\n", "\t \r\n\u00A0", "\u200B", "\u200E\u200F", "\u2066\u2069", "\uFEFF", "&nbsp;"}) {
    INFO(text);
    CHECK(cleaned(text) == "held: the text is empty, ");
  }
}

TEST_CASE("a separator parts lines, its spaces standing for spaces of any kind") {
  const auto part = [](std::string_view text, const char* separator) { return cleaned(text, {separator, true}); };
  CHECK(part("Ada / Bo / Cy", " / ") == "Ada\nBo\nCy");
  CHECK(part("Ada  /\u00A0\tBo", " / ") == "Ada\nBo");
  CHECK(part("Ada/Bo", " / ") == "Ada/Bo");
  CHECK(part("Ada|Bo||Cy", "|") == "Ada\nBo\n\nCy");
  CHECK(part("Ada\\nBo", "\\n") == "Ada\nBo");
  CHECK(part("Ada<br>Bo", "<br>") == "Ada\nBo");
  CHECK(part("Ada&lt;br&gt;Bo", "<br>") == "Ada\nBo");
  CHECK(part("Ada Bo   Cy", "   ") == "Ada Bo\nCy");
  CHECK(part("Ada Bo", " / ") == "Ada Bo");
  CHECK(part("Ada\nBo", "|") == "Ada\nBo");
  CHECK(part("Mühle | Rad", "|") == "Mühle\nRad");
  CHECK(part("Ada / / Bo", " /") == "Ada\n\nBo");
  CHECK(part("Ada " + std::string(7'900, ' ') + "Bo", " / ") == "Ada Bo");  // in linear time
  CHECK(part("Ada · Bo", " · ") == "Ada\nBo");
  CHECK(notes("Ada / B\u2009o", {" / ", true}) ==
        "silent 1:4 “ / ” began a new line\nnote 1:8 U+2009 THIN SPACE became a space");
  CHECK(notes("Ada / Bo", {" / ", true}) == "silent 1:4 “ / ” began a new line");
  CHECK(part("Ada|\x01", "|") == "held: U+0001 START OF HEADING, line 1, character 5");
}

TEST_CASE("a tangle of marks and joiners that never settles is held") {
  std::string tangle = "\u0915\u0301";
  for (int i = 0; i < 20; ++i) tangle += "\u094D\u200D";
  CHECK(cleaned(tangle) == "held: marks and invisible joiners in a tangle, line 1, character 1");
}

TEST_CASE("places count what a reader counts") {
  CHECK(notes("e\u0301\U0001F1E6\u0301x") == "held");
  CHECK(notes("ക്ഷ\u2009ശ") ==
        "note 1:" + std::to_string(graphemes_of("ക്ഷ").size() + 1) + " U+2009 THIN SPACE became a space");
  CHECK(notes("A\r\nB\r\n\u1100\u1161\u11A8\tC").find("note 3:2 a tab became a space") != std::string::npos);
}

TEST_CASE("the short way for plain text and the long way agree") {
  const unsigned seed = 20261125;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const std::string_view likely = "AbC xyz   \n.&-/;#123none";
  const CleaningRules rules[] = {{}, {" / ", true}, {"  ", true}, {"", false}};
  std::size_t plain = 0;
  for (int i = 0; i < 20'000; ++i) {
    std::string text(random() % 24, ' ');
    for (char& c : text)
      c = i % 2 == 0 ? likely[random() % likely.size()]
                     : static_cast<char>(random() % 10 == 0 ? '\n' : ' ' + random() % 95);
    const CleaningRules& rule = rules[static_cast<std::size_t>(i) % std::size(rules)];
    const auto short_way = clean_plain(text, rule);
    if (!short_way) continue;
    ++plain;
    const auto long_way = clean_fully(text, rule);
    INFO(text);
    REQUIRE(long_way.ok());
    REQUIRE(short_way->original == long_way->original);
    REQUIRE(short_way->lines == long_way->lines);
    REQUIRE(notes(*short_way) == notes(*long_way));
  }
  CHECK(plain > 2'000);
}

TEST_CASE("names in plain ASCII take the short way") {
  for (const char* text : {"Ada Miller", "For Bo\nwith love, 2026", "TO MY MUM", "none", "O'Neil-Smythe (Jr.)"})
    CHECK(clean_plain(text, {}).has_value());
  CHECK(clean_plain("Ada Miller", {" / ", true}).has_value());
  CHECK(clean_plain("Ada & Bo", {"", false}).has_value());
  for (const char* text :
       {"", " Ada", "Ada ", "Ada  Bo", "Ada\n", "\nAda", "Ada \nBo", "Ada\n Bo", "A & B", "é", "a\tb"})
    CHECK_FALSE(clean_plain(text, {}).has_value());
}

}  // namespace ordinatio::cleaning_test
