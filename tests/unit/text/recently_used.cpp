#include "text/recently_used.h"

#include <catch2/catch.hpp>
#include <string>

#include "text/text.h"

namespace ordinatio::recently_used_test {

TEST_CASE("what was used longest ago goes first") {
  RecentlyUsed<std::string, int> kept(3);
  for (const auto& [key, value] : {std::pair{"a", 1}, {"b", 2}, {"c", 3}}) kept.keep(key, value);
  REQUIRE(kept.find("a") != nullptr);  // used again
  kept.keep("d", 4);
  CHECK(kept.find("b") == nullptr);
  for (const auto& [key, value] : {std::pair{"a", 1}, {"c", 3}, {"d", 4}}) {
    INFO(key);
    REQUIRE(kept.find(key) != nullptr);
    CHECK(*kept.find(key) == value);
  }
}

TEST_CASE("entries go until the rest weighs no more than it may, and what was kept last stays whatever it weighs") {
  RecentlyUsed<int, int> kept(10);
  for (int i = 0; i < 5; ++i) kept.keep(i, i, 2);
  CHECK(kept.weight() == 10);
  kept.keep(5, 5, 5);  // three of two have to go
  CHECK(kept.weight() == 9);
  CHECK(kept.find(2) == nullptr);
  CHECK(kept.find(3) != nullptr);
  CHECK(kept.keep(6, 6, 100) == 6);
  CHECK(kept.weight() == 100);
  CHECK(kept.find(3) == nullptr);
  CHECK(*kept.find(6) == 6);
}

TEST_CASE("a joined word is welded alike, whatever has been let go of in the meantime") {
  const FontLibrary library{"none"};
  Typesetter typesetter{library};
  const auto ink_of = [&](const std::string& word) {
    const auto line = typesetter.shape(word, {{"script"}, "en", ""});
    REQUIRE(line.ok());
    Path ink;
    typesetter.append_ink(ink, *line, 20, {0, 0}, 0.01);
    return ink;
  };
  const Path before = ink_of("Millwheel");
  std::size_t points = 0;
  for (const char* head :
       {"Alder", "Bramble", "Copper", "Dapple", "Elder", "Fallow", "Gorse", "Hazel", "Linden", "Mallow", "Nettle"}) {
    for (const char* tail : {"bank",  "beck", "combe", "croft", "dale",   "field", "gate", "holm", "ley",  "mere",
                             "ridge", "shaw", "stead", "stow",  "thorpe", "ton",   "wade", "wick", "wood", "worth"}) {
      points += ink_of(std::string(head) + tail).points().size();
    }
  }
  CHECK(points > 1 << 18);  // more than is kept
  CHECK(ink_of("Millwheel") == before);
}

}  // namespace ordinatio::recently_used_test
