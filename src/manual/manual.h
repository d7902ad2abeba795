// In: nothing.
// Out: the pages of the maker's manual: their names, what each is about, their text.
// Never: shortens, wraps or translates what a page says.
#pragma once

#include <span>
#include <string_view>

namespace ordinatio::inline manual {

struct ManualPage {
  std::string_view name;  // as a person asks for it: one word
  std::string_view text;  // Markdown; opens with the page's heading
};

/// All pages, in the order in which a new maker reads them.
std::span<const ManualPage> manual_pages();

/// The page of that name, or null.
const ManualPage* manual_page(std::string_view name);

/// The page's heading: one line that says what it is about.
std::string_view heading_of(const ManualPage& page);

}  // namespace ordinatio::inline manual
