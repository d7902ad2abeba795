#pragma once

#include <string_view>

namespace ordinatio::inline base {

/// The check character of a text by ISO/IEC 7064:2003, MOD 37,36 (hybrid system): one of 0-9 A-Z. Digits and the letters
/// A-Z count, a-z as A-Z; every other character is passed over. It changes with every single character that is replaced,
/// and with nearly every pair of neighbours that change places: two characters in 630 hide from it, and where they do they
/// stand next to one another in the alphabet.
char check_character(std::string_view text);

}  // namespace ordinatio::inline base
