#include "scene.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace ordinatio {
namespace {

constexpr Light paper{0.82, 0.80, 0.76}, ink{0.03, 0.03, 0.035};
constexpr int fine = 5;  // an edge's pixel is the mean of so many places each way

double radians(double degrees) { return degrees * std::numbers::pi / 180; }

struct Vector {
  double x, y, z;
};
Vector operator+(Vector a, Vector b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
Vector operator*(double k, Vector v) { return {k * v.x, k * v.y, k * v.z}; }
Vector cross_of(Vector a, Vector b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }

bool holds(const Polygon& polygon, Point p) {
  bool inside = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Point a = polygon[i], b = polygon[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

/// What is at a place: 0 the table, 1 paper, 2 ink, from 3 on patches.
std::size_t thing_at(const Scene& scene, const std::vector<Transform>& to_card, Point p) {
  for (std::size_t i = scene.patches.size(); i-- > 0;) {
    if (holds(scene.patches[i].shape, p)) return 3 + i;
  }
  for (const Transform& card : to_card) {
    const Point q = card(p);
    for (std::size_t mark = 0; mark < 4; ++mark) {
      const Point from_centre = q - mark_places[mark];
      if (dot(from_centre, from_centre) < mark_radius * mark_radius) return is_black_in_mark(mark, from_centre) ? 2 : 1;
    }
    // A4's half: narrower than the paper that the card allows for.
    if (q.x > -25 && q.x < 185 && q.y > -24.25 && q.y < 124.25) return 1;
  }
  return 0;
}

/// Of a turn and a shift.
Transform undone(const Transform& t) {
  return {t.xx, t.xy, t.yx, t.yy, -(t.xx * t.dx + t.yx * t.dy), -(t.xy * t.dx + t.yy * t.dy)};
}

/// A grain of the table that depends on the place alone: crossing waves of several lengths.
double grain_at(Point p) {
  return (std::sin(p.x / 1.7 + 2 * std::sin(p.y / 23)) + std::sin(p.x / 0.61 + p.y / 9.1) +
          std::sin(p.y / 2.9 - p.x / 31)) /
         3;
}

/// A camera's rays, its angles worked out once.
class Eye {
 public:
  explicit Eye(const Camera& camera) : camera_(camera) {
    const double lean = radians(camera.tilt), from = radians(camera.azimuth), turn = radians(camera.roll);
    const Vector out{std::sin(lean) * std::cos(from), std::sin(lean) * std::sin(from), std::cos(lean)};
    eye_ = Vector{camera.aim.x, camera.aim.y, 0} + camera.distance * out;
    // Before it rolls, its right side stands at right angles to the direction from which it leans over.
    const Vector right{-std::sin(from), std::cos(from), 0}, up = cross_of(out, right);
    along_ = (std::cos(turn) * right) + (std::sin(turn) * up);
    across_ = (-std::sin(turn) * right) + (std::cos(turn) * up);
    ahead_ = -camera.focal * out;
  }
  [[nodiscard]] std::optional<Point> seen_at(Point pixel) const {
    const Vector ray =
        ((pixel.x - camera_.width / 2.0) * along_) + ((camera_.height / 2.0 - pixel.y) * across_) + ahead_;
    if (ray.z >= -1e-9) return std::nullopt;
    const double s = -eye_.z / ray.z;
    return Point{eye_.x + s * ray.x, eye_.y + s * ray.y};
  }

 private:
  Camera camera_;
  Vector eye_{}, along_{}, across_{}, ahead_{};
};

class Renderer {
 public:
  explicit Renderer(const Scene& scene) : scene_(scene), eye_(scene.camera) {
    for (const Transform& card : scene.cards) to_card_.push_back(undone(card));
  }
  [[nodiscard]] std::size_t thing(Point pixel) const {
    const auto place = eye_.seen_at(pixel);
    return place ? thing_at(scene_, to_card_, *place) : 0;
  }
  /// known: what is there, if that was asked before.
  [[nodiscard]] Light light(Point pixel, std::optional<std::size_t> known = {}) const {
    const auto place = eye_.seen_at(pixel);
    if (!place) return {0.5, 0.5, 0.5};
    const std::size_t thing = known ? *known : thing_at(scene_, to_card_, *place);
    Light light = thing == 0 ? scene_.table : thing == 1 ? paper : thing == 2 ? ink : scene_.patches[thing - 3].light;
    const Camera& camera = scene_.camera;
    const double across = (pixel.x - camera.width / 2.0) / (camera.width / 2.0);
    const double down = (pixel.y - camera.height / 2.0) / (camera.height / 2.0);
    double share = (1 - scene_.vignette * (across * across + down * down) / 2) *
                   std::clamp(1 - scene_.falloff * (place->x + 50) / 300, 0.1, 1.1);
    if (thing == 0) share *= 1 + scene_.grain * grain_at(*place);
    return {share * light.red, share * light.green, share * light.blue};
  }

 private:
  const Scene& scene_;
  Eye eye_;
  std::vector<Transform> to_card_;
};

using Plane = std::vector<Light>;

Plane exposed(const Scene& scene) {
  const Renderer renderer(scene);
  const int width = scene.camera.width, height = scene.camera.height;
  const auto index = [&](int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  };
  std::vector<std::size_t> things(index(0, height));
  Plane plane(things.size());
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) things[index(x, y)] = renderer.thing({x + 0.5, y + 0.5});
  }
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      bool edge = false;
      for (int ny = std::max(0, y - 1); ny <= std::min(height - 1, y + 1); ++ny) {
        for (int nx = std::max(0, x - 1); nx <= std::min(width - 1, x + 1); ++nx)
          edge |= things[index(nx, ny)] != things[index(x, y)];
      }
      Light& sum = plane[index(x, y)];
      if (!edge) {
        sum = renderer.light({x + 0.5, y + 0.5}, things[index(x, y)]);
        continue;
      }
      for (int i = 0; i < fine * fine; ++i) {
        const Light light = renderer.light({x + (i % fine + 0.5) / fine, y + (i / fine + 0.5) / fine});
        const double share = 1.0 / (fine * fine);
        sum.red += share * light.red, sum.green += share * light.green, sum.blue += share * light.blue;
      }
    }
  }
  return plane;
}

