// Paragraphs of several sizes, one below the other, on pages or below a picture. Of this folder alone.
#pragma once

#include "paper/label.h"

namespace ordinatio::inline paper {

struct Paragraph {
  std::string words;
  double size = 0;       // mm per em
  double leading = 1.3;  // em
};

/// Paragraphs set to a width, each a label.
std::vector<Label> set_paragraphs(Lettering& lettering, const std::vector<Paragraph>& paragraphs, double width);
/// From the first to the last, with what lies between them.
double height_of(const std::vector<Label>& labels);
/// From `top` down; no lower than `foot`. Gives back what had no room, parted between lines where one label has too many.
std::vector<Label> draw_down(Canvas& canvas, Lettering& lettering, std::vector<Label> labels, double left, double top,
                             double foot, Colour colour);

}  // namespace ordinatio::inline paper
