#include <catch2/catch.hpp>

#include "check/check.h"
#include "check/pdf_content.h"
#include "paper/paper.h"
#include "write/write.h"

namespace ordinatio::proof_test {
using Catch::Matchers::Contains;

namespace {

Artwork square(double side) {
  Artwork artwork;
  artwork.blank.outline = rectangle_outline(60, 40, Corner::square, 0);
  artwork.clear_area.region = region_of(artwork.blank.outline);
  Path path;
  path.add_rectangle({10, 10, 10 + side, 10 + side});
  artwork.layers.push_back({Operation::engrave, path});
  artwork.cap_height = side;
  artwork.hash = std::string(64, '0');
  return artwork;
}

ProofPage page(const std::string& id, std::optional<Artwork> artwork) {
  ProofPage proof{{id, "square", {"words", {"words"}, {}}, "orders.csv:2"}, std::move(artwork), {}, {}};
  if (!proof.artwork) proof.held = Fault{"held", "here", "for a reason", "Mend it"};
  return proof;
}

}  // namespace

TEST_CASE("proofs are read back: every artwork once, at true size") {
  const FontLibrary fonts("none");
  const Artwork small = square(10), large = square(12);
  const auto pdf = write_proof_pdf({page("1-1", small), page("2-1", std::nullopt), page("3-1", large)}, "Mill", fonts);
  REQUIRE(pdf.ok());
  CHECK_FALSE(check_proofs(*pdf, {{&small}, {&large}}, proof_ink));
  CHECK_THAT(check_proofs(*pdf, {{&large}, {&small}}, proof_ink)->what,
             Contains("artwork 1 is not what will be engraved"));
  CHECK_THAT(check_proofs(*pdf, {{&small}}, proof_ink)->what, Contains("every artwork once"));
  CHECK_THAT(check_proofs(pdf->substr(0, pdf->size() / 2), {{&small}, {&large}}, proof_ink)->what,
             Contains("not whole"));
}

TEST_CASE("lines that are followed are read back, too, of artworks that are lines alone as well") {
  const FontLibrary fonts("none");
  const auto lined = [](double side) {
    Artwork artwork = square(10);
    Path line;
    line.move_to({5, 5});
    line.line_to({5 + side, 5});
    line.cubic_to({5 + side, 9}, {9, 5 + side}, {5, 5 + side});
    artwork.layers = {{Operation::score, line}};
    return artwork;
  };
  const Artwork lines = lined(10), others = lined(11), small = square(10);
  for (const PaperSize paper : {PaperSize::fitting, PaperSize::a5}) {
    const auto pdf = write_proof_pdf({page("1-1", lines), page("2-1", small)}, "Mill", fonts, paper);
    REQUIRE(pdf.ok());
    CHECK_FALSE(check_proofs(*pdf, {{&lines}, {&small}}, proof_ink));
    CHECK_THAT(check_proofs(*pdf, {{&others}, {&small}}, proof_ink)->why, Contains("lines run another way"));
    CHECK_THAT(check_proofs(*pdf, {{&small}}, proof_ink)->what, Contains("every artwork once"));
  }
}

TEST_CASE("a proof rings a slit that is warned of, and only that") {
  const FontLibrary fonts("none");
  const auto painted = [&fonts](const Artwork& artwork) {
    const auto pdf = write_proof_pdf({page("1-1", artwork)}, "Mill", fonts);
    REQUIRE(pdf.ok());
    return read_pdf_pages(*pdf).front().painted;
  };
  Artwork artwork = square(10);
  const std::size_t without = painted(artwork).size();
  artwork.slits = {{{14, 17}, 0.07}};
  const std::vector<PaintedPath> with_ring = painted(artwork);
  REQUIRE(with_ring.size() == without + 1);
  // The square's middle is at (15, 15) on the blank.
  const auto ink = std::ranges::find_if(with_ring, [](const PaintedPath& one) {
    const Bounds box = bounds_of(one.path);
    return one.filled && std::abs(box.width() - 10) < 0.01 && std::abs(box.height() - 10) < 0.01;
  });
  REQUIRE(ink != with_ring.end());
  const Point wanted = bounds_of(ink->path).centre() + Point{-1, 2};
  CHECK(std::ranges::count_if(with_ring, [&](const PaintedPath& one) {
          return !one.filled && length(bounds_of(one.path).centre() - wanted) < 0.01 &&
                 std::abs(bounds_of(one.path).width() - 5) < 0.01;
        }) == 1);
}

}  // namespace ordinatio::proof_test
