// In: the bytes of an SVG logo, not to be trusted.
// Out: its ink as one path in mm, or the reason why it cannot be engraved.
// Never: draws in this process, follows a reference out of the file, or lets a hostile logo cost more than its limits.
//
// The way of a logo: scan (markup, by name and line) → in a child process: draw (librsvg resolves styles, references,
// shapes and transforms into plain paths), read_page (→ paints), ink_of (→ one path), pack → unpack, validated.
// Of this folder alone.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "logo/logo.h"

namespace ordinatio::inline logo {

// ---- limits on hostile input; each that is reached is a Fault, none is a crash ----
inline constexpr std::size_t file_bytes = std::size_t{8} << 20;       // a drawn logo is some 100 KiB
inline constexpr int element_depth = 200;                             // librsvg recurses over the tree
inline constexpr std::size_t element_count = 50'000;                  // elements written in the file
inline constexpr std::size_t expanded_count = 200'000;                // elements once every `use` is followed
inline constexpr std::size_t attribute_count = 200;                   // of one element
inline constexpr std::size_t attribute_bytes = std::size_t{2} << 20;  // of one value: a path of some 200,000 nodes
inline constexpr double largest_number = 1e7;                         // user units; a drawing needs no more
inline constexpr std::size_t page_bytes = std::size_t{64} << 20;      // of the resolved drawing
inline constexpr std::size_t packed_bytes = std::size_t{64} << 20;    // of what the child may answer
inline constexpr std::size_t dash_count = 200'000;                    // dashes of one stroke
inline constexpr double reach = 60;  // boxes: ink farther out than this from the page overflows Cairo's coordinates

// ---- scan.cpp ----
/// Looks through the markup without drawing it: refuses what cannot be engraved, what reaches outside the file, and
/// what unfolds without bound. name: the file as the user knows it. Nothing when the logo may be drawn.
MaybeFault scan(std::string_view svg, const std::string& name);

// ---- rules.cpp: rules of the scan ----
bool is_css_space(char c);
std::string_view without_blanks(std::string_view text);  // at its ends
struct Refusal {
  std::string what, why, mend;
};
/// Why an SVG element of this name cannot be engraved.
std::optional<Refusal> refused_element(std::string_view name);
/// Why an attribute, or a property of a style, cannot be engraved. Names without prefix.
std::optional<Refusal> refused_property(std::string_view name, std::string_view raw);
/// The first declaration of a style sheet or style attribute that cannot be engraved. line: counted from its start, 0 for
/// the first.
struct StyleRefusal : Refusal {
  int line = 0;
};
std::optional<StyleRefusal> refused_style(std::string_view css);

// ---- numbers.cpp ----
/// Whether the numbers of an attribute can be drawn: finite, not absurdly large, path data complete.
std::optional<Refusal> refused_numbers(std::string_view name, std::string_view value);

/// The elements of a file and which of them are drawn again elsewhere by `use`.
class References {
 public:
  struct Finding {
    Refusal refusal;
    std::size_t line, column;
  };
  /// An element, in document order. parent: its index, or none for the root.
  std::size_t add(std::optional<std::size_t> parent, std::size_t line, std::size_t column);
  void set_id(std::size_t element, std::string id) { elements_[element].id = std::move(id); }
  void set_target(std::size_t element, std::string id) { elements_[element].target = std::move(id); }
  /// A reference to nothing, a loop, or more elements than expanded_count.
  [[nodiscard]] std::optional<Finding> problem() const;

 private:
  struct Element {
    std::optional<std::size_t> parent;
    std::string id, target;
    std::size_t line, column;
  };
  std::vector<Element> elements_;
};

// ---- draw.cpp ----
/// A drawing as librsvg resolved it: Cairo's SVG, which has paths, clips and groups and no more.
struct Page {
  std::string svg;
  Transform to_mm;  // from its units; it is magnified, since Cairo rounds to 1/256 unit
  Bounds box;       // mm, lower-left corner at the origin
};
/// Resolves with librsvg; loads no file. Call it in a child only.
Result<Page> draw(std::string_view svg);

// ---- page.cpp ----
/// What a stroke has at its ends.
enum class Cap { butt, round, square };
struct Pen {
  double width;  // user units
  Join join;
  Cap cap;
  double mitre_limit;
  std::vector<double> dashes;  // user units; empty: solid
  double dash_start;
};
/// One clip, inside all those it names as outer.
struct Clip {
  Path path;  // mm
  FillRule rule = FillRule::nonzero;
  std::optional<std::size_t> outer;
};
/// One thing painted. Dark paint is ink, light paint takes away the ink under it.
struct Paint {
  Path path;  // user units; every contour closed when it is filled
  Transform to_mm;
  FillRule rule = FillRule::nonzero;
  std::optional<Pen> pen;  // stroked; otherwise filled
  bool dark = true;
  std::optional<std::size_t> clip;
};
struct Drawing {
  Bounds box;
  std::vector<Clip> clips;
  std::vector<Paint> paints;
};
/// Reads the few elements that Cairo writes for paths. Anything else is a Fault: it was no plain path.
Result<Drawing> read_page(const Page& page);

// ---- track.cpp: ink ----
/// How far, as a part of the box's diagonal, a polygon may stray from its curve: 1 µm on a logo of 35 mm.
inline constexpr double ink_tolerance = 3e-5;
/// What a pen follows, flattened. A single node is a dot.
struct Node {
  Point at;
  bool smooth = false;  // inside a curve: rounded, whatever the join
};
struct Track {
  std::vector<Node> nodes;
  bool closed = false;
  Point heading{1, 0};  // of a dot, for its square cap
};
std::vector<Track> tracks_of(const Path& path, double tolerance);
/// The dashes of each track; the tracks themselves for a solid pen. Dots are left whole. Fault: dash_count.
Result<std::vector<Track>> dashed(std::vector<Track> tracks, const Pen& pen);

// ---- stroke.cpp ----
/// The region of a stroke, as outlines that cross themselves and all turn the same way: weld them by the non-zero rule.
/// tolerance: user units. Fault: dash_count.
Result<Polygons> stroke_outlines(const Path& path, const Pen& pen, double tolerance);

// ---- ink.cpp ----
/// All dark paint less the light paint over it, within the clips and the box. Curves stay curves where a paint meets no
/// other, is not clipped and does not cross itself; elsewhere they are polygons.
Result<Logo> ink_of(const Drawing& drawing);
/// As a part of the page's longer side, how far ink may reach past it unsaid: half of a hairline along its edge.
inline constexpr double page_slack = 0.002;
/// The box around all dark ink that leaves the page, within the clips but the page's own: mm; empty where none does.
Result<Bounds> reach_of(const Drawing& drawing);

// ---- logo.cpp: all of it ----
/// draw, read_page, ink_of and pack: what the child does.
std::string resolve(std::string_view svg);

// ---- wire.cpp: between child and parent ----
std::string pack(const Result<Logo>& result);
/// Takes nothing on trust: lengths, verbs and numbers are checked.
Result<Logo> unpack(std::string_view packed);

}  // namespace ordinatio::inline logo
