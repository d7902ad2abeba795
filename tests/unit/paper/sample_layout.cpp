// Samples of a design on the page of its specimen.
#include "paper/sample_layout.h"

#include <catch2/catch.hpp>
#include <numeric>

#include "paper/paper.h"
#include "write/write.h"

namespace ordinatio::sample_layout_test {

namespace {

/// A piece with a square of ink in its middle.
Artwork piece(double width, double height) {
  Artwork artwork;
  artwork.blank.outline = rectangle_outline(width, height, Corner::square, 0);
  const Point middle{width / 2, height / 2};
  artwork.layers.push_back({Operation::engrave, path_of(Polygons{{middle + Point{-5, -5}, middle + Point{5, -5},
                                                                  middle + Point{5, 5}, middle + Point{-5, 5}}})});
  artwork.cap_height = 10;
  return artwork;
}

Bounds drawn(const PlacedSample& placed) {
  const Bounds box = bounds_of(path_of(placed.artwork->blank));
  return {placed.at.x, placed.at.y - box.height() / placed.reduction, placed.at.x + box.width() / placed.reduction,
          placed.at.y};
}

Bounds with_caption(const PlacedSample& placed) {
  Bounds box = drawn(placed);
  box.bottom -= sample_caption_below;
  return box;
}

}  // namespace

TEST_CASE("a plaque's first sample is at true size, lying or standing, with two more at half size") {
  for (const auto& [width, height] : {std::pair{152.4, 101.6}, {101.6, 152.4}}) {
    const std::vector<Artwork> artworks(3, piece(width, height));
    const auto placed = lay_samples(artworks);
    REQUIRE(placed.size() == 3);
    CHECK(placed[0].reduction == 1);
    CHECK(placed[1].reduction == 2);
    CHECK(placed[2].reduction == 2);
  }
}

TEST_CASE("however many samples of whatever size stand on the page, and none meets another or its caption") {
  for (const std::size_t count : {1, 2, 5, 12}) {
    for (const auto& [width, height] :
         {std::pair{152.4, 101.6}, {101.6, 152.4}, {200.0, 150.0}, {20.0, 20.0}, {900.0, 60.0}, {40.0, 2000.0}}) {
      const std::vector<Artwork> artworks(count, piece(width, height));
      const auto placed = lay_samples(artworks);
      INFO(count << " of " << width << " × " << height);
      REQUIRE(placed.size() == count);
      for (std::size_t i = 0; i < count; ++i) {
        const Bounds one = with_caption(placed[i]);
        CHECK(one.left >= a4.left());
        CHECK(one.right <= a4.right() + 1e-9);
        CHECK(one.top <= a4.baseline(sample_words_lines));
        CHECK(one.bottom >= a4.baseline(a4.lines()) - 1e-9);
        for (std::size_t k = 0; k < i; ++k) CHECK_FALSE(overlap(one, with_caption(placed[k])));
        CHECK(placed[i].reduction >= placed[0].reduction);
      }
    }
  }
}

TEST_CASE("a page tells how much ink is on it, at the scales at which it is drawn") {
  const FontLibrary library("none");
  const std::vector<DesignSamples> designs{{"wide", "A test", "", std::vector<Artwork>(3, piece(152.4, 101.6))},
                                           {"large", "A test", "", {piece(200, 150)}}};
  const auto specimen = write_design_specimen(designs, "Mill", library);
  REQUIRE(specimen.ok());
  REQUIRE(specimen->ink.size() == 2);
  CHECK(specimen->ink[0] == Approx(100 + 2 * 100 / 4.0));
  CHECK(specimen->ink[1] == Approx(100 / 4.0));
  const auto again = write_design_specimen(designs, "Mill", library);
  REQUIRE(again.ok());
  CHECK(again->pdf == specimen->pdf);
  CHECK(again->png == specimen->png);
  CHECK_FALSE(write_design_specimen({}, "Mill", library).ok());
}

}  // namespace ordinatio::sample_layout_test
