// What of a text's lines is kept from area to area. Of this folder alone.
#pragma once

#include "fit/line_candidates.h"
#include "fit/prepared_lines.h"

namespace ordinatio::inline fit {

struct PreparedLines::Kept {
  Kept(Typesetter& typesetter_, const std::vector<StyledLine>& lines, SettingRules rules_)
      : typesetter(typesetter_),
        rules(std::move(rules_)),
        list(passages_of(lines, rules, typesetter)),
        candidates(typesetter, list, rules) {}

  Typesetter& typesetter;
  SettingRules rules;
  TextPassages list;
  LineCandidates candidates;  // of the list, by the rules
};

}  // namespace ordinatio::inline fit
