#include "photo/contour.h"

#include <algorithm>
#include <cmath>

#include "photo/brightness.h"

namespace ordinatio::inline photo {
namespace {

constexpr std::size_t steps_smoothed = 3;   // pixels' borders to either side, whose mean the raw contour is
constexpr std::size_t steps_of_normal = 3;  // edge points to either side, by which the edge's direction is told
constexpr double profile_reach = 2;         // mm across the edge, each way
constexpr double profile_ends = 1.25;       // mm: from here on a profile shows the thing or the table alone
constexpr double profile_step = 0.125;
constexpr double least_contrast = 0.02;      // of full light: less is noise
constexpr std::size_t offsets_compared = 2;  // to either side
constexpr double most_astray = 0.3;  // mm: an edge point farther from their median is led back to it; a corner's is not

using LightColour = std::array<double, 3>;  // linear red, green, blue

/// Along the pixels' borders around the first set pixel's component, it on the right hand: the middles of the borders, pixels.
std::vector<Point> borders_around(const Mask& mask, std::size_t most) {
  const auto first = std::ranges::find(mask.set, std::uint8_t{1});
  if (first == mask.set.end()) return {};
  const auto start = static_cast<int>(first - mask.set.begin());
  const int start_x = start % mask.width, start_y = start / mask.width;
  const auto is_set = [&](int x, int y) {
    return x >= 0 && y >= 0 && x < mask.width && y < mask.height && mask.at(x, y);
  };
  constexpr std::array<int, 4> across{1, 0, -1, 0}, down{0, 1, 0, -1};  // right, down, left, up
  std::vector<Point> middles;
  int x = start_x, y = start_y;  // a corner of four pixels
  std::size_t heading = 0;
  do {
    const int dx = across.at(heading), dy = down.at(heading);
    middles.push_back({x + 0.5 * dx, y + 0.5 * dy});
    x += dx, y += dy;
    // The two pixels ahead, on the left and on the right hand.
    const bool left = is_set(x + (dx + dy - 1) / 2, y + (dy - dx - 1) / 2);
    const bool right = is_set(x + (dx - dy - 1) / 2, y + (dy + dx - 1) / 2);
    if (!right)
      heading = (heading + 1) % 4;
    else if (left)
      heading = (heading + 3) % 4;
  } while ((x != start_x || y != start_y || heading != 0) && middles.size() < most);
  return middles;
}

/// The contour's smoothed places at equal steps, counter-clockwise, mm.
std::vector<Point> even_places(const std::vector<Point>& borders, const TablePicture& table) {
  const std::size_t count = borders.size();
  std::vector<Point> smooth;
  for (std::size_t i = 0; i < count; ++i) {
    Point sum;
    for (std::size_t k = 0; k <= 2 * steps_smoothed; ++k) sum = sum + borders[(i + count + k - steps_smoothed) % count];
    smooth.push_back(table.to_mm(1 / static_cast<double>(2 * steps_smoothed + 1) * sum));
  }
  std::ranges::reverse(
      smooth);  // the piece was on the right hand with y down, so it is on the right still: now on the left
  double around = 0;
  for (std::size_t i = 0; i < count; ++i) around += length(smooth[(i + 1) % count] - smooth[i]);
  const auto places = static_cast<std::size_t>(std::max(8.0, std::round(around / edge_spacing)));
  const double step = around / static_cast<double>(places);
  std::vector<Point> even;
  double gone = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const Point from = smooth[i], to = smooth[(i + 1) % count];
    const double piece = length(to - from);
    while (even.size() < places && static_cast<double>(even.size()) * step <= gone + piece) {
      const double share = piece > 0 ? (static_cast<double>(even.size()) * step - gone) / piece : 0;
      even.push_back(from + share * (to - from));
    }
    gone += piece;
  }
  return even;
}

LightColour light_colour_at(const TablePicture& table, Point mm) {
  const Photo& picture = table.picture;
  const Point pixel = table.to_pixel(mm);
  const double x = std::clamp(pixel.x - 0.5, 0.0, picture.width - 1.0);
  const double y = std::clamp(pixel.y - 0.5, 0.0, picture.height - 1.0);
  const int left = static_cast<int>(x), top = static_cast<int>(y);
  const int right = std::min(left + 1, picture.width - 1), bottom = std::min(top + 1, picture.height - 1);
  const double across = x - left, down = y - top;
  LightColour colour{};
  for (std::size_t c = 0; c < 3; ++c) {
    const auto light = [&](int px, int py) { return static_cast<double>(light_of(picture.at(px, py)[c])); };
    colour.at(c) = (1 - down) * ((1 - across) * light(left, top) + across * light(right, top)) +
                   down * ((1 - across) * light(left, bottom) + across * light(right, bottom));
  }
  return colour;
}

LightColour mean_of(std::span<const LightColour> colours) {
  LightColour mean{};
  for (const LightColour& colour : colours) {
    for (std::size_t c = 0; c < 3; ++c) mean.at(c) += colour.at(c) / static_cast<double>(colours.size());
  }
  return mean;
}

/// How far outward of `place` the light is half-way from the inside's to the outside's; the crossing that is nearest. Nothing where
/// they hardly differ or it is out of reach.
std::optional<double> half_way(const TablePicture& table, Point place, Point outward) {
  constexpr auto count = static_cast<std::size_t>(2 * profile_reach / profile_step) + 1;
  constexpr auto at_end = static_cast<std::size_t>((profile_reach - profile_ends) / profile_step) + 1;
  std::array<LightColour, count> profile;
  for (std::size_t i = 0; i < count; ++i) {
    profile.at(i) = light_colour_at(table, place + (static_cast<double>(i) * profile_step - profile_reach) * outward);
  }
  const LightColour inside = mean_of(std::span(profile).first(at_end)),
                    outside = mean_of(std::span(profile).last(at_end));
  double contrast = 0;
  for (std::size_t c = 0; c < 3; ++c) contrast += (inside.at(c) - outside.at(c)) * (inside.at(c) - outside.at(c));
  if (contrast < least_contrast * least_contrast) return std::nullopt;
  std::array<double, count> share{};  // of the inside
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t c = 0; c < 3; ++c) {
      share.at(i) += (profile.at(i).at(c) - outside.at(c)) * (inside.at(c) - outside.at(c)) / contrast;
    }
  }
  std::optional<double> nearest;
  for (std::size_t i = 0; i + 1 < count; ++i) {
    if (!(share.at(i) >= 0.5 && share.at(i + 1) < 0.5)) continue;
    const double part = (share.at(i) - 0.5) / (share.at(i) - share.at(i + 1));
    const double at = (static_cast<double>(i) + part) * profile_step - profile_reach;
    if (!nearest || std::abs(at) < std::abs(*nearest)) nearest = at;
  }
  return nearest && std::abs(*nearest) < profile_ends ? nearest : std::nullopt;
}

