#include <catch2/catch.hpp>
#include <thread>

#include "cleaning/cleaning.h"
#include "text/text.h"

namespace ordinatio::characters_test {
using Parts = std::vector<std::string_view>;

TEST_CASE("a character is named as Unicode names it") {
  CHECK(character_name(U'A') == "U+0041 LATIN CAPITAL LETTER A");
  CHECK(character_name(0x1F600) == "U+1F600 GRINNING FACE");
  CHECK(character_name(0x738B) == "U+738B CJK UNIFIED IDEOGRAPH-738B");
  CHECK(character_name(0xAC00) == "U+AC00 HANGUL SYLLABLE GA");
  CHECK(character_name(0x10FFFD) == "U+10FFFD (private use)");
}

TEST_CASE("what has no name is said to have none") {
  CHECK(character_name(0) == "U+0000 NULL");
  CHECK(character_name(0x9F) == "U+009F APPLICATION PROGRAM COMMAND");
  CHECK(character_name(0xA0) == "U+00A0 NO-BREAK SPACE");
  CHECK(character_name(0x378) == "U+0378 (unassigned)");
  CHECK(character_name(0xD800) == "U+D800 (half of a UTF-16 pair)");
  CHECK(character_name(0x1FFFF) == "U+1FFFF (not a character)");
  CHECK(character_name(0x110000) == "U+110000 (not a character)");
  CHECK(character_name(0xFFFFFFFF) == "U+FFFFFFFF (not a character)");
}

TEST_CASE("text parts into what a reader counts as characters") {
  CHECK(graphemes_of("").empty());
  CHECK(graphemes_of("Bo") == Parts{"B", "o"});
  CHECK(graphemes_of("e\u0301a") == Parts{"e\u0301", "a"});
  CHECK(graphemes_of("a\r\nb") == Parts{"a", "\r\n", "b"});
  CHECK(graphemes_of("\u1100\u1161\u11A8\uAC00") == Parts{"\u1100\u1161\u11A8", "\uAC00"});
  CHECK(graphemes_of("\U0001F468\u200D\U0001F469\u200D\U0001F467x") ==
        Parts{"\U0001F468\u200D\U0001F469\u200D\U0001F467", "x"});
  CHECK(graphemes_of("\U0001F1EB\U0001F1F7\U0001F1E9\U0001F1EA") ==
        Parts{"\U0001F1EB\U0001F1F7", "\U0001F1E9\U0001F1EA"});
}

TEST_CASE("each thread parts text by itself") {
  constexpr int rounds = 20'000;  // enough that a shared iterator is seen to fail
  std::vector<int> wrong(4);
  std::vector<std::thread> threads;
  for (std::size_t mine = 0; mine < wrong.size(); ++mine)
    threads.emplace_back([mine, &wrong] {
      const std::string text = std::string(mine, 'x') + "e\u0301a";
      for (int i = 0; i < rounds; ++i) wrong[mine] += graphemes_of(text).size() == mine + 2 ? 0 : 1;
    });
  for (std::thread& thread : threads) thread.join();
  CHECK(wrong == std::vector<int>(4));
}

}  // namespace ordinatio::characters_test
