#include "text/mark_places.h"

#include <unicode/uchar.h>

#include <algorithm>
#include <cmath>

namespace ordinatio::inline text {
namespace {

double aside(const SetMark& mark) { return std::abs(mark.ink.centre().x - mark.letter.centre().x); }

bool is_over_letter(const SetMark& mark) {
  const double middle = mark.ink.centre().x;
  return middle >= mark.letter.left && middle <= mark.letter.right;
}

/// `gap`: from the letter's ink to the mark's, away from the letter.
bool is_beside(const SetMark& mark, double gap) {
  if (mark.touches) return false;
  if (mark.anchored)
    return gap <= anchored_gap && aside(mark) <= std::max(most_aside, anchored_aside * mark.letter.width());
  return gap >= least_gap && gap <= most_gap && aside(mark) <= most_aside;
}

bool is_through(const SetMark& mark) {
  const double middle = mark.ink.centre().y;
  const bool at_height = middle > mark.letter.bottom && middle < mark.letter.top;
  return at_height && (mark.anchored ? is_over_letter(mark) : aside(mark) <= most_aside);
}

bool is_attached(const SetMark& mark) {
  const double gap = mark.letter.bottom - mark.ink.top;
  const bool hangs = mark.ink.bottom < mark.letter.bottom && gap <= most_gap;
  return hangs && is_over_letter(mark) && (mark.anchored || mark.touches);
}

bool is_around(const SetMark& mark) {
  return mark.ink.left < mark.letter.left && mark.ink.right > mark.letter.right &&
         mark.ink.bottom < mark.letter.bottom && mark.ink.top > mark.letter.top;
}

bool is_near(const SetMark& mark) {
  return mark.ink.left <= mark.letter.right + anchored_gap && mark.ink.right >= mark.letter.left - anchored_gap &&
         mark.ink.bottom <= mark.letter.top + anchored_gap && mark.ink.top >= mark.letter.bottom - anchored_gap;
}

}  // namespace

MarkPlace mark_place(char32_t mark) {
  constexpr int attached_below = 202, below = 220, above = 230, through = 1, not_ordered = 0;
  switch (u_getCombiningClass(static_cast<UChar32>(mark))) {
    case above:
      return MarkPlace::above;
    case below:
      return MarkPlace::below;
    case attached_below:
      return MarkPlace::attached_below;
    case through:
      return MarkPlace::through;
    case not_ordered:
      return u_charType(static_cast<UChar32>(mark)) == U_ENCLOSING_MARK ? MarkPlace::around : MarkPlace::elsewhere;
    default:
      return MarkPlace::elsewhere;
  }
}

bool is_in_place(MarkPlace place, const SetMark& mark) {
  switch (place) {
    case MarkPlace::above:
      return is_beside(mark, mark.ink.bottom - mark.letter.top);
    case MarkPlace::below:
      return is_beside(mark, mark.letter.bottom - mark.ink.top);
    case MarkPlace::attached_below:
      return is_attached(mark);
    case MarkPlace::through:
      return is_through(mark);
    case MarkPlace::around:
      return is_around(mark);
    default:
      return mark.anchored && is_near(mark);
  }
}

}  // namespace ordinatio::inline text
