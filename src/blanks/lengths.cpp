#include "blanks/blank_cells.h"
#include "csv/cells.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {

Result<double> read_length(std::string_view text, const std::string& thing, NumberRange range) {
  const std::string mend = "Write millimetres, such as 198 or 198.5";
  const std::string what = shown(text) + " is no " + thing;
  std::string_view word = trimmed(text);
  if (lower_case(word).ends_with("mm")) word = trimmed(word.substr(0, word.size() - 2));
  const std::optional<double> number = number_in(word);
  if (!number) {
    return Fault{what, "", is_two_numbers(word) ? "its comma may part thousands or decimals" : "it is no number in mm",
                 mend};
  }
  const bool too_small = range.above_least ? *number <= range.least : *number < range.least;
  if (!too_small && *number <= range.most) return *number;
  return Fault{what, "",
               too_small ? (range.above_least ? "it must be more than " : "it must be at least ") + mm_text(range.least)
                         : "more than " + mm_text(range.most) + " is taken for a slip of the pen",
               mend};
}

}  // namespace ordinatio::inline blanks
