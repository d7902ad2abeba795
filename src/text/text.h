// In: cleaned lines, and the names of the faces they are to be set in.
// Out: where a line may be parted, its case, its language; shaped lines and glyph outlines in ems.
// Never: knows millimetres, blanks or sheets; draws a .notdef box.
#pragma once

#include <cstdint>
#include <filesystem>
#include <limits>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "geometry/geometry.h"
#include "geometry/thickness.h"
#include "strokes/alphabet.h"

namespace ordinatio::inline text {

// ---- breaks.cpp: lines ----

/// A place where a line may be parted in two.
struct BreakPlace {
  std::size_t end = 0;    // byte where the line before ends; spaces at its end are left off
  std::size_t begin = 0;  // byte where the next line begins
  int penalty = 0;        // how badly it reads, one of break_penalty.h
  friend bool operator==(const BreakPlace&, const BreakPlace&) = default;
};

/// Finds the places in a line where a letterer would break it: Unicode's (UAX #14, by ICU), less those that would part
/// initials, a number and its unit, a word, or what may be a name in Han or kana. Holds what is costly to open, so each
/// thread has its own; the same input gives the same output whatever was asked before.
class LineBreaker {
 public:
  LineBreaker();
  ~LineBreaker();
  LineBreaker(LineBreaker&&) noexcept;
  LineBreaker& operator=(LineBreaker&&) noexcept;

  /// `line`: one cleaned line. `language`: BCP 47, as known; it settles what a short word is ("a", "en", "et"), and names
  /// the months. Ascending; the line's ends are no places; what lies between two places is never empty.
  std::vector<BreakPlace> places(std::string_view line, std::string_view language);

 private:
  struct Rooms;
  std::unique_ptr<Rooms> rooms_;
};

/// Whether two lines of a text may become one, with a blank between them. Not where a line is empty, where both sides are
/// of scripts written without blanks (Han, kana, Thai, Lao, Khmer, Burmese; not hangul): where the customer broke them a
/// phrase ends, and nothing in the one line would show it; nor behind a hyphen of which nobody can tell whether it stays.
bool may_join(std::string_view line, std::string_view next);

/// What a line costs at the least that is nothing but these words: break_penalty::hanging where they are one article,
/// preposition or conjunction, or another word of no more than two letters or one ideograph that is no name and no number;
/// else 0.
int lone_penalty(std::string_view words, std::string_view language);

// ---- capitals.cpp ----

enum class LetterCase { as_typed, upper, lower, title };
/// The line in another case, as its language has it (Unicode's SpecialCasing and ICU's locale rules): Turkish and Azeri
/// i and ı, German SS, Greek capitals without accents whatever the language, a final sigma, Dutch IJ. In NFC.
/// `title` makes each word's first letter a capital and leaves the others, unless the word is all in capitals: then
/// they become small, but for initials and "III".
std::string in_case(std::string_view line, LetterCase letter_case, std::string_view language);

// ---- fonts.cpp: faces ----

struct FontFile {
  std::string name;  // as designs name it: a catalogue name, or a file name in the workshop's fonts folder
  std::filesystem::path path;
  unsigned index = 0;                       // the face's place in a collection
  const StrokeAlphabet* strokes = nullptr;  // its letters are lines, of the program's own alphabet; there is no file
};

/// An axis along which a variable face's outlines change; it is set at the standard.
struct FaceAxis {
  std::string tag;  // OpenType: "wght"
  double least = 0, standard = 0, most = 0;
};

/// A face as the catalogue describes it.
struct CatalogueFace {
  std::string name, file, package, licence, sha256, use;  // file: below a folder of fonts; licence: SPDX
  unsigned index = 0;
  std::vector<std::string> scripts;  // ISO 15924
  double thinnest = 0, counter = 0;  // em: the thinnest stroke, the narrowest counter; 0: not for engraving by choice
  double least_cap_height = 0;       // mm, at a spot of `catalogue_spot`
  bool joined = false, capitals_only = false;
  bool decorative = false;  // chosen for its looks: no other face stands in for a letter that it lacks, unasked
  std::string style;        // "serif" or "sans"; empty: neither
  std::vector<FaceAxis> axes;

  /// Whether designs choose it for what it looks like; the others stand in for letters that it lacks.
  [[nodiscard]] bool is_for_engraving() const { return thinnest > 0; }
};
inline constexpr double catalogue_spot = 0.1;  // mm across

/// What a face's size is told by, in em: height of capitals, thinnest stroke, narrowest counter or other gap.
struct FaceGauges {
  double cap_height = 0, thinnest = 0, counter = 0;
};
/// The least height of capitals, in mm, at which no stroke and no counter is narrower than the spot; up to the next
/// tenth, and never below the smallest lettering of ISO 3098-1.
double least_cap_height(const FaceGauges& measures, double spot);
inline constexpr double smallest_lettering = 1.8;  // mm, ISO 3098-1

/// Where faces are found. Not changed after it is made, so that threads may share it.
class FontLibrary {
 public:
  /// Reads the catalogue (TOML, shipped inside the program), and looks for font files first in `own_folder`
  /// (may not exist), then in the system's font folders.
  explicit FontLibrary(std::filesystem::path own_folder);