/// A Gaussian, along rows and then along columns; the edge's pixel beyond the edge.
Plane smeared(Plane plane, int width, int height, double deviation) {
  const int reach = static_cast<int>(std::ceil(3 * deviation));
  std::vector<double> weights;
  double sum = 0;
  for (int i = -reach; i <= reach; ++i) sum += weights.emplace_back(std::exp(-i * i / (2 * deviation * deviation)));
  for (const bool rows : {true, false}) {
    const Plane before = plane;
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        Light mean;
        for (int i = -reach; i <= reach; ++i) {
          const int px = rows ? std::clamp(x + i, 0, width - 1) : x, py = rows ? y : std::clamp(y + i, 0, height - 1);
          const Light& light =
              before[static_cast<std::size_t>(py) * static_cast<std::size_t>(width) + static_cast<std::size_t>(px)];
          const double weight = weights[static_cast<std::size_t>(i + reach)] / sum;
          mean.red += weight * light.red, mean.green += weight * light.green, mean.blue += weight * light.blue;
        }
        plane[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)] = mean;
      }
    }
  }
  return plane;
}

/// sRGB's steps (IEC 61966-2-1), from a table that is finer than any step.
double srgb_of(double light) {
  constexpr std::size_t entries = 1 << 14;
  static const std::vector<float> table = [] {
    std::vector<float> values;
    for (std::size_t i = 0; i <= entries; ++i) {
      const double l = static_cast<double>(i) / entries;
      values.push_back(static_cast<float>(255 * (l <= 0.0031308 ? 12.92 * l : 1.055 * std::pow(l, 1 / 2.4) - 0.055)));
    }
    return values;
  }();
  return table[static_cast<std::size_t>(std::lround(std::clamp(light, 0.0, 1.0) * entries))];
}

}  // namespace

std::optional<Point> Camera::seen_at(Point pixel) const { return Eye(*this).seen_at(pixel); }

Photo render(const Scene& scene) {
  const int width = scene.camera.width, height = scene.camera.height;
  Plane plane = exposed(scene);
  if (scene.blur > 0) plane = smeared(std::move(plane), width, height, scene.blur);
  std::mt19937 random(scene.seed);
  // Drawn once, and taken in an order by lot: millions of draws were a fifth of a photograph's time.
  std::vector<double> noise(1U << 16U);
  std::normal_distribution<double> distribution(0, std::max(scene.noise, 1e-9));
  if (scene.noise > 0) std::ranges::generate(noise, [&] { return distribution(random); });
  std::uint32_t lot = scene.seed;
  Photo photo{width, height, std::vector<std::uint8_t>(3 * plane.size())};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto from = static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                        static_cast<std::size_t>(scene.mirrored ? width - 1 - x : x);
      std::uint8_t* rgb =
          &photo.rgb[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x))];
      for (const double light : {plane[from].red, plane[from].green, plane[from].blue}) {
        lot = 1'664'525U * lot + 1'013'904'223U;  // Numerical Recipes, section 7.1: its upper bits are good enough here
        const double value = srgb_of(light) + noise[lot >> 16U];
        *rgb++ = static_cast<std::uint8_t>(std::clamp(static_cast<int>(value + 0.5), 0, 255));
      }
    }
  }
  return photo;
}

Polygon laid(const Polygon& polygon, double degrees, Point shift) {
  const double c = std::cos(radians(degrees)), s = std::sin(radians(degrees));
  Polygon result;
  for (const Point p : polygon) result.push_back(Point{c * p.x - s * p.y, s * p.x + c * p.y} + shift);
  return result;
}

}  // namespace ordinatio
