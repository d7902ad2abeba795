#include <algorithm>
#include <cmath>
#include <optional>

#include "photo/card.h"
#include "photo/photo_limits.h"

#include "photo/photo.h"

namespace ordinatio::inline photo {
namespace {

constexpr std::uint8_t unseen_grey = 128;
constexpr int most_places = 4;   // each way, for a pixel: a photo that is finer still is taken at every so many pixels
constexpr int frame_steps = 64;  // along each side of the photo, where it is asked what it shows of the table

/// What the photo shows of the table, within reach: mm. The horizon of a photo that shows it is cut off by the reach.
Bounds shown(const Photo& photo, const CardView& card) {
  const Bounds reach{card_paper.left - table_reach, card_paper.bottom - table_reach, card_paper.right + table_reach,
                     card_paper.top + table_reach};
  Bounds box = card_paper;
  const auto add = [&](double x, double y) {
    const Point pixel{x, y};
    const double depth = card.to_card.depth(pixel);
    if (!(depth > 0)) return;
    const Point p = card.to_card(pixel);
    box.add(Point{std::clamp(p.x, reach.left, reach.right), std::clamp(p.y, reach.bottom, reach.top)});
  };
  // A grid and not the frame alone: where the frame is above the horizon, the table is seen below it.
  for (int i = 0; i <= frame_steps; ++i) {
    for (int k = 0; k <= frame_steps; ++k) {
      add(static_cast<double>(photo.width) * i / frame_steps, static_cast<double>(photo.height) * k / frame_steps);
    }
  }
  return box;
}

/// Bilinear, in sRGB's steps as the photo has them. place: within the photo.
std::array<double, 3> colour_at(const Photo& photo, Point place) {
  const double x = std::clamp(place.x - 0.5, 0.0, photo.width - 1.0);
  const double y = std::clamp(place.y - 0.5, 0.0, photo.height - 1.0);
  const int left = static_cast<int>(x), top = static_cast<int>(y);
  const int right = std::min(left + 1, photo.width - 1), bottom = std::min(top + 1, photo.height - 1);
  const double across = x - left, down = y - top;
  const std::uint8_t *a = photo.at(left, top), *b = photo.at(right, top);
  const std::uint8_t *c = photo.at(left, bottom), *d = photo.at(right, bottom);
  const auto mixed = [&](std::size_t i) {
    return (1 - down) * ((1 - across) * a[i] + across * b[i]) + down * ((1 - across) * c[i] + across * d[i]);
  };
  return {mixed(0), mixed(1), mixed(2)};
}

class Straightener {
 public:
  Straightener(const Photo& photo, const CardView& card, TablePicture& table)
      : photo_(photo), to_photo_(card.to_photo), table_(table) {}

  void fill_row(int y) {
    int samples = 1;
    for (int x = 0; x < table_.picture.width; ++x) {
      if (x % alike == 0 || samples == 0) samples = samples_at(table_.to_mm({x + 0.5, y + 0.5}));
      if (samples > 0) fill(x, y, samples);
    }
  }

 private:
  static constexpr int alike = 8;  // pixels in a row that are given as many places each: a photo is no finer in between

  void fill(int x, int y, int samples) {
    const std::size_t pixel =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(table_.picture.width) + static_cast<std::size_t>(x);
    std::array<double, 3> sum{};
    for (int i = 0; i < samples * samples; ++i) {
      const int across = i % samples, down = i / samples;
      const Point p = table_.to_mm({x + (across + 0.5) / samples, y + (down + 0.5) / samples});
      const auto place = shown_at(p);
      if (!place) return;
      const auto colour = colour_at(photo_, *place);
      for (std::size_t c = 0; c < 3; ++c) sum[c] += colour[c] / (samples * samples);
    }
    for (std::size_t c = 0; c < 3; ++c)
      table_.picture.rgb[3 * pixel + c] = static_cast<std::uint8_t>(std::lround(sum.at(c)));
    table_.seen[pixel] = 1;
  }
  [[nodiscard]] std::optional<Point> shown_at(Point mm) const {
    if (!(to_photo_.depth(mm) > 0)) return std::nullopt;
    const Point p = to_photo_(mm);
    const bool is_within = p.x >= 0 && p.y >= 0 && p.x <= photo_.width && p.y <= photo_.height;
    return is_within ? std::optional(p) : std::nullopt;
  }
  /// So many places each way as the photo has pixels there; none where it shows nothing.
  [[nodiscard]] int samples_at(Point mm) const {
    if (!shown_at(mm)) return 0;
    const double pixels = std::sqrt(std::abs(slope_at(to_photo_, mm).determinant())) / table_.pixels_per_mm;
    return static_cast<int>(std::clamp(std::ceil(pixels - 0.25), 1.0, static_cast<double>(most_places)));
  }

  const Photo& photo_;
  const Homography& to_photo_;
  TablePicture& table_;
};

}  // namespace

TablePicture straighten(const Photo& photo, const CardView& card, double pixels_per_mm) {
  TablePicture table;
  table.box = shown(photo, card);
  const double area = table.box.width() * table.box.height();
  table.pixels_per_mm = std::min(pixels_per_mm, std::sqrt(table_pixels / area));
  table.picture.width = std::max(1, static_cast<int>(table.box.width() * table.pixels_per_mm));
  table.picture.height = std::max(1, static_cast<int>(table.box.height() * table.pixels_per_mm));
  const std::size_t pixels =
      static_cast<std::size_t>(table.picture.width) * static_cast<std::size_t>(table.picture.height);
  table.picture.rgb.assign(3 * pixels, unseen_grey);
  table.seen.assign(pixels, 0);
  Straightener straightener(photo, card, table);
  for (int y = 0; y < table.picture.height; ++y) straightener.fill_row(y);
  return table;
}

}  // namespace ordinatio::inline photo