  /// Faults: no such face (with the nearest name), or its Debian package is not installed.
  [[nodiscard]] Result<FontFile> find(const std::string& name) const;
  /// Catalogue names tried, in order, for what a design's own faces do not draw. `language` ("ja", "zh-Hant",
  /// …) decides which Han forms come first, `style` (CatalogueFace::style) whether those with serifs do.
  [[nodiscard]] std::vector<std::string> fallback_names(std::string_view language, std::string_view style = "") const;
  /// In the catalogue's order.
  [[nodiscard]] const std::vector<CatalogueFace>& catalogue() const;
  /// The font files in the workshop's own folder, by name.
  [[nodiscard]] std::vector<std::string> own_names() const;

  struct Catalogue;
  struct Measured;
  /// What was measured on its faces' glyphs, for every Typesetter that uses it, on whatever thread.
  [[nodiscard]] Measured& measured() const { return *measured_; }

 private:
  std::filesystem::path own_folder_;
  std::shared_ptr<const Catalogue> catalogue_;
  std::shared_ptr<Measured> measured_;
};

/// A word that another face than the design's sets.
struct StandIn {
  std::string word, face;
  bool with_others = false;  // the design's own face could set it: it goes with the words of its script that it cannot
};
/// The face that all words of a script are set in, where a style's first face does not set each of them.
struct ScriptFace {
  int script = 0;  // a UScriptCode of ICU; that of Han for kana, bopomofo and hangul, too
  std::string face;
  friend bool operator==(const ScriptFace&, const ScriptFace&) = default;
};

using FaceId = std::uint16_t;  // a face opened by one Typesetter

/// A glyph's outline at 1 em, y up, origin at its pen position; outer contours counter-clockwise.
struct GlyphOutline {
  Path path;
  Bounds ink;             // exact
  ConvexHull hull;        // of the true curves; support exact along the axes, else short by at most hull_tolerance
  bool overlaps = false;  // its contours cross or cover one another: it is welded before it is drawn
  double area = 0;        // em²; what contours cover twice counts twice, here and for the centroid
  Point centroid;         // of the ink
};
inline constexpr double hull_tolerance = 1e-5;  // em: 0.4 µm on an em of 40 mm, below what is written

struct PlacedGlyph {
  FaceId face = 0;
  std::uint32_t glyph = 0;
  Point origin;                // ems, from the line's start on its baseline
  std::size_t cluster = 0;     // byte of the line where its text begins
  bool starts_afresh = false;  // a line may begin here and is shaped as if nothing had stood before it
  std::int16_t script = 0;     // of its run; a UScriptCode of ICU
};

/// One line, shaped; in visual order, left to right.
struct ShapedLine {
  std::string text;
  std::vector<PlacedGlyph> glyphs;
  double advance = 0;         // em
  Bounds ink;                 // em; empty for an empty line
  bool alphabetic = true;     // set in scripts that have cap height and baseline (Latin, Greek, Cyrillic, …)
  bool left_to_right = true;  // all of it: glyphs stand in the order of the text
};

// ---- language.cpp ----
/// The language that the letters themselves tell, as BCP 47, or empty: kana "ja", hangul "ko", Han by which
/// national set holds it "zh-Hant" or "zh-Hans", Arabic script by its letters "ur", "fa" or "ar". Ask for all
/// lines of a text at once.
std::string told_language(const std::vector<std::string>& lines);

struct TextStyle {
  std::vector<std::string> faces;          // the first is the face of the design, the rest its fallbacks
  std::string language;                    // BCP 47; holds for the scripts that it is written in
  std::string told_language;               // for the others, from told_language()
  std::vector<std::string> axes{};         // of the first face, where it is variable: "wght=650"
  std::vector<std::string> features{};     // OpenType's, as HarfBuzz reads them: "smcp", "onum", "ss01=2", "-kern"
  double letter_spacing = 0;               // em between graphemes; scripts whose letters join take none
  std::vector<ScriptFace> script_faces{};  // tried first for words of these scripts: Typesetter::script_faces
  bool serifs_first = false;  // whatever the first face's style, as stand-ins were chosen before that counted
};

/// A line of a block, in its style.
struct LineInStyle {
  std::string_view text;
  const TextStyle* style = nullptr;
};

struct FaceHeights {
  double cap_height = 0, x_height = 0;  // em, of H and x as drawn
};

/// How letters of one script stand upright in a face, em from the baseline; measured on the face's own outlines.
struct ScriptHeights {
  double top = 0, bottom = 0;  // of its capitals, or of a plain letter that has nothing above or below its body
  double small_top = 0;        // of a small letter; 0: the script has none, or the face draws them as capitals
  double descender = 0;        // how deep its small letters hang, 0 or more
  bool measured = false;       // the face draws the letters that tell; else all is 0
  bool climbs = false;         // the letters of a word climb from its end to its beginning, as in Nastaliq
};

/// The thinnest ink and the narrowest gaps of a line as it is engraved, ems from the line's start; width infinite where
/// there is none. Space between neighbouring letters is no gap, but where they join it is.
struct LineGauges {
  Gauge stroke{{}, std::numeric_limits<double>::infinity()};
  Gauge gap{{}, std::numeric_limits<double>::infinity()};  // of any kind
  /// The narrowest closed counter: the largest disc in it, or, where a spot fills a part of it that is deeper than three
  /// spots, that part's neck.
  Gauge counter{{}, std::numeric_limits<double>::infinity()};
  /// The narrowest slit between strokes that is open to the outside and that a spot fills deeper than three spots.
  Gauge slit{{}, std::numeric_limits<double>::infinity()};
  std::size_t slit_cluster = 0;  // byte of the line where the letter of that begins
};
inline constexpr double deep_in_spots = 3;  // a slit no deeper than that may fill, and the letter reads the same

/// Shapes text and keeps what it shaped. Holds caches, so each thread has its own; the same input gives the
/// same output whatever was asked before.
class Typesetter {
 public:
  explicit Typesetter(const FontLibrary& library);
  ~Typesetter();
  Typesetter(Typesetter&&) noexcept;
  Typesetter& operator=(Typesetter&&) noexcept;

