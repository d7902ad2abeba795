#include "bed/cutting.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "sawn_by_trial.h"

namespace ordinatio::cutting_test {

namespace {

constexpr double slack = 1e-6;  // mm: lengths are whole micrometres

CuttingPlan plan_of(const Pane& pane, const CuttingTask& task) {
  const auto plan = plan_cutting(pane, task);
  if (!plan.ok()) FAIL(describe(plan.fault()));
  return *plan;
}

PaneThing thing(PaneThing::Kind kind, double left, double bottom, double width, double height,
                const std::string& name = "") {
  return {kind, {left, bottom, left + width, bottom + height}, name};
}

std::string described(const Pane& pane, const CuttingTask& task) {
  std::string text = "pane " + mm_text(pane.width) + " x " + mm_text(pane.height) + ", piece " +
                     mm_text(task.piece_width) + " x " + mm_text(task.piece_height) + ", kerf " + mm_text(task.kerf) +
                     ", factory";
  for (const bool side : {pane.factory.left, pane.factory.bottom, pane.factory.right, pane.factory.top}) {
    text += side ? " 1" : " 0";
  }
  for (const auto& [kind, box, name] : pane.things) {
    text += kind == PaneThing::Kind::whole ? "; whole" : "; clear";
    for (const double edge : {box.left, box.bottom, box.right, box.top}) text += " " + mm_text(edge);
  }
  return text;
}

/// Small panes, all of whole millimetres, drawn from a seed.
class Panes {
 public:
  explicit Panes(unsigned seed) : random_(seed) {}
  int number(int least, int most) { return least + int(random_() % unsigned(most - least + 1)); }
  Pane pane(int longest, std::size_t things) {
    Pane pane{"P", double(number(3, longest)), double(number(3, longest)), {}, false, {}};
    pane.factory = {number(0, 1) == 1, number(0, 1) == 1, number(0, 1) == 1, number(0, 1) == 1};
    for (std::size_t i = 0; i < things; ++i) {
      const int left = number(0, int(pane.width) - 1), bottom = number(0, int(pane.height) - 1);
      const int width = number(1, std::min(3, int(pane.width) - left));
      const int height = number(1, std::min(3, int(pane.height) - bottom));
      const auto kind = number(0, 1) == 1 ? PaneThing::Kind::whole : PaneThing::Kind::clear;
      pane.things.push_back(thing(kind, left, bottom, width, height));
    }
    return pane;
  }
  CuttingTask task() { return {double(number(1, 4)), double(number(2, 5)), double(number(0, 2))}; }

