// In: a photo in sRGB. Out: its light, as the sensor had it: blur and shadow add up in light, not in sRGB's steps, so that the
// middle of a blurred edge is where the light is half. Never: changes a photo. Of this folder alone.
#pragma once

#include <vector>

#include "photo/photo.h"

namespace ordinatio::inline photo {

/// From 0 (black) to 1 (white), one a pixel.
struct Brightness {
  int width = 0, height = 0;
  std::vector<float> light;

  [[nodiscard]] float at(int x, int y) const {
    return light[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)];
  }
};

// ---- brightness.cpp ----
/// Linear light of an sRGB value (IEC 61966-2-1).
float light_of(std::uint8_t value);
Brightness brightness_of(const Photo& photo);
/// The mean of two by two pixels each; an odd last row or column is left out.
Brightness halved(const Brightness& full);
Photo halved(const Photo& full);
/// Between pixels, bilinear; the nearest pixel's beyond the edge. place: pixels, as of Photo.
double light_at(const Brightness& brightness, Point place);

}  // namespace ordinatio::inline photo
