#include "photo/piece_mask.h"

#include <algorithm>
#include <cmath>

#include "photo/photo_limits.h"

namespace ordinatio::inline photo {
namespace {

constexpr std::size_t levels = 442;  // of distance: the diagonal of sRGB's cube
constexpr double clearly_parted =
    0.75;  // of all variance, what lies between table and things; without a piece it is near 0.6
constexpr double least_threshold = 10;  // steps of sRGB: what is nearer to the table's colour is its grain
constexpr double paper_contact = 5;     // mm: what touches the card's margin for longer hangs together with its paper
constexpr double second_piece = 0.2;    // of the largest thing's area: the next one is no crumb

struct Threshold {
  double distance = 0;
  double parted = 0;  // 0 to 1
};

/// The threshold that leaves the least variance within the two sides.
Threshold otsu_threshold(const std::vector<float>& distances) {
  std::array<double, levels> counts{};
  double count = 0, sum = 0, squares = 0;
  for (const float distance : distances) {
    if (distance < 0) continue;
    const auto level = std::min(levels - 1, static_cast<std::size_t>(distance));
    const double middle = static_cast<double>(level) + 0.5;
    ++counts.at(level), ++count, sum += middle, squares += middle * middle;
  }
  Threshold best;
  const double variance = count > 0 ? squares / count - (sum / count) * (sum / count) : 0;
  double below = 0, sum_below = 0;
  for (std::size_t level = 0; level + 1 < levels; ++level) {
    below += counts.at(level), sum_below += counts.at(level) * (static_cast<double>(level) + 0.5);
    if (below == 0 || below == count) continue;
    const double difference = sum_below / below - (sum - sum_below) / (count - below);
    const double between = below * (count - below) / (count * count) * difference * difference;
    if (variance > 0 && between / variance > best.parted) best = {static_cast<double>(level) + 1, between / variance};
  }
  return best;
}

/// How many of its pixels have a neighbour for which `is` holds.
template <class Is>
std::size_t touching(const Component& part, const Mask& mask, const Is& is) {
  std::size_t count = 0;
  for (const std::uint32_t pixel : part.pixels) {
    const int x = static_cast<int>(pixel) % mask.width, y = static_cast<int>(pixel) / mask.width;
    if ((x > 0 && is(pixel - 1)) || (x + 1 < mask.width && is(pixel + 1)) ||
        (y > 0 && is(pixel - static_cast<std::uint32_t>(mask.width))) ||
        (y + 1 < mask.height && is(pixel + static_cast<std::uint32_t>(mask.width))))
      ++count;
  }
  return count;
}

/// The component and all that it encloses.
Mask filled(const Component& part, const Mask& like) {
  Mask outside = empty_mask(like.width, like.height);
  std::ranges::fill(outside.set, std::uint8_t{1});
  for (const std::uint32_t pixel : part.pixels) outside.set[pixel] = 0;
  Mask result = outside;
  for (const Component& around : components_of(outside, Neighbours::four, 1)) {
    const bool at_edge =
        around.left == 0 || around.top == 0 || around.right == like.width || around.bottom == like.height;
    if (at_edge) continue;
    for (const std::uint32_t pixel : around.pixels) result.set[pixel] = 0;
  }
  for (std::uint8_t& set : result.set) set = set == 0 ? 1 : 0;
  return result;
}

}  // namespace

Result<PieceMask> piece_mask(const TablePicture& table) {
  const std::vector<float> distances = distances_from_table(table);
  const Threshold threshold = otsu_threshold(distances);
  Mask things = empty_mask(table.picture.width, table.picture.height);
  const double least = std::max(least_threshold, threshold.distance);
  for (std::size_t i = 0; i < distances.size(); ++i) things.set[i] = distances[i] > least ? 1 : 0;

  const auto pixels_of = [&](double mm) { return mm * table.pixels_per_mm; };
  const auto smallest = static_cast<std::size_t>(pixels_of(least_piece) * pixels_of(least_piece) / 4);
  std::vector<Component> parts = components_of(things, Neighbours::four, smallest);
  const auto touching_what = [&](const Component& part, float what) {
    return static_cast<double>(touching(part, things, [&](std::uint32_t pixel) { return distances[pixel] == what; }));
  };
  std::erase_if(parts,
                [&](const Component& part) { return touching_what(part, on_the_card) > pixels_of(paper_contact); });
  std::ranges::stable_sort(parts,
                           [](const Component& a, const Component& b) { return a.pixels.size() > b.pixels.size(); });
  if (parts.empty())
    return Fault{
        "no piece is found in the photo",
        {},
        "nothing beside the card stands out from the table",
        "Lay the piece a finger's breadth from the card on a plain ground of another colour, or draw its outline"};
  PieceMask piece{filled(parts.front(), things), true, {}};
  if (parts.size() > 1 &&
      static_cast<double>(parts[1].pixels.size()) > second_piece * static_cast<double>(parts.front().pixels.size()))
    piece.doubt = "more than one thing lies beside the card: this is the outline of the largest";
  if (threshold.parted < clearly_parted || threshold.distance < least_threshold)
    piece.has_edge = false, piece.doubt = "the piece hardly stands out from the table";
  if (touching_what(parts.front(), out_of_sight) > 0)
    piece.has_edge = false, piece.doubt = "the piece reaches out of the picture";
  if (touching_what(parts.front(), on_the_card) > 0) piece.has_edge = false, piece.doubt = "the piece touches the card";
  return piece;
}

}  // namespace ordinatio::inline photo
