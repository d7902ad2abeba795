// In: one cell of a blanks file.
// Out: what it says, or a Fault without a place, which whoever knows row and column adds.
// Never: knows the rest of the row. Of this folder alone.
#pragma once

#include "blanks/blanks.h"
#include "design/toml_table.h"

namespace ordinatio::inline blanks {

// ---- lengths.cpp ----
/// A length in mm; "mm" may stand behind it. `thing` says what it is, for the message: "width".
Result<double> read_length(std::string_view text, const std::string& thing, NumberRange range);

// ---- blank_chips.cpp ----
/// More chips, or things, than part_limit.
Fault too_many_parts();

// ---- blank_corners.cpp: cells ----

/// From the lower left corner on, counter-clockwise.
using CornerShapes = std::array<CornerShape, 4>;
/// `unnamed`: the corners that the cell does not name.
Result<CornerShapes> read_corners(std::string_view cell, const CornerShapes& unnamed);
/// Faults: two corners take more of a side than it has.
MaybeFault check_corners(const CornerShapes& corners, double width, double height);

// ---- blank_chips.cpp ----
/// Rectangles at the edges of a box. Faults: outside the edge, or as deep as the piece.
Result<Polygons> read_chips(std::string_view cell, double width, double height);

// ---- blank_things.cpp ----
Result<std::vector<KeptClear>> read_things(std::string_view cell);
/// Faults: one lies beside the piece, or reaches beyond the box around it.
MaybeFault check_places(const std::vector<KeptClear>& things, const Blank& blank);

// ---- blank_chips.cpp ----
Result<FactoryEdges> read_factory_edges(std::string_view cell);

// ---- blank_outline.cpp: outlines ----

Result<Polygon> read_polygon(std::string_view cell);
/// The outer edge of the largest filled shape. passed_over: gets the count of all other shapes and holes.
Result<Polygon> largest_shape(const Logo& drawing, std::size_t& passed_over);

/// A piece by its true outline.
struct Shape {
  Outline outline;   // its convex hull
  Polygons pockets;  // what the hull has and the piece has not
  double width = 0, height = 0;
  Point shift;  // by which the polygon was moved, so that its box starts at 0
};
/// Faults: the polygon crosses itself, has no area, or too many corners.
Result<Shape> shape_of(const Polygon& polygon);

// ---- blank_chips.cpp: the whole piece ----

/// Faults: what is left of it is nothing, or several pieces; a chip takes nothing from it.
MaybeFault check_chips(const Blank& blank);

/// How many parts a piece has, one that hangs by less than least_measure being a part of its own.
std::size_t parts_of(const Polygons& piece);

/// On this grid areas are cut from one another, mm; a rule shows 0.5.
inline constexpr double piece_grid = 1e-4;
/// Less is no piece and no chip but what rounding leaves on the grid, or a nick that no margin notices. mm²
inline constexpr double least_area = 0.05;

}  // namespace ordinatio::inline blanks
