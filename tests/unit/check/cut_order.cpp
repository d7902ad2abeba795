#include "check/cut_order.h"

#include <catch2/catch.hpp>

#include "check/check.h"
#include "check/difference.h"
#include "geometry/contour_order.h"
#include "one_file.h"
#include "sheet_by_hand.h"

namespace ordinatio::cut_order_test {
using Catch::Contains;

namespace {

Path box(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

std::string told(const std::vector<Path>& contours) {
  Path path;
  for (const Path& contour : contours) path.append(contour);
  try {
    require_inner_first("item 1042-1, cut", path, 0);
    return "";
  } catch (const Difference& difference) {
    return difference.what;
  }
}

}  // namespace

TEST_CASE("an outer contour before what lies in it is refused, by their numbers") {
  const Path outer = box(0, 0, 20, 20), inner = box(5, 5, 10, 10), beside = box(30, 0, 40, 10);
  CHECK(told({inner, beside, outer}).empty());
  CHECK(told({outer, beside}).empty());
  CHECK(told({beside, outer, inner}) == "item 1042-1, cut: contour 2 would be cut before contour 3, which lies in it");
  Path bay;  // the box around it holds the other one, it does not
  bay.move_to({0, 0});
  for (const Point p : {Point{20, 0}, {20, 2}, {2, 2}, {2, 20}, {0, 20}}) bay.line_to(p);
  bay.close();
  CHECK(told({bay, inner}).empty());
  Path open;  // what is open holds nothing
  open.move_to({0, 0});
  for (const Point p : {Point{20, 0}, {20, 20}, {0, 20}}) open.line_to(p);
  CHECK(told({open, inner}).empty());
}

TEST_CASE(
    "a file whose cut contours come in an order that frees the inner too early is refused, though its sheet has it "
    "so") {
  constexpr const char *slab = "M16 104L50 104C58 104 64 98 64 90L64 76L16 76Z", *window = "M22 98L22 90L40 90L40 98Z";
  const auto svg_of = [](const std::string& data) {
    return R"(<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="200mm" height="120mm" viewBox="0 0 200 120">
  <title>sheet-001</title>
  <g id="cut" fill="none" stroke="#CC79A7" stroke-width="0.1">
    <title>cut</title>
    <g id="cut-1042-1">
      <title>item 1042-1, pocket 1</title>
      <path d=")" +
           data + "\"/>\n    </g>\n  </g>\n</svg>\n";
  };
  Sheet outer_first = sheet_by_hand();
  outer_first.items.resize(1);
  outer_first.parts.resize(1);
  outer_first.items[0].artwork.layers[0].operation = outer_first.parts[0].operation = Operation::cut;
  Sheet inner_first = outer_first;
  inner_first.parts[0].path = smallest_first(outer_first.parts[0].path);
  const MaybeFault good = check_svg(svg_of(std::string(window) + slab), inner_first);
  INFO((good ? describe(*good) : ""));
  CHECK_FALSE(good);
  const MaybeFault as_drawn = check_svg(svg_of(std::string(slab) + window), outer_first);
  REQUIRE(as_drawn);
  CHECK_THAT(describe(*as_drawn), Contains("contour 1 would be cut before contour 2, which lies in it"));
  CHECK(check_svg(svg_of(std::string(slab) + window), inner_first));
  inner_first.parts[0].path = transformed(inner_first.parts[0].path, shift_by({1, 0}));
  CHECK_THAT(describe(*check_svg(svg_of(std::string(window) + slab), inner_first)),
             Contains("does not draw the artwork"));
}

}  // namespace ordinatio::cut_order_test
