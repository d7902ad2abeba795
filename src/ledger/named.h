// The ledger's words back to what they name. Of this folder alone.
#pragma once

#include <stdexcept>

#include "ledger/ledger.h"

namespace ordinatio::inline ledger {

/// The value among the first `count` of an enumeration that has this name.
template <class Enum>
Enum named(std::string_view word, int count) {
  for (int i = 0; i < count; ++i) {
    if (name_of(static_cast<Enum>(i)) == word) return static_cast<Enum>(i);
  }
  throw std::logic_error("the ledger holds a word of no meaning: " + std::string(word));
}

}  // namespace ordinatio::inline ledger
