#include <catch2/catch.hpp>

#include "text/text.h"

using namespace ordinatio;

namespace {

/// The line with its places shown: "Ada |1 Miller"; the number is the penalty.
std::string broken(std::string_view line, std::string_view language = "en") {
  LineBreaker breaker;
  std::string shown;
  std::size_t from = 0;
  for (const BreakPlace& place : breaker.places(line, language)) {
    shown += std::string(line.substr(from, place.end - from)) + "|" + std::to_string(place.penalty) + " ";
    from = place.begin;
  }
  return shown + std::string(line.substr(from));
}

struct Case {
  std::string language, broken;
};

/// Each case names its places; the line is what is left without them ("|7 " stands for one blank, "|7-" for none).
void check(const std::vector<Case>& cases) {
  for (const Case& one : cases) {
    std::string line, expected;
    for (std::size_t i = 0; i < one.broken.size();) {
      if (one.broken[i] != '|') {
        line += one.broken[i];
        expected += one.broken[i++];
        continue;
      }
      for (expected += one.broken[i++]; std::isdigit(static_cast<unsigned char>(one.broken[i])) != 0;)
        expected += one.broken[i++];
      if (one.broken[i++] == ' ') line += ' ';
      expected += ' ';
    }
    INFO(one.language << ": " << line);
    CHECK(broken(line, one.language) == expected);
  }
}

}  // namespace

TEST_CASE("a line may be broken at the blanks between words, and the blank belongs to neither line") {
  LineBreaker breaker;
  CHECK(breaker.places("Ada Miller", "en") == std::vector<BreakPlace>{{3, 4, break_penalty::word_gap}});
  CHECK(breaker.places("Zo\u00EB Miller", "en") == std::vector<BreakPlace>{{4, 5, break_penalty::word_gap}});
  CHECK(breaker.places("Ada", "en").empty());
  CHECK(breaker.places("", "en").empty());
  check({{"en", "In|10 loving|1 memory"}, {"ko", "김|1 하늘"}, {"he", "שלום|1 עולם"}, {"ar", "محمد|1 علي"}});
}

TEST_CASE("initials stay together and with the name before them") {
  check({
      {"en", "J. R. R.|30 Millerson"},
      {"en", "J.R.|30 Millerson"},
      {"en", "J R R|30 Millerson"},
      {"en", "Ada M.|2 Miller"},
      {"en", "Ada M. N.|2 Miller"},
      {"en", "For|10 Ada,|0 A.|30 Miller"},
      {"en", "for|10 A.|30 Miller"},
      {"ru", "А. С.|30 Мельников"},
      {"en", "Mum|1 I|1 love|1 you"},
  });
}

TEST_CASE("Jr., III, a unit and a surname stay with what they belong to") {
  check({
      {"en", "Bo|1 Miller Jr."},
      {"en", "Bo|1 Miller, Jr."},
      {"en", "Bo|1 Miller III"},
      {"es", "Sr.|30 Molino"},
      {"en", "Bo|1 Miller Sr."},
      {"en", "length|1 12 mm"},
      {"de", "genau|1 3,5 kg"},
      {"en", "No. 5,|0 Mill|1 Road"},
      {"nl", "Bo|1 van der Molen"},
      {"es", "Ana|1 de la Cruz|1 Molino"},
      {"de", "Ada|1 von Mühl"},
      {"fr", "moulin|1 de|10 pierre"},
      {"de", "Karl|1 zu Mühl"},
      {"de", "alles|1 zur|10 Hochzeit"},
      {"ar", "Omar|1 bin Zayd"},
  });
}

TEST_CASE("and heads the next line, articles and prepositions stay with their noun") {
  check({
      {"en", "Ada|0 &|15 Bo"},
      {"en", "Ada|0 and|15 Bo"},
      {"en", "ADA|0 AND|15 BO"},
      {"de", "Ada|0 und|15 Bo"},
      {"fr", "Ada|0 et|15 Bo"},
      {"es", "Ada|0 y|15 Bo"},
      {"sv", "Ada|0 och|15 Bo"},
      {"nl", "Ada|0 en|15 Bo"},
      {"fr", "Ada|1 en|10 mer"},
      {"ru", "Ада|0 и|15 Бо"},
      {"cs", "Ada|0 a|15 Bo"},
      {"en", "Once|1 a|10 mill"},
      {"", "Ada|0 und|15 Bo"},
      {"en", "Bo|1 the|10 Cat"},
      {"de", "Für|10 den|10 Müller"},
      {"en", "Dear|1 Ada,|0 with|10 love"},
      {"en", "One|5 -|0 two"},
  });
}

