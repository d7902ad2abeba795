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

/// What rows leave of one unknown.
class Interval {
 public:
  /// False where the row leaves nothing by itself.
  bool take(const Row<1>& row) {
    const double a = row.normal[0];
    if (std::abs(a) < flat) return !(row.offset < -satisfied);
    if (a > 0) {
      high_ = std::min(high_, row.offset / a);
    } else {
      low_ = std::max(low_, row.offset / a);
    }
    return true;
  }
  [[nodiscard]] std::optional<Vector<1>> best(const Vector<1>& objective) const {
    if (low_ > high_ + satisfied) return std::nullopt;
    return Vector<1>{objective[0] >= 0 ? high_ : low_};
  }

 private:
  double low_ = -far, high_ = far;
};

template <std::size_t D>
std::optional<Vector<D>> maximise(const Vector<D>& objective, const std::vector<Row<D>>& rows);

/// On the plane of one row x[pivot] = (offset − Σ others) / normal[pivot]: a row of one unknown less.
template <std::size_t D>
Row<D - 1> on_plane(const Row<D>& plane, std::size_t pivot, const Vector<D>& normal, double offset) {
  const double share = normal[pivot] / plane.normal[pivot];
  Row<D - 1> result{{}, offset - share * plane.offset};
  for (std::size_t i = 0, j = 0; i < D; ++i) {
    if (i != pivot) result.normal[j++] = normal[i] - share * plane.normal[i];
  }
  return result;
}

/// The best on the plane of row `at`, by the rows before it and the box. `before`: room for them, used again and again.
template <std::size_t D>
std::optional<Vector<D - 1>> best_on_plane(const Vector<D>& objective, const std::vector<Row<D>>& rows, std::size_t at,
                                           std::size_t pivot, std::vector<Row<D - 1>>& before) {
  const Row<D>& plane = rows[at];
  const Vector<D - 1> along = on_plane<D>(plane, pivot, objective, 0).normal;
  Vector<D> axis{}, back{};
  axis[pivot] = 1, back[pivot] = -1;
  if constexpr (D == 2) {  // an interval needs no list
    Interval left;
    if (!left.take(on_plane<D>(plane, pivot, axis, far)) || !left.take(on_plane<D>(plane, pivot, back, far)))
      return std::nullopt;
    for (std::size_t i = 0; i < at; ++i) {
      if (!left.take(on_plane<D>(plane, pivot, rows[i].normal, rows[i].offset))) return std::nullopt;
    }
    return left.best(along);
  } else {
    before.clear();
    before.reserve(rows.size() + 1);
    before.push_back(on_plane<D>(plane, pivot, axis, far));
    before.push_back(on_plane<D>(plane, pivot, back, far));
    for (std::size_t i = 0; i < at; ++i) before.push_back(on_plane<D>(plane, pivot, rows[i].normal, rows[i].offset));
    return maximise<D - 1>(along, before);
  }
}

/// The x in the box |xᵢ| ≤ far that satisfies all rows and maximises objective·x, or nothing (Seidel 1991):
/// rows are taken one by one; where the optimum so far breaks a row, the new one lies on that row's plane, a
/// programme of one unknown less. Expected O(rows) when the rows come in random order. Where the best of the first
/// `solved` rows is known, only the others are taken.
template <std::size_t D>
std::optional<Vector<D>> maximise(const Vector<D>& objective, const std::vector<Row<D>>& rows, std::size_t solved,
                                  Vector<D> best) {
  std::vector<Row<D - 1>> before;
  for (std::size_t at = solved; at < rows.size(); ++at) {
    const Row<D>& row = rows[at];
    if (product(row.normal, best) <= row.offset + satisfied) continue;
    std::size_t pivot = 0;
    for (std::size_t i = 1; i < D; ++i) {
      if (std::abs(row.normal[i]) > std::abs(row.normal[pivot])) pivot = i;
    }
    if (std::abs(row.normal[pivot]) < flat) return std::nullopt;  // 0 ≤ a negative number
    const auto lower = best_on_plane<D>(objective, rows, at, pivot, before);
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
  Interval left;
  for (const Row<1>& row : rows) {
    if (!left.take(row)) return std::nullopt;
  }
  return left.best(objective);
}

}  // namespace ordinatio::inline fit
