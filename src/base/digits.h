// Numbers written into a buffer, for writers of many; append_number and append_fixed write the same.
#pragma once

namespace ordinatio::inline base {

inline constexpr int most_digits = 24;  // sign, ten digits, point, nine places, rounded up to what is copied at once

// ---- number.cpp ----
/// Writes value as append_number does, and returns the end of it; `out` has room for most_digits. Throws alike.
char* put_number(char* out, double value, int decimals);

}  // namespace ordinatio::inline base
