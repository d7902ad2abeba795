// In: a text's lines, and the rules they are set by. Out: how they are set in one area after another, each as if it were
// the only one: what no area has a part in (passages, shaping, the lines' measures) is worked out once.
// Never: is used with another typesetter than its own.
#pragma once

#include <memory>

#include "fit/size_bound.h"

namespace ordinatio::inline fit {

struct SettingWork;

/// What was chosen for a text in an area: from it any typesetter sets the same again, without choosing.
struct ChosenSetting {
  std::vector<std::size_t> ends;  // of its lines, as pieces of the text
  Placement placement;
  std::vector<std::string> changes;
};

class PreparedLines {
 public:
  /// Faults: what no face draws; nothing but empty lines. The typesetter must outlive it.
  static Result<PreparedLines> of(Typesetter& typesetter, const std::vector<StyledLine>& lines, SettingRules rules);
  ~PreparedLines();
  PreparedLines(PreparedLines&&) noexcept;
  PreparedLines& operator=(PreparedLines&&) noexcept;

  /// The lines as large as they go, in the best lines that may be made of them (see line_plan.h for what is best).
  /// Faults: no room at all; a line that cannot be drawn though the whole text could.
  /// `work`: what it cost.
  Result<Setting> set_in(const SettingArea& area, SettingWork& work);
  /// The same where it was chosen before, for the same text, rules and area. `chosen`: what set_in told then; empty ends:
  /// nothing did. Else it is told.
  Result<Setting> set_in(const SettingArea& area, ChosenSetting& chosen);
  /// Exact for lines that are kept as they are, in a rectangle. Faults: a line that cannot be drawn.
  Result<SizeBound> bound();
  /// How many lines have been asked for, and are kept.
  [[nodiscard]] std::size_t lines_kept() const;

 private:
  struct Kept;
  explicit PreparedLines(std::unique_ptr<Kept> kept);
  Result<Setting> choose_in(const SettingArea& area, SettingWork& work, std::vector<std::size_t>& ends);
  std::unique_ptr<Kept> kept_;
};

}  // namespace ordinatio::inline fit
