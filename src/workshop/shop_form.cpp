#include "workshop/file_form.h"

namespace ordinatio::inline workshop {

/// What is usual is what the shipped shop.toml says, and its comments.
const Form& shop_form() {
  using enum FieldKind;
  static constexpr FieldUse without_board{"jig.fill", "true"}, with_board{"jig.fill", "false"};
  static const Form form{
      {"shop", "name"},
      {"shop", "design", design, "plaque-landscape"},
      {"shop", "stand_design", design, "stand-words"},
      {"shop", "sample", text, "Mill & Quay 1874"},
      {"shop", "language"},
      {"machine", "width", number, "600"},
      {"machine", "height", number, "400"},
      {"machine", "spot", number, "0.1"},
      {"machine", "thickness_spread", number, "1.5"},
      {"jig", "fill", flag, "true"},
      {"jig", "gap", number, "10", {}, without_board},
      {"jig", "edge", number, "20", {}, without_board},
      {"jig", "rows", number, "", {}, with_board},
      {"jig", "columns", number, "", {}, with_board},
      {"jig", "pitch", pair, "", {}, with_board},
      {"jig", "first", pair, "", {}, with_board},
      {"jig", "pocket", pair, "", {}, with_board},
      {"jig", "lie", word, "as-fits", {"as-drawn", "quarter-turn", "as-fits"}},
      {"jig",
       "order",
       word,
       "rows-from-top",
       {"rows-from-top", "rows-from-bottom", "columns-from-top", "columns-from-bottom"}},
      {"jig", "datum", word, "lower-left", {"lower-left", "lower-right", "upper-left", "upper-right"}},
      {"jig", "clearance", number, "0.5"},
      {"jig", "kerf", number, "0.2"},
      {"jig", "notch", number, "20"},
      {"marks", "kind", word, "cross", {"cross", "ring", "target"}},
      {"marks", "size", number, "8"},
      {"marks", "count", number, "4"},
      {"blanks", "file"},
      {"blanks", "spare", word, "fullest", {"fullest", "none"}, {}, "file"},
      {"orders", "address", lines},
      {"packing", "name", flag, "true"},
      {"packing", "address", flag, "true"},
      {"labels", "paper", word, "a4", {"a4", "a5", "letter"}},
      {"labels", "columns", number},
      {"labels", "rows", number},
      {"labels", "width", number},
      {"labels", "height", number},
      {"labels", "left", number},
      {"labels", "top", number},
      {"labels", "gap_x", number, "0"},
      {"labels", "gap_y", number, "0"},
      {"files", "dxf", word, "R12", {"R12", "R2000"}},
      {"files", "svg_units", word, "mm", {"mm", "css-pixels"}},
      {"files", "scale_bar", flag, "true"},
  };
  return form;
}

}  // namespace ordinatio::inline workshop
