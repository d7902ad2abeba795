// In: an item's number, the size of a plate, what the beam leaves of the material.
// Out: a small artwork: a QR code of the number, and the number below it.
// Never: makes modules finer than the beam can draw.
#pragma once

#include "bed/bed.h"

namespace ordinatio::inline bed {

struct PlateWish {
  double size = 20;  // mm, of the code with the light about it; the number stands below
  /// mark: outlines are followed and filled with lines one beam apart; engrave: filled as all engraving is.
  Operation operation = Operation::mark;
  bool pale = false;  // the beam leaves this material lighter: what is light in the code is drawn
};

inline constexpr double spots_a_module = 3;  // fewer, and the beam's round end eats a module's corners

/// Its lines are the number, or nothing where no face draws it. Faults: modules finer than three spots of the beam, a number
/// that no code holds.
Result<Artwork> plate_of(const std::string& number, const PlateWish& wish, const Machine& machine,
                         Typesetter& typesetter);

/// The same measures for every plate: across and up, mm.
Point plate_measures(const PlateWish& wish);

}  // namespace ordinatio::inline bed
