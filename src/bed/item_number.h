#pragma once

#include "bed/bed.h"

namespace ordinatio::inline bed {

// An item is called `1042-2`: its order's number, a hyphen, its ordinal. The order's number may itself hold hyphens,
// slashes and letters of any script. Where people read it a check character may follow: `1042-2/K`.

/// "1042-2" → "1042-2/K". The check character (base/check_character.h) is that of the order's number and the ordinal filled
/// up with zeros to five digits, so that a hyphen that moves moves the digits behind it too. What does not end in a hyphen
/// and digits is no item's number and stays as it is.
std::string with_check(const std::string& item);

/// An item's number as people are to read it: with its check character where an order asked for the item. What no order
/// asked for (a stand) has no source, and bears a number of the sheet's alone.
std::string number_for_people(const Item& item);

/// Whether a check character was typed: a last slash with one ASCII letter or digit behind it, a hyphen and digits before.
bool has_check(std::string_view typed);

/// The bare number of an item that was typed with its check character or without, spaces around it left out. Faults: the
/// check character is another; which one it ought to be is not told, lest a misread number be made to match.
Result<std::string> item_typed(std::string_view typed);

}  // namespace ordinatio::inline bed
