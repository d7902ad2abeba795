// A text set in one area, as if no other had been.
#pragma once

#include "fit/prepared_lines.h"
#include "fit/setting_work.h"

namespace ordinatio {

inline Result<Setting> set_lines(Typesetter& typesetter, const std::vector<StyledLine>& lines,
                                 const SettingRules& rules, const SettingArea& area) {
  auto prepared = PreparedLines::of(typesetter, lines, rules);
  if (!prepared.ok()) return prepared.fault();
  SettingWork work;
  return prepared->set_in(area, work);
}

}  // namespace ordinatio
