// A text set in one area, as if no other had been.
#pragma once

#include "fit/prepared_lines.h"
#include "fit/setting_work.h"

inline ordinatio::Result<ordinatio::Setting> set_lines(ordinatio::Typesetter& typesetter,
                                                       const std::vector<ordinatio::StyledLine>& lines,
                                                       const ordinatio::SettingRules& rules,
                                                       const ordinatio::SettingArea& area) {
  auto prepared = ordinatio::PreparedLines::of(typesetter, lines, rules);
  if (!prepared.ok()) return prepared.fault();
  ordinatio::SettingWork work;
  return prepared->set_in(area, work);
}
