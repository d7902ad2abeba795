// In: PNG files, or pictures.
// Out: how much of the ink of two pictures differs, and a picture that shows where.
// Never: knows sheets.
#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

namespace golden {

/// Colours as 0xRRGGBB, row by row from the top; paper is white.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint32_t> pixels;
  [[nodiscard]] std::uint32_t at(int x, int y) const {
    return pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)];
  }
};
Picture blank_picture(int width, int height);

/// Transparent places are taken for paper. Throws std::runtime_error when the file is no PNG.
Picture read_png(const std::filesystem::path& path);
void write_png(const Picture& picture, const std::filesystem::path& path);

/// What differs, as a share of the ink of the picture that has more: 0 when both are alike, 1 when one is bare or the
/// sizes differ, up to 2 when their inks lie apart.
double ink_difference(const Picture& a, const Picture& b);

/// expected | difference | actual. In the middle common ink is pale; red is missing, blue is new.
Picture side_by_side(const Picture& expected, const Picture& actual);

}  // namespace golden
