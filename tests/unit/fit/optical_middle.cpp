// Even lines and the optical middle: src/fit/block.cpp.
#include <catch2/catch.hpp>
#include <random>

#include "fit/fit.h"

namespace ordinatio::optical_middle_test {

namespace {

struct Desk {
  FontLibrary library{"none"};
  Typesetter typesetter{library};
  FaceHeights metrics = *typesetter.metrics({{"serif"}, "", ""});

  BlockLine line(const std::string& text, double size = 1, std::size_t role = 0, const std::string& language = "") {
    const std::string told = language.empty() ? told_language({text}) : language;
    auto shaped = typesetter.shape(text, {{"serif"}, "en", told});
    REQUIRE(shaped.ok());
    return {std::move(*shaped), size, metrics.cap_height, metrics.x_height, role};
  }
  Block set(const std::vector<std::string>& texts, const BlockStyle& style = {}, const std::string& language = "") {
    std::vector<BlockLine> lines;
    for (const std::string& text : texts) lines.push_back(line(text, 1, 0, language));
    return build_block(typesetter, std::move(lines), style);
  }
  double middle(const std::string& text, const std::string& language = "") {
    return set({text}, {}, language).anchor.y;
  }
  /// How far a block's middle is moved by one letter more, in heights of capitals.
  double moved(const std::string& text, const std::string& more, const std::string& language = "") {
    return std::abs(middle(text + more, language) - middle(text, language)) / metrics.cap_height;
  }
};

double distance(const Block& block, std::size_t i) { return block.origins[i - 1].y - block.origins[i].y; }

Bounds ink_of(const Block& block, std::size_t i) {
  const Bounds& ink = block.lines[i].shaped.ink;
  const double size = block.lines[i].size;
  return Bounds{size * ink.left, size * ink.bottom, size * ink.right, size * ink.top}.shifted(block.origins[i]);
}

const std::vector<std::string> many_words{"Ursula",   "gypsy", "ÅÊŇÖ", "Ếm Ả",        "1874",  "Μυλωνάς",
                                          "Мельница", "שלום",  "سلمى", "ہمارے گھر",   "यूँ कुटुंब", "ที่นี่ญู",
                                          "བཀྲ་ཤིས",    "水車",  "하늘", "Jasper Quay", "",      "xaem"};

std::vector<BlockLine> random_lines(Desk& desk, std::mt19937& random) {
  const std::size_t roles = 1 + random() % 3;
  std::vector<double> sizes;
  for (std::size_t role = 0; role < roles; ++role) sizes.push_back(0.4 + 0.2 * static_cast<double>(random() % 4));
  std::vector<BlockLine> lines;
  for (std::size_t count = 2 + random() % 5; lines.size() < count;) {
    const std::size_t role = random() % roles;
    lines.push_back(desk.line(many_words[random() % many_words.size()], sizes[role], role));
  }
  return lines;
}

LineMeasure random_measure(std::mt19937& random) {
  const auto share = [&random] { return static_cast<double>(random() % 1000) / 1000; };
  LineMeasure line{
      {0, -0.3 * share(), 1 + 5 * share(), 0.5 + 0.6 * share()}, 0, 2, 0.4 + 0.3 * share(), -0.2 * share(), 1};
  line.centre = 0.5 * share(), line.ink_area = 0.1 + share();
  return line;
}

LineMeasure turned(const LineMeasure& line) {
  LineMeasure other = line;
  other.ink = {-line.ink.right, -line.ink.top, -line.ink.left, -line.ink.bottom};
  other.left = -line.right, other.right = -line.left;
  other.optical_top = -line.optical_bottom, other.optical_bottom = -line.optical_top;
  other.centre = -line.centre;
  return other;
}

}  // namespace

TEST_CASE("baselines of lines of one role and size stand equally apart, and ink keeps its gap, in any script") {
  const unsigned seed = 1898;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  Desk desk;
  std::size_t stretched = 0;
  for (int round = 0; round < 300; ++round) {
    BlockStyle style;
    style.leading = 0.6 + 0.2 * static_cast<double>(random() % 5);
    if (random() % 2 == 0) style.cap_leading = {1.6, 1.45};
    const Block block = build_block(desk.typesetter, random_lines(desk, random), style);
    for (std::size_t i = 1; i < block.lines.size(); ++i) {
      for (std::size_t j = i + 1; j < block.lines.size(); ++j) {
        const bool alike =
            block.lines[i - 1].role == block.lines[j - 1].role && block.lines[i].role == block.lines[j].role;
        if (alike) REQUIRE(distance(block, i) == Approx(distance(block, j)).epsilon(1e-12));
      }
      for (std::size_t j = 0; j < i; ++j) {
        if (block.lines[i].shaped.ink.empty() || block.lines[j].shaped.ink.empty()) continue;
        const double gap = ink_of(block, j).bottom - ink_of(block, i).top;
        const double least = style.least_gap * (block.lines[i].size + block.lines[j].size) / 2;
        REQUIRE(gap >= least - 1e-12);
        stretched += gap < least + 1e-12 ? 1 : 0;
      }
    }
  }
  CHECK(stretched > 100);  // lines that nothing pushes apart would prove little
}

TEST_CASE("lines stand no further apart than their leading or their ink asks") {
  Desk desk;
  BlockStyle style;
  const Block plain = desk.set({"one", "two", "one"}, style);
  CHECK(distance(plain, 1) == Approx(style.leading));
  const Block tall = desk.set({"one", "two", "Ếm"}, style);
  CHECK(ink_of(tall, 1).bottom - ink_of(tall, 2).top >= style.least_gap);
  style.leading = 0.8;
  const Block tight = desk.set({"gypsy", "ÅÊŇÖ", "xaem"}, style);
  CHECK(ink_of(tight, 0).bottom - ink_of(tight, 1).top == Approx(style.least_gap).margin(1e-12));
  CHECK(distance(tight, 2) == Approx(distance(tight, 1)).epsilon(1e-12));
}

TEST_CASE("a pair of lines that needs more room moves lines of other roles by nothing") {
  Desk desk;
  BlockStyle style;
  style.leading = 0.9;
  const auto blocks = [&](const std::string& date) {
    return build_block(desk.typesetter,
                       {desk.line("one", 1, 0), desk.line("two", 1, 0), desk.line("xaem", 1, 1), desk.line(date, 1, 1)},
                       style);
  };
  const Block usual = blocks("xaem"), pushed = blocks("Ếm");
  CHECK(distance(pushed, 3) > distance(usual, 3) + 0.1);
  CHECK(distance(pushed, 1) == distance(usual, 1));
  CHECK(distance(pushed, 2) == distance(usual, 2));
}

TEST_CASE("an empty line is as high as the lines beside it") {
  Desk desk;
  BlockStyle style;
  style.leading = 0.8;
  const Block block = desk.set({"gypsy", "ÅÊŇÖ", "", "xaem"}, style);
  CHECK(distance(block, 1) > 1);
  CHECK(distance(block, 2) == Approx(distance(block, 1)).epsilon(1e-12));
  CHECK(distance(block, 3) == Approx(distance(block, 1)).epsilon(1e-12));
}

TEST_CASE("leading follows the capitals where a design says so: one for mixed case, one for capitals") {
  Desk desk;
  const double cap = desk.metrics.cap_height;
  BlockStyle style;
  style.cap_leading = {1.6, 1.45};
  CHECK(distance(desk.set({"one", "Two"}, style), 1) == Approx(1.6 * cap));
  CHECK(distance(desk.set({"ONE", "TWO"}, style), 1) == Approx(1.45 * cap));
  // One small letter anywhere in the role makes all of it mixed; a role beside it stays what it is.
  CHECK(distance(desk.set({"ONE", "TWO", "three"}, style), 1) == Approx(1.6 * cap));
  const Block roles =
      build_block(desk.typesetter, {desk.line("ONE", 1, 1), desk.line("TWO", 1, 1), desk.line("one")}, style);
  CHECK(distance(roles, 1) == Approx(1.45 * cap));
  // Scripts without capitals keep the em.
  CHECK(distance(desk.set({"שרה", "שרה"}, style), 1) == Approx(style.leading));
  CHECK(distance(desk.set({"ONE", "שרה", "TWO"}, style), 1) == Approx(style.leading));
  style.cap_leading = {};
  CHECK(distance(desk.set({"ONE", "TWO"}, style), 1) == Approx(style.leading));
}

TEST_CASE("Nastaliq has a least leading of its own, Naskh has not") {
  Desk desk;
  const BlockStyle style;
  CHECK(distance(desk.set({"دادا", "دادا"}, style, "ur"), 1) >= climbing_leading);
  CHECK(distance(desk.set({"دادا", "دادا"}, style, "ar"), 1) == Approx(style.leading));
  BlockStyle wide;
  wide.leading = 3;
  CHECK(distance(desk.set({"دادا", "دادا"}, wide, "ur"), 1) == Approx(3));
}

TEST_CASE("capitals and lining figures stand in the middle of their band, whatever stands above or below it") {
  Desk desk;
  const double half = desk.metrics.cap_height / 2;
  for (const char* line : {"MILL", "ÉPÉE", "ẾM Ả", "QUERNBY", "ΜΥΛΟΣ"}) {
    CAPTURE(line);
    CHECK(desk.middle(line) == Approx(half).margin(0.005));
  }
  CHECK(desk.middle("MILL") == Approx(half).margin(1e-12));
  // Lines of the same letters, as wide as one another, are in the middle of them all.
  const Block lines = desk.set({"MILL", "MILL"});
  CHECK(lines.anchor.y == Approx((desk.metrics.cap_height + lines.origins[1].y) / 2).margin(1e-12));
}

TEST_CASE("small letters have their middle below the capitals', and descenders draw it further down") {
  Desk desk;
  CHECK(desk.middle("Anna") < desk.middle("ANNA") - 0.03);
  CHECK(desk.middle("Gypsy") < desk.middle("Anna") - 0.03);
  CHECK(desk.middle("xaem") < desk.middle("bold"));
  // Not further than to the x-height's own middle, and never as far as the box of the ink would.
  const Block gypsy = desk.set({"Gypsy"});
  CHECK(gypsy.anchor.y > 0.15);
}

TEST_CASE("one letter more moves the middle of a line by a tenth of its capitals at the most") {
  Desk desk;
  for (const char* line : {"Anna", "Annay", "summer sun", "bold hill", "Мельница", "Μυλω", "Jasper", "QUERNB"}) {
    for (const char* more : {"y", "p", "d", "Q", "E", "É", "."}) {
      CAPTURE(line, more);
      CHECK(desk.moved(line, more) <= 0.10);
    }
  }
}

TEST_CASE("one tall stroke moves a line without capitals by half as much as its ink's box at the most") {
  Desk desk;
  struct Stroke {
    const char *line, *more, *language;
  };
  for (const auto& [line, more, language] :
       {Stroke{"שרה", "ל", "he"}, Stroke{"בית", "ל", "he"}, Stroke{"ברק", "ל", "he"}, Stroke{"سر", "ل", "ar"},
        Stroke{"نمر", "ک", "ur"}, Stroke{"دور دور", "گ", "ur"}, Stroke{"มานา", "ป", "th"}, Stroke{"गगन", "ी", "hi"}}) {
    CAPTURE(line, more);
    const Block before = desk.set({line}, {}, language), after = desk.set({std::string(line) + more}, {}, language);
    const double box = std::abs(after.ink.centre().y - before.ink.centre().y);
    REQUIRE(box > 0.02);
    CHECK(std::abs(after.anchor.y - before.anchor.y) <= box / 2);
  }
}

TEST_CASE("a block turned upside down has its middle turned with it") {
  std::mt19937 random(180);
  for (int round = 0; round < 200; ++round) {
    std::vector<LineMeasure> lines, upside_down;
    for (std::size_t count = 1 + random() % 4; lines.size() < count;) lines.push_back(random_measure(random));
    for (auto line = lines.rbegin(); line != lines.rend(); ++line) upside_down.push_back(turned(*line));
    BlockStyle style;
    style.leading = random() % 2 == 0 ? 0.5 : 1.25;
    const Arrangement upright = arrange(lines, style), other = arrange(upside_down, style);
    const double foot = upright.origins.back().y;  // which is the first baseline of the other
    REQUIRE(other.anchor.y == Approx(foot - upright.anchor.y).margin(1e-9));
    REQUIRE(other.ink.top == Approx(foot - upright.ink.bottom).margin(1e-9));
  }
}

TEST_CASE("a block of larger lines is the same block, larger") {
  std::mt19937 random(4);
  for (int round = 0; round < 200; ++round) {
    std::vector<LineMeasure> lines, larger;
    for (std::size_t count = 1 + random() % 4; lines.size() < count;) lines.push_back(random_measure(random));
    larger = lines;
    for (LineMeasure& line : larger) line.size *= 3;
    const Arrangement one = arrange(lines, {}), three = arrange(larger, {});
    REQUIRE(three.anchor.y == Approx(3 * one.anchor.y).margin(1e-9));
    REQUIRE(three.origins.back().y == Approx(3 * one.origins.back().y).margin(1e-9));
  }
}

TEST_CASE("a longer line draws the middle towards it, and not as far as the centre of the ink") {
  std::mt19937 random(8);
  LineMeasure line = random_measure(random), longer = line;
  longer.ink_area *= 4;
  const double even = arrange(std::vector{line, line}, {}).anchor.y,
               first = arrange(std::vector{longer, line}, {}).anchor.y,
               last = arrange(std::vector{line, longer}, {}).anchor.y;
  CHECK(first > even + 0.05);
  CHECK(last < even - 0.05);
  CHECK(first < line.centre);
}

TEST_CASE("the optical middle leaves the ink's only as far as the gaps above and below stay even") {
  std::mt19937 random(13);
  const auto share = [&random] { return static_cast<double>(random() % 1000) / 1000; };
  std::size_t limited = 0;
  for (int round = 0; round < 500; ++round) {
    const Bounds ink{0, -share(), 3, 0.2 + share()};
    const double low = 10 * share(), high = low + 20 + 60 * share(), size = 1 + 60 * share();
    Wish wish{{1.5, ink.centre().y + 0.5 * (share() - 0.5)}, {50, (low + high) / 2}};
    const Wish even = within_even_gaps(wish, ink, size, low, high);
    const double shift = wish.target.y - size * even.anchor.y;
    const double above = high - (shift + size * ink.top), below = shift + size * ink.bottom - low;
    if (above + below <= 0) {
      CHECK(even.anchor.y == Approx(ink.centre().y).margin(1e-9));  // nothing is left to share out
      continue;
    }
    REQUIRE(std::max(above, below) <= uneven_gaps * std::min(above, below) * (1 + 1e-9) + 1e-9);
    if (even.anchor.y != wish.anchor.y) {
      ++limited;
      REQUIRE(std::max(above, below) == Approx(uneven_gaps * std::min(above, below)).margin(1e-9));
    }
  }
  CHECK(limited > 50);
  CHECK(limited < 450);
}

}  // namespace ordinatio::optical_middle_test
