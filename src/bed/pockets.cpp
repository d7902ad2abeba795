#include <algorithm>
#include <cmath>

#include "bed/bed.h"

namespace ordinatio::inline bed {
namespace {

constexpr double pocket_touch = 1e-6;  // mm; pockets and edges that meet to this are not in each other's way

std::string size_text(double width, double height) {
  std::string text;
  append_number(text, width, 2);
  text += " x ";
  append_number(text, height, 2);
  return text + " mm";
}

/// The grid in numbers, whether it was given or fills the bed.
struct Grid {
  int columns = 0, rows = 0;
  Point first, pitch;
  double width = 0, height = 0;  // of a pocket
  bool turned = false;
};

/// Whether a blank of the given size goes into the pocket, and if so whether turned.
std::optional<bool> lie_in(const Jig& jig, double pocket_width, double pocket_height, double width, double height) {
  const bool straight = width <= pocket_width + pocket_touch && height <= pocket_height + pocket_touch;
  const bool turned = height <= pocket_width + pocket_touch && width <= pocket_height + pocket_touch;
  if (straight && jig.lie != Jig::Lie::quarter_turn) return false;
  if (turned && jig.lie != Jig::Lie::as_drawn) return true;
  return std::nullopt;
}

/// Of the ways in which a blank may lie, the one that it is least too large for.
std::string least_excess(const Jig& jig, double pocket_width, double pocket_height, double width, double height) {
  const Point straight{width - pocket_width, height - pocket_height},
      turned{height - pocket_width, width - pocket_height};
  const bool nearer = std::max(turned.x, turned.y) < std::max(straight.x, straight.y);
  const bool is_turned = jig.lie == Jig::Lie::quarter_turn || (jig.lie == Jig::Lie::as_fits && nearer);
  const Point over = is_turned ? turned : straight;
  return std::string(is_turned ? "lying a quarter turn " : "") + "it is " + excess_text(over.x, over.y);
}

Result<Grid> given_grid(const BedPlan& plan, double width, double height) {
  const Jig& jig = plan.jig;
  Grid grid{jig.columns, jig.rows, jig.first, {jig.pitch_x, jig.pitch_y}, jig.pocket_width, jig.pocket_height, false};
  if (grid.width <= 0 || grid.height <= 0) {
    const bool turned = jig.lie == Jig::Lie::quarter_turn;
    grid.width = turned ? height : width;
    grid.height = turned ? width : height;
  }
  const auto turned = lie_in(jig, grid.width, grid.height, width, height);
  if (!turned) {
    return jig_fault(
        jig,
        "a blank of " + size_text(width, height) + " does not fit a pocket of " + size_text(grid.width, grid.height),
        least_excess(jig, grid.width, grid.height, width, height), "Mend pocket or lie, or the design's blank");
  }
  grid.turned = *turned;
  if ((grid.columns > 1 && grid.pitch.x < grid.width - pocket_touch) ||
      (grid.rows > 1 && grid.pitch.y < grid.height - pocket_touch)) {
    return jig_fault(jig, "pockets overlap",
                     "the pitch is less than the pocket of " + size_text(grid.width, grid.height),
                     "Make the pitch larger");
  }
  return grid;
}

/// How many pockets of one size go between the edges, and where the first begins so that all are centred.
struct Row {
  int count;
  double first;
};
Row fill_row(double bed, double edge, double pocket, double gap) {
  const int count = std::max(0, static_cast<int>(std::floor((bed - 2 * edge + gap) / (pocket + gap) + pocket_touch)));
  return {count, (bed - count * pocket - (count - 1) * gap) / 2};
}

Grid filled_grid(const BedPlan& plan, double pocket_width, double pocket_height, bool turned) {
  const Jig& jig = plan.jig;
  const Row across = fill_row(plan.machine.width, jig.edge, pocket_width, jig.gap);
  const Row up = fill_row(plan.machine.height, jig.edge, pocket_height, jig.gap);
  return {across.count,
          up.count,
          {across.first, up.first},
          {pocket_width + jig.gap, pocket_height + jig.gap},
          pocket_width,
          pocket_height,
          turned};
}

Result<Grid> fill_bed(const BedPlan& plan, double width, double height) {
  const Grid straight = filled_grid(plan, width, height, false), turned = filled_grid(plan, height, width, true);
  const auto count = [](const Grid& grid) { return grid.columns * grid.rows; };
  const Grid* best = &straight;
  if (plan.jig.lie == Jig::Lie::quarter_turn) best = &turned;
  if (plan.jig.lie == Jig::Lie::as_fits && count(turned) > count(straight)) best = &turned;
  if (count(*best) > 0) return *best;
  const double room = 2 * plan.jig.edge;
  return jig_fault(plan.jig,
                   "no blank of " + size_text(width, height) + " fits the bed of " +
                       size_text(plan.machine.width, plan.machine.height),
                   "the edge leaves too little room: " +
                       least_excess(plan.jig, plan.machine.width - room, plan.machine.height - room, width, height),
                   "Mend [machine] or edge, or the design's blank");
}

/// How far a box reaches over the bed's edge, at the most.
std::string beyond_text(const Machine& bed, const Bounds& box) {
  return mm_text(std::max({-box.left, -box.bottom, box.right - bed.width, box.top - bed.height})) + " beyond";
}

/// Row and column of the pocket that comes n-th.
struct Cell {
  int column, row;
};
Cell cell_at(const Jig& jig, const Grid& grid, int n) {
  using Order = Jig::Order;
  const bool by_rows = jig.order == Order::rows_from_top || jig.order == Order::rows_from_bottom;
  const bool from_top = jig.order == Order::rows_from_top || jig.order == Order::columns_from_top;
  Cell cell = by_rows ? Cell{n % grid.columns, n / grid.columns} : Cell{n / grid.rows, n % grid.rows};
  if (from_top) cell.row = grid.rows - 1 - cell.row;
  return cell;
}

}  // namespace

Fault jig_fault(const Jig& jig, const std::string& what, const std::string& why, const std::string& mend) {
  return {what, "shop.toml, " + table_of(jig), why, mend};
}

Result<std::vector<Pocket>> place_pockets(const BedPlan& plan, double blank_width, double blank_height) {
  const Result<Grid> grid =
      plan.jig.fill_bed ? fill_bed(plan, blank_width, blank_height) : given_grid(plan, blank_width, blank_height);
  if (!grid.ok()) return grid.fault();
  std::vector<Pocket> pockets;
  for (int n = 0; n < grid->columns * grid->rows; ++n) {
    const Cell cell = cell_at(plan.jig, *grid, n);
    const double left = grid->first.x + cell.column * grid->pitch.x, bottom = grid->first.y + cell.row * grid->pitch.y;
    pockets.push_back({n + 1, {left, bottom, left + grid->width, bottom + grid->height}, grid->turned});
    const Bounds& box = pockets.back().box;
    if (box.left < -pocket_touch || box.bottom < -pocket_touch || box.right > plan.machine.width + pocket_touch ||
        box.top > plan.machine.height + pocket_touch) {
      return jig_fault(plan.jig,
                       "pocket " + std::to_string(n + 1) + " is off the bed of " +
                           size_text(plan.machine.width, plan.machine.height),
                       "rows, columns, pitch and first place it " + beyond_text(plan.machine, box) + " its edge",
                       "Take fewer rows or columns, or move the first");
    }
  }
  return pockets;
}

MaybeFault check_plan(const BedPlan& plan) {
  if (const auto marks = place_marks(plan, {}); !marks.ok()) return marks.fault();
  const Jig& jig = plan.jig;
  if (jig.fill_bed || jig.pocket_width <= 0 || jig.pocket_height <= 0) return std::nullopt;
  const bool turned = jig.lie == Jig::Lie::quarter_turn;
  const auto pockets = turned ? place_pockets(plan, jig.pocket_height, jig.pocket_width)
                              : place_pockets(plan, jig.pocket_width, jig.pocket_height);
  return pockets.ok() ? std::nullopt : MaybeFault(pockets.fault());
}

std::string excess_text(double wide, double high) {
  constexpr double least_shown = 0.005;  // mm: less is shown as nothing
  std::string text = wide > least_shown ? mm_text(wide) + " too wide" : "";
  if (high > least_shown) text += (text.empty() ? "" : " and ") + mm_text(high) + " too high";
  return text.empty() ? "a hair too large" : text;
}

double play_of(const Jig& jig) { return jig.fill_bed ? jig.gap / 2 : jig.clearance; }

bool lies_in(const Pocket& pocket, double blank_width, double blank_height, const Jig& jig) {
  const double width = pocket.turned ? blank_height : blank_width, height = pocket.turned ? blank_width : blank_height;
  const double play = play_of(jig) + pocket_touch;
  return width <= pocket.box.width() + play && height <= pocket.box.height() + play;
}

Transform blank_to_bed(const Pocket& pocket, double blank_width, double blank_height, Jig::Datum datum) {
  const double width = pocket.turned ? blank_height : blank_width, height = pocket.turned ? blank_width : blank_height;
  const Point corner{is_left(datum) ? pocket.box.left : pocket.box.right - width,
                     is_lower(datum) ? pocket.box.bottom : pocket.box.top - height};
  if (!pocket.turned) return shift_by(corner);
  // A quarter turn about the origin leaves the blank to the left of it.
  return then(quarter_turn(), shift_by(corner + Point{width, 0}));
}

}  // namespace ordinatio::inline bed
