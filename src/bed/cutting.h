// In: a pane of reclaimed glass or slate, the piece that is wanted, the saw's kerf.
// Out: the guillotine cutting plan with most pieces, then most of the factory's edges and corners kept.
// Never: cuts tempered glass; cuts through what is to be kept whole; says what a blade or a hand can do.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline bed {

/// A choice of a rectangle's four sides.
struct Sides {
  bool left = false, bottom = false, right = false, top = false;
  [[nodiscard]] int count() const { return left + bottom + right + top; }
  /// Corners between two chosen sides.
  [[nodiscard]] int corners() const { return (left + right) * (bottom + top); }
  friend bool operator==(const Sides&, const Sides&) = default;
};

struct PaneThing {
  /// clear: no piece takes any of it in; the blade may. whole: no cut goes through it; it ends up in one piece, or in waste
  /// where a piece would cost another piece or a factory edge or corner.
  enum class Kind { clear, whole } kind = Kind::clear;
  Bounds box;  // mm from the pane's lower-left corner
  std::string name;
};

struct Pane {
  std::string id;
  double width = 0, height = 0;  // mm
  Sides factory;                 // edges that are the factory's: straight, finished, not cut again
  bool tempered = false;
  std::vector<PaneThing> things;
};

struct CuttingTask {
  double piece_width = 0, piece_height = 0;  // mm; a piece may lie a quarter turn round
  double kerf = 0;                           // mm that the blade takes; 0 for glass that is scored and broken
};

/// A piece as it lies in the pane.
struct CutPiece {
  Bounds place;                   // pane mm
  bool turned = false;            // it lies a quarter turn counter-clockwise
  Sides factory;                  // its own sides, as it stands upright
  std::vector<PaneThing> things;  // that lie on it; mm from its own lower-left corner, as it stands upright
};

/// The pane, or what comes of it by cuts.
struct PanePart {
  Bounds box;  // pane mm
  enum class Fate { cut, piece, waste } fate = Fate::waste;
  std::size_t piece = 0;  // which of the plan's, where it is one
};

/// One cut through a part, from edge to edge. The blade takes [blade, blade + kerf], some of it perhaps beyond the part.
struct Cut {
  std::size_t part = 0;              // which of the plan's parts it goes through
  bool upright = true;               // else level
  double blade = 0;                  // pane mm, x of an upright cut, y of a level one
  bool from_far = false;             // measured from the part's right or upper edge, else from its left or lower one
  double measure = 0;                // mm from that edge to the near face of the blade
  std::optional<std::size_t> lower;  // the part on the left or below; absent: the blade takes it all
  std::optional<std::size_t> upper;  // the part on the right or above
  [[nodiscard]] const std::optional<std::size_t>& measured() const { return from_far ? upper : lower; }
  [[nodiscard]] const std::optional<std::size_t>& rest() const { return from_far ? lower : upper; }
};

struct CuttingPlan {
  Pane pane;
  CuttingTask task;
  std::vector<PanePart> parts;   // the first is the pane
  std::vector<Cut> cuts;         // in the order in which they are made
  std::vector<CutPiece> pieces;  // in the order in which they come off the saw
  bool is_best = true;           // else patience ended, and only the most promising cuts were tried
  [[nodiscard]] int factory_edges() const;
  [[nodiscard]] int factory_corners() const;
};

/// "W3-2": the pane's id and the piece's number, from 1.
std::string piece_id(const CuttingPlan& plan, std::size_t piece);

// Limits on hostile input; beyond them there is a Fault.
inline constexpr double longest_pane_side = 10'000;   // mm; no saw bench of a small workshop takes more
inline constexpr double widest_kerf = 50;             // mm; no blade is so thick
inline constexpr std::size_t most_things = 6;         // on a pane; each multiplies the places where cuts may lie
inline constexpr std::size_t most_sums = 1'000;       // sums of piece sides along the pane's longer side
inline constexpr std::size_t most_spans = 100'000;    // sums along one side times sums along the other: memory
inline constexpr std::size_t most_tries = 6'000'000;  // of cuts through parts with things in them: some seconds

/// The best plan: most pieces; of those most factory edges on pieces; then most factory corners (both edges the factory's);
/// then most whole things on a piece; then fewest cuts. Exact but for the last where things lie on the pane: cuts lie at
/// sums of piece sides from either end (normal patterns: Herz 1972; Christofides and Whitlock 1977; from memory), and at
/// things' edges and such sums from them. Where that would be more than `patience` cuts to try, only the most promising
/// are, and the plan says so. Lengths count to a thousandth of a millimetre. A plan may have no piece.
/// Faults: tempered glass; a size that is no length, a thing off the pane, the limits above.
Result<CuttingPlan> plan_cutting(const Pane& pane, const CuttingTask& task, std::size_t patience = most_tries);

}  // namespace ordinatio::inline bed
