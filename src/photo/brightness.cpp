#include "photo/brightness.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline photo {
namespace {

std::array<float, 256> make_lights() {
  std::array<float, 256> lights{};
  for (std::size_t i = 0; i < lights.size(); ++i) {
    const double v = static_cast<double>(i) / 255;
    lights.at(i) = static_cast<float>(v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4));
  }
  return lights;
}

}  // namespace

float light_of(std::uint8_t value) {
  static const std::array<float, 256> lights = make_lights();
  return lights[value];
}

Brightness brightness_of(const Photo& photo) {
  Brightness result{photo.width, photo.height, std::vector<float>(photo.rgb.size() / 3)};
  const std::uint8_t* rgb = photo.rgb.data();
  for (float& light : result.light) {  // luminance of sRGB's primaries
    light = 0.2126F * light_of(rgb[0]) + 0.7152F * light_of(rgb[1]) + 0.0722F * light_of(rgb[2]);
    rgb += 3;
  }
  return result;
}

Brightness halved(const Brightness& full) {
  Brightness half{full.width / 2, full.height / 2, {}};
  half.light.reserve(static_cast<std::size_t>(half.width) * static_cast<std::size_t>(half.height));
  for (int y = 0; y < half.height; ++y) {
    for (int x = 0; x < half.width; ++x) {
      half.light.push_back((full.at(2 * x, 2 * y) + full.at(2 * x + 1, 2 * y) + full.at(2 * x, 2 * y + 1) +
                            full.at(2 * x + 1, 2 * y + 1)) /
                           4);
    }
  }
  return half;
}

Photo halved(const Photo& full) {
  Photo half{full.width / 2, full.height / 2, {}};
  half.rgb.reserve(3 * static_cast<std::size_t>(half.width) * static_cast<std::size_t>(half.height));
  for (int y = 0; y < half.height; ++y) {
    const std::uint8_t *above = full.at(0, 2 * y), *below = full.at(0, 2 * y + 1);
    for (int x = 0; x < half.width; ++x, above += 6, below += 6) {
      for (int c = 0; c < 3; ++c)
        half.rgb.push_back(static_cast<std::uint8_t>((above[c] + above[c + 3] + below[c] + below[c + 3] + 2) / 4));
    }
  }
  return half;
}

double light_at(const Brightness& brightness, Point place) {
  const double x = std::clamp(place.x - 0.5, 0.0, brightness.width - 1.0);
  const double y = std::clamp(place.y - 0.5, 0.0, brightness.height - 1.0);
  const int left = static_cast<int>(x), top = static_cast<int>(y);
  const int right = std::min(left + 1, brightness.width - 1), bottom = std::min(top + 1, brightness.height - 1);
  const double across = x - left, down = y - top;
  return (1 - down) * ((1 - across) * brightness.at(left, top) + across * brightness.at(right, top)) +
         down * ((1 - across) * brightness.at(left, bottom) + across * brightness.at(right, bottom));
}

}  // namespace ordinatio::inline photo
