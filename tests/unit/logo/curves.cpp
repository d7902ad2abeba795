// Which way a logo's outlines turn, where they lie, and when they stay curves.
#include "logo_drawing.h"

namespace ordinatio::curves_test {

namespace {

long curves_in(const Logo& logo) { return count_of(logo.fill, Path::Verb::cubic); }
long contours_in(const Logo& logo) { return count_of(logo.fill, Path::Verb::move); }

}  // namespace

TEST_CASE("y points up and the origin is the lower-left corner") {
  const Bounds ink = bounds_of(drawn("<rect x='10' y='20' width='30' height='5'/>").fill);
  CHECK(ink.left == Approx(10).margin(1e-5));
  CHECK(ink.right == Approx(40).margin(1e-5));
  CHECK(ink.top == Approx(80).margin(1e-5));
  CHECK(ink.bottom == Approx(75).margin(1e-5));
}

TEST_CASE("shapes that meet no other keep their curves") {
  CHECK(curves_in(drawn("<circle cx='20' cy='20' r='10'/>")) == 4);
  CHECK(curves_in(drawn("<circle cx='20' cy='20' r='10'/><circle cx='60' cy='20' r='10'/>")) == 8);
  // Their boxes overlap, they do not.
  CHECK(curves_in(drawn("<path d='M10 10A40 40 0 0 0 50 50L10 50z'/><circle cx='42' cy='22' r='10'/>")) == 5);
  CHECK(curves_in(drawn("<path fill-rule='evenodd' d='M20 10a10 10 0 1 1 0 20a10 10 0 1 1 0-20z"
                        "M20 15a5 5 0 1 1 0 10a5 5 0 1 1 0-10z'/>")) == 8);
}

TEST_CASE("what crosses, touches or is cut becomes polygons") {
  CHECK(curves_in(drawn("<circle cx='20' cy='20' r='10'/><circle cx='30' cy='20' r='10'/>")) == 0);
  CHECK(curves_in(drawn("<circle cx='20' cy='20' r='10'/><rect x='30' y='10' width='9' height='20'/>")) == 0);
  CHECK(curves_in(drawn("<circle cx='20' cy='20' r='10' stroke='black'/>")) == 0);
  CHECK(curves_in(drawn("<clipPath id='c'><rect width='50' height='100'/></clipPath>"
                        "<circle cx='0' cy='20' r='10' clip-path='url(#c)'/>")) == 0);
  CHECK(curves_in(drawn("<circle cx='20' cy='20' r='10'/><rect x='15' y='15' width='3' height='3' fill='white'/>")) ==
        0);
  CHECK(curves_in(
            drawn("<path d='M20 10a10 10 0 1 1 0 20a10 10 0 1 1 0-20zM20 15a5 5 0 1 1 0 10a5 5 0 1 1 0-10z'/>")) == 0);
}

TEST_CASE("outer contours turn counter-clockwise and holes clockwise") {
  const char* const rings[] = {
      "<path d='M20 10a10 10 0 1 1 0 20a10 10 0 1 1 0-20z M20 15a5 5 0 1 0 0 10a5 5 0 1 0 0-10z'/>",
      "<path d='M20 10a10 10 0 1 0 0 20a10 10 0 1 0 0-20z M20 15a5 5 0 1 1 0 10a5 5 0 1 1 0-10z'/>",
      "<path fill-rule='evenodd' d='M20 10a10 10 0 1 1 0 20a10 10 0 1 1 0-20z M20 15a5 5 0 1 1 0 10a5 5 0 1 1 0-10z'/>",
      "<circle cx='20' cy='20' r='10'/><circle cx='20' cy='20' r='5' fill='white'/>",
      "<g transform='scale(-1 1) translate(-60 0)'><circle cx='20' cy='20' r='7.5' fill='none' stroke='black' "
      "stroke-width='5'/></g>"};
  for (const char* const ring : rings) {
    INFO(ring);
    const Polygons polygons = polygons_of(drawn(ring).fill, 1e-3);
    REQUIRE(polygons.size() == 2);
    CHECK(std::max(area_of(polygons[0]), area_of(polygons[1])) == Approx(314.16).epsilon(1e-3));
    CHECK(std::min(area_of(polygons[0]), area_of(polygons[1])) == Approx(-78.54).epsilon(1e-3));
  }
}

TEST_CASE("shapes that only share an edge become one, without a seam") {
  for (int degrees = 0; degrees < 90; degrees += 7) {
    INFO(degrees);
    const std::string body = "<g transform='translate(30 10) rotate(" + std::to_string(degrees) +
                             ")'><rect width='10' height='10'/><rect x='10' y='2' width='10' height='6'/>"
                             "<path d='M0 10h5v5l-5 5z'/></g>";
    CHECK(contours_in(drawn(body)) == 1);
  }
}

TEST_CASE("a stroke is one outline, with no crumbs where its pieces meet") {
  CHECK(contours_in(drawn("<path fill='none' stroke='black' stroke-width='3' stroke-linecap='round' "
                          "d='M10 50 q14.5 -17 29 0 t29 0'/>")) == 1);
  CHECK(contours_in(drawn("<circle cx='50' cy='50' r='30' fill='none' stroke='black' stroke-width='9'/>")) == 2);
  CHECK(contours_in(drawn("<circle cx='50' cy='50' r='4' fill='none' stroke='black' stroke-width='9'/>")) == 1);
}

TEST_CASE("a turn of the drawing turns its ink and changes nothing else") {
  const std::string shape =
      "<path d='M-20 -20 C 0 -30 10 -10 20 -20 V20 H-20z' stroke='black' stroke-width='3' stroke-linejoin='round'/>"
      "<circle r='8' fill='white'/><path d='M-30 0h60' stroke='black' stroke-dasharray='4 3' stroke-width='2'/>";
  const double upright = area_of(drawn("<g transform='translate(50 50)'>" + shape + "</g>").fill);
  for (int degrees = 11; degrees < 360; degrees += 37) {
    INFO(degrees);
    const std::string turn = "<g transform='translate(50 50) rotate(" + std::to_string(degrees) + ")'>";
    CHECK(area_of(drawn(turn + shape + "</g>").fill) == Approx(upright).epsilon(1e-5));
  }
}

TEST_CASE("a size of page from specks to walls gives the same ink in proportion") {
  const char* const body = "<circle cx='50' cy='50' r='30' fill='none' stroke='black' stroke-width='0.5'/>";
  for (const char* const size : {"0.1mm", "1mm", "25mm", "10000mm"}) {
    INFO(size);
    const std::string page = "width='" + std::string(size) + "' height='" + size + "' viewBox='0 0 100 100'";
    const Logo logo = logo_of(svg_with(page, body));
    const double share = area_of(logo.fill) / (logo.box.width() * logo.box.height());
    CHECK(share == Approx(3.14159265 * 30 / 1e4).epsilon(1e-3));
  }
}

}  // namespace ordinatio::curves_test