 private:
  std::mt19937 random_;
};

bool parted(const Bounds& a, const Bounds& b, double gap) {
  return a.right + gap <= b.left + slack || b.right + gap <= a.left + slack || a.top + gap <= b.bottom + slack ||
         b.top + gap <= a.bottom + slack;
}

bool inside(const Bounds& inner, const Bounds& outer) {
  return inner.left >= outer.left - slack && inner.right <= outer.right + slack &&
         inner.bottom >= outer.bottom - slack && inner.top <= outer.top + slack;
}

/// What is left of a part on the low or the high side of a cut; empty where the blade takes it all.
Bounds half_of(const Bounds& part, const Cut& cut, double kerf, bool high) {
  Bounds half = part;
  if (cut.upright) {
    high ? half.left = cut.blade + kerf : half.right = cut.blade;
  } else {
    high ? half.bottom = cut.blade + kerf : half.top = cut.blade;
  }
  return half;
}

void require_half(const CuttingPlan& plan, const Bounds& expected, std::optional<std::size_t> part) {
  if (!part) {
    CHECK((expected.right - expected.left <= slack || expected.top - expected.bottom <= slack));
    return;
  }
  CHECK((inside(plan.parts[*part].box, expected) && inside(expected, plan.parts[*part].box)));
}

/// Every cut goes from edge to edge of one part that is there, and leaves what the plan says.
void require_cuts_make_parts(const CuttingPlan& plan) {
  std::vector<bool> made(plan.parts.size(), false), used(plan.parts.size(), false);
  made[0] = true;
  for (const Cut& cut : plan.cuts) {
    REQUIRE((made[cut.part] && !used[cut.part]));
    used[cut.part] = true;
    const Bounds& box = plan.parts[cut.part].box;
    require_half(plan, half_of(box, cut, plan.task.kerf, false), cut.lower);
    require_half(plan, half_of(box, cut, plan.task.kerf, true), cut.upper);
    for (const auto& half : {cut.lower, cut.upper}) {
      if (half) made[*half] = true;
    }
    const Bounds& kept = plan.parts[*cut.measured()].box;
    CHECK(cut.measure == Approx(cut.upright ? kept.width() : kept.height()));
  }
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    CHECK(made[i]);
    CHECK(used[i] == (plan.parts[i].fate == PanePart::Fate::cut));
  }
}

void require_pieces_lie_well(const CuttingPlan& plan) {
  const Bounds pane{0, 0, plan.pane.width, plan.pane.height};
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    const auto& [place, turned, factory, things] = plan.pieces[i];
    CHECK(inside(place, pane));
    CHECK(place.width() == Approx(turned ? plan.task.piece_height : plan.task.piece_width));
    CHECK(place.height() == Approx(turned ? plan.task.piece_width : plan.task.piece_height));
    for (std::size_t other = 0; other < i; ++other) CHECK(parted(place, plan.pieces[other].place, plan.task.kerf));
    for (const PaneThing& on : plan.pane.things) {
      if (on.kind == PaneThing::Kind::clear) CHECK_FALSE(overlap(place, on.box));
      if (on.kind == PaneThing::Kind::whole) CHECK((inside(on.box, place) || !overlap(place, on.box)));
    }
  }
}

void require_whole_things_uncut(const CuttingPlan& plan) {
  for (const Cut& cut : plan.cuts) {
    Bounds blade = plan.parts[cut.part].box;
    (cut.upright ? blade.left : blade.bottom) = cut.blade;
    (cut.upright ? blade.right : blade.top) = cut.blade + plan.task.kerf;
    for (const PaneThing& on : plan.pane.things) {
      if (on.kind == PaneThing::Kind::whole) CHECK_FALSE(overlap(on.box, blade));
    }
  }
}

void require_sound(const CuttingPlan& plan) {
  require_cuts_make_parts(plan);
  require_pieces_lie_well(plan);
  require_whole_things_uncut(plan);
}

}  // namespace

TEST_CASE("no guillotine plan of a small pane is better: pieces, factory edges, corners, cuts") {
  const unsigned seed = GENERATE(1U, 2U, 3U, 4U);
  Panes panes(seed);
  for (int i = 0; i < 40; ++i) {
    const Pane pane = panes.pane(12, 0);
    const CuttingTask task = panes.task();
    INFO("seed " << seed << ": " << described(pane, task));
    const CuttingPlan plan = plan_of(pane, task);
    require_sound(plan);
    CHECK(yield_of(plan) == SawnByTrial(pane, task).best());
  }
}

TEST_CASE("nor is one of a pane with things on it: pieces, factory edges, corners, whole things on a piece") {
  const unsigned seed = GENERATE(5U, 6U, 7U, 8U);
  Panes panes(seed);
  for (int i = 0; i < 40; ++i) {
    const Pane pane = panes.pane(10, std::size_t(panes.number(1, 3)));
    const CuttingTask task = panes.task();
    INFO("seed " << seed << ": " << described(pane, task));
    const CuttingPlan plan = plan_of(pane, task);
    require_sound(plan);
    Yield tried = SawnByTrial(pane, task).best(), planned = yield_of(plan);
    CHECK(planned <= tried);
    tried[4] = planned[4] = 0;
    CHECK(planned == tried);
  }
}

