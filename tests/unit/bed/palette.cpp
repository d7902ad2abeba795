#include "bed/palette.h"

#include <catch2/catch.hpp>
#include <set>

namespace ordinatio::palette_test {

namespace {

constexpr Colour some_grey{0x99, 0x99, 0x99};

Indices indices_of(Colour engrave, Colour score, Colour cut, Colour mark) {
  return palette_of({engrave, score, cut, mark, some_grey}).indices;
}

}  // namespace

TEST_CASE(
    "the default palette's indices are those of its colours: green, yellow, magenta, cyan, and grey for the guide") {
  CHECK(palette_of(Palette{}.colours) == Palette{});
  CHECK(Palette{}.indices == Indices{3, 2, 6, 4, 8});
}

TEST_CASE("a hue is the angle of CIE L*a*b*, and a grey has none") {
  struct Case {
    Colour colour;
    std::optional<double> hue;
  };
  // From memory: the hues of sRGB's corners under D65, as tables give them to a tenth of a degree.
  for (const Case& c : {Case{{255, 0, 0}, 40.0},
                        {{255, 255, 0}, 102.9},
                        {{0, 255, 0}, 136.0},
                        {{0, 255, 255}, 196.4},
                        {{0, 0, 255}, 306.3},
                        {{255, 0, 255}, 328.2},
                        {{0, 0, 0}, {}},
                        {{255, 255, 255}, {}},
                        {{100, 120, 110}, {}}}) {
    INFO(int{c.colour.red} << " " << int{c.colour.green} << " " << int{c.colour.blue});
    REQUIRE(hue_of(c.colour).has_value() == c.hue.has_value());
    if (c.hue) CHECK(*hue_of(c.colour) == Approx(*c.hue).margin(0.06));
  }
}

TEST_CASE("operations of one hue have neighbouring hues, the nearest of them the plain one") {
  CHECK(indices_of({255, 0, 0}, {255, 20, 0}, {0, 255, 0}, {0, 0, 255}) == Indices{1, 20, 3, 5, 8});
  CHECK(indices_of({255, 20, 0}, {255, 0, 0}, {0, 255, 0}, {0, 0, 255}) == Indices{20, 1, 3, 5, 8});
  CHECK(indices_of({255, 0, 20}, {255, 0, 0}, {255, 20, 0}, {0, 0, 255}) == Indices{240, 1, 20, 5, 8});
}

TEST_CASE("colours without a hue, as older sheets may have them, get indices of their own all the same") {
  const Colours greys{Colour{0, 0, 0}, {34, 34, 34}, {68, 68, 68}, {255, 255, 255}, {255, 0, 255}};
  const Indices indices = palette_of(greys).indices;
  CHECK(std::set<int>(indices.begin(), indices.end()).size() == indices.size());
  for (std::size_t i = 0; i + 1 < indices.size(); ++i) CHECK(hue_of_index(indices[i]));
  CHECK(indices.back() == 8);
}

TEST_CASE("an index that the workshop chose stands, and no other is drawn like it") {
  const Palette palette = palette_of(Palette{}.colours, {std::nullopt, 50, std::nullopt, std::nullopt, 9});
  CHECK(palette.indices == Indices{3, 50, 6, 4, 9});  // 50 is drawn as 2
  const Colours reds{Colour{255, 0, 0}, {250, 0, 0}, {0, 255, 0}, {0, 0, 255}, some_grey};
  CHECK(palette_of(reds, {std::nullopt, 10, std::nullopt, std::nullopt, std::nullopt}).indices ==
        Indices{20, 10, 3, 5, 8});
  CHECK((drawn_alike(1, 10) && drawn_alike(210, 6) && !drawn_alike(20, 30) && !drawn_alike(11, 1)));
}

}  // namespace ordinatio::palette_test
