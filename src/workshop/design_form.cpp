#include "workshop/file_form.h"

namespace ordinatio::inline workshop {

const Form& design_form() {
  using enum FieldKind;
  static constexpr FieldUse with_corners{"blank.corners", "square", false};
  static const Form form{
      {"", "about"},
      {"", "approval", flag, "false"},
      {"", "side", word, "front", {"front", "back"}},
      {"", "jig"},
      {"blank", "width", number},
      {"blank", "height", number},
      {"blank", "corners", word, "square", {"square", "rounded", "cut"}},
      {"blank", "corner", number, "3", {}, with_corners},
      {"blank", "material"},
      {"blank", "thickness", number},
      {"clear", "margin", number, "6"},
      {"clear", "gap", number, "2"},
      {"text", "lines", lines, "", {}, {}, "lines"},
      {"text", "date", word, "iso", {"iso", "long"}, {}, "date"},
      {"text", "before", text, "", {}, {}, "date"},
      {"text", "after", text, "", {}, {}, "date"},
      {"text", "before", text, "", {}, {}, "number"},
      {"text", "after", text, "", {}, {}, "number"},
      {"text", "font", face, "serif"},
      {"text", "align", word, "centre", {"left", "centre", "right"}},
      {"text", "case", word, "as-typed", {"as-typed", "upper", "lower", "title"}},
      {"text", "line_breaks", word, "kept", {"kept", "added", "free"}},
      {"text", "sizes", word, "one-size", {"one-size", "by-role", "same-width"}},
      {"text", "cap_height.min", number, "3"},
      {"text", "cap_height.max", number, "25"},
      {"text", "letter_spacing", number, "0"},
      {"text", "air", number, "0"},
      {"text", "hang_punctuation", flag, "false"},
      {"text", "operation", word, "engrave", {"engrave", "score", "cut", "mark", "guide"}},
      {"border", "distance", number},
      {"border", "width", number, "0.6"},
      {"logo", "file", text, "", {}, {}, "file"},
  };
  return form;
}

}  // namespace ordinatio::inline workshop