TEST_CASE("a mirrored or turned pane gives as much") {
  Panes panes(9);
  for (int i = 0; i < 40; ++i) {
    const Pane pane = panes.pane(24, std::size_t(panes.number(0, 2)));
    const CuttingTask task = panes.task();
    INFO(described(pane, task));
    Pane mirrored = pane, turned = pane;
    std::swap(mirrored.factory.left, mirrored.factory.right);
    std::swap(turned.width, turned.height);
    turned.factory = {pane.factory.bottom, pane.factory.left, pane.factory.top, pane.factory.right};  // x and y change
    for (std::size_t t = 0; t < pane.things.size(); ++t) {
      const Bounds& box = pane.things[t].box;
      mirrored.things[t].box = {pane.width - box.right, box.bottom, pane.width - box.left, box.top};
      turned.things[t].box = {box.bottom, box.left, box.top, box.right};
    }
    const auto yield = [&](const Pane& one) {
      Yield counts = yield_of(plan_of(one, task));
      if (!one.things.empty()) counts[4] = 0;  // cuts are fewest only where nothing lies on the pane
      return counts;
    };
    CHECK(yield(mirrored) == yield(pane));
    CHECK(yield(turned) == yield(pane));
  }
}

TEST_CASE("the order in which things are named does not matter") {
  Pane pane{"P", 800, 600, {true, true, false, false}, false, {}};
  pane.things = {thing(PaneThing::Kind::clear, 300, 200, 40, 15), thing(PaneThing::Kind::whole, 600, 450, 60, 30)};
  const CuttingTask task{150, 100, 3};
  const CuttingPlan plan = plan_of(pane, task);
  require_sound(plan);
  std::swap(pane.things[0], pane.things[1]);
  const CuttingPlan other = plan_of(pane, task);
  REQUIRE(other.cuts.size() == plan.cuts.size());
  for (std::size_t i = 0; i < plan.cuts.size(); ++i) CHECK(other.cuts[i].blade == plan.cuts[i].blade);
}

TEST_CASE("a pane that is a piece already needs no cut, and keeps all its edges and corners") {
  const CuttingPlan plan = plan_of({"P", 152.4, 101.6, {true, true, true, true}, false, {}}, {101.6, 152.4, 3});
  CHECK(plan.cuts.empty());
  REQUIRE(plan.pieces.size() == 1);
  CHECK(plan.pieces[0].turned);
  CHECK(yield_of(plan) == Yield{1, 4, 4, 0, 0});
}

TEST_CASE("a pane smaller than the piece yields a plan without pieces and without cuts") {
  const CuttingPlan plan = plan_of({"P", 150, 101.5, {}, false, {}}, {101.6, 152.4, 3});
  CHECK((plan.pieces.empty() && plan.cuts.empty()));
  REQUIRE(plan.parts.size() == 1);
  CHECK(plan.parts[0].fate == PanePart::Fate::waste);
}

TEST_CASE("the blade's width decides whether a last piece goes in") {
  const Pane pane{"P", 206, 100, {}, false, {}};
  CHECK(plan_of(pane, {100, 100, 6}).pieces.size() == 2);
  CHECK(plan_of(pane, {100, 100, 6.001}).pieces.size() == 1);
}

TEST_CASE("pieces go to both factory edges, with the waste between them") {
  const CuttingPlan plan = plan_of({"P", 250, 100, {true, false, true, false}, false, {}}, {100, 100, 3});
  CHECK(yield_of(plan) == Yield{2, 2, 0, 0, -2});
  require_sound(plan);
}

TEST_CASE("a clear thing costs the pieces that would lie over it, and no more") {
  Pane pane{"P", 300, 100, {}, false, {thing(PaneThing::Kind::clear, 140, 40, 5, 5, "scratch")}};
  CHECK(plan_of(pane, {100, 100, 0}).pieces.size() == 2);
  pane.things[0].box = {100, 40, 102, 45};  // where the blade goes
  pane.width = 302;
  CHECK(plan_of(pane, {100, 100, 2}).pieces.size() == 2);
  pane.width = 304;
  CHECK(plan_of(pane, {100, 100, 2}).pieces.size() == 3);
}

