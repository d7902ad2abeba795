#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "photo/card.h"
#include "photo/photo_limits.h"
#include "photo/piece_mask.h"

namespace ordinatio::inline photo {
namespace {

constexpr double frame_width = 10;  // mm along the edge of what is seen
constexpr double ring_width = 12;   // mm around the card's margin
constexpr int most_rounds = 6;      // of leaving out what does not fit the table; it settles after three
constexpr double outlier = 2.5;     // times the median of the distances: what is farther is not the table
constexpr double least_spread = 3;  // steps of sRGB: a table without any noise keeps some of its pixels
constexpr std::size_t most_samples = 40'000;

using Terms = Eigen::Matrix<double, 6, 1>;
using Surface = Eigen::Matrix<double, 6, 3>;  // of a colour over the picture

/// x, y: from −1 to 1 across the picture.
Terms terms_at(double x, double y) { return Terms{1, x, y, x * x, x * y, y * y}; }

struct Sample {
  Terms terms;
  Eigen::RowVector3d colour;
};

bool lies_in(const Bounds& box, double margin, Point p) {
  return p.x > box.left - margin && p.x < box.right + margin && p.y > box.bottom - margin && p.y < box.top + margin;
}

/// How many pixels from each seen one to the nearest that is not, or beyond the edge; counted in steps to the side (at most
/// `reach`).
std::vector<std::uint8_t> steps_inside(const TablePicture& table, int reach) {
  const int width = table.picture.width, height = table.picture.height;
  std::vector<std::uint8_t> steps = table.seen;
  for (std::uint8_t& step : steps) step = step != 0 ? static_cast<std::uint8_t>(reach) : 0;
  const auto index = [&](int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  };
  const auto limit = [&](int x, int y, int from_x, int from_y) {
    const bool inside = from_x >= 0 && from_y >= 0 && from_x < width && from_y < height;
    const int most = (inside ? steps[index(from_x, from_y)] : 0) + 1;
    std::uint8_t& step = steps[index(x, y)];
    step = static_cast<std::uint8_t>(std::min<int>(step, most));
  };
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) limit(x, y, x - 1, y), limit(x, y, x, y - 1);
  }
  for (int y = height; y-- > 0;) {
    for (int x = width; x-- > 0;) limit(x, y, x + 1, y), limit(x, y, x, y + 1);
  }
  return steps;
}

/// Colours without their noise: the mean of three by three pixels.
std::array<float, 3> mean_colour(const Photo& picture, int x, int y) {
  const int left = std::max(x - 1, 0), right = std::min(x + 1, picture.width - 1);
  int red = 0, green = 0, blue = 0;
  for (int py = y - 1; py <= y + 1; ++py) {
    const std::uint8_t* row = picture.at(0, std::clamp(py, 0, picture.height - 1));
    for (const int px : {left, x, right}) {
      const std::uint8_t* pixel = row + 3L * px;
      red += pixel[0], green += pixel[1], blue += pixel[2];
    }
  }
  return {static_cast<float>(red) / 9, static_cast<float>(green) / 9, static_cast<float>(blue) / 9};
}

class Table {
 public:
  explicit Table(const TablePicture& table)
      : table_(table), inside_(steps_inside(table, std::min(200, pixels_of(frame_width)))) {}

  [[nodiscard]] bool is_on_card(int x, int y) const {
    return lies_in(card_paper, card_margin, table_.to_mm({x + 0.5, y + 0.5}));
  }
  [[nodiscard]] bool is_looked_at(int x, int y) const { return steps(x, y) > 2 && !is_on_card(x, y); }
  [[nodiscard]] double across(int x) const { return 2 * (x + 0.5) / table_.picture.width - 1; }
  [[nodiscard]] double down(int y) const { return 2 * (y + 0.5) / table_.picture.height - 1; }
  /// From the frame and from around the card, a grid of them.
  [[nodiscard]] std::vector<Sample> samples() const {
    std::vector<Sample> samples;
    const double pixels = static_cast<double>(table_.picture.width) * table_.picture.height;
    const int step = std::max(1, static_cast<int>(std::sqrt(pixels / 4 / static_cast<double>(most_samples))));
    for (int y = 0; y < table_.picture.height; y += step) {
      for (int x = 0; x < table_.picture.width; x += step) {
        const Point p = table_.to_mm({x + 0.5, y + 0.5});
        const bool surrounds = steps(x, y) < pixels_of(frame_width) || lies_in(card_paper, card_margin + ring_width, p);
        if (!surrounds || !is_looked_at(x, y)) continue;
        const auto colour = mean_colour(table_.picture, x, y);
        samples.push_back({terms_at(across(x), down(y)), {colour[0], colour[1], colour[2]}});
      }
    }
    return samples;
  }

