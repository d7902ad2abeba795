#include "photo/components.h"

#include <algorithm>

namespace ordinatio::inline photo {
namespace {

/// Takes what hangs together with `start` out of the mask.
Component taken_out(Mask& mask, std::uint32_t start, Neighbours neighbours) {
  const auto width = static_cast<std::uint32_t>(mask.width);
  const auto take = [&](Component& part, std::size_t there) {
    if (mask.set[there] == 0) return;
    mask.set[there] = 0;
    part.pixels.push_back(static_cast<std::uint32_t>(there));
  };
  Component part{mask.width, mask.height, 0, 0, {start}};
  mask.set[start] = 0;
  for (std::size_t next = 0; next < part.pixels.size(); ++next) {
    const int x = static_cast<int>(part.pixels[next] % width), y = static_cast<int>(part.pixels[next] / width);
    part.left = std::min(part.left, x), part.right = std::max(part.right, x + 1);
    part.top = std::min(part.top, y), part.bottom = std::max(part.bottom, y + 1);
    const std::size_t here = part.pixels[next], row = width;
    if (x > 0 && y > 0 && x + 1 < mask.width && y + 1 < mask.height) {  // most are no border's
      for (const std::size_t there : {here - row, here - 1, here + 1, here + row}) take(part, there);
      if (neighbours == Neighbours::four) continue;
      for (const std::size_t there : {here - row - 1, here - row + 1, here + row - 1, here + row + 1})
        take(part, there);
      continue;
    }
    for (int dy = -1; dy <= 1; ++dy) {
      for (int dx = -1; dx <= 1; ++dx) {
        if (neighbours == Neighbours::four && dx != 0 && dy != 0) continue;
        if (x + dx < 0 || y + dy < 0 || x + dx >= mask.width || y + dy >= mask.height) continue;
        take(part, mask.index(x + dx, y + dy));
      }
    }
  }
  return part;
}

}  // namespace

Mask empty_mask(int width, int height) {
  return {width, height, std::vector<std::uint8_t>(static_cast<std::size_t>(width) * static_cast<std::size_t>(height))};
}

std::vector<Component> components_of(const Mask& mask, Neighbours neighbours, std::size_t least) {
  Mask left = mask;
  std::vector<Component> parts;
  for (std::size_t i = 0; i < left.set.size(); ++i) {
    if (left.set[i] == 0) continue;
    Component part = taken_out(left, static_cast<std::uint32_t>(i), neighbours);
    if (part.pixels.size() >= least) parts.push_back(std::move(part));
  }
  return parts;
}

}  // namespace ordinatio::inline photo