TEST_CASE("a whole thing lies on one piece, whose own millimetres tell where") {
  const Pane pane{
      "P", 152.4, 210, {true, false, false, true}, false, {thing(PaneThing::Kind::whole, 20, 110, 30, 10, "stamp")}};
  const CuttingPlan plan = plan_of(pane, {101.6, 152.4, 3});
  require_sound(plan);
  REQUIRE(plan.pieces.size() == 2);
  const auto on =
      std::find_if(plan.pieces.begin(), plan.pieces.end(), [](const CutPiece& p) { return !p.things.empty(); });
  REQUIRE(on != plan.pieces.end());
  CHECK((on->turned && on->things.size() == 1));
  // Turned back it stands with what was its left side up: left of the pane is the piece's top.
  const Bounds box = on->things[0].box;
  CHECK(box.left == Approx(110 - on->place.bottom));
  CHECK(box.top == Approx(152.4 - 20));
  CHECK(box.width() == Approx(10));
  CHECK(box.height() == Approx(30));
  CHECK(on->factory.top);
}

TEST_CASE("tempered glass is refused, with the reason") {
  const auto plan = plan_cutting({"W4", 600, 400, {}, true, {}}, {101.6, 152.4, 3});
  REQUIRE_FALSE(plan.ok());
  CHECK(plan.fault().what == "tempered glass, or other safety glass, is neither cut nor engraved");
  CHECK(plan.fault().why.find("shatter") != std::string::npos);
}

TEST_CASE("what is no length, no blade or not on the pane costs a Fault") {
  const double nan = std::numeric_limits<double>::quiet_NaN(), infinity = std::numeric_limits<double>::infinity();
  const Pane pane{"P", 500, 300, {}, false, {}};
  for (const double bad : {nan, infinity, -infinity, 0.0, -5.0, 1e-4, longest_pane_side + 1}) {
    CHECK_FALSE(plan_cutting({"P", bad, 300, {}, false, {}}, {100, 150, 3}).ok());
    CHECK_FALSE(plan_cutting({"P", 300, bad, {}, false, {}}, {100, 150, 3}).ok());
    CHECK_FALSE(plan_cutting(pane, {bad, 150, 3}).ok());
    CHECK_FALSE(plan_cutting(pane, {100, bad, 3}).ok());
    Pane marked = pane;
    marked.things = {thing(PaneThing::Kind::clear, 400, 200, bad, 5)};
    CHECK_FALSE(plan_cutting(marked, {100, 150, 3}).ok());
  }
  for (const double kerf : {nan, infinity, -0.1, widest_kerf + 1})
    CHECK_FALSE(plan_cutting(pane, {100, 150, kerf}).ok());
}

TEST_CASE("a pane with too many ways to cut gets a good plan that says it may not be the best") {
  Pane pane{"P", 2250, 1605, {true, true, true, true}, false, {}};
  for (int i = 0; i < 6; ++i) {
    const auto kind = i % 2 == 0 ? PaneThing::Kind::clear : PaneThing::Kind::whole;
    pane.things.push_back(thing(kind, 150 + 311 * i, 200 + 217 * ((i * 3) % 6), 31, 17));
  }
  const auto plan = plan_cutting(pane, {150, 100, 3}, 20'000);
  REQUIRE(plan.ok());
  require_sound(*plan);
  CHECK_FALSE(plan->is_best);
  CHECK(plan->pieces.size() > 200);  // 228 if nothing lay on it
}

TEST_CASE("hostile sizes end in a Fault, soon") {
  CHECK_FALSE(plan_cutting({"P", 10'000, 10'000, {}, false, {}}, {0.001, 0.001, 0}).ok());
  CHECK_FALSE(plan_cutting({"P", 10'000, 10'000, {}, false, {}}, {7, 11, 0}).ok());
  Pane pane{"P", 500, 300, {}, false, {}};
  for (std::size_t i = 0; i <= most_things; ++i)
    pane.things.push_back(thing(PaneThing::Kind::clear, double(i), 5, 1, 1));
  const auto plan = plan_cutting(pane, {100, 150, 3});
  REQUIRE_FALSE(plan.ok());
  CHECK(plan.fault().what == "too many things lie on the pane");
}

}  // namespace ordinatio::cutting_test
