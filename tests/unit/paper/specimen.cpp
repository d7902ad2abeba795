#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>

#include "paper/paper.h"
#include "paper/specimen_text.h"
#include "write/write.h"

namespace ordinatio::specimen_test {

namespace {

const FontLibrary& library() {
  static const FontLibrary fonts("none");
  return fonts;
}

CatalogueFace face_called(const std::string& name) {
  return *std::ranges::find(library().catalogue(), name, &CatalogueFace::name);
}

SpecimenPlan plan_of(const std::vector<std::string>& words, double spot = 0.1) { return {"Mill", words, "en", spot}; }

/// The passage of one size, and what its labels say.
struct SampleAt {
  Passage passage;
  std::string label;
};

SampleAt sample_at(double cap_height, const std::string& face_name, const SpecimenPlan& plan) {
  auto lettering = Lettering::with(library());
  REQUIRE(lettering.ok());
  const CatalogueFace face = face_called(face_name);
  SpecimenText text(*lettering, plan, face, a4.left(), a4.right());
  auto passage = text.sample(cap_height);
  REQUIRE(passage.ok());
  std::string label;
  for (const Cell& cell : passage->cells) label += cell.text.shaped.text;
  return {std::move(*passage), label};
}

}  // namespace

TEST_CASE("the sample's ink is at true size at each height of ISO 3098-1 from 3.5 to 20 mm") {
  Typesetter typesetter(library());
  const auto line = typesetter.shape("H", {{"sans"}, "", ""});
  const auto metrics = typesetter.metrics("sans");
  REQUIRE((line.ok() && metrics.ok()));
  Path ink;
  typesetter.append_ink(ink, *line, 1, {}, curve_tolerance);
  double expected = 0;
  for (const double height : {3.5, 5.0, 7.0, 10.0, 14.0, 20.0}) {
    const double em = height / metrics->cap_height;
    expected += em * em * area_of(ink);
  }
  const auto specimen = write_specimen_pdf({face_called("sans")}, plan_of({"H"}), library());
  REQUIRE(specimen.ok());
  CHECK(std::accumulate(specimen->ink.begin(), specimen->ink.end(), 0.0) == Approx(expected));
}

TEST_CASE("the same faces and words give the same bytes") {
  const std::vector<CatalogueFace> faces{face_called("serif"), face_called("variable")};
  const auto first = write_specimen_pdf(faces, plan_of({"Mill & Quay"}), library());
  const auto second = write_specimen_pdf(faces, plan_of({"Mill & Quay"}), library());
  REQUIRE((first.ok() && second.ok()));
  CHECK(first->pdf == second->pdf);
}

TEST_CASE("capitals on a label are as tall on the paper") {
  for (const double height : {3.5, 20.0}) {
    const SampleAt sample = sample_at(height, "slab", plan_of({"H"}));
    REQUIRE(sample.passage.inks.size() == 1);
    const Bounds ink = bounds_of(sample.passage.inks.front().ink);
    CHECK(ink.top == Approx(height));
    CHECK(ink.left == Approx(0).margin(1e-9));  // from the margin on, whatever the letter's bearing
  }
}

TEST_CASE("a size whose strokes are finer than the spot says so") {
  CHECK(sample_at(3.5, "script", plan_of({"Mill"})).label.find("too fine for a spot of 0.1 mm") != std::string::npos);
  CHECK(sample_at(20, "script", plan_of({"Mill"})).label.find("too fine") == std::string::npos);
  CHECK(sample_at(20, "script", plan_of({"Mill"}, 0.9)).label.find("too fine for a spot of 0.9 mm") !=
        std::string::npos);
}

TEST_CASE("a size whose counters are narrower than the spot says so, where its strokes are not") {
  const std::string label = sample_at(5, "sans", plan_of({"Mill"}, 0.25)).label;
  CHECK(label.find("closes under a spot of 0.25 mm") != std::string::npos);
  CHECK(label.find("too fine") == std::string::npos);
}

TEST_CASE("the sample is broken between words, never behind an ampersand, and never leaves the margin") {
  const SampleAt broken = sample_at(20, "slab", plan_of({"Mill & Quay 1874"}));
  CHECK(broken.passage.inks.size() == 3);  // Mill, & Quay, 1874
  const SampleAt long_word = sample_at(20, "slab", plan_of({std::string(40, 'M')}));
  CHECK(long_word.passage.inks.size() > 5);
  for (const InkCell& cell : long_word.passage.inks) {
    CHECK(cell.x + bounds_of(cell.ink).right <= a4.right() + 1e-9);
  }
}

TEST_CASE("lines of a sample never touch") {
  for (const double height : {3.5, 7.0, 14.0}) {
    const SampleAt sample = sample_at(height, "script", plan_of({"fgjpqy", "ÅÉfhklÄ", "gjy"}));
    REQUIRE(sample.passage.inks.size() == 3);
    for (std::size_t i = 1; i < sample.passage.inks.size(); ++i) {
      const InkCell &above = sample.passage.inks[i - 1], &below = sample.passage.inks[i];
      const double room = grid * (below.line - above.line);
      CHECK(bounds_of(below.ink).top - room < bounds_of(above.ink).bottom);
    }
  }
}

TEST_CASE("a sample that no face draws is refused by its letter's name") {
  const auto specimen = write_specimen_pdf({face_called("serif")}, plan_of({"Mill", "a\U0001F41D"}), library());
  REQUIRE_FALSE(specimen.ok());
  CHECK(specimen.fault().what == "U+1F41D HONEYBEE cannot be engraved");
}

}  // namespace ordinatio::specimen_test