/// Offsets far from their neighbours' median give way to it.
std::vector<double> calmed(const std::vector<double>& offsets) {
  const std::size_t count = offsets.size();
  std::vector<double> result;
  for (std::size_t i = 0; i < count; ++i) {
    std::array<double, 2 * offsets_compared + 1> near{};
    for (std::size_t k = 0; k < near.size(); ++k) near.at(k) = offsets[(i + count + k - offsets_compared) % count];
    std::ranges::sort(near);
    const double median = near.at(offsets_compared);
    result.push_back(std::abs(offsets[i] - median) > most_astray ? median : offsets[i]);
  }
  return result;
}

}  // namespace

std::optional<std::vector<EdgePoint>> edge_of(const Mask& mask, const TablePicture& table) {
  const auto most = static_cast<std::size_t>(static_cast<double>(most_edge) * edge_spacing * table.pixels_per_mm);
  const std::vector<Point> borders = borders_around(mask, most);
  if (borders.size() < 8 || borders.size() >= most) return std::nullopt;
  const std::vector<Point> places = even_places(borders, table);
  const std::size_t count = places.size();
  std::vector<EdgePoint> edge(count);
  std::vector<Point> outwards;
  std::vector<double> offsets;
  for (std::size_t i = 0; i < count; ++i) {
    const Point along = places[(i + steps_of_normal) % count] - places[(i + count - steps_of_normal) % count];
    const double size = length(along);
    const Point outward = size > 0 ? 1 / size * Point{along.y, -along.x} : Point{};
    const auto offset = half_way(table, places[i], outward);
    edge[i].exact = offset.has_value();
    outwards.push_back(outward);
    offsets.push_back(offset.value_or(0));
  }
  const std::vector<double> calm = calmed(offsets);
  for (std::size_t i = 0; i < count; ++i) edge[i].place = places[i] + calm[i] * outwards[i];
  return edge;
}

}  // namespace ordinatio::inline photo