TEST_CASE("titles and dates are broken when nothing else is left") {
  check({
      {"en", "Dr.|30 Ada|1 Miller"},
      {"en", "Mr|30 &|15 Mrs|30 Miller"},
      {"en", "Miss|1 you"},
      {"en", "born|1 3|20 May|20 2024"},
      {"en", "May|20 3,|20 2024"},
      {"en", "3rd|20 of|20 May|20 2024"},
      {"de", "am|10 3.|20 März|20 2024"},
      {"es", "3|20 de|20 mayo|20 de|20 2024"},
      {"en", "1950|20 –|20 2020"},
      {"en", "May|1 we|1 meet"},
  });
}

TEST_CASE("a word is broken after its hyphen only, and that reads badly") {
  check({
      {"en", "Ada|1 Mill-|40-Smith"},
      {"en", "either/|40-or"},
      {"en", "-Ada"},
      {"en", "555-1234"},
      {"en", "yes!no"},
      {"en", "stay—|0-away"},
      {"en", "O’Neill"},
      {"ko", "김하늘"},
  });
}

TEST_CASE("non-breaking characters keep a line whole, a zero width space opens it") {
  check({
      {"en", "Ada\u00A0Miller|0 and|15 Bo"},
      {"en", "Ada\u202FMiller"},
      {"en", "Mill\u2011Smith"},
      {"en", "Ada\u2060Bo"},
      {"en", "Dr.\u00A0Ada|1 Miller"},
  });
  LineBreaker breaker;
  CHECK(breaker.places("Ada\u200BBo", "en") == std::vector<BreakPlace>{{3, 6, break_penalty::phrase_end}});
  CHECK(breaker.places("Ada \u00A0Bo", "en").empty());
  CHECK(breaker.places("Ada\u00A0 Bo", "en").empty());
}

TEST_CASE("a quotation keeps its marks where blanks stand inside them") {
  check({
      {"fr", "moulin|1 « Ada »|1 ici"},
      {"fr", "Vive|1 Ada !"},
      {"en", "Ada|1 (Bo)|1 Miller"},
  });
}

TEST_CASE("scripts without blanks are broken at their words or between ideographs") {
  check({
      {"th", "สวัสดี|1-ครับ"},
      {"en", "สวัสดี|1-ครับ"},
      {"ja", "山|4-川"},
      {"ja", "山。|0-川"},
      {"ja", "山——|0-川"},
      {"ja", "20|20-年"},
  });
  CHECK(broken("ຂອບໃຈຫຼາຍໆເດີ", "lo").find('|') != std::string::npos);
}

TEST_CASE("blanks alone and outer blanks are no places") {
  CHECK(broken("   ") == "   ");
  CHECK(broken(" Ada") == " Ada");
  CHECK(broken("Ada  ") == "Ada  ");
  CHECK(broken("Ada  Bo") == "Ada|1 Bo");
}

TEST_CASE("two lines are joined by a blank, or by nothing between scripts that have none") {
  CHECK(joint_between("Ada", "Miller") == Joint::spaced);
  CHECK(joint_between("", "Miller") == Joint::never);
  CHECK(joint_between("Ada", "") == Joint::never);
  CHECK(joint_between("Mill-", "Smith") == Joint::never);
  CHECK(joint_between("Mum -", "Dad") == Joint::spaced);
  CHECK(joint_between("山", "川") == Joint::closed);
  CHECK(joint_between("山、", "「川」") == Joint::closed);
  CHECK(joint_between("みず", "カワ") == Joint::closed);
  CHECK(joint_between("山", "Ada") == Joint::spaced);
  CHECK(joint_between("สวัสดี", "ครับ") == Joint::closed);
  CHECK(joint_between("ສະ", "ບາຍ") == Joint::closed);
  CHECK(joint_between("ភាសា", "ខ្មែរ") == Joint::closed);
  CHECK(joint_between("မြန်", "မာ") == Joint::closed);
  CHECK(joint_between("김", "하늘") == Joint::spaced);
  CHECK(joint_between("か\u3099", "き") == Joint::closed);
}
