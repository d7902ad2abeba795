// How large the customer's words come out on a piece, told without composing the whole of it.
#pragma once

#include "design/design.h"
#include "fit/size_bound.h"

namespace ordinatio {

/// In the design's face, and in its sturdier one where it names one.
struct LetteringBound {
  std::vector<SizeBound> faces;
};
/// Whatever piece the design is laid on. Faults hold the item on any piece.
Result<LetteringBound> bound_lettering(const Design& design, const Words& words, Typesetter& typesetter);

/// mm, the smallest capitals of the inscription on the piece that the design is laid on: no less than they truly are.
double cap_height_at_most(const LetteringBound& bound, const Design& laid);
/// mm, what they truly are; 0 where the item would be held, or where the design has no inscription.
double cap_height_on(const Design& laid, const Words& words, Typesetter& typesetter);

}  // namespace ordinatio
