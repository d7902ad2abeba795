// SVG and DXF held against each other, as they stand in their bytes.
#include "workshop/palette_file.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>
#include <set>

#include "check/check.h"
#include "manifest/manifest.h"
#include "workshop/shop_file.h"
#include "write/write.h"

namespace ordinatio::palette_file_test {
using Catch::Contains;

namespace {

constexpr std::uint32_t seed = 2026;
constexpr int palettes = 200;
constexpr const char* operations[] = {"engrave", "score", "cut", "mark", "guide"};

std::string message_of(const std::string& text) {
  const auto shop = parse_shop(text, "shop.toml");
  return shop.ok() ? "" : describe(shop.fault());
}

/// A sheet with something on each operation.
Sheet sheet_in(const Palette& palette) {
  Sheet sheet;
  sheet.name = "sheet-001";
  sheet.frame.plan.palette = palette;
  sheet.frame.blank_width = 60, sheet.frame.blank_height = 40;
  for (const Operation operation : all_operations) {
    Path path;
    path.add_rectangle({10, 10, 20, 20});
    sheet.parts.push_back({operation, "part", "part", path});
  }
  return sheet;
}

struct Rgb {
  int red, green, blue;
  friend auto operator<=>(const Rgb&, const Rgb&) = default;
};

Rgb rgb_of(const std::string& hex) {
  const auto part = [&](std::size_t at) { return std::stoi(hex.substr(at, 2), nullptr, 16); };
  return {part(1), part(3), part(5)};
}

/// What the SVG paints an operation's group in.
Rgb svg_colour(const std::string& svg, const std::string& operation) {
  const std::size_t group = svg.find("<g id=\"" + operation + "\"");
  REQUIRE(group != std::string::npos);
  const std::size_t hash = svg.find('#', group);
  REQUIRE(hash < svg.find('>', group));
  return rgb_of(svg.substr(hash, 7));
}

/// The index that a DXF's layer has.
int dxf_index(const std::string& dxf, std::string operation) {
  for (char& c : operation) c = static_cast<char>(c - 'a' + 'A');
  const std::size_t layer = dxf.find("\r\n2\r\n" + operation + "\r\n");
  REQUIRE(layer != std::string::npos);
  const std::size_t at = dxf.find("\r\n62\r\n", layer);
  REQUIRE(at != std::string::npos);
  return std::stoi(dxf.substr(at + 6, 5));
}

/// As readers draw it; tests/outside holds the same against one that we did not write.
Rgb drawn(int index) {
  const std::map<int, Rgb> first{{1, {255, 0, 0}}, {2, {255, 255, 0}}, {3, {0, 255, 0}},     {4, {0, 255, 255}},
                                 {5, {0, 0, 255}}, {6, {255, 0, 255}}, {8, {128, 128, 128}}, {9, {192, 192, 192}}};
  if (first.contains(index)) return first.at(index);
  REQUIRE((index % 10 == 0 && index >= 10 && index < 250));
  const int step = index / 10 - 1, up = 255 * (step % 4) / 4, down = 255 * (4 - step % 4) / 4;
  const Rgb all[] = {{255, up, 0}, {down, 255, 0}, {0, 255, up}, {0, down, 255}, {up, 0, 255}, {255, 0, down}};
  return all[step / 4];
}

/// The angle of CIE L*a*b* from sRGB under D65; nothing for what is nearly grey.
std::optional<double> hue(Rgb c) {
  if (std::max({c.red, c.green, c.blue}) - std::min({c.red, c.green, c.blue}) < 32) return std::nullopt;
  const auto light = [](int part) {
    return part > 10 ? std::pow((part / 255.0 + 0.055) / 1.055, 2.4) : part / 255.0 / 12.92;
  };
  const double r = light(c.red), g = light(c.green), b = light(c.blue);
  const auto root = [](double t) { return t > 0.008856 ? std::cbrt(t) : 7.787 * t + 16.0 / 116; };
  const double x = root((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047),
               y = root(0.2126729 * r + 0.7151522 * g + 0.0721750 * b),
               z = root((0.0193339 * r + 0.1191920 * g + 0.9503041 * b) / 1.08883);
  const double degrees = std::atan2(200 * (y - z), 500 * (x - y)) * 180 / std::acos(-1.0);
  return degrees < 0 ? degrees + 360 : degrees;
}

double apart(double a, double b) { return std::min(std::abs(a - b), 360 - std::abs(a - b)); }

/// The SVG's colours and the DXF's, operation by operation.
struct Shown {
  std::vector<Rgb> svg, dxf;
  std::vector<int> indices;
};

Shown shown_by_files(const Palette& palette, DxfVersion version) {
  const Sheet sheet = sheet_in(palette);
  const std::string svg = write_svg(sheet), dxf = write_dxf(sheet, {version});
  Shown shown;
  for (const char* operation : operations) {
    shown.svg.push_back(svg_colour(svg, operation));
    shown.indices.push_back(dxf_index(dxf, operation));
    shown.dxf.push_back(drawn(shown.indices.back()));
  }
  return shown;
}

/// No other way to pair the two files' colours is nearer in hue than operation by operation.
void require_paired_by_hue(const Shown& shown) {
  std::array<std::size_t, 4> order{0, 1, 2, 3};
  const auto sum = [&] {
    double degrees = 0;
    for (std::size_t i = 0; i < order.size(); ++i) degrees += apart(*hue(shown.svg[i]), *hue(shown.dxf[order[i]]));
    return degrees;
  };
  const double own = sum();
  while (std::ranges::next_permutation(order).found) CHECK(own <= sum() + 0.01);
}

/// Of the six plain hues each operation has the nearest, unless another has that.
void require_nearest(const Shown& shown) {
  for (std::size_t i = 0; i < 4; ++i) {
    double nearest = 360;
    int plain = 0;
    for (int index = 1; index <= 6; ++index) {
      const double degrees = apart(*hue(shown.svg[i]), *hue(drawn(index)));
      if (degrees < nearest) nearest = degrees, plain = index;
    }
    CHECK(std::ranges::count(shown.indices, plain) == 1);
  }
}

void require_agreement(const Palette& palette) {
  for (const DxfVersion version : {DxfVersion::r12, DxfVersion::r2000}) {
    const Shown shown = shown_by_files(palette, version);
    for (std::size_t i = 0; i < 4; ++i) REQUIRE((hue(shown.svg[i]) && hue(shown.dxf[i])));
    CHECK_FALSE(hue(shown.svg[4]));
    CHECK_FALSE(hue(shown.dxf[4]));
    CHECK(std::set<Rgb>(shown.dxf.begin(), shown.dxf.end()).size() == 5);
    require_paired_by_hue(shown);
    require_nearest(shown);
  }
}

std::string toml_of(const std::vector<std::uint32_t>& colours) {
  std::string text = "[colours]\n";
  for (std::size_t i = 0; i < colours.size(); ++i) {
    text += std::string(operations[i]) + " = \"#";
    for (int shift = 20; shift >= 0; shift -= 4) text += "0123456789abcdef"[colours[i] >> shift & 0xF];
    text += "\"\n";
  }
  return text;
}

/// Colours with a hue for what runs, and a grey for the guide.
std::string random_colours(std::mt19937& random) {
  std::vector<std::uint32_t> colours;
  while (colours.size() < 4) {
    const std::uint32_t colour = random() & 0xFFFFFF;
    if (hue({static_cast<int>(colour >> 16), static_cast<int>(colour >> 8 & 0xFF), static_cast<int>(colour & 0xFF)})) {
      colours.push_back(colour);
    }
  }
  colours.push_back((random() & 0xFF) * 0x010101);
  return toml_of(colours);
}

}  // namespace

TEST_CASE("SVG and DXF show each operation in the same hue, and only the guide in grey") {
  require_agreement(Palette{});
  CHECK(shown_by_files(Palette{}, DxfVersion::r12).indices == std::vector<int>{3, 2, 6, 4, 8});
  std::mt19937 random(seed);
  for (int i = 0; i < palettes; ++i) {
    const std::string toml = random_colours(random);
    INFO("seed " << seed << ", palette " << i << ":\n" << toml);
    const auto shop = parse_shop(toml, "shop.toml");
    REQUIRE(shop.ok());
    require_agreement(shop->plan.palette);
  }
}

TEST_CASE("the manifest tells the colour and the index of each operation, and its reader takes both") {
  const auto shop = parse_shop("[colours.dxf]\ncut = 230\nguide = 9\n", "shop.toml");
  REQUIRE(shop.ok());
  const Sheet sheet = sheet_in(shop->plan.palette);
  const std::string manifest = write_manifest(sheet);
  CHECK_THAT(manifest, Contains("\"cut\": 230") && Contains("\"cut\": \"#CC79A7\""));
  const auto read = read_manifest(manifest, "sheet-001.json");
  REQUIRE(read.ok());
  CHECK(read->plan.palette == shop->plan.palette);
  CHECK(read->plan.palette.index_of(Operation::guide) == 9);
}

TEST_CASE("grey is for the guide alone, in the SVG and in the DXF") {
  CHECK(
      message_of("[colours]\nengrave = \"#000000\"\n") ==
      "shop.toml:2:11: colours.engrave is grey, black or white: only guide is, which is never run: a machine that goes "
      "by colour must not take one for the other. Choose a colour with a hue, for example \"#009E73\".");
  CHECK_THAT(message_of("[colours]\nguide = \"#FF00FF\"\n"), Contains("colours.guide has a hue"));
  CHECK_THAT(message_of("[colours.dxf]\ncut = 7\n"), Contains("colours.dxf.cut is grey, black or white"));
  CHECK_THAT(message_of("[colours.dxf]\ncut = 251\n"), Contains("colours.dxf.cut is grey, black or white"));
  CHECK_THAT(message_of("[colours.dxf]\nguide = 6\n"), Contains("colours.dxf.guide is no grey"));
  CHECK_THAT(message_of("[colours.dxf]\nguide = 256\n"), Contains("colours.dxf.guide"));
  CHECK(message_of("[colours.dxf]\nguide = 254\n").empty());
}

TEST_CASE("a chosen index is no other operation's, nor in another's hue") {
  CHECK(message_of("[colours.dxf]\nengrave = 92\nscore = 40\n").empty());
  CHECK_THAT(message_of("[colours]\nmark = \"#00A0A0\"\n[colours.dxf]\nengrave = 130\nmark = 4\n"),
             Contains("is drawn like engrave"));
  CHECK_THAT(message_of("[colours.dxf]\ncut = 2\n"),
             Contains("colours.dxf.cut looks like score") && Contains("nearer in hue to score's colour"));
}

}  // namespace ordinatio::palette_file_test
