#include "text/language.h"

#include <catch2/catch.hpp>

#include "text/text.h"

namespace ordinatio::language_test {

namespace {

using Languages = std::vector<std::string>;
using Writing = LanguageVote::Writing;

LanguageVotes votes(const std::vector<std::string>& texts) {
  LanguageVotes votes;
  for (const std::string& text : texts) votes.add(vote_of({text}));
  return votes;
}

/// Of a text in an order in a file, each of these texts.
ToldLanguage told(const std::string& own, Languages order, const Languages& file, const char* shop = "en-GB") {
  order.push_back(own);
  LanguageVotes all = votes(file);
  for (const Writing writing : {Writing::east_asian, Writing::arabic}) all.add(votes(order).together(writing));
  return settled(vote_of({own}), votes(order), all, shop);
}

}  // namespace

TEST_CASE("letters vote for the languages whose national sets hold the most of them") {
  // Names of our own making; which set holds what is held against other software in tests/outside/han_sets.cpp.
  struct Case {
    const char* text;
    Languages languages;
    bool certain;
  };
  const Case cases[] = {
      {"山中 歩夢", {"ja"}, false},
      {"田中", {"zh-Hans", "zh-Hant", "ja", "ko"}, false},
      {"王晓明", {"zh-Hans"}, false},
      {"陳怡君", {"zh-Hant", "ja", "ko"}, false},
      {"黄志豪", {"zh-Hans", "ja"}, false},
      {"水車 みず", {"ja"}, true},
      {"水車 ミズ", {"ja"}, true},
      {"水車 물", {"ko"}, true},
      {"水車 ㄕㄨㄟ", {"zh-Hant"}, true},
      {"髙橋", {"zh-Hant", "ja", "ko"}, false},  // no set has the first
      {"Mill", {}, false},
      {"Müller", {}, false},
      {"عامر", {"ar", "fa", "ur"}, false},
      {"ٹیپو", {"ur"}, true},
      {"گلی", {"fa", "ur"}, false},
      {"خانه\u200Cی ما", {"fa"}, false},
      {"علي", {"ar"}, false},
  };
  for (const Case& c : cases) {
    INFO(c.text);
    CHECK(vote_of({c.text}).languages == c.languages);
    CHECK(vote_of({c.text}).certain == c.certain);
  }
}

TEST_CASE("a text's language is settled by its letters, its order, its file and the workshop, in this order") {
  CHECK(told("山中 歩夢", {}, {}).language == "ja");
  CHECK(told("山中 歩夢", {}, {}).possible.empty());
  // By its order: another name of it, or a note.
  CHECK(told("田中", {"山中 歩夢"}, {"王晓明", "王晓红"}).language == "ja");
  CHECK(told("田中", {"王晓明"}, {"山中 歩夢", "歩"}).language == "zh-Hans");
  CHECK(told("長瀨", {"よろしく"}, {}).language == "ja");
  CHECK(told("長瀨", {"よろしく"}, {}).possible.empty());
  CHECK(told("長瀨", {}, {}).language == "zh-Hant");
  // By the file, whose other orders speak one language more often.
  const ToldLanguage by_file = told("田中", {}, {"山中 歩夢", "歩", "王晓明"});
  CHECK(by_file.language == "ja");
  CHECK(by_file.possible == Languages{"zh-Hans", "zh-Hant", "ko"});
  CHECK_FALSE(by_file.guessed);
  CHECK(told("黄志豪", {}, {"陳怡君", "김서연"}).language == "ja");
  // By the workshop, where the file is of two minds.
  CHECK(told("田中", {}, {"歩", "王晓明"}, "ja").language == "ja");
  CHECK(told("田中", {}, {"歩", "王晓明"}, "zh-CN").language == "zh-Hans");
  CHECK_FALSE(told("田中", {}, {}, "ko").guessed);
  CHECK(told("田中", {}, {}, "ko-KR").language == "ko-KR");
  CHECK(told("陳怡君", {}, {}, "zh-HK").language == "zh-HK");
  CHECK(told("陳怡君", {}, {}, "zh-TW").language == "zh-Hant");
  CHECK(told("山中 歩夢", {}, {}, "zh-TW").language == "ja");  // the letters know better
  // By nothing.
  CHECK(told("田中", {}, {}).language == "zh-Hans");
  CHECK(told("田中", {}, {}).guessed);
  CHECK(told("Mill", {"よろしく"}, {}).language.empty());
  // An order of two minds is sure of neither: its votes count.
  CHECK(told("田中", {"みず", "김", "王晓明", "刘晓红"}, {}).language == "zh-Hans");
}

TEST_CASE("a file's Urdu is in one hand, and Arabic among it stays Arabic where it is the more") {
  const Languages urdu{"ٹیپو", "لڑکی", "بڑا"};
  CHECK(told("عامر", {}, urdu).language == "ur");
  CHECK(told("علي", {}, urdu).language == "ur");  // typed with Arabic letters
  CHECK(told("گلی", {}, urdu).language == "ur");
  CHECK(told("عامر", {"ٹیپو"}, {}).language == "ur");
  CHECK(told("عامر", {}, {"ٹیپو", "علي", "كريم", "فاطمة"}).language == "ar");
  CHECK(told("ٹیپو", {}, {"علي", "كريم", "فاطمة"}).language == "ur");
  CHECK(told("عامر", {}, {}).language == "ar");
  CHECK(told("عامر", {}, {}).possible == Languages{"fa"});  // no word of Urdu where nothing is
  CHECK(told("عامر", {}, {}, "ur").language == "ur");
  CHECK(told("گلی", {}, {}).language == "fa");
  CHECK(told("گلی", {}, {"علي", "كريم"}).language == "fa");
}

TEST_CASE(
    "a name that does not tell its hand is in the one that its order tells, then most of its file, then the workshop") {
  const std::string name = "عامر", urdu = "ٹیپو", persian = "خانه\u200Cی ما", arabic = "علي";
  // Its order: what was told beside it leaves nothing open.
  CHECK(told(name, {persian}, {urdu, urdu}).language == "fa");
  CHECK(told(name, {persian}, {urdu, urdu}).possible.empty());
  CHECK(told(name, {arabic, arabic, persian}, {urdu, urdu}).language == "ar");
  CHECK(told(name, {"گلی"}, {urdu}).language == "ur");  // what leaves it open tells nothing
  // Its file: one Urdu order among others does not take all with it.
  const ToldLanguage among = told(name, {}, {urdu, arabic, persian});
  CHECK(among.language == "ar");
  CHECK(among.possible == Languages{"fa", "ur"});
  CHECK_FALSE(among.guessed);
  CHECK(told(name, {}, {urdu, persian, persian}).language == "fa");
  CHECK(told("گلی", {}, {urdu, arabic, arabic}).language == "fa");
  CHECK(told(name, {}, {urdu, urdu, urdu, arabic, persian}).language == "ur");
  CHECK(told(name, {}, {urdu, urdu, urdu, arabic, persian}).possible == Languages{"ar", "fa"});
  CHECK(told(name, {}, {urdu, urdu, urdu, arabic, arabic, persian, persian}).language != "ur");  // Naskh is the more
  CHECK(told(name, {}, {urdu, name, name, name, name}).language == "ur");  // those do not tell, either
  // As many of both: the workshop's, else Naskh, which is told as a guess.
  CHECK(told(name, {}, {urdu, arabic}, "ur").language == "ur");
  CHECK_FALSE(told(name, {}, {urdu, arabic}, "ur").guessed);
  CHECK(told(name, {}, {urdu, arabic}, "fa").language == "fa");
  CHECK_FALSE(told(name, {}, {urdu, arabic}, "fa").guessed);
  CHECK(told(name, {}, {urdu, arabic}).language == "ar");
  CHECK(told(name, {}, {urdu, arabic}).guessed);
  CHECK(told("گلی", {}, {urdu, arabic}).language == "fa");
  CHECK(told("گلی", {}, {urdu, arabic}).guessed);
  CHECK(told(persian, {}, {urdu, urdu}).language == "fa");  // its letters tell
}

TEST_CASE("sheets from before there were votes have their language told as it was then") {
  struct Case {
    const char *text, *language;
  };
  for (const Case& c : {Case{"山中 歩夢", "zh-Hans"},
                        {"陳怡君", "zh-Hant"},
                        {"黄志豪", "zh-Hans"},
                        {"田中", "zh-Hans"},
                        {"みず", "ja"},
                        {"물", "ko"},
                        {"ٹیپو", "ur"},
                        {"گلی", "fa"},
                        {"عامر", "ar"},
                        {"Müller", ""}}) {
    INFO(c.text);
    CHECK(told_before_votes({c.text}) == c.language);
  }
}

TEST_CASE("votes count alike in any order, and every order once") {
  const Languages texts{"歩", "王晓明", "田中", "김", "陳怡君", "عامر", "ٹیپو"};
  Languages turned(texts.rbegin(), texts.rend());
  const Languages all{"zh-Hans", "zh-Hant", "ja", "ko"};
  CHECK(votes(texts).best_of(all) == votes(turned).best_of(all));
  CHECK(votes({}).best_of(all) == all);
  CHECK(votes({"歩"}).together(Writing::arabic).languages.empty());
  CHECK(told_language({"水", "みず"}) == "ja");
  CHECK(told_language({"Mill", "Müller"}).empty());
}

}  // namespace ordinatio::language_test
