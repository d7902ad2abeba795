// One text of a laid design, set by itself.
#pragma once

#include "design/text_setting.h"

inline ordinatio::Result<ordinatio::SetText> set_text(const ordinatio::LaidDesign& design, std::size_t i,
                                                      const ordinatio::Words& words,
                                                      ordinatio::Typesetter& typesetter) {
  ordinatio::ReadyText ready;
  ordinatio::SettingRecord record;
  return ordinatio::set_text({design.texts[i], design.rooms[i]}, words, typesetter, ready, record);
}
