// In: shaped lines in ems, and a convex region in mm.
// Out: the size and place at which the block is as large as it can be.
// Never: knows fonts' files, designs or pockets; bisects.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "geometry/geometry.h"
#include "text/text.h"

namespace ordinatio {

/// The only way from ems to mm: p ↦ size·p + shift.
struct Placement {
  double size = 0;  // mm per em
  Point shift;      // mm
  Point operator()(Point em) const { return size * em + shift; }
};

/// Where the design wants the copy, and how large it may be.
struct Wish {
  Point anchor;                 // the hull's point that is to be centred, in the hull's unit
  Point target;                 // where it is wanted, mm: the axis is x = target.x, the middle is y = target.y
  double largest = 1e6;         // upper bound of the scale
  double off_axis_gain = 0.10;  // leave the axis only when the size grows by more than this share; < 0: always free
};

/// A convex set by its support function: the largest n·p over its points p, for a unit normal n.
using Support = std::function<double(Point normal)>;

/// The largest copy scale·P + shift of a convex set P inside a convex region; of all places that reach it the one
/// nearest to the axis, then nearest to the middle. Nothing when no copy of positive size fits.
/// Exact linear programme in three unknowns (Seidel 1991, DCG 6:423), two where the block stays on the axis:
/// maximise s subject to h(aᵢ)·s + aᵢ·t ≤ bᵢ, h the support function. The result is within 1e-10 of the best scale,
/// relative, and stays inside the region. Expected cost O(edges of the region), one support each.
std::optional<Placement> largest_copy(const Support& support, const Bounds& bounds, const ConvexRegion& region,
                                      const Wish& wish);
std::optional<Placement> largest_copy(const ConvexHull& hull, const ConvexRegion& region, const Wish& wish);

/// What a search among obstacles cost.
struct PartingCost {
  std::size_t nodes = 0;       // programmes solved
  bool limit_reached = false;  // then the copy is a sound one, and a larger one may have been missed
};
/// The same for several convex parts, scaled and shifted together, in an area of any shape. Each part is parted from
/// each obstacle by a line parallel to an edge of one of them, one more row of the programme: which edges, is found by
/// best-first branch and bound (Land and Doig 1960), which leaves out no choice that could be better. Among obstacles
/// the result is within 1e-10 of the best scale, relative; with none in the way it is what the convex fit gives.
std::optional<Placement> largest_copy(std::span<const ConvexHull> parts, const ClearArea& area, const Wish& wish,
                                      PartingCost* cost = nullptr);

/// One row of the programme: support·s + normal·t ≤ offset.
struct FitRow {
  double support;
  Point normal;
  double offset;
};
std::vector<FitRow> fit_rows(const Support& support, const ConvexRegion& region);
double support_of(const ConvexHull& hull, Point normal);

// ---- blocks of lines ----

enum class Alignment { left, centre, right };

struct BlockStyle {
  Alignment alignment = Alignment::centre;
  double leading = 1.25;    // em, baseline to baseline, at the least
  double least_gap = 0.08;  // em of ink between lines: tall marks push lines apart
  double cap_height = 0.7;  // em, of the design's face
};

/// Lines of one size, in ems; the first baseline at y = 0. Aligned by ink, not by advance.
struct Block {
  std::vector<ShapedLine> lines;
  std::vector<Point> origins;  // of each line's pen start
  struct Corners {             // of one glyph's hull, which the typesetter keeps
    std::span<const Point> points;
    Point at;
    Bounds box;            // where it lies in the block
    std::size_t line = 0;  // whose it is
  };
  std::vector<Corners> corners;
  Bounds ink;
  Point anchor;  // middle of the ink across; upright the middle between the first cap line and the last
                 // baseline, or of the ink where the script has no capitals
};
/// The block's support function: its true ink hull, without the hull ever being built.
double support_of(const Block& block, Point normal);
/// The ink hulls of the block's lines, blank ones left out: what obstacles are parted from.
std::vector<ConvexHull> line_hulls(const Block& block);
/// The block refers to the typesetter's outlines, which must outlive it.
Block build_block(Typesetter& typesetter, std::vector<ShapedLine> lines, const BlockStyle& style);

}  // namespace ordinatio
