// What the child that draws a logo answers: taken only when it is sound.
#include <chrono>
#include <cmath>
#include <cstring>

#include "base/child.h"
#include "logo/drawing.h"
#include "logo/logo.h"
#include "logo_drawing.h"

namespace ordinatio::answer_test {
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;
const ChildWords words{"the logo could not be drawn", "draws it", "the drawing library", "its outlines are"};

}  // namespace

TEST_CASE("a drawing that takes too long is a fault, not a wait") {
  // A marker of 1,000 shapes on each of 20,000 nodes: no reference that the scan could count.
  std::string shapes, nodes;
  for (int i = 0; i < 1000; ++i) shapes += "<path d='M0 0L1 2L2 0z'/>";
  for (int i = 0; i < 20'000; ++i) nodes += "L" + std::to_string(i % 97) + " " + std::to_string(i % 89);
  const std::string svg = page_with("<marker id='m' markerWidth='3' markerHeight='3'>" + shapes +
                                    "</marker><path style='marker-mid:url(#m)' d='M0 0" + nodes + "'/>");
  CHECK_FALSE(logo::scan(svg, "a.svg"));
  const auto start = Clock::now();
  CHECK_FALSE(run_in_child([&] { return logo::resolve(svg); }, words, {.wall = 20s, .cpu_seconds = 1}).ok());
  CHECK(Clock::now() - start < 20s);
}

TEST_CASE("an answer is taken only when it is whole and sound") {
  Logo logo{{}, {0, 0, 10, 10}};
  logo.fill.move_to({1, 1});
  logo.fill.line_to({9, 1});
  logo.fill.cubic_to({11, 4}, {8, 9}, {5, 9});
  logo.fill.close();
  const std::string packed = logo::pack(logo);
  const auto back = logo::unpack(packed);
  REQUIRE(back.ok());
  CHECK(back->fill == logo.fill);
  CHECK(back->box == logo.box);

  for (std::size_t size = 0; size < packed.size(); ++size) CHECK_FALSE(logo::unpack(packed.substr(0, size)).ok());
  CHECK_FALSE(logo::unpack(packed + "x").ok());
  const auto with_double = [&](std::size_t at, double value) {
    std::string changed = packed;
    std::memcpy(changed.data() + at, &value, sizeof value);
    return changed;
  };
  const std::size_t first_point = 1 + 8 + 8 + 8 + 4;
  CHECK(logo::unpack(with_double(first_point, 2)).ok());
  for (const double bad : {std::nan(""), HUGE_VAL, -1.0, 11.0})
    CHECK_FALSE(logo::unpack(with_double(first_point, bad)).ok());
  for (const double bad : {std::nan(""), HUGE_VAL, -1.0, 0.0}) CHECK_FALSE(logo::unpack(with_double(1, bad)).ok());

  for (std::size_t i = 0; i < packed.size(); ++i) {  // any single damaged byte: refused, or another sound logo
    for (const int bit : {1, 4, 128}) {
      std::string changed = packed;
      changed[i] = static_cast<char>(changed[i] ^ bit);
      const auto read = logo::unpack(changed);
      if (read.ok()) CHECK(bounds_of(read->fill).width() < 1e3);
    }
  }
}

TEST_CASE("a fault comes back from the child in all its parts") {
  const auto back = logo::unpack(logo::pack(Fault{"what", "where", "why", "mend"}));
  REQUIRE_FALSE(back.ok());
  CHECK(back.fault().what == "what");
  CHECK(back.fault().where == "where");
  CHECK(back.fault().why == "why");
  CHECK(back.fault().mend == "mend");
}

TEST_CASE("the watermill's logo is ink inside its page, and always the same") {
  const auto logo = read_logo(PROJECT_FOLDER "/templates/watermill/logo.svg");
  REQUIRE(logo.ok());
  CHECK(logo->box.width() == Approx(30).epsilon(1e-6));
  const Bounds ink = bounds_of(logo->fill);
  CHECK(ink.left > 0);
  CHECK(ink.bottom > 0);
  CHECK(ink.right < 30);
  CHECK(ink.top < 30);
  CHECK(area_of(logo->fill) == Approx(318.6).epsilon(1e-3));
  CHECK(read_logo(PROJECT_FOLDER "/templates/watermill/logo.svg")->fill == logo->fill);
}

}  // namespace ordinatio::answer_test
