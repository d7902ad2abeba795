#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>
#include <set>

#include "paper/cautions.h"
#include "paper/cutting_pdf.h"
#include "paper/cutting_text.h"

namespace ordinatio::cutting_test {
using Catch::Matchers::Contains;

namespace {

CuttingPlan plan_of(const Pane& pane, const CuttingTask& task) {
  const auto plan = plan_cutting(pane, task);
  REQUIRE(plan.ok());
  return *plan;
}

PaneThing thing(PaneThing::Kind kind, const Bounds& box, const std::string& name) { return {kind, box, name}; }

std::string words_of(const CuttingPlan& plan) {
  std::string words;
  for (const CuttingStep& step : cutting_steps(plan)) words += step.words + "\n";
  return words;
}

}  // namespace

TEST_CASE("equal cuts are one step, and what comes off is named") {
  const CuttingPlan plan = plan_of({"S1", 330, 100, {}, false, {}}, {100, 100, 3});
  const auto steps = cutting_steps(plan);
  REQUIRE(steps.size() == 1);
  CHECK((steps[0].first == 1 && steps[0].last == 3));
  CHECK(steps[0].words ==
        "Take the pane. Cut upright, 100 mm from its left edge; then 2 times more, as far from the edge just cut. "
        "Left: pieces S1-1 to S1-3. Right: waste.");
}

TEST_CASE("parts that are cut further have letters, and those that are cut alike are taken in turn") {
  const CuttingPlan plan = plan_of({"S1", 203, 203, {}, false, {}}, {100, 100, 3});
  CHECK(words_of(plan) ==
        "Take the pane. Cut upright, 100 mm from its left edge. Left: part A. Right: part B.\n"
        "Take parts A and B in turn. Cut each level, 100 mm from its lower edge. "
        "Pieces S1-1 to S1-4, as they come off, the last of each above.\n");
}

TEST_CASE("a piece with the factory's right edge is measured from that edge") {
  const CuttingPlan plan = plan_of({"S1", 150, 100, {false, false, true, false}, false, {}}, {100, 100, 3});
  CHECK(words_of(plan) == "Take the pane. Cut upright, 100 mm from its right edge. Right: piece S1-1. Left: waste.\n");
}

TEST_CASE("where the blade takes all that is left, it is said") {
  const CuttingPlan plan = plan_of({"S1", 102, 100, {}, false, {}}, {100, 100, 3});
  CHECK_THAT(words_of(plan), Contains("Left: piece S1-1. The blade takes the rest."));
}

TEST_CASE(
    "every cut of a plan is in one step, every piece is named once as it comes off, every letter before it is taken") {
  const CuttingPlan plan = plan_of({"W",
                                    900,
                                    700,
                                    {true, false, false, true},
                                    false,
                                    {thing(PaneThing::Kind::clear, {300, 200, 340, 215}, "scratch"),
                                     thing(PaneThing::Kind::whole, {600, 450, 660, 480}, "stamp")}},
                                   {150, 100, 3});
  std::size_t next = 1;
  std::set<std::string> given;
  const std::regex given_part("(?:Left|Right|Below|Above): parts? ([A-Z]+)(?: (and|to) ([A-Z]+))?");
  const std::regex taken_part("Take parts? ([A-Z]+)");
  for (const CuttingStep& step : cutting_steps(plan)) {
    CHECK(step.first == next);
    next = step.last + 1;
    std::smatch found;
    if (std::regex_search(step.words, found, taken_part)) CHECK(given.contains(found[1]));
    for (std::sregex_iterator at(step.words.begin(), step.words.end(), given_part), end; at != end; ++at) {
      const std::string first = (*at)[1], last = (*at)[3].matched ? (*at)[3].str() : first;
      REQUIRE(first.size() == last.size());
      for (std::string name = first; name <= last; ++name.back()) CHECK(given.insert(name).second);
    }
  }
  CHECK(next == plan.cuts.size() + 1);
  CHECK_THAT(words_of(plan), Contains("W-" + std::to_string(plan.pieces.size())));
}

TEST_CASE("the remarks name the kerf and only what is drawn, and the note last") {
  const CuttingPlan plain = plan_of({"S1", 330, 100, {}, false, {}}, {100, 100, 3});
  const auto told = [](const CuttingPage& page) {
    std::string text;
    for (const std::string& remark : cutting_remarks(page)) text += remark + "\n";
    return text;
  };
  const std::string text = told({plain, "slate", "from the barn", 8.0});
  for (const char* words : {"slate, 330 × 100 mm, 8 mm thick.\n", "3 pieces of 100 × 100 mm at the most, by 3 cuts",
                            "the blade takes its 3 mm beyond", "Grey: waste.\nfrom the barn\n"}) {
    CHECK_THAT(text, Contains(words));
  }
  CHECK_THAT(text, !Contains("factory") && !Contains("Hatched") && !Contains("Dashed"));
  CHECK_THAT(told({plan_of({"S1", 330, 100, {true, true, true, true}, false, {}}, {100, 100, 0}), "", "", {}}),
             Contains("Factory edges kept") && Contains("Heavy line") && Contains("score and break"));
}

TEST_CASE("the cautions are the saw's, or those of scoring by hand where nothing is allowed for a blade") {
  const std::string sawn = in_running_text(cutting_cautions(3)), scored = in_running_text(cutting_cautions(0));
  CHECK_THAT(sawn, Contains("the saw") && Contains("silica") && Contains("cut wet") && !Contains("shards"));
  CHECK_THAT(scored, Contains("by hand") && Contains("goggles") && Contains("cut-resistant gloves") &&
                         Contains("shards") && !Contains("saw"));
  for (const Cautions& cautions :
       {engraving_cautions(), board_cautions(), cutting_cautions(3), cutting_cautions(0), handling_cautions()}) {
    const std::string words = in_running_text(cautions);
    INFO(words);
    CHECK_THAT(words,
               Contains("anual") && Contains("local codes and licensed practice come before anything said here."));
  }
}

TEST_CASE("cutting sheets are a PDF, the same bytes each time, with more pages where the cuts are many") {
  const FontLibrary fonts("none");
  const CuttingPage few{plan_of({"S1", 330, 100, {}, false, {}}, {100, 100, 3}), "slate", "", 8.0};
  const CuttingPage many{
      plan_of({"S2", 1500, 900, {true, true, true, true}, false, {}}, {101.6, 152.4, 3}), "", "", {}};
  const auto first = write_cutting_pdf({few, many}, "Mill", fonts),
             second = write_cutting_pdf({few, many}, "Mill", fonts);
  REQUIRE((first.ok() && second.ok()));
  CHECK(*first == *second);
  CHECK(first->starts_with("%PDF-"));
  CHECK_FALSE(write_cutting_pdf({}, "Mill", fonts).ok());
}

}  // namespace ordinatio::cutting_test
