// In: the settings that a text went through on a piece. Out: the same again, without choosing lines anew.
// Never: is used for other words, or for a piece that leaves other room.
#pragma once

#include "design/design.h"
#include "fit/prepared_lines.h"

namespace ordinatio::inline design {

/// The settings that one text went through on one piece, in their order. The next time it goes through the same, and
/// nothing is chosen anew; whatever typesetter sets it then.
class SettingRecord {
 public:
  void begin() { next_ = 0; }
  Result<Setting> set_in(PreparedLines& lines, const SettingArea& area);

 private:
  std::vector<ChosenSetting> settings_;
  std::size_t next_ = 0;
};

/// Of a design's texts, in its order.
using SettingRecords = std::vector<SettingRecord>;

}  // namespace ordinatio::inline design
