// Cutting plans beside what others found, and cutting sheets as others read them: qpdf 11.3 (Debian: qpdf), pdfinfo,
// pdffonts and pdftotext of poppler 22.12 (Debian: poppler-utils).
#include <catch2/catch.hpp>
#include <sstream>

#include "bed/cutting.h"
#include "composed_sheet.h"
#include "paper/cutting_pdf.h"

using namespace ordinatio;
using namespace outside;
using Catch::Matchers::Contains;

namespace {

/// Instances of the pallet-loading literature (from memory: a pallet of W × H, boxes of w × h, which may be turned) and the
/// most boxes that guillotine cuts yield, as a dynamic programme over every whole position gave, apart from this project's.
struct Instance {
  double width, height, box_width, box_height;
  std::size_t optimum;
};
constexpr Instance instances[]{{43, 26, 7, 3, 52},   {49, 28, 8, 3, 56},  {57, 34, 7, 4, 68},  {63, 44, 8, 5, 67},
                               {61, 35, 10, 3, 70},  {67, 37, 11, 3, 74}, {74, 49, 11, 4, 81}, {106, 59, 13, 5, 95},
                               {141, 71, 13, 8, 94}, {14, 10, 3, 2, 23}};

std::size_t pieces(double width, double height, const CuttingTask& task, const Sides& factory = {}) {
  const auto plan = plan_cutting({"P", width, height, factory, false, {}}, task);
  REQUIRE(plan.ok());
  return plan->pieces.size();
}

CuttingPage page_of(const std::string& id, double width, double height, const Sides& factory,
                    const std::vector<PaneThing>& things) {
  const auto plan = plan_cutting({id, width, height, factory, false, things}, {101.6, 152.4, 3});
  REQUIRE(plan.ok());
  return {*plan, "slate", "from the north roof", 7.5};
}

}  // namespace

TEST_CASE("plans yield the guillotine optima of the pallet-loading instances") {
  for (const auto& [width, height, box_width, box_height, optimum] : instances) {
    INFO(width << " x " << height << ", " << box_width << " x " << box_height);
    CHECK(pieces(width, height, {box_width, box_height, 0}) == optimum);
    CHECK(pieces(height, width, {box_width, box_height, 0}) == optimum);
    CHECK(pieces(width, height, {box_height, box_width, 0}) == optimum);
    // Factory edges come second, and must cost no piece.
    CHECK(pieces(width, height, {box_width, box_height, 0}, {true, true, true, true}) == optimum);
  }
}

TEST_CASE("a kerf k is the same as a pane and pieces that are larger by k each way") {
  for (const auto& [width, height, box_width, box_height, optimum] : instances) {
    for (const double kerf : {0.5, 1.0, 1.6}) {
      INFO(width << " x " << height << ", " << box_width << " x " << box_height << ", kerf " << kerf);
      CHECK(pieces(width - kerf, height - kerf, {box_width - kerf, box_height - kerf, kerf}) == optimum);
    }
  }
}

TEST_CASE(
    "a cutting sheet is sound for qpdf, A4 for pdfinfo, its fonts embedded for pdffonts, its words found by "
    "pdftotext") {
  const std::vector<PaneThing> things{{PaneThing::Kind::clear, {230, 120, 250, 140}, "nail hole"},
                                      {PaneThing::Kind::whole, {400, 30, 450, 60}, "stamp"}};
  const auto pdf = write_cutting_pdf({page_of("S1", 600, 300, {true, true, false, false}, things),
                                      page_of("S2", 1500, 900, {true, true, true, true}, {})},
                                     "Mill", fonts());
  REQUIRE(pdf.ok());
  const Scratch scratch;
  const auto file = scratch / "cutting.pdf";
  save(file, *pdf);
  CHECK_THAT(output_of("qpdf --check " + quoted(file)), Contains("No syntax or stream encoding errors found"));
  const std::string facts = output_of("pdfinfo " + quoted(file));
  CHECK_THAT(facts, Contains("841.89 x 595.276 pts (A4)"));
  std::istringstream rows(output_of("pdffonts " + quoted(file)));
  std::string row;
  std::getline(rows, row), std::getline(rows, row);  // the table's head
  std::size_t embedded = 0;
  for (; std::getline(rows, row); ++embedded) CHECK_THAT(row, Contains(" yes yes yes "));
  CHECK(embedded > 0);
  const std::string text = output_of("pdftotext " + quoted(file) + " -");
  for (const char* words : {"Cutting sheet", "Take the pane. Cut", "slate, 600 × 300 mm, 7.5 mm thick", "nail hole",
                            "stamp", "S1-1", "S2-1", "600 mm", "protect eyes, ears and hands", "silica"}) {
    CHECK_THAT(text, Contains(words));
  }
}
