// A specimen as others read it: qpdf 11.3 (Debian: qpdf), and pdfinfo, pdffonts, pdftotext and pdftocairo of poppler 22.12
// (Debian: poppler-utils).
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>

#include "composed_sheet.h"
#include "paper/paper.h"
#include "picture.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;
using Catch::Matchers::Contains;

namespace {

std::vector<CatalogueFace> faces_called(const std::vector<std::string>& names) {
  std::vector<CatalogueFace> faces;
  for (const std::string& name : names) {
    faces.push_back(*std::ranges::find(fonts().catalogue(), name, &CatalogueFace::name));
  }
  return faces;
}

/// Written once, in a folder of its own.
class SpecimenFile {
 public:
  SpecimenFile(const std::vector<std::string>& names, const std::vector<std::string>& words) {
    const auto specimen = write_specimen_pdf(faces_called(names), {"Mill", words, "en", 0.1}, fonts());
    REQUIRE(specimen.ok());
    pages_ = specimen->ink.size();
    save(path(), specimen->pdf);
  }
  [[nodiscard]] std::filesystem::path path() const { return scratch_ / "specimen.pdf"; }
  [[nodiscard]] std::size_t pages() const { return pages_; }
  [[nodiscard]] std::string told_by(const std::string& program) const {
    return output_of(program + " " + quoted(path()));
  }
  [[nodiscard]] std::string text() const { return output_of("pdftotext -layout " + quoted(path()) + " -"); }

 private:
  Scratch scratch_;
  std::size_t pages_ = 0;
};

}  // namespace

TEST_CASE("a specimen is sound for qpdf, A4 for pdfinfo, and every font is embedded for pdffonts") {
  std::vector<std::string> names;
  for (const CatalogueFace& face : fonts().catalogue()) {
    if (face.is_for_engraving()) names.push_back(face.name);
  }
  const SpecimenFile file(names, {"Mill & Quay 1874"});
  CHECK_THAT(file.told_by("qpdf --check"), Contains("No syntax or stream encoding errors found"));
  const std::string facts = file.told_by("pdfinfo");
  CHECK_THAT(facts, Contains("595.276 x 841.89 pts (A4)"));
  CHECK(numbers_after(facts, "Pages:", 1).at(0) == double(file.pages()));
  const std::string embedded = file.told_by("pdffonts");
  for (const char* name :
       {"Vollkorn-SemiBold", "Cabin-Medium", "RobotoSlab-Bold", "DancingScript-Bold", "YanoneKaffeesatz-Regular",
        "BebasNeueRegular", "Allerta-Stencil", "BlankenburgUNZ1A", "RoutedGothic", "Inter", "NotoSans-Regular"}) {
    CHECK_THAT(embedded, Contains(std::string("+") + name));
  }
  std::istringstream rows(embedded);
  std::string row;
  std::getline(rows, row), std::getline(rows, row);  // the table's head
  while (std::getline(rows, row)) {
    INFO(row);
    CHECK_THAT(row, Contains(" yes yes yes "));  // embedded, a subset, with its letters named
  }
}

TEST_CASE("what a specimen says of a face is found as text") {
  const SpecimenFile file({"script"}, {"Mill & Quay 1874"});
  const std::string text = file.text();
  for (const char* words :
       {"DancingScript-Bold.otf", "fonts-dancingscript", "OFL-1.1", "Latin", "joined", "3.5 mm", "20 mm",
        "too fine for a spot", "Specimen for a spot of 0.1 mm", "This rule measures 100 mm"}) {
    CHECK_THAT(text, Contains(words));
  }
  std::string letters;
  std::ranges::copy_if(text, std::back_inserter(letters), [](char c) { return c != ' '; });
  CHECK_THAT(letters, Contains("abcdefghijklmnopqrstuvwxyz") && Contains("0123456789"));
}

TEST_CASE("what the face cannot draw of the sample is told") {
  CHECK_THAT(SpecimenFile({"sans"}, {"Łęcka ő"}).text(), Contains("Not in it") && Contains("Ł ę ő"));
  CHECK_THAT(SpecimenFile({"serif"}, {"Łęcka ő"}).text(), !Contains("Not in it"));
}

TEST_CASE("the sample's capitals are as tall as their labels say, as poppler paints them") {
  // An H of the sans alone is ink of the height of capitals; the last sample on its page is the one of 20 mm.
  const SpecimenFile file({"sans"}, {"H"});
  const Scratch scratch;
  output_of("pdftocairo -png -singlefile -gray -r 508 " + quoted(file.path()) + " " + quoted(scratch / "page"));
  const golden::Picture page = golden::read_png(scratch / "page.png");
  constexpr double pixels_per_mm = 20;
  const auto is_dark = [&](int column, int row) { return (page.at(column, row) & 0xFF) < 128; };
  // The left stem of each H stands at the sample's margin.
  std::vector<int> runs;
  const int column = static_cast<int>((18 + 30 + 0.3) * pixels_per_mm);
  int run = 0;
  for (int row = 0; row < page.height; ++row) {
    if (is_dark(column, row)) {
      ++run;
    } else if (run > 0) {
      runs.push_back(run);
      run = 0;
    }
  }
  REQUIRE(runs.size() > 6);
  const double heights[] = {3.5, 5, 7, 10, 14, 20};
  for (std::size_t i = 0; i < 6; ++i) {
    CHECK(runs[runs.size() - 6 - 1 + i] / pixels_per_mm == Approx(heights[i]).margin(0.06));  // a pixel is 0.05 mm
  }
}
