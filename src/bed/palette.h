// In: the workshop's colours of the operations, and the DXF's colour indices that it may have chosen itself.
// Out: each operation's colour and index, worked out once: SVG, DXF, PDF, manifest and their readers all say the same.
// Never: leaves it to a writer which index stands for a colour.
#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include "design/design.h"

namespace ordinatio::inline bed {

struct Colour {
  std::uint8_t red = 0, green = 0, blue = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};

/// The hue as the eye parts hues, in degrees: the angle of CIE 1976 L*a*b* (40 red, 103 yellow, 136 green, 196 cyan, 306
/// blue, 328 magenta); nothing for a grey, black and white among them. By the angle of mere red, green and blue a bluish
/// green would count as cyan, and a sky blue as blue.
std::optional<double> hue_of(Colour colour);
/// Less between a colour's strongest and weakest part is a grey: an eighth of the scale; paler and darker tints are not
/// told apart on a screen. Our own choice, no source.
inline constexpr int least_chroma = 32;

/// The DXF's colour index: 1 to 6 are red, yellow, green, cyan, blue and magenta; from 10 to 249 each ten is one of 24
/// colours, four from each of these to the next, full at 10, 20, … and darker or paler between, which count as the full
/// one; 8, 9 and 250 to 254 are greys, 7 and 255 are black or white as the ground is.
std::optional<double> hue_of_index(int index);
bool is_grey_index(int index);
/// Whether two indices are drawn in the same colour: 10, 50, … 210 are 1 to 6 again.
bool drawn_alike(int one, int other);
/// Degrees between two hues, at most 180.
double between_hues(double one, double other);

using Colours = std::array<Colour, all_operations.size()>;
using Indices = std::array<int, all_operations.size()>;
using ChosenIndices = std::array<std::optional<int>, all_operations.size()>;

/// Colours tell operations apart; the default is from Okabe and Ito's colour-blind-safe set (2008).
struct Palette {
  Colours colours{
      Colour{0x00, 0x9E, 0x73}, {0xE6, 0x9F, 0x00}, {0xCC, 0x79, 0xA7}, {0x56, 0xB4, 0xE9}, {0x99, 0x99, 0x99}};
  Indices indices{3, 2, 6, 4, 8};  // what palette_of gives these colours
  [[nodiscard]] Colour operator[](Operation operation) const { return colours[static_cast<std::size_t>(operation)]; }
  [[nodiscard]] int index_of(Operation operation) const { return indices[static_cast<std::size_t>(operation)]; }
  friend bool operator==(const Palette&, const Palette&) = default;
};

/// The palette of these colours. Indices that were not chosen: each operation that runs has the nearest in hue of 1 to 6.
/// Where several want the same one, the nearest keeps it (of equals the first), and the others take the nearest in hue of
/// 20, 30, 40, 60, … that is free; these are then shared out so that the sum of degrees is the least. The guide has the
/// first free of 8, 9 and 250 to 254, whatever its colour. A colour without a hue takes what is left: the workshop's own
/// are refused (shop.toml), those of an older sheet are not.
Palette palette_of(const Colours& colours, const ChosenIndices& chosen = {});

}  // namespace ordinatio::inline bed
