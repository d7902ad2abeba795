#include "design/design.h"

namespace ordinatio::inline design {

std::string_view name_of(Operation operation) {
  constexpr std::array<std::string_view, all_operations.size()> names{"engrave", "score", "cut", "mark", "guide"};
  return names[static_cast<std::size_t>(operation)];
}

}  // namespace ordinatio::inline design
