// In: artworks of items, and the workshop's machine, jig and marks.
// Out: sheets: one bed-load each, all paths placed in bed millimetres, origin at the bed's lower left.
// Never: reads orders or writes files.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/base.h"
#include "bed/palette.h"
#include "bed/registration.h"
#include "design/design.h"
#include "geometry/geometry.h"

namespace ordinatio::inline bed {

struct Machine {
  double width = 600, height = 400;  // mm of bed
  double spot = 0.1;                 // mm, the beam's width where it marks: thinner strokes cannot be drawn
  /// mm, by how much pieces of one sheet may differ in thickness: the beam is focused once a sheet. The default is the
  /// depth within which an infrared beam of 10.6 µm that is 0.1 mm wide grows no wider than 1.41 times that, 2πr²/λ (a
  /// Gaussian beam; from memory).
  double thickness_spread = 1.5;
  std::string name = {};  // in a workshop of several; empty: its only one
};

/// Pockets in a grid. Either all of rows, columns, pitch and first pocket are set, or the bed is filled with
/// a gap.
struct Jig {
  bool fill_bed = true;
  int columns = 0, rows = 0;
  double pitch_x = 0, pitch_y = 0;             // mm, pocket to pocket
  Point first;                                 // mm, lower-left corner of the lower-left pocket
  double pocket_width = 0, pocket_height = 0;  // mm; 0: the blank as it lies
  double gap = 10,
         edge = 20;  // mm, when filling: between pockets, and to the bed's edge (room for the marks)
  /// How blanks lie: as drawn, a quarter turn counter-clockwise, or whichever the pocket takes (as drawn
  /// first).
  enum class Lie { as_drawn, quarter_turn, as_fits } lie = Lie::as_fits;
  enum class Order {
    rows_from_top,
    rows_from_bottom,
    columns_from_top,
    columns_from_bottom
  } order = Order::rows_from_top;
  /// The corner of its pocket that a blank is pushed into: what is shorter than the pocket lies there too.
  enum class Datum { lower_left, lower_right, upper_left, upper_right } datum = Datum::lower_left;
  double clearance = 0.5;  // mm, by which a cut hole is larger than the piece, on the sides away from the datum
  double kerf = 0.2;       // mm, what the beam takes; common practice 0.1 to 0.3, no source: a slit is measured
  double notch = 20;       // mm across, of a hole's finger notches; 0: none
  std::string name = {};   // of [jig.NAME]; empty: the workshop's plain [jig]
};
/// As shop.toml has it: "[jig]", "[jig.large]".
inline std::string table_of(const Jig& jig) { return jig.name.empty() ? "[jig]" : "[jig." + jig.name + "]"; }
inline bool is_left(Jig::Datum datum) { return datum == Jig::Datum::lower_left || datum == Jig::Datum::upper_left; }
inline bool is_lower(Jig::Datum datum) { return datum == Jig::Datum::lower_left || datum == Jig::Datum::lower_right; }

struct Pocket {
  int number = 0;       // from 1
  Bounds box;           // bed mm
  bool turned = false;  // the blank lies a quarter turn counter-clockwise; on one sheet each pocket as its blank lies
};

struct MarkPlan {
  enum class Kind { cross, ring, target } kind = Kind::cross;
  double size = 8;            // mm across
  std::vector<Point> places;  // bed mm; empty: chosen near the bed's corners
  int count = 4;              // 3 or 4, when chosen
};

/// How the workshop lays sheets out.
struct BedPlan {
  Machine machine;
  Jig jig;
  MarkPlan marks;
  Palette palette;
  bool scale_bar = true;  // 100 mm, on the guide operation
};

struct Item {
  std::string id;  // "1042-2"
  std::string design;
  Inscription inscription;
  std::string source;         // file:line of the order
  std::string number = {};    // the serial number that is engraved on it; empty: none
  std::string customer = {};  // who ordered it, for people; empty: not known
  ToldLanguage told = {};     // in whose forms its words are set; kept, so that they come out the same again
  SettingWish setting = {};   // its own, kept for the same; `design` is what it names
};

/// One item in its pocket.
struct SheetItem {
  Item item;
  Artwork artwork;
  int pocket = 0;    // 0: laid by hand
  Transform to_bed;  // blank mm → bed mm
};

/// Paths of one operation that belong together: an item's ink, a mark, a guide outline.
struct SheetPart {
  Operation operation;
  std::string id;          // ASCII, unique within the operation: "1042-2", "mark-1", "pocket-3", "scale-bar"
  std::string title;       // for people; never a customer's name
  Path path;               // bed mm
  std::string layer = {};  // of its own in a DXF; empty: its operation's
};

/// A bed laid out for blanks of one size: what all its sheets share. Blanks of another design may lie among them where
/// their pockets are the same, turned or not.
struct Frame {
  BedPlan plan;
  double blank_width = 0, blank_height = 0;  // mm, of the first design on the sheet
  std::vector<Pocket> pockets;
  std::vector<Point> marks;
};

/// That a sheet was laid to what was measured on the machine.
struct Correction {
  /// By marks of the frame: all that is drawn moves, but for the scale bar, which is the file's and stays 100 mm.
  /// By corners: one item lies where its blank was measured to lie, in no pocket.
  enum class By { marks, corners } by = By::marks;
  std::vector<int> numbers;  // of the marks, or of the corners, counter-clockwise from the lower left; from 1
  Registration registration;
};

struct Sheet {
  std::string name;  // "sheet-001"; also the files' stem
  int number = 1;    // of the run, from 1
  Frame frame;
  std::vector<SheetItem> items;
  std::vector<SheetPart> parts;                // grouped by operation, in the operations' order
  std::map<std::string, std::string> designs;  // name → checksum, of the designs on the sheet
  std::string date;                            // ISO 8601, where a design has a date mark; else empty
  std::string remake_of;                       // the sheet that the item is remade from; else empty
  std::optional<Correction> correction{};      // absent: all lies as it was drawn
};

// ---- pockets.cpp ----
Fault jig_fault(const Jig& jig, const std::string& what, const std::string& why, const std::string& mend);
/// The pockets for a blank of the given size, in pocket order. Faults: the blank does not fit a pocket, a
/// pocket is off the bed or overlaps another, no pocket fits at all.
Result<std::vector<Pocket>> place_pockets(const BedPlan& plan, double blank_width, double blank_height);
/// What is wrong with the plan whatever the blank is: pockets of a given size, or marks, that are not where they can be.
MaybeFault check_plan(const BedPlan& plan);
/// By how much a piece is too large for a pocket, as it lies: "57 mm too wide and 46 mm too high".
std::string excess_text(double wide, double high);
/// By how much a piece may be larger than its pocket: on a bed without a board, where its neighbour's half of the gap
/// begins.
double play_of(const Jig& jig);
/// Whether a piece of this size, as drawn, may lie in the pocket.
bool lies_in(const Pocket& pocket, double blank_width, double blank_height, const Jig& jig);

// ---- marks.cpp ----
/// The marks' centres. Faults: under a pocket, off the bed, too few, all in one line.
Result<std::vector<Point>> place_marks(const BedPlan& plan, const std::vector<Pocket>& pockets);

// ---- pockets.cpp ----
/// From blank mm to bed mm for a blank of the given size, as drawn, at the datum corner of its pocket.
Transform blank_to_bed(const Pocket& pocket, double blank_width, double blank_height, Jig::Datum datum);

// ---- sheet.cpp ----
/// From a piece as it is seen to the same as it lies: one that is engraved from behind lies face down, left and right
/// changed.
Transform as_it_lies(const Artwork& artwork);

/// Pockets and marks together.
Result<Frame> lay_bed(const BedPlan& plan, double blank_width, double blank_height);

/// Puts items into pockets, in order, and draws the sheet: parts by operation. `pocket_numbers`: where each item goes;
/// empty: the first pockets. Faults: no such pocket, two items for one, more items than pockets, pieces that need
/// different settings of the machine (bed/machine_setting.h).
Result<Sheet> build_sheet(const Frame& frame, std::vector<SheetItem> items, const std::string& name, int number,
                          const std::vector<int>& pocket_numbers = {});
/// Draws the sheet's parts anew from its items, frame and correction.
void draw_parts(Sheet& sheet);

// ---- marks.cpp ----
Path mark_path(MarkPlan::Kind kind, double size, Point centre);

}  // namespace ordinatio::inline bed
