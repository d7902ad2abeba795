// The pages as they stand in src/manual, put into the program by embed.cmake. Of this folder alone.
#pragma once

#include <string_view>

namespace ordinatio::inline manual {

std::string_view browser_page();
std::string_view sheets_page();
std::string_view papers_page();
std::string_view orders_page();
std::string_view held_page();
std::string_view files_page();
std::string_view designs_page();
std::string_view lettering_page();
std::string_view lines_page();
std::string_view pieces_page();
std::string_view hours_page();
std::string_view board_page();
std::string_view ledger_page();
std::string_view parcels_page();
std::string_view stations_page();
std::string_view questions_page();
std::string_view cautions_page();
std::string_view safety_page();
std::string_view speed_page();

}  // namespace ordinatio::inline manual
