#include "blanks/glass.h"

#include <catch2/catch.hpp>

#include "base/account.h"
#include "blanks/blanks.h"

namespace ordinatio::glass_test {
using Catch::Contains;

namespace {

const std::string neither = "tempered glass, or other safety glass, is neither cut nor engraved";
const std::string which = "it is not said what glass this is";
const std::string against = "what is said of the glass contradicts itself";

/// What the judge says of a row; empty: nothing.
std::string said_of(std::string_view material, std::string_view glass, std::string_view note) {
  const PieceCell cells[] = {{"id", "P-1"}, {"material", material}, {"glass", glass}, {"note", note}};
  const auto found = judge_glass(cells);
  return found ? found->fault.what : "";
}

Blanks pieces_of(std::string_view csv) {
  auto blanks = parse_blanks(csv, "blanks.csv", 150, 100, rectangle_outline(150, 100, Corner::cut, 8),
                             [](const std::string&) -> Result<Logo> { return Fault{}; });
  if (!blanks.ok()) FAIL(describe(blanks.fault()));
  return *blanks;
}

}  // namespace

TEST_CASE("a word of safety glass in any language of the table is found, however it is written") {
  for (const char* text :
       {"tempered", "TEMPERED", "Tempered.", "old tempered pane", "temperd", "tempred", "toughened", "toughend",
        "laminated", "laminted", "wired", "safety glass", "safety-glass", "safetyglass", "heat-strengthened",
        "bulletproof", "windscreen", "tem\u00ADpered", "ｔｅｍｐｅｒｅｄ",
        // German
        "gehärtet", "gehaertetes Glas", "vorgespanntes Glas", "ESG", "ESG-8", "VSG 8 mm", "Einscheibensicherheitsglas",
        "Verbundsicherheitsglas", "Sicherheitsgläser", "Drahtglas", "Drahtspiegelglas",
        // French
        "verre trempé", "TREMPÉ", "verre feuilleté", "verre armé", "verre de sécurité",
        // Spanish, Portuguese
        "vidrio templado", "cristal templada", "vidrio laminado", "vidrio armado", "vidro temperado",
        "vidro de segurança",
        // Italian
        "vetro temperato", "vetro stratificato", "vetro retinato", "vetro di sicurezza",
        // Dutch
        "gehard glas", "gelaagd glas", "veiligheidsglas", "draadglas", "voorgespannen",
        // Polish
        "szkło hartowane", "szkło bezpieczne", "szkło laminowane", "szkło zbrojone",
        // Czech, Swedish, Danish, Norwegian, Finnish
        "kalené sklo", "tvrzené", "bezpečnostní sklo", "härdat glas", "laminerat", "säkerhetsglas", "trådglas",
        "hærdet glas", "herdet glass", "sikkerhetsglass", "karkaistu lasi", "turvalasi",
        // Ukrainian, Russian
        "загартоване скло", "закалённое стекло", "армированное", "триплекс"}) {
    INFO(text);
    CHECK_FALSE(glass_words_in(text).safety.empty());
    CHECK(said_of("", "", text) == neither);
  }
}

TEST_CASE("words that are near to these and mean something else are passed over") {
  for (const char* text :
       {"blue slate", "temperature 20", "stratification", "laminations", "Kalender", "temporary mark",
        "roughened edges", "gardened", "a lamina", "esker", "wire brush marks", "the safe side", "unhardy", "Gesims",
        "tempo", "old stamp", "spoilt", "invented; corners cut far in"}) {
    INFO(text);
    CHECK(glass_words_in(text).safety.empty());
    CHECK(said_of("", "", text).empty());
  }
}

TEST_CASE("each cell is heard, and what contradicts another holds the row") {
  struct Case {
    const char *material, *glass, *note;
    std::string what;
  };
  const Case cases[] = {
      {"slate", "", "", ""},
      {"glass", "annealed", "", ""},
      {"glass", "Annealed", "from the barn", ""},
      {"annealed glass", "", "", ""},
      {"glass", "", "", which},
      {"Fensterglas", "", "", which},
      {"verre", "", "", which},
      {"szkło", "", "", which},
      {"old mirror", "", "", which},
      {"tempered glass", "", "", neither},
      {"glass", "tempered", "", neither},
      {"glass", "laminated", "", neither},
      {"glass", "ESG", "", neither},
      {"", "toughened", "", neither},
      {"glass", "annealed?", "", "the glass \"annealed?\" is not known"},
      {"glass", "float", "", "the glass \"float\" is not known"},
      {"tempered glass", "annealed", "", against},
      {"glass", "annealed", "tempered", against},
      {"glass", "annealed", "perhaps toughened", against},
      {"glass", "annealed", "not sure if tempered", against},
      {"glass", "annealed", "not tempered", ""},
      {"glass", "annealed", "not tempered?", against},
      {"Glas", "annealed", "nicht gehärtet", ""},
      {"glass", "annealed", "isn't tempered", ""},
      {"glass", "annealed", "untempered", ""},
      {"glass", "annealed", "non-tempered", ""},
      {"glass", "", "not tempered", which},
      {"", "", "not tempered", which},
      {"laminated oak", "", "", neither},  // "none" lets it go
      {"laminated oak", "none", "", ""},
      {"hardened steel", "none", "", ""},
      {"laminated glass", "none", "", against},
      {"glass", "none", "", against},
      {"fibreglass", "none", "", ""},
      {"oak", "none", "safety glass", against},
      {"slate", "", "stood behind glass", ""},
      {"Douglas fir", "", "", ""},
      {"vitreous enamel", "", "", ""},
      {"lustrous brass", "", "", ""},
  };
  for (const Case& c : cases) {
    INFO(c.material << " | " << c.glass << " | " << c.note);
    CHECK(said_of(c.material, c.glass, c.note) == c.what);
  }
}

TEST_CASE("a measured piece is held by a word in any of its cells, those of unknown columns and their headers too") {
  const Blanks blanks = pieces_of(
      "id,Material,Glass,keep_clear,used,kind,Tempered,note\n"
      "A,slate,,,,,,\n"
      "B,tempered glass,,,,,,\n"
      "C,glass,tempered,,,,,\n"
      "D,slate,,toughened corner 10 10 5 5,,,,\n"
      "E,slate,,,,laminated,,\n"
      "F,slate,,,,,yes,\n"
      "G,slate,,,,,no,\n"
      "H,slate,,,spoilt: tempered,,,\n"
      "I,glass,,,,,,\n"
      "J,glass,annealed,,,,,not tempered\n"
      "ESG-1,,,,,,,\n"
      "K,slate,,,,,,toughened,too many\n");
  std::vector<std::string> free, held;
  for (const BlankRow& row : blanks.rows) free.push_back(row.blank.id);
  for (const HeldItem& item : blanks.not_engraved) held.push_back(item.id);
  CHECK(free == std::vector<std::string>{"A", "G", "J"});
  CHECK(held == std::vector<std::string>{"B", "C", "D", "E", "F", "H", "I", "ESG-1", "K"});
  CHECK(blanks.held.size() == blanks.not_engraved.size());
  CHECK(blanks.held[0].fault.where == "blanks.csv:3:3, column \"Material\"");
  CHECK_THAT(describe(blanks.held[0].fault),
             Contains("\"tempered\" is said of it") && Contains("licensed to work glass"));
  CHECK(blanks.held[6].fault.where == "blanks.csv:10:9, column \"Glass\"");
  CHECK_THAT(describe(blanks.held[6].fault), Contains("Is it annealed or tempered? Fill in glass"));
  CHECK(blanks.rows[2].glass == "annealed");
}

TEST_CASE("no message says of glass that it is safe") {
  for (const char* text : {"tempered", "glass"}) {
    const PieceCell cells[] = {{"material", text}};
    CHECK(describe(judge_glass(cells)->fault).find(" safe ") == std::string::npos);
  }
}

}  // namespace ordinatio::glass_test
