#include "bed/palette.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

namespace ordinatio::inline bed {
namespace {

constexpr int last_primary = 6;  // from 1 on: what every reader draws alike
constexpr int first_shade = 10, last_shade = 249, shades_of_a_step = 10;
constexpr int steps_of_a_side = 4;  // from one of the six plain colours to the next
constexpr int full_channel = 255;
constexpr double same_sum = 1e-9;  // degrees: of sums that differ by rounding the first stands
constexpr int greys[] = {8, 9, 250, 251, 252, 253, 254};

/// The plain or full colour that an index is, or is a darker or paler shade of.
std::optional<Colour> full_colour_of(int index) {
  int step = 0;
  if (index >= 1 && index <= last_primary) {
    step = steps_of_a_side * (index - 1);
  } else if (index >= first_shade && index <= last_shade) {
    step = index / shades_of_a_step - 1;
  } else {
    return std::nullopt;
  }
  const int part = step % steps_of_a_side;
  const auto up = static_cast<std::uint8_t>(full_channel * part / steps_of_a_side);
  const auto down = static_cast<std::uint8_t>(full_channel * (steps_of_a_side - part) / steps_of_a_side);
  const Colour around[] = {{full_channel, up, 0},   {down, full_channel, 0}, {0, full_channel, up},
                           {0, down, full_channel}, {up, 0, full_channel},   {full_channel, 0, down}};
  return around[step / steps_of_a_side];
}

/// sRGB's part as light (IEC 61966-2-1).
double light_of(std::uint8_t part) {
  const double value = part / double{full_channel};
  return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

/// The cube root of CIE 1976 L*a*b*, a line near zero.
double response(double share) {
  constexpr double bend = 216.0 / 24389, slope = 24389.0 / 27;
  return share > bend ? std::cbrt(share) : (slope * share + 16) / 116;
}

/// How far an index is from a colour's hue; a grey is equally far from all.
double distance(std::optional<double> hue, int index) { return hue ? between_hues(*hue, *hue_of_index(index)) : 180; }

/// Hands indices out to the operations that run.
class IndexChoice {
 public:
  IndexChoice(const Colours& colours, const ChosenIndices& chosen) {
    for (std::size_t i = 0; i < colours.size(); ++i) {
      hues_[i] = hue_of(colours[i]);
      if (chosen[i]) give(i, *chosen[i]);
    }
  }

  Indices take() {
    const std::vector<std::size_t> automatic = by_nearness();
    std::vector<std::size_t> waiting = automatic;
    std::erase_if(waiting, [this](std::size_t operation) {
      const int wanted = nearest_primary(operation);
      if (!is_free(wanted)) return false;
      give(operation, wanted);
      return true;
    });
    for (const std::size_t operation : waiting) give(operation, nearest_between(operation));
    share_out(automatic);
    give_grey(static_cast<std::size_t>(Operation::guide));
    return indices_;
  }

 private:
  void give(std::size_t operation, int index) { indices_[operation] = index; }
  [[nodiscard]] bool is_free(int index) const {
    return std::ranges::none_of(indices_, [index](int taken) { return taken != 0 && drawn_alike(taken, index); });
  }

  [[nodiscard]] int nearest_primary(std::size_t operation) const {
    int best = 1;
    for (int index = 2; index <= last_primary; ++index) {
      if (distance(hues_[operation], index) < distance(hues_[operation], best)) best = index;
    }
    return best;
  }

  [[nodiscard]] int nearest_between(std::size_t operation) const {
    int best = 0;
    for (int index = first_shade; index <= last_shade; index += shades_of_a_step) {
      const bool is_plain = (index / shades_of_a_step - 1) % steps_of_a_side == 0;
      if (is_plain || !is_free(index)) continue;
      if (best == 0 || distance(hues_[operation], index) < distance(hues_[operation], best)) best = index;
    }
    return best;  // there are 18, and four operations
  }

  /// Operations that run and have no index, the nearest to one of 1 to 6 first.
  [[nodiscard]] std::vector<std::size_t> by_nearness() const {
    std::vector<std::size_t> operations;
    for (const Operation operation : all_operations) {
      const auto i = static_cast<std::size_t>(operation);
      if (operation != Operation::guide && indices_[i] == 0) operations.push_back(i);
    }
    std::ranges::stable_sort(operations, {}, [this](std::size_t i) { return distance(hues_[i], nearest_primary(i)); });
    return operations;
  }

  /// Of all ways to share these operations' indices out among them, the one with the least sum of degrees.
  void share_out(const std::vector<std::size_t>& operations) {
    std::vector<std::size_t> order(operations.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const Indices before = indices_;
    double least = 1e300;
    do {
      double sum = 0;
      for (std::size_t i = 0; i < order.size(); ++i)
        sum += distance(hues_[operations[i]], before[operations[order[i]]]);
      if (sum >= least - same_sum) continue;
      least = sum;
      for (std::size_t i = 0; i < order.size(); ++i) give(operations[i], before[operations[order[i]]]);
    } while (std::ranges::next_permutation(order).found);
  }

  void give_grey(std::size_t guide) {
    if (indices_[guide] == 0) give(guide, *std::ranges::find_if(greys, [this](int grey) { return is_free(grey); }));
  }

  std::array<std::optional<double>, all_operations.size()> hues_;
  Indices indices_{};  // 0: none yet
};

}  // namespace

std::optional<double> hue_of(Colour colour) {
  const int chroma =
      std::max({colour.red, colour.green, colour.blue}) - std::min({colour.red, colour.green, colour.blue});
  if (chroma < least_chroma) return std::nullopt;
  const double red = light_of(colour.red), green = light_of(colour.green), blue = light_of(colour.blue);
  // To CIE XYZ under D65, by sRGB's primaries; figures from memory, held against known hues in the tests.
  const double x = (0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047;
  const double y = 0.2126729 * red + 0.7151522 * green + 0.0721750 * blue;
  const double z = (0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / 1.08883;
  const double a = 500 * (response(x) - response(y)), b = 200 * (response(y) - response(z));
  return std::fmod(std::atan2(b, a) * 180 / std::numbers::pi + 360, 360);
}

std::optional<double> hue_of_index(int index) {
  const auto colour = full_colour_of(index);
  return colour ? hue_of(*colour) : std::nullopt;
}

bool is_grey_index(int index) { return std::ranges::find(greys, index) != std::end(greys); }

bool drawn_alike(int one, int other) {
  const auto is_full = [](int index) { return index <= last_primary || index % shades_of_a_step == 0; };
  if (one == other || !is_full(one) || !is_full(other)) return one == other;
  const auto a = full_colour_of(one), b = full_colour_of(other);
  return a && b && *a == *b;
}

double between_hues(double one, double other) {
  const double apart = std::abs(one - other);
  return std::min(apart, 360 - apart);
}

Palette palette_of(const Colours& colours, const ChosenIndices& chosen) {
  return {colours, IndexChoice(colours, chosen).take()};
}

}  // namespace ordinatio::inline bed
