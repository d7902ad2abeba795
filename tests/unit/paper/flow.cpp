#include "paper/flow.h"

#include <catch2/catch.hpp>

namespace ordinatio::flow_test {

namespace {

Passage of_lines(int lines, bool with_next = false) {
  Passage passage = blank_lines(lines);
  passage.cells.emplace_back();
  passage.with_next = with_next;
  return passage;
}

/// A line whose ink reaches from `bottom` to `top`, mm.
Cell inked(double bottom, double top) {
  Cell cell;
  cell.text.size = 1;
  cell.text.shaped.ink = {0, bottom, 1, top};
  return cell;
}

std::vector<std::vector<int>> first_lines(const std::vector<FlowedPage>& pages) {
  std::vector<std::vector<int>> lines;
  for (const FlowedPage& page : pages) {
    lines.emplace_back();
    for (const FlowedPassage& flowed : page) lines.back().push_back(flowed.first_line);
  }
  return lines;
}

using Pages = std::vector<std::vector<int>>;

}  // namespace

TEST_CASE("passages fill the first page, then the next ones") {
  const std::vector<Passage> passages(5, of_lines(2));
  CHECK(first_lines(flow(passages, 4, 6)) == Pages{{0, 2}, {0, 2, 4}});
  CHECK(first_lines(flow(passages, 1, 6)) == Pages{{}, {0, 2, 4}, {0, 2}});
  CHECK(first_lines(flow({}, 4, 6)) == Pages{{}});
}

TEST_CASE("a heading stands on the page of what it heads") {
  CHECK(first_lines(flow({of_lines(3), of_lines(1, true), of_lines(1)}, 4, 6)) == Pages{{0}, {0, 1}});
  CHECK(first_lines(flow({of_lines(2), of_lines(1, true), of_lines(1)}, 4, 6)) == Pages{{0, 2, 3}});
}

TEST_CASE("what stands together but is longer than a page is parted all the same") {
  std::vector<Passage> passages(7, of_lines(1, true));
  CHECK(first_lines(flow(passages, 3, 3)) == Pages{{0, 1, 2}, {0, 1, 2}, {0}});
}

TEST_CASE("a page turned does not begin with a gap") {
  CHECK(first_lines(flow({of_lines(4), blank_lines(1), of_lines(2)}, 4, 6)) == Pages{{0}, {0}});
}

TEST_CASE("no two lines' ink meets, and lines that need no more keep to the grid") {
  constexpr double grid = 4.5;
  struct Case {
    const char* why;
    Cell first, second;
    int lines;  // in all
  };
  const Case cases[] = {
      {"Latin", inked(-0.8, 2.6), inked(-0.8, 2.6), 2},
      {"a deep line pushes the next one down", inked(-2.2, 2.6), inked(0, 2.6), 3},
      {"a tall line moves down", inked(-0.8, 2.6), inked(0, 3.9), 3},
      {"a deep last line keeps what follows away", inked(-0.8, 2.6), inked(-2.2, 2.6), 3},
      {"a very tall line takes two more", inked(0, 2.6), inked(0, 12), 4},
  };
  for (const Case& c : cases) {
    INFO(c.why);
    const std::vector<Passage> passages = beside({{c.first, c.second}}, grid);
    REQUIRE(passages.size() == 2);
    CHECK(passages[0].lines + passages[1].lines == c.lines);
    const double first = -grid * passages[0].cells[0].line;
    const double second = -grid * (passages[0].lines + passages[1].cells[0].line);
    CHECK(first + c.first.text.shaped.ink.bottom > second + c.second.text.shaped.ink.top);
  }
}

TEST_CASE("stacks beside one another share their baselines") {
  const std::vector<Passage> passages =
      beside({{inked(0, 2), inked(0, 8)}, {inked(0, 2), inked(0, 2), inked(0, 2)}}, 4.5);
  REQUIRE(passages.size() == 3);
  REQUIRE(passages[1].cells.size() == 2);
  CHECK(passages[1].cells[0].line == passages[1].cells[1].line);
  CHECK(passages[1].lines == 2);
  CHECK(passages[2].cells.size() == 1);
}

}  // namespace ordinatio::flow_test
