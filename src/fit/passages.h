// In: the customer's lines. Out: the passages that lines may be made of anew, parted into pieces that no line break may
// go through. Never: decides where lines end. Of this folder alone.
#pragma once

#include "fit/fit.h"
#include "fit/line_plan.h"

namespace ordinatio::inline fit {

/// Lines of the customer's that may become one text.
struct TextPassage {
  std::string text;
  std::size_t style = 0;
  std::size_t first_line = 0;  // of the customer's lines
  bool blank = false;
};

/// What stands between two places where a line may end.
struct TextPiece {
  std::size_t passage = 0;
  std::size_t begin = 0, end = 0;  // bytes of the passage's text, blanks at the end left off
  bool ends_own_line = false;      // one of the customer's lines ends here
  int penalty = 0;                 // of a line that ends here
  int alone = 0;                   // of a line that is nothing but this piece, where it is more
  bool pauses = false;             // a phrase ends here, by its comma or by the customer's own line
};

struct TextPassages {
  std::vector<TextPassage> passages;
  std::vector<TextPiece> pieces;  // of all passages, in order
};

TextPassages passages_of(const std::vector<StyledLine>& lines, const SettingRules& rules, Typesetter& typesetter);

/// How the customer's own lines stand as a plan.
LineEnds own_ends(const TextPassages& list);
/// "parted after “Anna”", "lines 2 and 3 joined": how a plan differs from the customer's lines.
std::vector<std::string> changes_of(const TextPassages& list, const LineEnds& ends);

}  // namespace ordinatio::inline fit
