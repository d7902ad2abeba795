#include "manual/manual.h"

#include <algorithm>

#include "manual/page_texts.h"

namespace ordinatio::inline manual {

std::span<const ManualPage> manual_pages() {
  static const ManualPage pages[]{
      {"browser", browser_page()},     {"sheets", sheets_page()},       {"papers", papers_page()},
      {"orders", orders_page()},       {"held", held_page()},           {"files", files_page()},
      {"designs", designs_page()},     {"lettering", lettering_page()}, {"lines", lines_page()},
      {"pieces", pieces_page()},       {"hours", hours_page()},         {"board", board_page()},
      {"ledger", ledger_page()},       {"parcels", parcels_page()},     {"stations", stations_page()},
      {"questions", questions_page()}, {"cautions", cautions_page()},   {"safety", safety_page()},
      {"speed", speed_page()}};
  return pages;
}

const ManualPage* manual_page(std::string_view name) {
  const auto pages = manual_pages();
  const auto found = std::ranges::find(pages, name, &ManualPage::name);
  return found == pages.end() ? nullptr : &*found;
}

std::string_view heading_of(const ManualPage& page) {
  constexpr std::string_view mark = "# ";
  const std::string_view line = page.text.substr(0, page.text.find('\n'));
  return line.starts_with(mark) ? line.substr(mark.size()) : line;
}

}  // namespace ordinatio::inline manual
