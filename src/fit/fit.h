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

namespace ordinatio::inline fit {

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
  double for_middle = 0;        // so large a share of the size may be given up to come much nearer to the middle
};

/// A convex set by its support function: the largest n·p over its points p, for a unit normal n.
using Support = std::function<double(Point normal)>;

/// One row of the programme: support·s + normal·t ≤ offset.
struct FitRow {
  double support;
  Point normal;
  double offset;
};

// ---- programme.cpp ----
std::vector<FitRow> fit_rows(const Support& support, const ConvexRegion& region);
/// The largest copy scale·P + shift of a convex set P inside a convex region; of all places that reach it the one
/// nearest to the axis, then nearest to the middle. Nothing when no copy of positive size fits. `bounds`: the set's.
/// Exact linear programme in three unknowns (Seidel 1991, DCG 6:423), two where the block stays on the axis:
/// maximise s subject to h(aᵢ)·s + aᵢ·t ≤ bᵢ, h the support function: these are the rows. The result is within 1e-10 of
/// the best scale, relative, less what the wish gives up for the middle, and stays inside the region. Expected cost
/// O(rows).
std::optional<Placement> largest_copy(std::vector<FitRow> rows, const Bounds& bounds, const Wish& wish);
double support_of(const ConvexHull& hull, Point normal);

/// What a search among obstacles cost.
struct PartingCost {
  std::size_t nodes = 0;       // programmes solved
  bool limit_reached = false;  // then the copy is a sound one, and a larger one may have been missed
};

// ---- parted_copy.cpp ----
/// The same for several convex parts, scaled and shifted together, in an area of any shape. Each part is parted from
/// each obstacle by a line parallel to an edge of one of them, one more row of the programme: which edges, is found by
/// best-first branch and bound (Land and Doig 1960), which leaves out no choice that could be better. Among obstacles
/// the result is within 1e-10 of the best scale, relative; with none in the way it is what the convex fit gives.
std::optional<Placement> largest_copy(std::span<const ConvexHull> parts, const ClearArea& area, const Wish& wish,
                                      PartingCost* cost = nullptr);

// ---- block.cpp: blocks of lines ----

enum class Alignment { left, centre, right };
/// How large the lines of a block are beside one another.
enum class LineSizes { as_styled, same_width };

// Of a line's leading, what lies below its baseline; the rest belongs to the line below. Common practice, no source.
inline constexpr double leading_below = 0.25;

// Em, the least leading of a line whose hand climbs, as Nastaliq does: its words begin high above the line that they end
// on. Common practice, no source; faces ask for more (2.5), a display of a few lines is read with less.
inline constexpr double climbing_leading = 1.75;

/// Leading in heights of capitals, for scripts that have them; 0: by the em, as for the others.
struct CapLeading {
  double mixed = 0;     // where a line of the role has small letters
  double capitals = 0;  // where none has
};

struct BlockStyle {
  Alignment alignment = Alignment::centre;
  double leading = 1.25;    // em, baseline to baseline, at the least
  double least_gap = 0.15;  // em of ink between lines: tall marks push lines apart
  LineSizes sizes = LineSizes::as_styled;
  double width_ratio = 2;         // same_width: no line is enlarged more than that
  bool hang_punctuation = false;  // points, commas, hyphens and quotes at a line's ends do not count for alignment
  CapLeading cap_leading = {};
};

/// How a line looks beside the others of its block.
struct LineStyle {
  TextStyle text;
  double size = 1;                          // relative to the block's
  double cap_height = 0.7, x_height = 0.5;  // em, of the face
};

/// A shaped line in a block.
struct BlockLine {
  ShapedLine shaped;
  double size = 1;                          // ems of the line are so many of the block
  double cap_height = 0.7, x_height = 0.5;  // of its own em
  std::size_t role = 0;
};

/// Lines in ems of the block; the first baseline at y = 0. Aligned by ink, not by advance.
/// Lines of one role have one leading, the largest that any of them needs; where ink needs more room between two lines, all
/// lines of their roles stand as much further apart: the baselines of lines of one role and size stand equally apart.
struct Block {
  std::vector<BlockLine> lines;
  std::vector<Point> origins;  // of each line's pen start
  Bounds ink;
  Point anchor;  // the optical middle: across that of the ink, less what hangs; upright see arrange()
};
Block build_block(Typesetter& typesetter, std::vector<BlockLine> lines, const BlockStyle& style);

