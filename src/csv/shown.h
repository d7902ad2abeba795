// Words of a file as messages show them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline csv {

/// Without the spaces around it: ASCII spaces and line ends, no-break space, ideographic space.
std::string_view trimmed(std::string_view text);
/// `"1042"`: in quotes, line ends as " / ", other controls as their pictures, cut after 60 characters; what comes before
/// byte `from` is left out.
std::string shown(std::string_view text, std::size_t from = 0);
/// The same whole, but for what is longer than a page.
std::string shown_whole(std::string_view text);
/// `line 7`, `lines 2, 3 and 4`, `lines 2, 3, 4, 5, 6 and 995 more`.
std::string list_lines(const std::vector<std::size_t>& lines);

}  // namespace ordinatio::inline csv
