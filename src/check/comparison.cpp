#include "check/comparison.h"

#include <algorithm>
#include <cmath>

#include "check/check.h"
#include "check/cut_order.h"

namespace ordinatio::inline check {
namespace {

// Rounding moves a point by at most step/2 along an axis, step/√12 as a standard deviation, and the area by half of
// that times the distance of its neighbours. Six deviations of the sum over all points: 6 · 2/(2√12) · step · √Σ|edge|².
constexpr double area_rounding = 1.74;
// The same for lengths, where only movement along the edge counts: 6 · √2/√12 · step · √edges, rounded up.
constexpr double length_rounding = 2.5;

/// Whether found is between the two, give or take.
bool between(double found, double one, double other, double allowance) {
  return found >= std::min(one, other) - allowance && found <= std::max(one, other) + allowance;
}

void compare_bounds(const std::string& name, const Bounds& expected, const Bounds& found, const FileKind& kind,
                    std::size_t line) {
  const double slack = kind.chord + 2 * kind.step;
  const auto off = [&](double a, double b) { return !(std::abs(a - b) <= slack); };
  if (off(expected.left, found.left) || off(expected.bottom, found.bottom) || off(expected.right, found.right) ||
      off(expected.top, found.top)) {
    throw Difference{name + ": its box is " + spoken(Point{found.left, found.bottom}) + " to " +
                         spoken(Point{found.right, found.top}) + " mm, not " +
                         spoken(Point{expected.left, expected.bottom}) + " to " +
                         spoken(Point{expected.right, expected.top}),
                     line};
  }
}

void compare_contours(const std::string& name, const Ink& expected, const Ink& found, const FileKind& kind,
                      std::size_t line) {
  ContourPairing pairing(expected.contours, kind.step);
  for (const Contour& contour : found.contours) {
    if (pairing.take(contour)) continue;
    throw Difference{name + ": contour " + std::to_string(pairing.taken() + 1) + " starts at " + spoken(contour.start) +
                         " and is " + (contour.closed ? "closed" : "open") +
                         (pairing.done() ? ", where the sheet has no more"
                                         : ", not at " + spoken(pairing.next().start) + " and " +
                                               (pairing.next().closed ? "closed" : "open")),
                     line};
  }
  if (!pairing.done()) {
    throw Difference{name + ": only " + std::to_string(pairing.taken()) + " of " +
                         std::to_string(expected.contours.size()) + " contours are there",
                     line};
  }
}

}  // namespace

bool ContourPairing::take(const Contour& found) {
  for (std::size_t i = at_; i < model_.size(); ++i) {
    const Contour& model = model_[i];
    if (model.closed == found.closed && std::abs(model.start.x - found.start.x) <= step_ &&
        std::abs(model.start.y - found.start.y) <= step_) {
      at_ = i + 1;
      ++taken_;
      return true;
    }
    if (!may_be_missing(model)) return false;
  }
  return false;
}

bool ContourPairing::done() const {
  return std::all_of(model_.begin() + static_cast<std::ptrdiff_t>(at_), model_.end(),
                     [&](const Contour& contour) { return may_be_missing(contour); });
}

const Contour& ContourPairing::next() const {
  return *std::find_if(model_.begin() + static_cast<std::ptrdiff_t>(at_), model_.end(),
                       [&](const Contour& contour) { return !may_be_missing(contour); });
}

InkRange range_of(const ExpectedPart& expected, double chord) {
  InkRange range{expected.ink, expected.ink.area, expected.ink.length};
  if (chord > 0) {
    const Ink coarse = measure(chords_of(expected.part->path, chord), needed_of(*expected.part));
    range.coarse_area = coarse.area;
    range.coarse_length = coarse.length;
  }
  return range;
}

void compare_ink(const std::string& name, bool filled, const InkRange& expected, const Ink& found, const FileKind& kind,
                 std::size_t line) {
  const Ink& exact = expected.exact;
  if (filled) {
    const double allowance =
        area_share * std::abs(exact.area) + area_rounding * kind.step * std::sqrt(exact.edge_squares);
    if (!between(found.area, exact.area, expected.coarse_area, allowance)) {
      throw Difference{name + ": ink area is " + spoken(found.area) + " mm², not " + spoken(exact.area), line};
    }
  } else {
    const double allowance =
        area_share * exact.length + length_rounding * kind.step * std::sqrt(static_cast<double>(exact.edges));
    if (!between(found.length, exact.length, expected.coarse_length, allowance)) {
      throw Difference{name + ": it runs " + spoken(found.length) + " mm, not " + spoken(exact.length), line};
    }
  }
  compare_bounds(name, exact.bounds, found.bounds, kind, line);
}

void compare_place(const Expectation& expectation, const ExpectedPart& expected, const Path& path, const Ink& ink,
                   std::size_t line) {
  const Machine& bed = expectation.sheet.frame.plan.machine;
  const Bounds& box = ink.bounds;
  if (!(box.left >= -place_slack && box.bottom >= -place_slack && box.right <= bed.width + place_slack &&
        box.top <= bed.height + place_slack)) {
    throw Difference{name_of(expected) + " leaves the bed", line};
  }
  if (!expected.item || expected.part->operation == Operation::guide) return;
  const double out =
      excess(path, box, expectation.clear_areas[*expected.item], place_slack, is_filled(expected.part->operation));
  if (out > place_slack) {
    throw Difference{name_of(expected) + " leaves its clear area by " + spoken(out) + " mm", line};
  }
}

double compare_part(const Expectation& expectation, const ExpectedPart& expected, const Path& found,
                    const FileKind& kind, std::size_t line) {
  const bool filled = is_filled(expected.part->operation);
  const std::string name = name_of(expected);
  const InkRange range = range_of(expected, kind.chord);
  if (filled && !(range.exact.area > 0)) {
    throw Difference{name + ": the outlines turn the wrong way round or cover nothing", line};
  }
  const Ink ink = measure(found, needed_of(*expected.part));
  compare_contours(name, range.exact, ink, kind, line);
  compare_ink(name, filled, range, ink, kind, line);
  if (expected.part->operation == Operation::cut) require_inner_first(name, found, line);
  compare_place(expectation, expected, found, ink, line);
  return ink.area;
}

}  // namespace ordinatio::inline check
