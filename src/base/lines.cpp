#include "base/lines.h"

#include <algorithm>

namespace ordinatio::inline base {

std::size_t line_at(std::string_view text, std::size_t offset) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(offset, text.size()));
  return 1 + static_cast<std::size_t>(std::count(text.begin(), end, '\n'));
}

}  // namespace ordinatio::inline base
