#include "raster_distance.h"

#include <algorithm>
#include <cmath>

namespace ordinatio {
namespace {

constexpr double far_off = 1e12;  // squared pixels: more than any raster is wide

struct Raster {
  int width, height;
  std::vector<double> values;
  double& at(int x, int y) {
    return values[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)];
  }
};

/// One row's lower envelope of parabolas (Felzenszwalb and Huttenlocher 2012, algorithm 1).
std::vector<double> envelope(const std::vector<double>& f) {
  const std::size_t n = f.size();
  std::vector<std::size_t> apex(n);
  std::vector<double> from(n + 1);
  std::size_t k = 0;
  apex[0] = 0;
  from[0] = -far_off;
  from[1] = far_off;
  for (std::size_t q = 1; q < n; ++q) {
    const auto meet = [&](std::size_t p) {
      const auto dq = double(q), dp = double(p);
      return ((f[q] + dq * dq) - (f[p] + dp * dp)) / (2 * (dq - dp));
    };
    double s = meet(apex[k]);
    while (k > 0 && s <= from[k]) s = meet(apex[--k]);
    apex[++k] = q;
    from[k] = s;
    from[k + 1] = far_off;
  }
  std::vector<double> d(n);
  k = 0;
  for (std::size_t q = 0; q < n; ++q) {
    while (from[k + 1] < double(q)) ++k;
    const double away = double(q) - double(apex[k]);
    d[q] = away * away + f[apex[k]];
  }
  return d;
}

/// Squared distance of each pixel to the nearest where `is_source`.
template <class IsSource>
Raster squared_distances(const Raster& raster, IsSource is_source) {
  Raster out = raster;
  for (double& value : out.values) value = is_source(value) ? 0 : far_off;
  std::vector<double> column(static_cast<std::size_t>(out.height)), row(static_cast<std::size_t>(out.width));
  for (int x = 0; x < out.width; ++x) {
    for (int y = 0; y < out.height; ++y) column[static_cast<std::size_t>(y)] = out.at(x, y);
    column = envelope(column);
    for (int y = 0; y < out.height; ++y) out.at(x, y) = column[static_cast<std::size_t>(y)];
  }
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) row[static_cast<std::size_t>(x)] = out.at(x, y);
    row = envelope(row);
    for (int x = 0; x < out.width; ++x) out.at(x, y) = row[static_cast<std::size_t>(x)];
  }
  return out;
}

/// 1 where a pixel's centre is in the ink (non-zero winding is even-odd for welded polygons), with an empty rim.
Raster drawn(const Polygons& ink, double pixel) {
  Bounds bounds;
  for (const Polygon& polygon : ink) {
    for (const Point p : polygon) bounds.add(p);
  }
  Raster raster{int(bounds.width() / pixel) + 6, int(bounds.height() / pixel) + 6, {}};
  raster.values.assign(static_cast<std::size_t>(raster.width) * static_cast<std::size_t>(raster.height), 0.0);
  for (int y = 0; y < raster.height; ++y) {
    const double line = bounds.bottom + (y - 3 + 0.5) * pixel;
    std::vector<double> crossings;
    for (const Polygon& polygon : ink) {
      for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
        if ((a.y > line) != (b.y > line)) crossings.push_back(a.x + (line - a.y) / (b.y - a.y) * (b.x - a.x));
      }
    }
    std::ranges::sort(crossings);
    for (int x = 0; x < raster.width; ++x) {
      const double place = bounds.left + (x - 3 + 0.5) * pixel;
      raster.at(x, y) = double((std::ranges::upper_bound(crossings, place) - crossings.begin()) % 2);
    }
  }
  return raster;
}

}  // namespace

double deepest_residue(const Polygons& ink, double pixel, double radius) {
  Raster raster = drawn(ink, pixel);
  const double r = radius / pixel;
  // A pixel's centre lies in the ink; the edge is half a pixel on from the last one.
  const Raster inside = squared_distances(raster, [](double value) { return value == 0; });
  const Raster opened = squared_distances(inside, [&](double square) { return std::sqrt(square) - 0.5 >= r; });
  double deepest = 0;
  for (std::size_t i = 0; i < raster.values.size(); ++i) {
    if (raster.values[i] != 0) deepest = std::max(deepest, std::sqrt(opened.values[i]) - r);
  }
  return deepest * pixel;
}

}  // namespace ordinatio