/// What the arrangement of a block needs to know of a line, in its own ems.
struct LineMeasure {
  Bounds ink;                                  // empty: no ink on it
  double left = 0, right = 0;                  // of what is aligned: the ink less what hangs
  double optical_top = 0, optical_bottom = 0;  // what the eye takes for the line's height: see text/optical_band.h
  double size = 1;                             // as it is styled
  double centre = 0, ink_area = 0;             // where its weight lies, and how much of it there is
  double cap_height = 0;                       // 0: its leading goes by the em
  double least_leading = 0;                    // its script's own
  bool small_letters = false;
  std::size_t role = 0;
};
LineMeasure measure_line(const ShapedLine& line, double size, double cap_height, Typesetter& typesetter,
                         const BlockStyle& style);
/// The leading of a role, em of its lines: the largest of any.
double role_leading(std::span<const LineMeasure> lines, std::size_t role, const BlockStyle& style);

/// Where lines stand in a block, and how large.
struct Arrangement {
  std::vector<Point> origins;
  std::vector<double> sizes;
  Bounds ink;
  Point anchor;
};
/// The optical middle lies between the top of the first line's band and the bottom of the last one's, and from there so
/// much of the way to the centre of the lines' weight. Ours, judged on pictures: a long line over a short one draws the
/// block down by what is seen and no more.
inline constexpr double weight_share = 0.4;
Arrangement arrange(std::span<const LineMeasure> lines, const BlockStyle& style);

/// A wish with its anchor no further from the middle of the ink than leaves the gaps above and below the ink within
/// `uneven_gaps` of one another at this size: of a block that fills the height the ink's own middle. `low` and `high`: where
/// the area begins and ends, mm.
Wish within_even_gaps(const Wish& wish, const Bounds& ink, double size, double low, double high);
inline constexpr double uneven_gaps = 1.3;  // the larger by the smaller; more is seen as a mistake; ours, no source

// ---- setting text ----

/// What may be done with the customer's lines.
enum class LineBreaks {
  kept,   // nothing
  added,  // they may be parted
  free    // they may be parted and joined
};

struct StyledLine {
  std::string text;
  std::size_t style = 0;  // which of the styles; lines of different styles are never joined
};

struct SettingRules {
  BlockStyle block;
  LineBreaks breaks = LineBreaks::kept;
  std::vector<LineStyle> styles;  // at least one
  double max_cap_height = 25;     // mm, of the largest line
  double off_axis_gain = 0.10;
  double reads_well = 0.10;  // so large a share of the size is given up for each step by which lines read better
};

// ---- widths.cpp ----
/// How far a convex region reaches to either side at every height; exact.
struct WidthProfile {
  std::vector<double> heights, lefts, rights;  // at the region's corners, from the bottom up; straight between them
  /// How far the part of the region between two heights reaches across (mm); 0 where it has none there.
  [[nodiscard]] double across(double low, double high) const;
};
WidthProfile widths_of(const ConvexRegion& region);

/// Where a block may lie, and where it is wanted.
struct SettingArea {
  ClearArea area;
  WidthProfile widths;  // of the area's region
  Point target;
  bool at_edge = false;  // the block's left or right edge, as it is aligned, is wanted at the target, not its middle
  /// Edges of other things beside the area, of which it lies on the inner side. The block keeps its own x-height from each:
  /// the larger the words, the further off. One more row of the programme each, (support + x-height)·s + n·t ≤ offset.
  std::vector<HalfPlane> neighbours = {};
  bool for_size_alone = false;  // lines are chosen for their size here, however they read
  double most_capitals = 1e6;   // mm; the largest line's capitals are no taller here, whatever the rules allow
};

struct Setting {
  Block block;
  Placement placement;
  std::vector<std::size_t> styles;   // of each line of the block
  std::vector<std::string> changes;  // what was done with the customer's lines, in plain words
};

}  // namespace ordinatio::inline fit
