// In: a design (templates/*.toml), a blank's outline and an item's words.
// Out: the artwork of one blank: absolute paths in mm, by operation, with nothing left to choose.
// Never: knows pockets, sheets or file formats other than the design's own and the logo's SVG.
#pragma once

#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/base.h"
#include "cleaning/cleaning.h"
#include "design/setting_wish.h"
#include "fit/fit.h"
#include "geometry/geometry.h"
#include "logo/logo.h"
#include "strokes/strokes.h"
#include "text/language.h"
#include "text/text.h"

namespace ordinatio::inline design {

/// What the machine does along or inside a path. `guide` is never run.
enum class Operation { engrave, score, cut, mark, guide };
inline constexpr std::array all_operations{Operation::engrave, Operation::score, Operation::cut, Operation::mark,
                                           Operation::guide};

// ---- operation.cpp ----
std::string_view name_of(Operation operation);
/// Engraved paths are filled, all others are followed.
inline bool is_filled(Operation operation) { return operation == Operation::engrave; }

/// Paths of one operation, mm, from the blank's lower-left corner.
struct Layer {
  Operation operation;
  Path path;
};

// ---- designs ----

/// Text the customer does not write: the maker's words.
struct WordsPart {
  std::vector<std::string> lines;
};
/// A date mark. Its date is an input, never the clock.
struct DatePart {
  std::string form = "iso";  // "iso": 2026-11-25 (ISO 8601); "long": the locale's long form, by ICU
  std::string locale = "en-GB";
  std::string before, after;  // words set around it on the same line
};
/// A serial number. What it is comes with the item.
struct NumberPart {
  std::string before, after;  // words set around it on the same line
};
/// The item's own words.
struct InscriptionPart {};

/// How lines are to look, in the design's words.
struct LineLook {
  std::vector<std::string> faces;           // the first is the design's, the rest its fallbacks
  std::vector<std::string> axes, features;  // see TextStyle
  double letter_spacing = 0;                // em
  LetterCase letter_case = LetterCase::as_typed;
  double size = 1;  // relative to other lines of the block, where it is graded by role
};

/// What a line is for (a name, a date), told by where it stands.
struct RolePart {
  std::string name;
  std::vector<int> at;  // the lines that have it: 1 is the first, −1 the last; empty: all
  std::vector<int> of;  // only in texts of so many lines; empty: in all
  LineLook look;
};

/// How lines of a block are sized.
enum class BlockSizes { one_size, by_role, same_width };

/// What another face sets as a whole where the design's own lacks a letter.
enum class StandInUnit {
  script,  // all words of its script in the block, in one face
  word,    // that word alone
};

/// A block of lettering, whatever its words.
struct TextPart {
  std::variant<InscriptionPart, WordsPart, DatePart, NumberPart> words;
  LineLook look;                // of lines that have no role
  std::vector<RolePart> roles;  // the first that a line matches is its own
  std::string language;
  bool shops_language = false;  // the design names none: where letters tell another, that holds
  std::optional<Bounds> box;    // mm from the blank's lower-left corner; absent: the whole clear area
  BlockStyle block;
  BlockSizes sizes = BlockSizes::one_size;
  LineBreaks breaks = LineBreaks::kept;
  double reads_well = 0.10;                        // the size given up for each line that else reads badly, a share
  double min_cap_height = 3, max_cap_height = 25;  // mm
  double least_stroke = 0, least_counter = 0;      // mm; the beam's spot counts besides
  std::string sturdier;  // a face to take where the spot could not draw this one's strokes, or this one lacks a letter
  double off_axis_gain = 0.10;
  StandInUnit stand_in = StandInUnit::script;
  bool holds_mathematical = false;  // an inscription with mathematical letters is held; else they are plain ones, noted
  double air = 0;  // share of its room's smaller side kept free all round; gives way before an item is held
  Operation operation = Operation::engrave;
  // Set by whoever owns the machine:
  double beam_spot = 0;  // mm across; 0: not known, nothing is held for it
};
struct BorderPart {
  double distance = 4;  // mm from the blank's edge to the border's outer edge
  double width = 0.6;   // mm; engraved borders only, others are a line at `distance`
  Operation operation = Operation::engrave;
};
struct LogoPart {
  std::string file;
  Bounds box;  // the logo is as large as it can be in it, centred
  Operation operation = Operation::engrave;
  Logo logo;
};

/// All that a design engraves, as lines for a machine that follows lines.
struct HatchPart {
  Hatch lines;
  Operation operation = Operation::score;
};

/// A thing on the blank that ink must not come near: an old stamp, a chip, a hole.
struct KeptClear {
  std::string name;   // shown on the proof; may be empty
  Polygon corners;    // mm from the blank's lower-left corner; turning inward is allowed
  double radius = 0;  // mm, how far it reaches beyond its corners all round: a circle has one corner, its centre
  double margin = 2;  // mm kept between it and ink; common practice, no source: places are measured with a rule
};

// ---- kept_clear.cpp ----
/// What it covers, as it is drawn.
Polygons outline_of(const KeptClear& thing);
/// What ink keeps out of: it and its margin, as convex pieces, which may overlap. Arcs become edges that touch them from
/// outside: ink never comes nearer than the margin.
std::vector<ConvexHull> obstacles_of(const KeptClear& thing);
inline constexpr double kept_clear_sagitta = 0.02;  // mm; what those edges give away, a fifth of a 0.1 mm beam

// ---- blank.cpp: blanks ----

/// One piece of material as it was measured, in mm from the lower-left corner of the box around it.
struct Blank {
  std::string id;                     // empty: the nominal piece of a design
  Outline outline;                    // convex: what the piece would be if nothing were missing
  std::vector<Polygon> chips;         // what is missing from it; each turns counter-clockwise, crosses itself nowhere
  std::vector<KeptClear> kept_clear;  // what is on it
  bool turned = false;                // all of this is a quarter turn from how it was measured
  std::string material = {};          // in the workshop's own word; empty: not said
  std::optional<double> thickness = {};  // mm; absent: not measured
};
/// The piece a quarter turn counter-clockwise, measured from the lower-left corner that it then has.
Blank quarter_turned(const Blank& blank);
/// The piece as it is drawn.
Path path_of(const Blank& blank);
/// mm²
double area_of(const Blank& blank);

struct Design {
  std::string name;                  // the file's stem
  std::string about;                 // one line for people
  std::vector<std::string> samples;  // inscriptions that suit it, for its specimen; a line ends at \n
  std::string material;              // of the pieces it is for; empty: any
  std::string jig;                   // the board that holds its pieces; empty: their size says which
  bool from_behind = false;          // it is seen through the piece, and engraved mirrored on its back
  bool approval = false;             // nothing is engraved that the customer has not said yes to; kept by the ledger
  Blank blank;                       // nominal; of a laid design its own
  double width = 0, height = 0;
  double margin = 6;  // mm, from the outline to the clear area
  double gap = 2;     // mm, kept between text and border
  std::vector<TextPart> texts;
  std::vector<BorderPart> borders;
  std::vector<LogoPart> logos;
  std::vector<KeptClear> kept_clear;  // on every blank, besides what is on the one
  std::optional<HatchPart> hatch;     // what is engraved is hatched: its lines are followed, nothing is filled
  std::string checksum;               // SHA-256 of the design's file and its logos' files
};

/// Where a text may lie on a piece.
struct TextRoom {
  SettingArea area;                 // mm, and where its block is wanted
  std::optional<SettingArea> airy;  // the same less the air; absent: none is asked for, or it would take all of it
};

/// A design on one piece, its boxes as they are there, with what all items have in common on such a piece. It alone can be
/// composed; what asks for a Design takes it too. Made by the two functions below.
struct LaidDesign : Design {
  explicit LaidDesign(Design design) : Design(std::move(design)) {}
  ClearArea clear_area;         // mm: the outline less the margin and what is kept clear; all ink lies in it
  std::vector<TextRoom> rooms;  // of each text
  std::vector<Layer> constant;  // what is the same on every item: borders and logos
};

// ---- preparation.cpp ----
/// On the piece that it is drawn for. Faults: the margin leaves no room, a border or logo leaves the clear area or runs
/// over something kept clear, a text has no room left.
Result<LaidDesign> laid_as_drawn(const Design& design);
/// A design as it comes out on a measured blank: boxes of texts and logos keep their share of width and height,
/// borders follow the outline and stop short of what is kept clear, a logo that has no room where it stands is made
/// smaller and moved as little as may be. What the blank leaves unsaid, material and thickness, is as on the nominal piece.
/// Faults: no room for one of them.
Result<LaidDesign> laid_on(const Design& design, const Blank& blank);

// ---- read_design.cpp ----
/// Reads and checks a design, and lays it as it is drawn. Faults carry file:line:column; an unknown key comes with the nearest known one.
Result<LaidDesign> read_design(const std::filesystem::path& toml);
/// The same as if this text stood in the file.
Result<LaidDesign> design_of_text(std::string_view text, const std::filesystem::path& toml);

// ---- artwork ----

struct UsedFace {
  std::string name, checksum;
  friend auto operator<=>(const UsedFace&, const UsedFace&) = default;
};
struct Artwork {
  Blank blank;
  std::optional<Blank> set_for{};     // the piece that it was composed for, where it was moved to this one as it was
  bool from_behind = false;           // all of this is as it is seen; on the bed the piece lies face down
  ClearArea clear_area;               // mm; all ink lies in it
  std::vector<KeptClear> kept_clear;  // for people to see
  std::vector<Layer> layers;          // one an operation, in the operations' order; never an empty path
  Placement placement;                // of the inscription (or of the first text part)
  double cap_height = 0;              // mm, of the smallest lettering
  double x_height = 0;                // mm, of the same
  Gauge stroke, counter;           // mm: the thinnest ink and the narrowest closed counter of all lettering, and where
  std::vector<Gauge> slits;        // mm: of each text that is warned of one, the open slit that the spot will fill
  std::vector<std::string> lines;  // of the inscription, as they are engraved
  std::vector<std::string> changes;   // what was done to set them: lines parted or joined, case, another face
  std::vector<std::string> warnings;  // of these, what is worth a look before it is engraved
  std::vector<UsedFace> faces;        // sorted
  std::string hash;                   // SHA-256 of the layers to 0.001 mm: the same on proof, sheet and manifest
  MaybeFault illegible;               // why it must not be engraved; the artwork is then for the proof alone
};

/// How versions before this one set what is set otherwise today. A sheet of then is made again exactly as it was by these.
struct FormerWays {
  bool told_by_letters = false;   // the language: by a text's own letters, and the workshop's before those
  bool stood_in_by_word = false;  // whatever `stand_in` says
  bool serifs_first = false;      // in what stands in for any face
};

/// What differs from item to item.
struct Words {
  Inscription inscription;
  std::string date;          // ISO 8601, for date marks; may be empty where the design has none
  std::string number = {};   // for serial numbers, as it is engraved ("014"); empty: none is given
  ToldLanguage told = {};    // for the inscription, from its whole order and file; empty: from its own letters
  SettingWish setting = {};  // this item's own; its design is chosen before
  FormerWays ways = {};
};

// ---- text_setting.cpp ----
/// Faults: faces, axes and features that a text of the design asks for and cannot have.
MaybeFault check_faces(const Design& design, Typesetter& typesetter);

// ---- wished_text.cpp ----
/// Whether the design can do what an item wishes. Faults: a size out of its range, with that; it has no words to set so.
MaybeFault check_wish(const Design& design, const SettingWish& wish);

// ---- compose.cpp ----
/// SHA-256 of operations, verbs and coordinates in whole micrometres, little-endian: what two artworks share when they would
/// be engraved alike.
std::string hash_of(const std::vector<Layer>& layers);
/// Whether the design has a place for the customer's words.
bool has_inscription(const Design& design);

/// Whether the design has a place for a serial number: its items differ then, whatever their words.
bool has_number(const Design& design);

/// Composes one item. Faults hold the item: no date or number where the design wants one, what no face draws, lettering under the design's minimum (with
/// the size it would have come to), ink that would leave the clear area. What the beam's spot cannot draw is told in the
/// artwork itself, so that a proof can show where.
Result<Artwork> compose(const LaidDesign& design, const Words& words, Typesetter& typesetter);

inline constexpr double curve_tolerance = 0.01;  // mm at final size, unless the workshop sets another

}  // namespace ordinatio::inline design
