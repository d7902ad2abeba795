// In: paths, pens and glyphs in mm, y up, origin at the page's lower left.
// Out: the bytes of a PDF or of a PNG picture. Cairo draws words and pictures; a PDF's paths are written as they are.
// Never: lays anything out; touches a file or the clock. Of this folder alone.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "bed/bed.h"
#include "geometry/geometry.h"
#include "paper/pdf_paths.h"

// Cairo's own names, so that whoever draws need not know cairo.
// NOLINTBEGIN(bugprone-reserved-identifier)
struct _cairo;
struct _cairo_surface;
struct _cairo_font_face;
// NOLINTEND(bugprone-reserved-identifier)

namespace ordinatio::inline paper {

/// Gives a cairo object back when its owner goes.
struct CairoRelease {
  void operator()(_cairo* context) const;
  void operator()(_cairo_surface* surface) const;
  void operator()(_cairo_font_face* face) const;
};
using CairoContext = std::unique_ptr<_cairo, CairoRelease>;
using CairoSurface = std::unique_ptr<_cairo_surface, CairoRelease>;
using CairoFace = std::unique_ptr<_cairo_font_face, CairoRelease>;

/// Glyphs of one face that are drawn together, and the words that they stand for.
struct GlyphRun {
  struct Glyph {
    std::uint32_t number;
    Point origin;  // mm
  };
  struct Cluster {
    int bytes, glyphs;
  };
  std::string_view text;          // UTF-8, logical order
  std::vector<Glyph> glyphs;      // left to right
  std::vector<Cluster> clusters;  // logical order; they cover text and glyphs exactly
  bool right_to_left = false;
};

/// A PDF of many pages, or one picture. As with cairo itself errors stick: the first one comes out of finish().
class Canvas {
 public:
  static Canvas pdf(const std::string& title);
  /// `below`: mm of paper below the origin, for words about what is drawn.
  static Canvas picture(double width, double height, double below, double pixels_per_mm);

  /// PDF only: closes the page before and opens one of width × height mm.
  void start_page(double width, double height);
  /// PDF only: the page's name in the page box, and perhaps in the table of contents. Valid UTF-8.
  /// Pages that follow one another and have the same chapter stand below it there; empty: below none.
  void name_page(const std::string& name, bool in_contents, const std::string& chapter = "");
  /// PDF only: what is to be found in the file's properties and not on its pages.
  void set_keywords(const std::string& keywords);

  /// PDF only: what is shown between the two is one element of the document's structure, which readers aloud go by:
  /// "P", "H1" (ISO 32000-1, 14.8.4).
  void begin_element(const char* role);
  void end_element();

  void fill(const Path& path, Colour colour);  // non-zero rule
  void stroke(const Path& path, const Pen& pen);
  void show(const GlyphRun& run, _cairo_font_face* face, double size, Colour colour);  // mm per em

  /// What has gone wrong so far: whoever measures before drawing need not go on.
  [[nodiscard]] MaybeFault first_fault() const;
  Result<std::string> finish();

 private:
  /// A cairo context and how mm become its units.
  struct Plane {
    CairoContext context;
    double units_per_mm = 1;
  };

  Canvas() = default;
  void set_metadata(const std::string& title);
  void close_page();
  void trace(const Path& path);
  [[nodiscard]] Point on(const Plane& plane, Point p) const {
    return {p.x * plane.units_per_mm, (height_ - p.y) * plane.units_per_mm};
  }
  [[nodiscard]] bool takes(const Path& path);
  void refuse(const std::string& why);

  std::unique_ptr<std::string> bytes_ = std::make_unique<std::string>();  // cairo keeps its address
  CairoSurface surface_;
  Plane page_;
  std::vector<PathContent> paths_;  // PDF: of each page
  bool is_pdf_ = false, page_open_ = false;
  double height_ = 0;  // mm, of the page
  int pages_ = 0;
  const char* role_ = "";  // of the element that is being shown
  std::string chapter_;
  int chapter_place_ = 0;  // cairo's number of it
  MaybeFault fault_;
};

/// More is beyond PDF 1.7 (ISO 32000-1, Annex C).
inline constexpr double longest_page = 200 * mm_per_inch;  // mm; 14,400 points, without their rounding
/// In a picture: 800 MB of memory; finer ones are refused.
inline constexpr double most_pixels = 200e6;

}  // namespace ordinatio::inline paper
