// A place on a bed in words. Of this folder alone.
#pragma once

#include <string>

namespace ordinatio::inline ledger {

// ---- sheets.cpp ----
/// "sheet-003, pocket 5, blank S-12"
std::string place_text(const std::string& sheet, int pocket, const std::string& blank);

}  // namespace ordinatio::inline ledger
