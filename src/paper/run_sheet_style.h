// Of this folder alone.
#pragma once

#include <string_view>

namespace ordinatio::inline paper {

// ---- run_sheet_style.cpp ----
/// How a run sheet looks: paper that lies on a slate; on paper, black on white, a bed to a page.
std::string_view run_sheet_style();

}  // namespace ordinatio::inline paper
