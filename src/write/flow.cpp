#include "write/flow.h"

#include <algorithm>
#include <cmath>

namespace ordinatio {
namespace {

// Of a grid line, how much a line of text may take above its baseline; the rest is for what hangs below.
constexpr double share_above = 0.75;

int lines_for(double excess, double grid) {
  constexpr double slack = 0.3;  // mm: neighbours seldom have ink there too
  return excess > slack ? static_cast<int>(std::ceil((excess - slack) / grid)) : 0;
}

bool is_blank(const Passage& passage) { return passage.cells.empty() && passage.rules.empty(); }

/// The end of the passages that stand together with passages[first].
std::size_t end_of_group(const std::vector<Passage>& passages, std::size_t first) {
  while (first + 1 < passages.size() && passages[first].with_next) ++first;
  return first + 1;
}

}  // namespace

std::vector<Passage> beside(const std::vector<Stack>& stacks, double grid) {
  std::size_t rows = 0;
  for (const Stack& stack : stacks) rows = std::max(rows, stack.size());
  std::vector<Passage> passages(rows);
  for (std::size_t row = 0; row < rows; ++row) {
    int above = 0, below = 0;
    for (const Stack& stack : stacks) {
      if (row >= stack.size()) continue;
      const Cell& cell = stack[row];
      passages[row].cells.push_back(cell);
      if (cell.text.shaped.ink.empty()) continue;
      above = std::max(above, lines_for(cell.text.size * cell.text.shaped.ink.top - share_above * grid, grid));
      below =
          std::max(below, lines_for(-cell.text.size * cell.text.shaped.ink.bottom - (1 - share_above) * grid, grid));
    }
    passages[row].lines = above + 1 + below;
    for (Cell& cell : passages[row].cells) cell.line = above + 1;
  }
  return passages;
}

Passage blank_lines(int count) {
  Passage passage;
  passage.lines = count;
  return passage;
}

std::vector<FlowedPage> flow(const std::vector<Passage>& passages, int first_lines, int lines) {
  std::vector<FlowedPage> pages(1);
  int used = 0;
  const auto room = [&] { return (pages.size() == 1 ? first_lines : lines) - used; };
  const auto turn_page = [&] {
    pages.emplace_back();
    used = 0;
  };
  for (std::size_t first = 0; first < passages.size();) {
    const std::size_t last = end_of_group(passages, first);
    int height = 0;
    for (std::size_t i = first; i < last; ++i) height += passages[i].lines;
    if (height > room() && height <= lines) turn_page();
    for (; first < last; ++first) {
      const Passage& passage = passages[first];
      if (passage.lines > room() && (used > 0 || pages.size() == 1)) turn_page();
      if (is_blank(passage) && used == 0 && pages.size() > 1) continue;
      pages.back().push_back({used, passage});
      used += passage.lines;
    }
  }
  return pages;
}

int lines_used(const FlowedPage& page) { return page.empty() ? 0 : page.back().first_line + page.back().passage.lines; }

}  // namespace ordinatio
