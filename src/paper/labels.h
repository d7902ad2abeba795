// In: items' numbers and words, and the measures of a sheet of labels.
// Out: its pages: on each label a number, first words and a QR code of the number.
// Never: makes a code that a phone cannot read.
#pragma once

#include "paper/paper.h"

namespace ordinatio::inline paper {

/// A sheet of labels, as it lies upright. Without measures of a person's own: plain A4, to be cut along lines.
struct LabelGrid {
  PaperSize paper = PaperSize::a4;
  int columns = 3, rows = 7;
  double width = 58, height = 36;  // mm, of a label
  double left = 18, top = 22.5;    // mm, from the paper's edges to the first label
  double gap_x = 0, gap_y = 0;     // mm, between labels
  bool lines = true;               // drawn about each label, to be cut along

  [[nodiscard]] int count() const { return columns * rows; }
};
// ---- labels.cpp ----
/// What is wrong with it: labels reach over the paper's edge.
MaybeFault check_labels(const LabelGrid& measures, const std::string& where);

struct LabelItem {
  std::string number;  // with its check character: this the code says
  std::string words;
};
struct Labels {
  std::string pdf;
  std::vector<double> ink;  // mm² of what is filled on each page
};

/// `first`: the label of the first sheet to begin with, from 1, row by row; those before it are used. Faults: no such label,
/// labels too small for their codes.
Result<Labels> write_labels(const std::vector<LabelItem>& items, const LabelGrid& measures, int first,
                            const std::string& shop_name, const FontLibrary& fonts);

}  // namespace ordinatio::inline paper
