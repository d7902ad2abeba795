// One text of a laid design, set by itself.
#pragma once

#include "design/text_setting.h"

namespace ordinatio {

inline Result<SetText> set_text(const LaidDesign& design, std::size_t i, const Words& words, Typesetter& typesetter) {
  ReadyText ready;
  SettingRecord record;
  return set_text({design.texts[i], design.rooms[i]}, words, typesetter, ready, record);
}

}  // namespace ordinatio
