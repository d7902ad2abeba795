#include "design/design.h"

namespace ordinatio {

std::string_view name_of(Operation operation) {
  constexpr std::array<std::string_view, all_operations.size()> names{"engrave", "score", "cut", "mark", "guide"};
  return names[static_cast<std::size_t>(operation)];
}

std::optional<Operation> operation_named(std::string_view name) {
  for (const Operation operation : all_operations) {
    if (name_of(operation) == name) return operation;
  }
  return std::nullopt;
}

}  // namespace ordinatio
