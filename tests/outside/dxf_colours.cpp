// The hues of the DXF's colour index as a reader of others draws them.
// Source: ezdxf 0.18 (Debian: python3-ezdxf), ezdxf.colors.aci2rgb.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "bed/palette.h"
#include "composed_sheet.h"

using namespace ordinatio;
using namespace outside;

namespace {

std::vector<Colour> colours_by_ezdxf() {
  std::vector<Colour> colours{{}};  // there is no index 0
  for (const auto& rgb : nlohmann::json::parse(output_of(PYTHON " " TEST_FOLDER "/outside/dxf_colours.py"))) {
    colours.push_back({rgb.at(0), rgb.at(1), rgb.at(2)});
  }
  return colours;
}

}  // namespace

TEST_CASE(
    "each full index of the DXF has the hue that ezdxf draws it in, others are darker or paler, and greys are grey") {
  const std::vector<Colour> drawn = colours_by_ezdxf();
  REQUIRE(drawn.size() == 256);
  for (int index = 1; index <= 255; ++index) {
    const Colour colour = drawn[static_cast<std::size_t>(index)];
    INFO(index << ": " << int{colour.red} << " " << int{colour.green} << " " << int{colour.blue});
    const auto hue = hue_of_index(index);
    CHECK(hue.has_value() == (index <= 6 || (index >= 10 && index < 250)));
    if (!hue) {
      CHECK_FALSE(hue_of(colour));
    } else if (index <= 6 || index % 10 == 0) {
      CHECK(between_hues(*hue, hue_of(colour).value()) < 1e-9);
    }
  }
}

TEST_CASE("indices that are drawn alike are those that ezdxf draws alike, among the plain and full ones") {
  const std::vector<Colour> drawn = colours_by_ezdxf();
  std::vector<int> indices{1, 2, 3, 4, 5, 6};
  for (int index = 10; index < 250; index += 10) indices.push_back(index);
  for (const int one : indices) {
    for (const int other : indices) {
      INFO(one << " and " << other);
      CHECK(drawn_alike(one, other) ==
            (drawn[static_cast<std::size_t>(one)] == drawn[static_cast<std::size_t>(other)]));
    }
  }
}

TEST_CASE("the default palette's operations are drawn by ezdxf in the hue nearest to their own in the SVG") {
  const std::vector<Colour> drawn = colours_by_ezdxf();
  const Palette palette;
  for (const Operation operation : all_operations) {
    const auto own = hue_of(palette[operation]);
    const auto seen = hue_of(drawn[static_cast<std::size_t>(palette.index_of(operation))]);
    REQUIRE(own.has_value() == seen.has_value());
    if (!own) continue;
    for (int plain = 1; plain <= 6; ++plain) {
      CHECK(between_hues(*own, *seen) <= between_hues(*own, *hue_of(drawn[static_cast<std::size_t>(plain)])) + 1e-9);
    }
  }
}
