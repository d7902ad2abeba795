#include <catch2/catch.hpp>

#include "check/comparison.h"

namespace ordinatio::contours_test {

namespace {

constexpr double step = 0.001;  // mm

/// Letters and a speck of two steps across between them.
const std::vector<Contour> model{{{1, 1}, true, 5}, {{9, 9}, true, 2 * step}, {{20, 1}, true, 5}, {{30, 1}, false, 5}};

bool takes(ContourPairing& pairing, Point start, bool closed = true) { return pairing.take({start, closed, 5}); }

}  // namespace

TEST_CASE("contours pair in order, wherever rounding to the last place has put them") {
  ContourPairing pairing(model, step);
  CHECK(takes(pairing, {1.0005, 0.9995}));
  CHECK(takes(pairing, {9, 9}));
  CHECK(takes(pairing, {20, 1}));
  CHECK_FALSE(pairing.done());
  CHECK(takes(pairing, {30, 1}, false));
  CHECK(pairing.done());
  CHECK_FALSE(takes(pairing, {30, 1}, false));
}

TEST_CASE("a speck that rounding erases may be missing, anything larger may not") {
  ContourPairing pairing(model, step);
  CHECK_FALSE(takes(pairing, {20, 1}));
  CHECK(takes(pairing, {1, 1}));
  CHECK_FALSE(takes(pairing, {30, 1}, false));
  CHECK(pairing.next().start == Point{20, 1});
  CHECK(takes(pairing, {20, 1}));
  CHECK_FALSE(takes(pairing, {30, 1}, true));
  CHECK_FALSE(takes(pairing, {30.002, 1}, false));
  CHECK(pairing.taken() == 2);
}

TEST_CASE("specks alone are nothing that must be there") {
  const std::vector<Contour> specks{{{9, 9}, true, step}};
  CHECK(ContourPairing(specks, step).done());
}

}  // namespace ordinatio::contours_test
