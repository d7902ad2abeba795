// In: the name of a column that a file lacks, and a header that it has. Out: whether the one may be the other.
// Never: decides it. Of this folder alone.
#pragma once

#include <string>
#include <string_view>

namespace ordinatio::inline orders {

enum class Nearness {
  none,
  within,  // it has the name's words and more: `Order status`
  alike,   // the same letters, one of them off, a plural, or a short form: `Qty`, `Peices`
};
/// slips: letters that may be off; two that changed places are one.
Nearness nearness(std::string_view name, std::string_view header, std::size_t slips);

}  // namespace ordinatio::inline orders
