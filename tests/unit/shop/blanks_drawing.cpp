#include <catch2/catch.hpp>

#include "check/check.h"
#include "paper/paper.h"
#include "write/write.h"

namespace ordinatio::blanks_drawing_test {
using Catch::Contains;

namespace {

Blank piece(const std::string& id, double width) {
  return {id, rectangle_outline(width, 100, Corner::cut, 8), {{{20, 0}, {40, 0}, {40, 5}, {20, 5}}}, {}};
}
std::string why(const std::string& svg, const std::vector<const Blank*>& blanks) {
  const MaybeFault fault = check_blanks_svg(svg, blanks);
  return fault ? describe(*fault) : "";
}
std::string with(std::string svg, const std::string& old_words, const std::string& new_words) {
  const std::size_t at = svg.find(old_words);
  REQUIRE(at != std::string::npos);
  return svg.replace(at, old_words.size(), new_words);
}

}  // namespace

TEST_CASE("a drawing of the stock is read back: every piece once, under its id, at true size") {
  Blank first = piece("S-1", 150);
  const Blank second = piece("S & 2", 140);
  first.kept_clear.push_back({"stamp", {{20, 30}, {45, 30}, {45, 42}, {20, 42}}, 0, 2});
  const std::string svg = write_blanks_svg({{first, "", "", {}, {}, ""}, {second, "", "", {}, {}, ""}});
  CHECK(why(svg, {&first, &second}).empty());
  CHECK_THAT(why(svg, {&second, &first}), Contains("\"S-1\" stands where S & 2 should"));
  CHECK_FALSE(why(svg, {&first}).empty());
  CHECK_THAT(why(svg, {&first, &second, &second}), Contains("S & 2 is missing"));
  CHECK_THAT(why(with(svg, "viewBox=\"0 0 320", "viewBox=\"0 0 300"), {&first, &second}), Contains("not true size"));
  CHECK_FALSE(why(svg.substr(0, svg.size() / 2), {&first, &second}).empty());
  Blank other = first;
  other.outline = rectangle_outline(151, 100, Corner::cut, 8);
  CHECK_THAT(why(svg, {&other, &second}), Contains("S-1 is 150 mm by 100 mm, not 151 mm by 100 mm"));
  other = first;
  other.chips.clear();
  CHECK_THAT(why(svg, {&other, &second}), Contains("S-1 covers "));
}

}  // namespace ordinatio::blanks_drawing_test
