// Which characters the national sets hold, against Python's own codecs (Python 3.11 of Debian 12), which follow the
// mapping files of GB 2312-80, Big5, JIS X 0208 and KS X 1001.
#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <memory>

#include "base/utf8.h"
#include "cleaning/letters.h"
#include "text/language.h"

using namespace ordinatio;

TEST_CASE("an ideograph votes for the languages whose set Python's codecs find it in") {
  const std::string command = std::string(PYTHON) + " " + TEST_FOLDER + "/outside/han_sets.py";
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  REQUIRE(pipe);
  std::string held;  // a letter a character, from U+4E00: the sets that hold it, a bit each from 'A' on
  std::array<char, 4096> part{};
  while (const std::size_t count = std::fread(part.data(), 1, part.size(), pipe.get())) held.append(part.data(), count);
  REQUIRE(held.size() == 0x9FFF - 0x4E00 + 1);
  const std::vector<std::string> languages{"zh-Hans", "zh-Hant", "ja", "ko"};
  std::array<std::size_t, 4> counts{};
  for (char32_t c = 0x4E00; c <= 0x9FFF; ++c) {
    const unsigned bits = static_cast<unsigned>(held[c - 0x4E00] - 'A');
    std::vector<std::string> expected;
    for (std::size_t i = 0; i < languages.size(); ++i) {
      if ((bits >> i & 1) == 0) continue;
      expected.push_back(languages[i]);
      ++counts[i];
    }
    if (expected.empty()) expected = languages;  // none holds it: all are as likely
    std::string text;
    append_utf8(text, c);
    INFO(text);
    REQUIRE(vote_of({text}).languages == expected);
  }
  // As many as the standards have, less what Unicode has elsewhere: GB 2312 6,763, Big5 13,053 (two of them twice), JIS X
  // 0208 6,355, KS X 1001 4,888 (268 of them twice).
  CHECK(counts[0] == 6'763);
  CHECK(counts[1] == 13'051);
  CHECK(counts[2] == 6'355);
  CHECK(counts[3] == 4'620);
}
