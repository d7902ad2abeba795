// Cautions at the foot of a page, as wide as it is. Of this folder alone.
#pragma once

#include "paper/cautions.h"
#include "paper/label.h"
#include "paper/page.h"

namespace ordinatio::inline paper {

class PaperCautions {
 public:
  PaperCautions(Lettering& lettering, const Cautions& cautions, const Paper& paper)
      : lettering_(lettering),
        paper_(paper),
        label_{lettering.set_column(in_running_text(cautions), caution_size, paper.right() - paper.left()),
               caution_size, caution_leading} {}

  /// Grid lines that they take from the page's, the gap above them included.
  [[nodiscard]] int lines() const { return static_cast<int>(label_.height() / grid) + 2; }
  void draw(Canvas& canvas) const {
    const double foot = paper_.baseline(paper_.lines()) - label_descent * caution_size;
    draw_label(canvas, lettering_, label_, {paper_.left(), foot}, black);
  }

 private:
  Lettering& lettering_;
  Paper paper_;
  Label label_;
};

}  // namespace ordinatio::inline paper
