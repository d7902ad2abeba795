// In: a paper, passages on its baseline grid, and what stands at a page's head and foot.
// Out: the page on a canvas; all documents that people read are laid out alike.
// Never: decides what stands on a page, or where pages end. Of this folder alone.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "paper/flow.h"
#include "paper/paper.h"

namespace ordinatio::inline paper {

/// Pictures are drawn so many times smaller. ISO 5455, from memory.
inline constexpr std::array iso_reductions{1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0};

// One grid and few sizes: whatever stands on a page stands on one of these baselines.
inline constexpr double grid = 4.5;                                                         // mm, baseline to baseline
inline constexpr double small_size = 2.6, body_size = 3.5, large_size = 5, title_size = 7;  // mm per em
inline constexpr Colour black = proof_ink, grey{0x66, 0x66, 0x66}, alarm{0xA8, 0x3F, 0x00};
inline constexpr double gutter = 6;  // mm between columns

inline constexpr double side_margin = 18, top_margin = 10, foot_margin = 21;  // mm
inline constexpr int header_lines = 4;

struct Paper {
  double width = 0, height = 0;  // mm
  [[nodiscard]] double left() const { return side_margin; }
  [[nodiscard]] double right() const { return width - side_margin; }
  /// Grid lines below the header and above the foot.
  [[nodiscard]] int lines() const;
  /// From the page's lower edge to a baseline, counted from 1 below the header; the header's are −3 to 0.
  [[nodiscard]] double baseline(int line) const { return height - top_margin - (header_lines + line) * grid; }
};
inline constexpr Paper a4{210, 297};  // ISO 216

// ---- paper_sizes.cpp ----
/// Upright; A4 where it is to fit.
Paper paper_of(PaperSize size);

// ---- page.cpp ----
Path segment(Point from, Point to);
const Pen& thin_line();

struct PageHead {
  std::string shop_name, kind, title;
  Colour kind_colour = grey;
};
struct PageFoot {
  std::string name;  // of what these pages are about
  std::size_t number = 1, count = 1;
};

/// The page that was started last on a canvas.
class Page {
 public:
  Page(Canvas& canvas, Lettering& lettering, const Paper& paper)
      : canvas_(canvas), lettering_(lettering), paper_(paper) {}

  void draw_head(const PageHead& head);
  /// A rule of 100 mm, by which a print proves its size, and the folio.
  void draw_foot(const PageFoot& foot);
  void draw(const FlowedPage& passages);
  void write(std::string_view text, Point at, double size, Colour colour);

 private:
  void draw_passage(const Passage& passage, int first_line);
  void write_flush_right(std::string_view text, Point at, double size, Colour colour);
  /// Smaller where it would be wider than `width`.
  SetLine set_to_fit(std::string_view text, double size, double width);

  Canvas& canvas_;
  Lettering& lettering_;
  Paper paper_;
};

}  // namespace ordinatio::inline paper
