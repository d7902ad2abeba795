// The one wording for glass that is neither cut nor engraved.
#pragma once

#include "base/base.h"

namespace ordinatio::inline bed {

/// A Fault without a place. word: what is said of the piece, "tempered" or the like.
Fault safety_glass(std::string_view word);

}  // namespace ordinatio::inline bed
