// In: passages of lines on a baseline grid.
// Out: the same passages, parted into pages.
// Never: draws; knows what the lines say. Of this folder alone.
#pragma once

#include <vector>

#include "paper/lettering.h"

namespace ordinatio::inline paper {

/// A line of text in a passage, or a stroke to write on.
struct Cell {
  double x = 0;  // mm from the page's left edge
  SetLine text;
  Inks inks;
  int line = 1;  // on which of the passage's baselines, from 1
};
/// Outlines that stand on a baseline.
struct InkCell {
  double x = 0;  // mm from the page's left edge to the outlines' origin
  Path ink;      // mm, y up from the baseline
  Colour colour;
  int line = 1;
};
/// A plaque, made smaller.
struct PictureCell {
  double x = 0;  // mm from the page's left edge to the picture's
  const Artwork* artwork = nullptr;
  double scale = 1;
  int line = 1;  // the baseline that it stands on
};
struct Rule {
  double left = 0, right = 0;  // mm from the page's left edge
  int line = 1;
};

/// What is never parted.
struct Passage {
  int lines = 1;  // height, in grid lines
  std::vector<Cell> cells;
  std::vector<Rule> rules;
  std::vector<InkCell> inks;
  std::vector<PictureCell> pictures = {};
  bool with_next = false;  // as a heading stands with what it heads
};

/// Cells from the top down, each a line of its own.
using Stack = std::vector<Cell>;
/// Sets stacks beside one another, their baselines aligned, one passage a line. Where ink would meet the ink above it
/// (stacked marks, sloping hands) the line takes as many grid lines as it needs.
std::vector<Passage> beside(const std::vector<Stack>& stacks, double pitch);
Passage blank_lines(int count);

struct FlowedPassage {
  int first_line = 0;  // grid lines above it on its page
  Passage passage;
};
using FlowedPage = std::vector<FlowedPassage>;

/// Fills pages in order: `first_lines` grid lines on the first, `lines` on the others. At least one page. Passages that
/// stand together stay together unless they are longer than a page; blank passages never start a later page.
std::vector<FlowedPage> flow(const std::vector<Passage>& passages, int first_lines, int lines);
/// Grid lines that are used on a page.
int lines_used(const FlowedPage& page);

}  // namespace ordinatio::inline paper
