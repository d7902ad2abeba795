#include "picture.h"

#include <cairo.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace golden {
namespace {

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

Surface owned(cairo_surface_t* surface, const std::filesystem::path& path) {
  Surface held(surface, cairo_surface_destroy);
  if (const auto status = cairo_surface_status(surface); status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(path.string() + ": " + cairo_status_to_string(status));
  }
  return held;
}

int channel(std::uint32_t pixel, int shift) { return static_cast<int>(pixel >> shift & 0xFF); }

/// From 0 for paper to 765 for black.
int ink_of(std::uint32_t pixel) { return 3 * 255 - channel(pixel, 16) - channel(pixel, 8) - channel(pixel, 0); }

int distance(std::uint32_t a, std::uint32_t b) {
  int sum = 0;
  for (const int shift : {16, 8, 0}) sum += std::abs(channel(a, shift) - channel(b, shift));
  return sum;
}

std::uint32_t difference_colour(std::uint32_t expected, std::uint32_t actual) {
  constexpr int noise = 24;  // of 765: what rounding alone may do to a pixel
  if (distance(expected, actual) <= noise) {
    const auto pale = static_cast<std::uint32_t>(255 - ink_of(actual) / 12);
    return pale << 16 | pale << 8 | pale;
  }
  return ink_of(expected) > ink_of(actual) ? 0xD01010 : 0x1010D0;
}

}  // namespace

Picture blank_picture(int width, int height) {
  return {width, height,
          std::vector<std::uint32_t>(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 0xFFFFFF)};
}

Picture read_png(const std::filesystem::path& path) {
  const Surface file = owned(cairo_image_surface_create_from_png(path.c_str()), path);
  Picture picture =
      blank_picture(cairo_image_surface_get_width(file.get()), cairo_image_surface_get_height(file.get()));
  const Surface paper = owned(cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height), path);
  cairo_t* pen = cairo_create(paper.get());
  cairo_set_source_rgb(pen, 1, 1, 1);
  cairo_paint(pen);
  cairo_set_source_surface(pen, file.get(), 0, 0);
  cairo_paint(pen);
  cairo_destroy(pen);
  cairo_surface_flush(paper.get());
  const unsigned char* row = cairo_image_surface_get_data(paper.get());
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(paper.get()));
  auto pixel = picture.pixels.begin();
  for (int y = 0; y < picture.height; ++y, row += stride) {
    const auto* line = reinterpret_cast<const std::uint32_t*>(row);
    pixel = std::transform(line, line + picture.width, pixel, [](std::uint32_t rgb) { return rgb & 0xFFFFFF; });
  }
  return picture;
}

void write_png(const Picture& picture, const std::filesystem::path& path) {
  const Surface surface = owned(cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height), path);
  cairo_surface_flush(surface.get());
  unsigned char* data = cairo_image_surface_get_data(surface.get());
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
  for (int y = 0; y < picture.height; ++y) {
    auto* line = reinterpret_cast<std::uint32_t*>(data + static_cast<std::size_t>(y) * stride);
    for (int x = 0; x < picture.width; ++x) line[x] = picture.at(x, y);
  }
  cairo_surface_mark_dirty(surface.get());
  if (cairo_surface_write_to_png(surface.get(), path.c_str()) != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error("cannot write " + path.string());
  }
}

double ink_difference(const Picture& a, const Picture& b) {
  if (a.width != b.width || a.height != b.height) return 1;
  double ink_a = 0, ink_b = 0, apart = 0;
  for (std::size_t i = 0; i < a.pixels.size(); ++i) {
    ink_a += ink_of(a.pixels[i]);
    ink_b += ink_of(b.pixels[i]);
    apart += distance(a.pixels[i], b.pixels[i]);
  }
  const double ink = std::max(ink_a, ink_b);
  return ink > 0 ? apart / ink : 0;
}

Picture side_by_side(const Picture& expected, const Picture& actual) {
  constexpr int gutter = 8;
  const int width = std::max(expected.width, actual.width), height = std::max(expected.height, actual.height);
  Picture sheet = blank_picture(3 * width + 2 * gutter, height);
  const auto in = [](const Picture& picture, int x, int y) {
    return x < picture.width && y < picture.height ? picture.at(x, y) : 0xFFFFFFU;
  };
  for (int y = 0; y < height; ++y) {
    const std::size_t row = static_cast<std::size_t>(y) * static_cast<std::size_t>(sheet.width);
    const auto put = [&](int x, std::uint32_t pixel) { sheet.pixels[row + static_cast<std::size_t>(x)] = pixel; };
    for (int x = 0; x < width; ++x) {
      const std::uint32_t was = in(expected, x, y), is = in(actual, x, y);
      put(x, was);
      put(x + width + gutter, difference_colour(was, is));
      put(x + 2 * (width + gutter), is);
    }
    for (int x = 0; x < gutter; ++x) put(width + x, 0x808080), put(2 * width + gutter + x, 0x808080);
  }
  return sheet;
}

}  // namespace golden
