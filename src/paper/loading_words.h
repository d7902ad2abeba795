// In: a sheet as it is to be loaded.
// Out: what is said of each pocket, and of the bed.
// Never: draws; says how a machine is set. Of this folder alone.
#pragma once

#include <string>
#include <vector>

#include "bed/bed.h"

namespace ordinatio::inline paper {

/// What a person needs to know who puts a piece into a pocket.
struct LoadingLine {
  int pocket = 0;            // 0: laid by hand
  std::string item;          // "1042-2/S"
  std::string words;         // that are engraved, in one line; may be empty
  std::string lie;           // "piece S-12 · turned: its top to the left · face down"
  std::string watch;         // "stamp at the upper left; chip at the right"; empty: nothing
  bool falls_short = false;  // it does not fill its pocket: it is pushed into the corner
};
/// By their pockets' numbers.
std::vector<LoadingLine> loading_lines(const Sheet& sheet);

/// "12 pieces · blue slate, 6 to 7.5 mm thick · bed 900 × 600 mm · remade from sheet-003"
std::string heading_for_loading(const Sheet& sheet);
/// What the designs keep clear on every piece; empty: nothing.
std::string kept_on_all(const Sheet& sheet);

/// How all of several pieces lie, where they lie alike: it is told once, and taken from the lines. Empty: they do not.
std::string lie_of_all(std::vector<LoadingLine>& lines);

/// Which way the top of a piece, as it was measured, lies on the bed: (0, 1) where it lies as it was measured.
Point top_on_bed(const SheetItem& item);
/// Where the box of a pocket lies, or of the piece where it has none.
Bounds box_on_bed(const SheetItem& item);

/// "Push each piece into the lower left corner of its pocket."; empty where there are no pockets.
std::string datum_words(const Sheet& sheet);
/// "Marks, mm from 0, 0: 1 at 12, 12 · 2 at 588, 12"; where they are engraved.
std::string mark_places_text(const Sheet& sheet);
/// "Empty: pockets 7 to 9"; nothing where none is.
std::string empty_pockets(const Sheet& sheet);

}  // namespace ordinatio::inline paper
