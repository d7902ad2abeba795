#include <algorithm>
#include <cmath>
#include <numbers>

#include "photo/components.h"
#include "photo/marks.h"

namespace ordinatio::inline photo {
namespace {

// As shares of a mark's ellipse. Drawn, the light quarters are 0.30 of it; blur and the threshold move that.
constexpr double least_light = 0.15, most_light = 0.5;
constexpr double light_askew = 0.2;       // of the narrower semi-axis: how far the middle of the light parts may be off
constexpr double out_of_round = 0.03;     // area beside that of the ellipse of its moments; a square's is 0.045 less
constexpr double least_fill = 0.2;        // dark pixels in their box; a slender ellipse on the diagonal has 0.3
constexpr double largest_share = 0.4;     // of the picture's sides: a mark is no larger
constexpr std::size_t least_dark = 50;    // pixels: a radius of five
constexpr double darker = 0.6;            // than the mean around: ink on paper has a tenth of the paper's light
constexpr std::array windows{4, 10, 24};  // parts of the shorter side: for large and small marks, and for hard shadows

/// Sums of light over all rectangles from the first pixel on.
class LightSums {
 public:
  explicit LightSums(const Brightness& brightness)
      : width_(static_cast<std::size_t>(brightness.width) + 1),
        sums_(width_ * (static_cast<std::size_t>(brightness.height) + 1)) {
    for (int y = 0; y < brightness.height; ++y) {
      double row = 0;
      for (int x = 0; x < brightness.width; ++x) {
        row += brightness.at(x, y);
        sums_[index(x + 1, y + 1)] = sums_[index(x + 1, y)] + row;
      }
    }
  }
  [[nodiscard]] double mean(int left, int top, int right, int bottom) const {
    const double sum =
        sums_[index(right, bottom)] - sums_[index(left, bottom)] - sums_[index(right, top)] + sums_[index(left, top)];
    return sum / (static_cast<double>(right - left) * (bottom - top));
  }

 private:
  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * width_ + static_cast<std::size_t>(x);
  }
  std::size_t width_;
  std::vector<double> sums_;
};

/// Pixels darker than their surroundings (D. Bradley and G. Roth, "Adaptive thresholding using the integral image", Journal of
/// Graphics Tools 12(2), 2007).
Mask dark_pixels(const Brightness& brightness, const LightSums& sums, int reach) {
  Mask mask = empty_mask(brightness.width, brightness.height);
  for (int y = 0; y < mask.height; ++y) {
    const int top = std::max(0, y - reach), bottom = std::min(mask.height, y + reach + 1);
    for (int x = 0; x < mask.width; ++x) {
      const double around = sums.mean(std::max(0, x - reach), top, std::min(mask.width, x + reach + 1), bottom);
      mask.set[mask.index(x, y)] = brightness.at(x, y) < darker * around ? 1 : 0;
    }
  }
  return mask;
}

/// The component alone in its box, with a pixel of air around; what it encloses is set in the second mask.
struct Enclosure {
  Mask part, enclosed;
};
Enclosure enclosure_of(const Component& component, int mask_width) {
  const int width = component.right - component.left + 2, height = component.bottom - component.top + 2;
  Enclosure result{empty_mask(width, height), empty_mask(width, height)};
  for (const std::uint32_t pixel : component.pixels) {
    const int x = static_cast<int>(pixel) % mask_width, y = static_cast<int>(pixel) / mask_width;
    result.part.set[result.part.index(x - component.left + 1, y - component.top + 1)] = 1;
  }
  Mask outside = result.part;
  for (std::uint8_t& set : outside.set) set = set == 0 ? 1 : 0;
  for (const Component& light : components_of(outside, Neighbours::four, 1)) {
    if (light.left == 0) continue;  // it reaches the box's edge
    for (const std::uint32_t pixel : light.pixels) result.enclosed.set[pixel] = 1;
  }
  return result;
}

/// Count, middle and second moments of pixels, each a square of its own.
struct Moments {
  double count = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
  void add(double px, double py) {
    ++count, x += px, y += py;
    xx += px * px, xy += px * py, yy += py * py;
  }
  [[nodiscard]] Point middle() const { return {x / count, y / count}; }
};

std::optional<SeenMark> mark_of(const Component& component, const Brightness& brightness) {
  const double box = static_cast<double>(component.right - component.left) * (component.bottom - component.top);
  if (static_cast<double>(component.pixels.size()) < least_fill * box) return std::nullopt;
  const Enclosure enclosure = enclosure_of(component, brightness.width);
  Moments whole, light;
  SeenMark mark;
  for (int y = 0; y < enclosure.part.height; ++y) {
    for (int x = 0; x < enclosure.part.width; ++x) {
      const bool is_dark = enclosure.part.at(x, y), is_light = enclosure.enclosed.at(x, y);
      if (!is_dark && !is_light) continue;
      const int px = component.left + x - 1, py = component.top + y - 1;
      whole.add(px + 0.5, py + 0.5);
      if (is_light) light.add(px + 0.5, py + 0.5);
      (is_light ? mark.light : mark.dark) += brightness.at(px, py);
    }
  }
  const double share = light.count / whole.count;
  if (!(share > least_light && share < most_light)) return std::nullopt;
  mark.light /= light.count, mark.dark /= whole.count - light.count;
  mark.centre = whole.middle();
  mark.xx = whole.xx / whole.count - mark.centre.x * mark.centre.x + 1.0 / 12;
  mark.xy = whole.xy / whole.count - mark.centre.x * mark.centre.y;
  mark.yy = whole.yy / whole.count - mark.centre.y * mark.centre.y + 1.0 / 12;
  if (!(std::abs(whole.count / mark.area() - 1) < out_of_round)) return std::nullopt;
  if (!(length(light.middle() - mark.centre) < light_askew * mark.narrower())) return std::nullopt;
  return mark;
}

/// The better of two that are the same disc, at two thresholds: the one with more of a difference between dark and light.
void take_in(std::vector<SeenMark>& marks, const SeenMark& mark) {
  for (SeenMark& other : marks) {
    if (length(other.centre - mark.centre) > other.narrower()) continue;
    if (mark.light - mark.dark > other.light - other.dark) other = mark;
    return;
  }
  marks.push_back(mark);
}

}  // namespace

double SeenMark::area() const { return 4 * std::numbers::pi * std::sqrt(std::max(0.0, xx * yy - xy * xy)); }
double SeenMark::narrower() const {
  const double smaller = (xx + yy) / 2 - std::hypot((xx - yy) / 2, xy);
  return 2 * std::sqrt(std::max(0.0, smaller));
}

std::vector<SeenMark> seen_marks(const Brightness& brightness) {
  const LightSums sums(brightness);
  const int shorter = std::min(brightness.width, brightness.height);
  std::vector<SeenMark> marks;
  for (const int parts : windows) {
    const Mask dark = dark_pixels(brightness, sums, std::max(2, shorter / parts / 2));
    for (const Component& component : components_of(dark, Neighbours::eight, least_dark)) {
      const int width = component.right - component.left, height = component.bottom - component.top;
      if (width > largest_share * brightness.width || height > largest_share * brightness.height) continue;
      if (const auto mark = mark_of(component, brightness)) take_in(marks, *mark);
    }
  }
  std::ranges::stable_sort(marks, [](const SeenMark& a, const SeenMark& b) { return a.area() > b.area(); });
  if (marks.size() > most_seen) marks.resize(most_seen);
  return marks;
}

}  // namespace ordinatio::inline photo
