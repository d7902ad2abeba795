#include <algorithm>
#include <cmath>

#include "photo/photo_limits.h"
#include "photo/piece_mask.h"
#include "photo/straight_edges.h"

namespace ordinatio::inline photo {
namespace {

constexpr double sharp_edge = 0.8;         // of the edge points, that must be exact
constexpr std::size_t most_corners = 400;  // of an outline; a round piece of 400 mm has 60
constexpr double as_it_lies =
    1.003;  // of the smallest box's area: the box as it lies does as well, as of a round piece

Transform turn_by(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c, s, -s, c, 0, 0};
}

Bounds box_of(const Polygon& polygon) {
  Bounds box;
  for (const Point p : polygon) box.add(p);
  return box;
}

Polygon moved(const Polygon& polygon, const Transform& by) {
  Polygon result;
  for (const Point p : polygon) result.push_back(by(p));
  return result;
}

/// The turn that brings the smallest box around a polygon upright: one of its sides lies on a side of the hull (H. Freeman and
/// R. Shapira, "Determining the minimum-area encasing rectangle for an arbitrary closed curve", CACM 18(7), 1975).
double turn_upright(const Polygon& polygon) {
  const Polygon hull = hull_of(polygon).vertices;
  const auto area = [&](double turn) {
    const Bounds box = box_of(moved(hull, turn_by(turn)));
    return box.width() * box.height();
  };
  constexpr double quarter = 1.5707963267948966;
  double best = 0, least = area(0) / as_it_lies;
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const Point along = hull[(i + 1) % hull.size()] - hull[i];
    const double angle = std::atan2(along.y, along.x), turn = quarter * std::round(angle / quarter) - angle;
    if (area(turn) < least) best = turn, least = area(turn);
  }
  return best;
}

PieceProposal proposal_of(const Polygon& on_table, bool box_alone, std::string doubt) {
  const double turn = turn_upright(on_table);
  const Polygon upright = moved(on_table, turn_by(turn));
  const Bounds box = box_of(upright);
  const Point corner{box.left, box.bottom};
  PieceProposal proposal;
  proposal.outline = moved(box_alone ? polygon_of_box(box) : upright, shift_by(Point{} - corner));
  proposal.to_card = then(shift_by(corner), turn_by(-turn));
  proposal.doubt = std::move(doubt);
  return proposal;
}

/// The middles of the mask's pixels that are first or last in their row: enough for its box.
Polygon row_ends(const Mask& mask, const TablePicture& table) {
  Polygon ends;
  for (int y = 0; y < mask.height; ++y) {
    const auto row = mask.set.begin() + static_cast<std::ptrdiff_t>(mask.index(0, y)), end = row + mask.width;
    const auto first = std::find(row, end, std::uint8_t{1});
    if (first == end) continue;
    const auto left = static_cast<double>(first - row);
    auto last = end;
    while (*std::prev(last) == 0) --last;
    const auto right = static_cast<double>(last - row);
    for (const double x : {left, right})
      ends.push_back(table.to_mm({x, y + 0.0})), ends.push_back(table.to_mm({x, y + 1.0}));
  }
  return ends;
}

bool is_sharp(const std::vector<EdgePoint>& edge) {
  const auto exact = std::ranges::count_if(edge, &EdgePoint::exact);
  return static_cast<double>(exact) >= sharp_edge * static_cast<double>(edge.size());
}

}  // namespace

Result<PieceProposal> propose_piece(const TablePicture& table) {
  const auto piece = piece_mask(table);
  if (!piece.ok()) return piece.fault();
  const auto boxed = [&](std::string doubt) {
    return proposal_of(row_ends(piece->mask, table), true, std::move(doubt));
  };
  if (!piece->has_edge) return boxed(piece->doubt + "; this is only the box of what is seen of it");
  const auto edge = edge_of(piece->mask, table);
  if (!edge || !is_sharp(*edge)) return boxed("the piece's edge is not clear all around; this is only its box");
  const Polygon outline = straightened(*edge);
  if (outline.size() < 3 || outline.size() > most_corners || !(area_of(outline) > least_piece * least_piece / 4) ||
      crossing_edges(outline))
    return boxed("the piece's edge is too ragged for an outline; this is only its box");
  return proposal_of(outline, false, piece->doubt);
}

}  // namespace ordinatio::inline photo
