// Small linear programmes. Of this folder alone.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

namespace ordinatio::inline fit {

// The programmes are solved in a unit in which the region measures about 1, so these are shares of its
// diameter.
inline constexpr double satisfied = 1e-13;  // a row violated by less holds: rounding in rows of a few terms
inline constexpr double flat = 1e-14;       // a row whose coefficients are all smaller says nothing about the unknowns
inline constexpr double far = 8;  // box around every solution: shifts stay within the region, the scale is normed

template <std::size_t D>
using Vector = std::array<double, D>;
template <std::size_t D>
struct Row {
  Vector<D> normal;
  double offset;  // normal·x ≤ offset
};
template <std::size_t D>
double product(const Vector<D>& a, const Vector<D>& b) {
  double sum = 0;
  for (std::size_t i = 0; i < D; ++i) sum += a[i] * b[i];
  return sum;
}

template <std::size_t D>
std::optional<Vector<D>> maximise(const Vector<D>& objective, const std::vector<Row<D>>& rows);

/// The x in the box |xᵢ| ≤ far that satisfies all rows and maximises objective·x, or nothing (Seidel 1991):
/// rows are taken one by one; where the optimum so far breaks a row, the new one lies on that row's plane, a
/// programme of one unknown less. Expected O(rows) when the rows come in random order. Where the best of the first
/// `solved` rows is known, only the others are taken.
template <std::size_t D>
std::optional<Vector<D>> maximise(const Vector<D>& objective, const std::vector<Row<D>>& rows, std::size_t solved,
                                  Vector<D> best) {
  for (std::size_t at = solved; at < rows.size(); ++at) {
    const Row<D>& row = rows[at];
    if (product(row.normal, best) <= row.offset + satisfied) continue;
    std::size_t pivot = 0;
    for (std::size_t i = 1; i < D; ++i) {
      if (std::abs(row.normal[i]) > std::abs(row.normal[pivot])) pivot = i;
    }
    if (std::abs(row.normal[pivot]) < flat) return std::nullopt;  // 0 ≤ a negative number
    // x[pivot] = (offset − Σ others) / normal[pivot], put into everything that came before.
    const auto reduced = [&](const Vector<D>& normal, double offset) {
      const double share = normal[pivot] / row.normal[pivot];
      Row<D - 1> result{{}, offset - share * row.offset};
      for (std::size_t i = 0, j = 0; i < D; ++i) {
        if (i != pivot) result.normal[j++] = normal[i] - share * row.normal[i];
      }
      return result;
    };
    std::vector<Row<D - 1>> before;
    before.reserve(at + 2);
    Vector<D> axis{};
    axis[pivot] = 1;
    before.push_back(reduced(axis, far));
    axis[pivot] = -1;
    before.push_back(reduced(axis, far));
    for (std::size_t i = 0; i < at; ++i) before.push_back(reduced(rows[i].normal, rows[i].offset));
    const auto lower = maximise<D - 1>(reduced(objective, 0).normal, before);
    if (!lower) return std::nullopt;
    double rest = row.offset;
    for (std::size_t i = 0, j = 0; i < D; ++i) {
      if (i == pivot) continue;
      best[i] = (*lower)[j++];
      rest -= row.normal[i] * best[i];
    }
    best[pivot] = rest / row.normal[pivot];
  }
  return best;
}

template <std::size_t D>
std::optional<Vector<D>> maximise(const Vector<D>& objective, const std::vector<Row<D>>& rows) {
  Vector<D> corner;
  for (std::size_t i = 0; i < D; ++i) corner[i] = objective[i] >= 0 ? far : -far;
  return maximise<D>(objective, rows, 0, corner);
}

/// One unknown: an interval.
template <>
inline std::optional<Vector<1>> maximise<1>(const Vector<1>& objective, const std::vector<Row<1>>& rows) {
  double low = -far, high = far;
  for (const Row<1>& row : rows) {
    const double a = row.normal[0];
    if (std::abs(a) < flat) {
      if (row.offset < -satisfied) return std::nullopt;
    } else if (a > 0) {
      high = std::min(high, row.offset / a);
    } else {
      low = std::max(low, row.offset / a);
    }
  }
  if (low > high + satisfied) return std::nullopt;
  return Vector<1>{objective[0] >= 0 ? high : low};
}

}  // namespace ordinatio::inline fit
