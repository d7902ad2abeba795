// Lines of one size, flush left, that stand where they are put. Of this folder alone.
#pragma once

#include <algorithm>

#include "paper/lettering.h"

namespace ordinatio::inline paper {

inline constexpr double label_ascent = 0.8, label_descent = 0.25;  // em, enough for the labels' letters

struct Label {
  std::vector<SetLine> lines;
  double size = 0;       // mm per em
  double leading = 1.3;  // em

  [[nodiscard]] double width() const {
    double widest = 0;
    for (const SetLine& line : lines) widest = std::max(widest, line.width());
    return widest;
  }
  [[nodiscard]] double height() const {
    return size * (label_ascent + label_descent + leading * static_cast<double>(lines.size() - 1));
  }
};

inline void draw_label(Canvas& canvas, Lettering& lettering, const Label& label, Point lower_left, Colour colour) {
  double baseline = lower_left.y + label.height() - label_ascent * label.size;
  for (const SetLine& line : label.lines) {
    lettering.draw(canvas, line, {lower_left.x, baseline}, colour);
    baseline -= label.leading * label.size;
  }
}

}  // namespace ordinatio::inline paper
