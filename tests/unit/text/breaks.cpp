#include <catch2/catch.hpp>

#include "cleaning/cleaning.h"
#include "text/break_penalty.h"
#include "text/text.h"

namespace ordinatio::breaks_test {

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
  check({{"en", "In|25 loving|2 memory"}, {"ko", "김|2 하늘"}, {"he", "שלום|2 עולם"}, {"ar", "محمد|2 علي"}});
}

TEST_CASE("initials stay together, and are dear to part from the name before them") {
  check({
      {"en", "J. R. R.|15 Millerson"},
      {"en", "J.R.|15 Millerson"},
      {"en", "J R R|15 Millerson"},
      {"en", "Ada|15 M.|2 Miller"},
      {"en", "Ada|15 M. N.|2 Miller"},
      {"en", "For|25 Ada,|0 A.|15 Miller"},
      {"en", "for|25 A.|15 Miller"},
      {"ru", "А. С.|15 Мельников"},
      {"en", "Mum|2 I|2 love|2 you"},
  });
}

TEST_CASE("a unit stays with its number; Jr., III and a particle are dear to part from the name they belong to") {
  check({
      {"en", "Bo|2 Miller|15 Jr."},
      {"en", "Bo|2 Miller,|15 Jr."},
      {"en", "Bo|2 Miller|15 III"},
      {"es", "Sr.|15 Molino"},
      {"en", "Bo|2 Miller|15 Sr."},
      {"en", "length|2 12 mm"},
      {"de", "genau|2 3,5 kg"},
      {"en", "No. 5,|0 Mill|2 Road"},
      {"nl", "Bo|0 van|25 der|25 Molen"},
      {"es", "Ana|0 de|25 la|25 Cruz|2 Molino"},
      {"de", "Ada|0 von|25 Mühl"},
      {"fr", "moulin|0 de|25 pierre"},
      {"de", "Karl|0 zu|25 Mühl"},
      {"de", "alles|0 zur|25 Hochzeit"},
      {"ar", "Omar|2 bin|15 Zayd"},
  });
}

TEST_CASE("and, articles and prepositions head the next line, with their noun") {
  check({
      {"en", "Ada|0 &|25 Bo"},
      {"en", "Ada|0 and|25 Bo"},
      {"en", "ADA|0 AND|25 BO"},
      {"de", "Ada|0 und|25 Bo"},
      {"fr", "Ada|0 et|25 Bo"},
      {"es", "Ada|0 y|25 Bo"},
      {"sv", "Ada|0 och|25 Bo"},
      {"nl", "Ada|0 en|25 Bo"},
      {"fr", "Ada|0 en|25 mer"},
      {"ru", "Ада|0 и|25 Бо"},
      {"cs", "Ada|0 a|25 Bo"},
      {"en", "Once|0 a|25 mill"},
      {"", "Ada|0 und|25 Bo"},
      {"en", "Bo|0 the|25 Cat"},
      {"de", "Für|25 den|25 Müller"},
      {"en", "Dear|2 Ada,|0 with|25 love"},
      {"en", "One|6 -|0 two"},
  });
}

TEST_CASE("titles, dates and amounts are broken when much is gained") {
  check({
      {"en", "Dr.|15 Ada|2 Miller"},
      {"en", "Mr|15 &|25 Mrs|15 Miller"},
      {"en", "Miss|2 you"},
      {"en", "born|2 3|30 May|30 2024"},
      {"en", "May|30 3,|30 2024"},
      {"en", "3rd|30 of|30 May|30 2024"},
      {"de", "am|25 3.|30 März|30 2024"},
      {"es", "3|30 de|30 mayo|30 de|30 2024"},
      {"en", "1950|30 –|30 2020"},
      {"en", "May|2 we|2 meet"},
      {"de", "Zum|25 50.|4 Geburtstag"},
      {"de", "seit|25 25|30 Jahren"},
      {"fr", "Pour|25 les|25 80|30 ans"},
      {"en", "12|4 Weir|2 Lane"},
      {"en", "Fair|2 2026|2 Quernby"},
  });
}

TEST_CASE("a word is broken after its hyphen only, and that reads badly") {
  check({
      {"en", "Ada|2 Mill-|40-Smith"},
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
      {"en", "Ada\u00A0Miller|0 and|25 Bo"},
      {"en", "Ada\u202FMiller"},
      {"en", "Mill\u2011Smith"},
      {"en", "Ada\u2060Bo"},
      {"en", "Dr.\u00A0Ada|2 Miller"},
  });
  LineBreaker breaker;
  CHECK(breaker.places("Ada\u200BBo", "en") == std::vector<BreakPlace>{{3, 6, break_penalty::phrase_end}});
  CHECK(breaker.places("Ada \u00A0Bo", "en").empty());
  CHECK(breaker.places("Ada\u00A0 Bo", "en").empty());
}

TEST_CASE("a quotation keeps its marks where blanks stand inside them") {
  check({
      {"fr", "moulin|2 « Ada »|2 ici"},
      {"fr", "Vive|2 Ada !"},
      {"en", "Ada|2 (Bo)|2 Miller"},
  });
}

