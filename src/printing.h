// In: text for stdout.
// Out: whether it got there, and if not, why.
// Never: takes for printed what the disk, the pipe or the terminal did not take.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ordinatio {

/// Before anything is opened: a standard stream that is closed would be the number of the next file, and what is printed
/// would be written into it. A pipe that nobody reads and a file over its limit become errors that are told.
void make_streams_safe();

/// Writes all of it to stdout. Gives the reason where that failed.
std::optional<std::string> print(std::string_view text);

}  // namespace ordinatio
