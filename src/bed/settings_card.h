// A test piece on which a workshop finds its own settings: a grid of cells, each engraved with other values, which a person
// has given. Nothing here knows what values are good.
#pragma once

#include "bed/bed.h"

namespace ordinatio::inline bed {

// ---- trial_values.cpp ----
/// What is tried along one side of the card.
struct TrialValues {
  std::string what;            // "speed", "power" or "pitch"
  std::vector<double> values;  // in the order in which they were given
  std::string unit;            // of all of them
};
/// "100, 200, 300 mm/s", or "100 to 300 by 100 mm/s". Faults: no such thing; a unit that is missing or not one of its own;
/// values that are no numbers, out of all range, or more than `most_trials`.
Result<TrialValues> read_trial_values(std::string_view what, std::string_view text);
inline constexpr std::size_t most_trials = 12;  // a side: 144 cells, and each has a layer

// ---- settings_card.cpp ----
struct SettingsCardPlan {
  double width = 0, height = 0;    // mm
  TrialValues across, down;        // from left to right, from top to bottom
  std::optional<HatchPart> hatch;  // for machines that follow lines; its pitch gives way to the one that is tried
};

/// A sheet of the card's own size: each cell on a layer of its own, named by its values, labels marked in strokes. Faults:
/// cells smaller than `least_cell`, labels that would run into one another.
Result<Sheet> build_settings_card(const SettingsCardPlan& plan, const BedPlan& workshop);

inline constexpr double least_cell = 3;     // mm: common practice, no source; less shows too little to be judged by eye
inline constexpr double largest_cell = 15;  // mm: more shows nothing more, and takes time

}  // namespace ordinatio::inline bed
