// In: blanks.csv, a row for every piece that was measured, and the nominal piece.
// Out: each piece as outline, chips and things kept clear; rows that contradict themselves, held with the reason.
// Never: chooses which item goes on which piece; leaves a row out without a word.
#pragma once

#include <functional>

#include "base/account.h"
#include "design/design.h"

namespace ordinatio::inline blanks {

/// Sides as the piece's maker cut them, straight and square: what a stop may lie against.
struct FactoryEdges {
  bool left = false, bottom = false, right = false, top = false;
};

struct BlankRow {
  Blank blank;
  double width = 0, height = 0;  // mm, of the box around it
  std::string note;
  std::string glass;  // annealed, or none; empty where nothing speaks of glass
  FactoryEdges factory_edges;
  std::string used;    // for what; not empty: the piece is not free
  std::string source;  // "blanks.csv:12"
};
/// Whether the piece is any other than the nominal one, by shape or by what is on it.
bool differs(const BlankRow& row, const Outline& nominal);

struct Blanks {
  std::vector<BlankRow> rows;          // in the order of the file
  std::vector<HeldItem> held;          // rows that contradict themselves; the others go on
  std::vector<HeldItem> not_engraved;  // of these, those whose words speak of safety glass, or leave it open
  std::vector<std::string> notes;
};

/// Columns, by their headers in any order and any capitals: id, material, glass, width, height, thickness, corners, chips,
/// keep_clear, outline, factory_edges, used, note. All but id may be absent, and any cell but an id empty: then the piece
/// is the nominal one there. Lengths are mm; places are measured from the lower-left corner of the box around the piece.
///   corners        `cut 10`, for all four, or `lower-left r18; ur cut 12x8`: those that are not named are as the nominal ones
///   chips          `top 40-62 7; left 0-9 4`: edge, from-to along it (from the left or from the bottom), depth
///   keep_clear     `old stamp 20 30 25 12; hole round 15 15 3 margin 4`: name, left, bottom, width, height; or name,
///                  centre and radius
///   outline        `0,0 150,0 148,99 3,101`, or `S-12.svg` beside the file: the largest filled shape in it, in mm
///   factory_edges  `left bottom`
///   glass          `annealed`, or `none`; see glass.h for what is held
/// Faults only where nothing can be read: no file, empty, no column id, a column that is there twice.
Result<Blanks> read_blanks(const std::filesystem::path& csv, double nominal_width, double nominal_height,
                           const Outline& nominal);

/// The same from such a file's bytes; csv: where it lies, or would lie, for messages and for drawings beside it.
Result<Blanks> blanks_in(std::string_view bytes, const std::filesystem::path& csv, double nominal_width,
                         double nominal_height, const Outline& nominal);

/// Gives the drawing of that name, see read_logo.
using ReadDrawing = std::function<Result<Logo>(const std::string& name)>;
/// The same from the text of such a file. text: UTF-8 without BOM; file: its name, for messages.
Result<Blanks> parse_blanks(std::string_view text, const std::string& file, double nominal_width, double nominal_height,
                            const Outline& nominal, const ReadDrawing& read_drawing);

// ---- limits; a row that reaches one is held ----
inline constexpr double least_side = 1;       // mm: no piece is smaller
inline constexpr double least_measure = 0.1;  // mm, of a chip or a thing: a rule shows no less
inline constexpr double rule_slack = 1;       // mm a thing may reach beyond the box: two measures, each half a mm off
inline constexpr double box_slack = 0.5;      // mm between an outline's box and width or height: a rule's half mm
inline constexpr std::size_t corner_limit = 2'000;  // of an outline: a path traced finely around a photograph has fewer
inline constexpr std::size_t part_limit = 100;      // chips, or things, of one piece

}  // namespace ordinatio::inline blanks