TEST_CASE("scripts without blanks are broken at their words") {
  check({
      {"th", "สวัสดี|8-ครับ"},
      {"en", "สวัสดี|8-ครับ"},
      {"ja", "山。川の水"},
      {"ja", "水車。|0-川の水"},
      {"ja", "20年"},
  });
  CHECK(broken("ຂອບໃຈຫຼາຍໆເດີ", "lo").find('|') != std::string::npos);
}

TEST_CASE("blanks alone and outer blanks are no places") {
  CHECK(broken("   ") == "   ");
  CHECK(broken(" Ada") == " Ada");
  CHECK(broken("Ada  ") == "Ada  ");
  CHECK(broken("Ada  Bo") == "Ada|2 Bo");
}

TEST_CASE("two lines are joined by a blank, but never where a blank would part a script that has none") {
  CHECK(may_join("Ada", "Miller"));
  CHECK_FALSE(may_join("", "Miller"));
  CHECK_FALSE(may_join("Ada", ""));
  CHECK_FALSE(may_join("Mill-", "Smith"));
  CHECK(may_join("Mum -", "Dad"));
  CHECK_FALSE(may_join("山", "川"));
  CHECK_FALSE(may_join("山、", "「川」"));
  CHECK_FALSE(may_join("みず", "カワ"));
  CHECK(may_join("山", "Ada"));
  CHECK_FALSE(may_join("สวัสดี", "ครับ"));
  CHECK_FALSE(may_join("ສະ", "ບາຍ"));
  CHECK_FALSE(may_join("ភាសា", "ខ្មែរ"));
  CHECK_FALSE(may_join("မြန်", "မာ"));
  CHECK(may_join("김", "하늘"));
  CHECK_FALSE(may_join("か\u3099", "き"));
}

TEST_CASE("a name in Han or kana is never broken, with or without blanks in it") {
  check({
      {"ja", "天野|2 久美子"},
      {"ja", "天野久美子"},
      {"ja", "長谷川美咲"},
      {"ja", "勅使河原良子"},
      {"ja", "佐々木さくら"},
      {"ja", "なかむらさくら"},
      {"ja", "コーヒー"},
      {"ja", "マリア・テレサ"},
      {"zh-Hans", "欧阳小明"},
      {"zh-Hant", "司馬光華"},
      {"", "天野久美子"},
  });
}

TEST_CASE("Han and kana are broken between the dictionary's words, behind a particle or a sign") {
  check({
      {"ja", "水車小屋へ|8-ようこそ"},
      {"ja", "森の中の|8-小さな|8-水車"},
      {"zh-Hans", "恭喜发财，|0-万事如意"},
      {"zh-Hans", "恭喜|8-发财|8-万事|8-如意|8-百年好合"},
      {"ja", "お誕生日おめでとう"},
      {"ja", "2024年|30-5月|30-3日"},
      {"ja", "水車——|0-川の水"},
  });
}

TEST_CASE("no character stands alone, in any script that is written without blanks") {
  LineBreaker breaker;
  const std::pair<const char*, const char*> texts[] = {{"ja", "父、母、子"},
                                                       {"ja", "私は水車が好きです"},
                                                       {"zh-Hans", "我爱你妈妈，你是我的太阳"},
                                                       {"th", "สุขสันต์วันเกิดคุณยาย"},
                                                       {"lo", "ຂອບໃຈຫຼາຍໆເດີ"},
                                                       {"km", "រីករាយថ្ងៃកំណើតលោកយាយ"},
                                                       {"ja", "本日はご結婚おめでとうございます"}};
  for (const auto& [language, text] : texts) {
    const std::string_view line = text;
    std::size_t from = 0;
    for (const BreakPlace& place : breaker.places(line, language)) {
      INFO(line << " at " << place.end);
      CHECK(graphemes_of(line.substr(from, place.end - from)).size() > 1);
      CHECK(graphemes_of(line.substr(place.begin)).size() > 1);
      from = place.begin;
    }
  }
}

TEST_CASE("a short word is no line by itself, unless it is a name, a number or somebody's last word") {
  for (const char* word : {"on", "of", "and", "the", "&", "up", "天"}) {
    INFO(word);
    CHECK(lone_penalty(word, "en") == break_penalty::hanging);
  }
  for (const char* word : {"Bo", "everything", "50", "on and", "天野", "", "김", "and,"}) {
    INFO(word);
    CHECK(lone_penalty(word, "en") == 0);
  }
  CHECK(lone_penalty("für", "de") == break_penalty::hanging);
  CHECK(lone_penalty("van", "nl") == break_penalty::hanging);
  CHECK(lone_penalty("на", "ru") == break_penalty::hanging);
}

TEST_CASE("small words are those of the language that is named, and of others where they cannot be mistaken") {
  check({
      {"cy", "Siân|0 a|25 Huw"},
      {"en", "Once|0 a|25 mill"},
      {"ga", "Fáilte|0 go|25 dtí|25 an|25 muileann"},
      {"en", "go|2 home"},
      {"hu", "A|25 világ|2 legjobb|2 apja"},
      {"el", "Ο|25 μύλος|0 του|25 παππού"},
      {"en", "μύλος|0 του|25 παππού"},
      {"tr", "Ayşe|0 ve|25 Can"},
      {"en", "Anna|0 und|25 Ben"},
      {"en", "wipe|2 your|6 feet"},
      {"he", "בית|0 של|25 אבא"},
      {"id", "Selamat|2 datang|0 di|25 desa"},
  });
}

}  // namespace ordinatio::breaks_test
