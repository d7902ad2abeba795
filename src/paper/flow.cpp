#include "paper/flow.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline paper {
namespace {

constexpr double ink_gap = 0.1;       // mm, at the least, between the ink of two lines
constexpr double share_below = 0.45;  // of a grid line: what may hang below the last of the lines

double height_of(const SetLine& line) { return line.shaped.ink.empty() ? 0 : line.size * line.shaped.ink.top; }
double depth_of(const SetLine& line) { return line.shaped.ink.empty() ? 0 : -line.size * line.shaped.ink.bottom; }

/// Grid lines that a stack needs above the baseline of its line `row`, besides the one it stands on.
int lines_above(const Stack& stack, std::size_t row, double pitch) {
  if (row >= stack.size()) return 0;
  const double depth_before = row == 0 ? 0 : depth_of(stack[row - 1].text);
  const double excess = depth_before + height_of(stack[row].text) + ink_gap - pitch;
  return std::max(0, static_cast<int>(std::ceil(excess / pitch)));
}

int lines_below(const Stack& stack, double pitch) {
  if (stack.empty()) return 0;
  return std::max(0, static_cast<int>(std::ceil(depth_of(stack.back().text) / pitch - share_below)));
}

bool is_space(const Passage& passage) {
  return passage.cells.empty() && passage.rules.empty() && passage.inks.empty() && passage.pictures.empty();
}

/// The end of the passages that stand together with passages[first].
std::size_t end_of_group(const std::vector<Passage>& passages, std::size_t first) {
  while (first + 1 < passages.size() && passages[first].with_next) ++first;
  return first + 1;
}

}  // namespace

std::vector<Passage> beside(const std::vector<Stack>& stacks, double pitch) {
  std::size_t rows = 0;
  for (const Stack& stack : stacks) rows = std::max(rows, stack.size());
  std::vector<Passage> passages(rows);
  for (std::size_t row = 0; row < rows; ++row) {
    int above = 0;
    for (const Stack& stack : stacks) {
      above = std::max(above, lines_above(stack, row, pitch));
      if (row < stack.size()) passages[row].cells.push_back(stack[row]);
    }
    passages[row].lines = above + 1;
    for (Cell& cell : passages[row].cells) cell.line = above + 1;
  }
  int below = 0;
  for (const Stack& stack : stacks) below = std::max(below, lines_below(stack, pitch));
  if (rows > 0) passages.back().lines += below;
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
      if (is_space(passage) && used == 0 && pages.size() > 1) continue;
      pages.back().push_back({used, passage});
      used += passage.lines;
    }
  }
  return pages;
}

int lines_used(const FlowedPage& page) { return page.empty() ? 0 : page.back().first_line + page.back().passage.lines; }

}  // namespace ordinatio::inline paper
