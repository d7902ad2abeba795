#include <catch2/catch.hpp>

#include "check/check.h"
#include "write/write.h"

using namespace ordinatio;
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
  REQUIRE(pdf);
  CHECK_FALSE(check_proofs(*pdf, {&small, &large}));
  CHECK_THAT(check_proofs(*pdf, {&large, &small})->what, Contains("artwork 1 is not what will be engraved"));
  CHECK_THAT(check_proofs(*pdf, {&small})->what, Contains("every artwork once"));
  CHECK_THAT(check_proofs(pdf->substr(0, pdf->size() / 2), {&small, &large})->what, Contains("not whole"));
}
