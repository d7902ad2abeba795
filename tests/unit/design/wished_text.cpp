// Words set as their item wishes, on a plaque of 150 × 100 mm.
#include <catch2/catch.hpp>

#include "design/lettering.h"
#include "plaque.h"

namespace ordinatio::wished_text_test {
using Catch::Contains;

namespace {

Words words(std::vector<std::string> lines, const std::string& setting) {
  Words what{{"", std::move(lines), {}}, ""};
  what.setting = kept_setting(setting);
  return what;
}

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  Result<Artwork> compose(const Design& design, const Words& what) {
    const auto laid = laid_as_drawn(design);
    if (!laid.ok()) FAIL(describe(laid.fault()));
    return ordinatio::compose(*laid, what, typesetter);
  }
  Artwork good(const Design& design, const Words& what) {
    auto artwork = compose(design, what);
    if (!artwork.ok()) FAIL(describe(artwork.fault()));
    return *std::move(artwork);
  }
  Fault refused(const Design& design, const Words& what) {
    auto artwork = compose(design, what);
    REQUIRE_FALSE(artwork.ok());
    return artwork.fault();
  }
  double size_told(const Design& design, const Words& what) {
    const auto laid = laid_as_drawn(design);
    SettingRecords records;
    return ReadyWords(*laid, what, typesetter).cap_height_on(*laid, records);
  }
};

Design design() { return plaque(3, 30); }
Bounds ink_of(const Artwork& artwork) { return bounds_of(artwork.layers.at(0).path); }
/// The way that a Fault says is left: "Move them by no more than 3.2,-1 mm".
std::string way_told(const Fault& fault) {
  const std::string before = "Move them by no more than ";
  REQUIRE(fault.mend.starts_with(before));
  return fault.mend.substr(before.size(), fault.mend.rfind(' ') - before.size());
}

}  // namespace

TEST_CASE("an item that wishes nothing is set as it always was") {
  Bench bench;
  const Words plain{{"", {"The Old Mill"}, {}}, ""};
  const Artwork artwork = bench.good(design(), words({"The Old Mill"}, ""));
  CHECK(artwork.hash == bench.good(design(), plain).hash);
  CHECK(artwork.changes.empty());
  CHECK(bench.good(design(), words({"The Old Mill"}, "design other")).hash == artwork.hash);
}

TEST_CASE("capitals are no taller than the item wishes, and a wish for more than there is room for changes no size") {
  Bench bench;
  const Artwork small = bench.good(design(), words({"HI"}, "size 8.5"));
  CHECK(small.cap_height == Approx(8.5).epsilon(1e-9));
  CHECK(ink_of(small).centre().x == Approx(75).margin(1e-6));
  CHECK(small.changes == std::vector<std::string>{"set as wished for this item: size 8.5"});
  const std::vector<std::string> wide{"The Old Mill House beside the Weir"};
  CHECK(bench.good(design(), words(wide, "size 29")).hash == bench.good(design(), words(wide, "")).hash);
  CHECK(bench.good(design(), words({"HI"}, "size 3")).cap_height == Approx(3).epsilon(1e-9));
}

TEST_CASE("a size out of the design's range is refused with the range") {
  Bench bench;
  CHECK_THAT(bench.refused(design(), words({"HI"}, "size 2.9")).why, Contains("from 3 mm to 30 mm"));
  for (const char* wish : {"size 2.9", "size 30.5"}) {
    const auto fault = check_wish(design(), kept_setting(wish));
    REQUIRE(fault);
    CHECK_THAT(fault->why, Contains("from 3 mm to 30 mm"));
  }
  CHECK_FALSE(check_wish(design(), kept_setting("size 30; nudge 1,1")));
  Design fixed = design();
  fixed.texts[0].words = WordsPart{{"Weir Mill"}};
  CHECK_THAT(check_wish(fixed, kept_setting("lines kept"))->what, Contains("no place for the customer's words"));
}

TEST_CASE("words that are held for a wish are told the wish") {
  Bench bench;
  Design by_role = design();
  by_role.texts[0].sizes = BlockSizes::by_role;
  by_role.texts[0].roles.push_back({"date", {-1}, {}, {{"serif"}, {}, {}, 0, LetterCase::as_typed, 0.5}});
  const Fault fault = bench.refused(by_role, words({"HI", "1874"}, "size 4"));
  CHECK_THAT(fault.what, Contains("would come to 2 mm"));
  CHECK_THAT(fault.why, Contains("for this item is wished: size 4"));
}

