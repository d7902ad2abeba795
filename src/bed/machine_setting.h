// In: the pieces of a sheet.
// Out: what the machine is set to for them: one material, one side, a thickness within what one focus serves.
// Never: guesses what is not said; a piece without a material or a thickness is alike only to others without.
#pragma once

#include <span>

#include "bed/bed.h"

namespace ordinatio::inline bed {

struct MachineSetting {
  struct Thickness {
    double least = 0, most = 0;  // mm
    friend bool operator==(const Thickness&, const Thickness&) = default;
  };
  std::string material;                // empty: not said
  std::optional<Thickness> thickness;  // absent: not measured
  bool from_behind = false;            // the pieces lie face down
  friend bool operator==(const MachineSetting&, const MachineSetting&) = default;
};

/// The setting that serves all of these items; of none the plain one. Faults: they differ in material or side, or by more
/// than the machine's spread in thickness.
Result<MachineSetting> setting_for(const Machine& machine, std::span<const SheetItem> items);

/// For people: "jig large: glass, 3.9 to 4.1 mm thick, from behind: lay face down"; empty where there is nothing to say.
std::string setting_text(const Sheet& sheet);

/// The same for words of one material: capitals and runs of spaces do not count.
std::string material_key(std::string_view material);

/// Whether thicknesses lie within the spread.
bool within_spread(double least, double most, double spread);

}  // namespace ordinatio::inline bed
