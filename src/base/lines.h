// What is wrong with a file, and on which of its lines.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace ordinatio::inline base {

/// How a written file differs from its sheet, or why it cannot be read. A file that we wrote ourselves and that differs
/// is our own failure, not the user's: it is thrown inside a room and becomes a Fault at its door.
struct Difference {
  std::string what;
  std::size_t line = 0;  // of the file, from 1; 0: of no line in particular
};

/// The line on which the character at `offset` stands.
std::size_t line_at(std::string_view text, std::size_t offset);

}  // namespace ordinatio::inline base
