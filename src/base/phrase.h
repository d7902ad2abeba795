// Counts with their nouns, words in quotes, columns of a list: as messages and lists say them. The only home of these.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace ordinatio::inline base {

/// "1 sheet", "2 sheets". `things`: the plural, where it is not the noun with an s.
std::string counted(std::size_t count, std::string_view thing, std::string_view things = "");

/// The word between straight quotes, as it stands.
std::string in_quotes(std::string_view word);

/// With blanks behind, `width` columns wide; one that is wider stays as it is. Of letters one column wide each.
std::string padded(std::string_view text, std::size_t width);

/// The digits with zeros before them, at least `width` of them: "007".
std::string zero_padded(std::string_view digits, std::size_t width);

}  // namespace ordinatio::inline base
