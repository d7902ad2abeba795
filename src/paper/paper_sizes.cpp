#include "paper/page.h"
#include "paper/paper.h"

namespace ordinatio::inline paper {

std::optional<PaperSize> paper_named(std::string_view name) {
  if (name == "fitting") return PaperSize::fitting;
  if (name == "a3") return PaperSize::a3;
  if (name == "a4") return PaperSize::a4;
  if (name == "a5") return PaperSize::a5;
  if (name == "letter") return PaperSize::letter;
  return std::nullopt;
}

Point paper_measures(PaperSize size) { return {paper_of(size).width, paper_of(size).height}; }

Paper paper_of(PaperSize size) {
  switch (size) {
    case PaperSize::a3:
      return {297, 420};
    case PaperSize::a5:
      return {148, 210};
    case PaperSize::letter:
      return {8.5 * mm_per_inch, 11 * mm_per_inch};
    case PaperSize::a4:
    case PaperSize::fitting:
      break;
  }
  return a4;
}

}  // namespace ordinatio::inline paper
