// The measuring card's page: what is drawn where.
#include "photo/card.h"

#include <catch2/catch.hpp>

#include "paper/paper.h"

namespace ordinatio::card_test {

namespace {

std::string card(CardPaper size) {
  const FontLibrary fonts("none");
  const auto pdf = write_card_pdf(size, fonts);
  if (!pdf.ok()) FAIL(describe(pdf.fault()));
  return *pdf;
}

}  // namespace

TEST_CASE("the card's marks fit on half of either sheet, with paper around them") {
  for (const auto& [width, height] : {std::pair{210.0, 297.0 / 2}, std::pair{215.9, 279.4 / 2}}) {
    const double across = (width - mark_places[2].x) / 2, up = (height - mark_places[2].y) / 2;
    CHECK(across - mark_radius > 6);  // mm that printers leave white
    CHECK(up - mark_radius > 6);
    CHECK(card_paper.left <= -across + 1e-9);
    CHECK(card_paper.bottom <= -up + 1e-9);
  }
}

TEST_CASE("a mark is half black within its ring, and the first one's quarters lie on the other diagonal") {
  const double quarters = 3.14159265 * disc_radius * disc_radius / 2;
  const double ring = 3.14159265 * (mark_radius * mark_radius - disc_radius * disc_radius);
  for (std::size_t mark = 0; mark < 4; ++mark) {
    const Path ink = mark_ink(mark);
    CHECK(area_of(ink) == Approx(quarters + ring).epsilon(1e-3));
    CHECK(length(bounds_of(ink).centre() - mark_places[mark]) < 1e-6);
    const Polygons black = polygons_of(ink, 0.01);
    for (const Point from_centre :
         {Point{3, 2}, Point{-3, 2}, Point{-2, -3}, Point{2, -3}, Point{8, 1}, Point{-1, -8}}) {
      int winding = 0;  // of all contours around the place
      for (const Polygon& contour : black) {
        const Point p = mark_places[mark] + from_centre;
        for (std::size_t i = 0; i < contour.size(); ++i) {
          const Point a = contour[i], b = contour[(i + 1) % contour.size()];
          if (a.y <= p.y && b.y > p.y && cross(b - a, p - a) > 0) ++winding;
          if (a.y > p.y && b.y <= p.y && cross(b - a, p - a) < 0) --winding;
        }
      }
      INFO("mark " << mark << " at " << from_centre.x << ", " << from_centre.y);
      CHECK((winding != 0) == is_black_in_mark(mark, from_centre));
    }
  }
  CHECK(is_black_in_mark(0, {-1, 1}));
  CHECK(is_black_in_mark(1, {1, 1}));
}

TEST_CASE("the card is one page, the same bytes each time") {
  for (const CardPaper size : {CardPaper::iso_a4, CardPaper::us_letter}) {
    const std::string pdf = card(size);
    CHECK(pdf.starts_with("%PDF-"));
    CHECK(card(size) == pdf);
  }
  CHECK(card(CardPaper::iso_a4) != card(CardPaper::us_letter));
}

}  // namespace ordinatio::card_test
