#include "paper/sample_layout.h"

#include <algorithm>
#include <array>
#include <optional>

namespace ordinatio::inline paper {
namespace {

constexpr double most_smaller = 2.5;  // times smaller than the first are the others, or that one is too large
constexpr double caption_width = 38;  // mm; pictures that are narrower stand as far apart
constexpr double row_gap = 10;        // mm between rows of them, a caption among them

/// Rows of pictures from the room's upper left corner, as many in each as go; nothing where that is not room enough.
std::optional<std::vector<PlacedSample>> rows_of(std::span<const Artwork> artworks, double reduction,
                                                 const Bounds& room) {
  std::vector<PlacedSample> placed;
  Point at{room.left, room.top};
  double lowest = room.top;
  for (const Artwork& artwork : artworks) {
    const Bounds box = piece_box(artwork);
    const double width = std::max(box.width() / reduction, caption_width), height = box.height() / reduction;
    if (at.x > room.left && at.x + width > room.right) at = {room.left, lowest - row_gap};
    if (at.x + width > room.right || at.y - height - sample_caption_below < room.bottom) return std::nullopt;
    placed.push_back({&artwork, reduction, at});
    lowest = std::min(lowest, at.y - height);
    at.x += width + sample_gap;
  }
  return placed;
}

}  // namespace

Bounds piece_box(const Artwork& artwork) { return bounds_of(path_of(artwork.blank)); }

std::vector<PlacedSample> lay_samples(std::span<const Artwork> artworks) {
  const Bounds room{a4.left(), a4.baseline(a4.lines()), a4.right(), a4.baseline(sample_words_lines)};
  const Bounds first = piece_box(artworks.front());
  const std::span others = artworks.subspan(1);
  for (const double reduction : iso_reductions) {
    auto placed = rows_of(artworks.first(1), reduction, room);
    if (!placed) continue;
    const Bounds beside{room.left + first.width() / reduction + sample_gap, room.bottom, room.right, room.top};
    const Bounds below{room.left, room.bottom, room.right, room.top - first.height() / reduction - row_gap};
    for (const double smaller : iso_reductions) {
      if (smaller < reduction || smaller > most_smaller * reduction) continue;
      auto rest = rows_of(others, smaller, beside);
      if (!rest) rest = rows_of(others, smaller, below);
      if (!rest) continue;
      placed->insert(placed->end(), rest->begin(), rest->end());
      return *placed;
    }
  }
  return rows_of(artworks, iso_reductions.back(), room).value_or(std::vector<PlacedSample>{});
}

}  // namespace ordinatio::inline paper
