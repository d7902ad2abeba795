#include "bed/safety_glass.h"

namespace ordinatio::inline bed {

Fault safety_glass(std::string_view word) {
  return {"tempered glass, or other safety glass, is neither cut nor engraved", "",
          "\"" + std::string(word) + "\" is said of it, and such glass can shatter",
          "Put the piece aside. If the word is wrong, mend it and write annealed into glass, or none where it is no "
          "glass; if in doubt, ask somebody who is licensed to work glass"};
}

}  // namespace ordinatio::inline bed
