// In: an order's number, a line's id or a quantity as a spreadsheet may have left it. Out: what it was, or that it is lost.
// Never: puts back digits that are gone. Of this folder alone.
#pragma once

#include <string_view>

namespace ordinatio::inline orders {

/// What ="0123" guards: the way spreadsheets are told to keep an id's leading zeros.
std::string_view without_guard(std::string_view number);
/// 1.23457E+12 or 1,23457E+12. What programs write so has a decimal mark or the exponent's sign: 12E4 is an id.
bool in_scientific_notation(std::string_view number);
/// "2" of "2.0" or "2,00", as spreadsheets write whole numbers; "2,000" may be two thousand.
std::string_view without_empty_decimals(std::string_view number);

}  // namespace ordinatio::inline orders
