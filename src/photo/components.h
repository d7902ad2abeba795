// In: which pixels of a field are set. Out: what hangs together. Never: looks at colours. Of this folder alone.
#pragma once

#include <cstdint>
#include <vector>

namespace ordinatio::inline photo {

/// One truth a pixel, row by row.
struct Mask {
  int width = 0, height = 0;
  std::vector<std::uint8_t> set;

  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  }
  [[nodiscard]] bool at(int x, int y) const { return set[index(x, y)] != 0; }
};

/// Set pixels that hang together.
struct Component {
  int left = 0, top = 0, right = 0, bottom = 0;  // its box: [left, right) × [top, bottom)
  std::vector<std::uint32_t> pixels;             // indices into the mask
};
enum class Neighbours { four, eight };

// ---- components.cpp ----
/// None set.
Mask empty_mask(int width, int height);
/// Those of at least `least` pixels, in the order of their first pixels. Cost: the mask's pixels.
std::vector<Component> components_of(const Mask& mask, Neighbours neighbours, std::size_t least);

}  // namespace ordinatio::inline photo