  /// Bidi (UAX #9), runs by script and by font coverage of whole graphemes, HarfBuzz. Faults: a face not
  /// found or no font; a character that no face draws, with its name and place (`line_number` is for the
  /// message).
  Result<ShapedLine> shape(std::string_view text, const TextStyle& style, std::size_t line_number = 1);

  /// The typesetter's own LineBreaker.
  LineBreaker& breaker();

  const GlyphOutline& outline(FaceId face, std::uint32_t glyph);
  /// The line's ink at `size` mm per em, moved by `shift` mm: Béziers where glyphs overlap nothing, else
  /// welded polygons whose chords are within `tolerance` mm.
  void append_ink(Path& ink, const ShapedLine& line, double size, Point shift, double tolerance);

  /// The part of a shaped line from byte `begin` to `end` (both between graphemes), as `style` would shape it alone:
  /// taken from the whole where HarfBuzz says that it comes to the same, else shaped anew.
  Result<ShapedLine> part_of(const ShapedLine& whole, std::size_t begin, std::size_t end, const TextStyle& style);

  /// Of lines whose styles have the same faces: for each script of which the first face does not set every word, the first
  /// of the others that sets all of them; none where no single face does. Numbers in lines without letters go with the
  /// first script that has cap height and baseline, where no Latin stands in the block.
  std::vector<ScriptFace> script_faces(const std::vector<LineInStyle>& lines);

  /// The words and numbers of a shaped line that its style's first face does not set, in the order of the text.
  std::vector<StandIn> stand_ins(const ShapedLine& line, const TextStyle& style);

  /// Measured once a glyph and once a pair of glyphs that overlap. `spot`: em; 0: none is known, so that no slit fills.
  LineGauges gauges(const ShapedLine& line, double spot = 0);
  /// Of the style's first face, at its axes.
  Result<FaceHeights> metrics(const TextStyle& style);
  Result<FaceHeights> metrics(const std::string& face_name) { return metrics(TextStyle{{face_name}, "", ""}); }
  /// Of a script (UScriptCode) in a face; measured once.
  const ScriptHeights& heights(FaceId face, int script);
  /// Faults: a face that is not there; an axis that the first face lacks, or a value outside it; a feature that it
  /// lacks.
  MaybeFault check_style(const TextStyle& style);
  /// Whether the face itself, without fallbacks, has every character of the text.
  Result<bool> draws(const std::string& face_name, std::string_view text);
  /// The face's name in the catalogue (or its file name).
  [[nodiscard]] const FontFile& file(FaceId face) const;
  /// SHA-256 of the face's file; computed once.
  const Result<std::string>& checksum(FaceId face);

 private:
  struct Rooms;
  std::unique_ptr<Rooms> rooms_;
};

// ---- face_gauges.cpp ----
/// What a beam can make of a face's letters, each alone: those of gauged_letters that it draws; 0 where none tells.
Result<FaceGauges> gauge_face(Typesetter& typesetter, const std::string& face_name);
inline constexpr std::string_view gauged_letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789";

}  // namespace ordinatio::inline text