 private:
  [[nodiscard]] int pixels_of(double mm) const { return std::max(3, static_cast<int>(mm * table_.pixels_per_mm)); }
  [[nodiscard]] int steps(int x, int y) const {
    return inside_[static_cast<std::size_t>(y) * static_cast<std::size_t>(table_.picture.width) +
                   static_cast<std::size_t>(x)];
  }

  const TablePicture& table_;
  std::vector<std::uint8_t> inside_;
};

template <class T>
T median_of(std::vector<T> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// Least squares over those samples that the last surface was near to; the first one is flat, of the median colour.
Surface fitted(const std::vector<Sample>& samples) {
  Surface surface = Surface::Zero();
  if (samples.empty()) return surface;
  for (int c = 0; c < 3; ++c) {
    std::vector<double> values;
    values.reserve(samples.size());
    for (const Sample& sample : samples) values.push_back(sample.colour(c));
    surface(0, c) = median_of(std::move(values));
  }
  for (int round = 0; round < most_rounds; ++round) {
    std::vector<double> away;
    away.reserve(samples.size());
    for (const Sample& sample : samples) away.push_back((sample.colour - sample.terms.transpose() * surface).norm());
    const double most = outlier * std::max(least_spread, median_of(away));
    Eigen::Matrix<double, 6, 6> normal = 1e-6 * Eigen::Matrix<double, 6, 6>::Identity();
    Surface right = Surface::Zero();
    for (std::size_t i = 0; i < samples.size(); ++i) {
      if (away[i] > most) continue;
      normal += samples[i].terms * samples[i].terms.transpose();
      right += samples[i].terms * samples[i].colour;
    }
    surface = normal.ldlt().solve(right);
  }
  return surface;
}

/// A surface along one row: for each colour a polynomial of the place across.
using RowSurface = std::array<std::array<double, 3>, 3>;
RowSurface along_row(const Surface& surface, double y) {
  RowSurface row{};
  for (int c = 0; c < 3; ++c) {
    row.at(static_cast<std::size_t>(c)) = {surface(0, c) + y * (surface(2, c) + y * surface(5, c)),
                                           surface(1, c) + y * surface(4, c), surface(3, c)};
  }
  return row;
}
double distance(const std::array<float, 3>& colour, const RowSurface& row, double x) {
  double squares = 0;
  for (std::size_t c = 0; c < 3; ++c) {
    const double away = colour[c] - (row[c][0] + x * (row[c][1] + x * row[c][2]));
    squares += away * away;
  }
  return std::sqrt(squares);
}

}  // namespace

std::vector<float> distances_from_table(const TablePicture& table) {
  const Table ground(table);
  const Surface surface = fitted(ground.samples());
  std::vector<float> distances;
  distances.reserve(table.seen.size());
  for (int y = 0; y < table.picture.height; ++y) {
    const RowSurface row = along_row(surface, ground.down(y));
    for (int x = 0; x < table.picture.width; ++x) {
      if (!ground.is_looked_at(x, y)) {
        distances.push_back(ground.is_on_card(x, y) ? on_the_card : out_of_sight);
        continue;
      }
      distances.push_back(static_cast<float>(distance(mean_colour(table.picture, x, y), row, ground.across(x))));
    }
  }
  return distances;
}

}  // namespace ordinatio::inline photo