TEST_CASE("a nudged block is the same block elsewhere, in all its lines, and nothing else moves") {
  Bench bench;
  Design bordered = design();
  bordered.borders.push_back({6, 1, Operation::score});
  TextPart maker = bordered.texts[0];
  bordered.texts[0].box = Bounds{10, 40, 140, 90};
  maker.words = WordsPart{{"Weir Mill"}};
  maker.box = Bounds{10, 10, 140, 30};
  maker.operation = Operation::mark;
  bordered.texts.push_back(maker);
  const std::vector<std::string> lines{"Ada", "1874"};
  const Artwork still = bench.good(bordered, words(lines, "size 8"));
  const Artwork moved = bench.good(bordered, words(lines, "size 8; nudge -12.5,3.25"));
  CHECK(moved.hash != still.hash);
  const Path there = transformed(still.layers.at(0).path, shift_by({-12.5, 3.25}));
  const auto now = moved.layers.at(0).path.points(), wanted = there.points();
  REQUIRE(now.size() == wanted.size());
  for (std::size_t i = 0; i < now.size(); ++i) CHECK(length(now[i] - wanted[i]) < 1e-9);
  REQUIRE(moved.layers.size() == 3);
  CHECK(moved.layers[1].path == still.layers[1].path);
  CHECK(moved.layers[2].path == still.layers[2].path);
  CHECK(length(moved.stroke.at - still.stroke.at - Point{-12.5, 3.25}) < 1e-9);
}

TEST_CASE("a block that would leave the clear area is refused, and goes as far as it is told, not further") {
  Bench bench;
  const char* const ways[] = {"100,0", "-100,0", "0,100", "0,-100", "90,70", "-300,200"};
  for (const char* way : ways) {
    INFO(way);
    const std::string nudge = "size 8; nudge ";
    const Fault fault = bench.refused(design(), words({"Ada", "1874"}, nudge + way));
    CHECK_THAT(fault.why, Contains("leave its room"));
    const std::string told = way_told(fault);
    const Bounds ink = ink_of(bench.good(design(), words({"Ada", "1874"}, nudge + told)));
    const double left = std::min({ink.left - 5, 145 - ink.right, ink.bottom - 5, 95 - ink.top});
    CHECK(left > -0.006);
    CHECK(left < 0.02);
    CHECK(bench.size_told(design(), words({"Ada", "1874"}, nudge + way)) == 0);
    CHECK(bench.size_told(design(), words({"Ada", "1874"}, nudge + told)) == Approx(8).epsilon(1e-9));
  }
  CHECK_THAT(bench.refused(design(), words({"The Old Mill House beside the Weir"}, "nudge 1,0")).mend,
             Contains("wish for smaller capitals"));
}

TEST_CASE("a nudged block keeps off what is kept clear, and may pass it by") {
  Bench bench;
  Design stamped = design();
  stamped.kept_clear.push_back({"stamp", {{110, 50}}, 8, 2});
  const std::string small = "size 5; nudge ";
  const std::string told = way_told(bench.refused(stamped, words({"Ada"}, small + "36,0")));
  const Bounds ink = ink_of(bench.good(stamped, words({"Ada"}, small + told)));
  CHECK(ink.right < 101);
  CHECK(ink.right > 98);
  CHECK(ink_of(bench.good(stamped, words({"Ada"}, small + "57,0"))).left > 119);
}

TEST_CASE("lines end where they were typed to end, whatever the design says") {
  Bench bench;
  Design free = design();
  free.texts[0].breaks = LineBreaks::free;
  const std::vector<std::string> typed{"For Ines and Tomasz, who came by the lower", "weir"};
  CHECK(bench.good(free, words(typed, "")).lines != typed);
  CHECK(bench.good(free, words(typed, "lines kept")).lines == typed);
}

TEST_CASE("what was kept and cannot be read holds the item, wherever it would be set") {
  Bench bench;
  const Words odd = words({"Ada"}, "size large");
  CHECK_THAT(bench.refused(design(), odd).why, Contains("size large"));
  CHECK(bench.size_told(design(), odd) == 0);
  const auto laid = laid_as_drawn(design());
  CHECK_FALSE(ReadyWords(*laid, odd, bench.typesetter).bound().ok());
}

}  // namespace ordinatio::wished_text_test
