// Loading sheets, by poppler 22.12 (Debian: poppler-utils), which finds every item's words where a person would look for them,
// and by qpdf 11.3 (Debian: qpdf), whose listing of the pages says how large every letter is.
#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "bed/item_number.h"
#include "composed_sheet.h"
#include "paper/paper.h"
#include "words_design.h"

using namespace ordinatio;
using namespace outside;

namespace {

Sheet bed_of(const std::vector<std::string>& texts, double width = 420, double height = 297) {
  BedPlan plan;
  plan.machine = {width, height};
  return composed_sheet(words_design, texts, plan);
}

class LoadingPdf {
 public:
  explicit LoadingPdf(const LoadingSheet& loading, PaperSize paper = PaperSize::a4) {
    const Result<std::string> pdf = write_loading_pdf(loading, fonts(), paper);
    if (!pdf.ok()) throw std::runtime_error(describe(pdf.fault()));
    save(file_, *pdf);
  }
  [[nodiscard]] std::string text() const { return output_of("pdftotext -layout " + quoted(file_) + " -"); }
  [[nodiscard]] double pages() const { return numbers_after(output_of("pdfinfo " + quoted(file_)), "Pages:", 1)[0]; }
  [[nodiscard]] std::vector<double> measures() const {  // points
    return numbers_after(output_of("pdfinfo " + quoted(file_)), "Page size:", 2);
  }
  /// Every size that letters are set in, mm per em: the face's own by its matrix (ISO 32000-1, 9.3 and 9.4).
  [[nodiscard]] std::vector<double> sizes() const {
    const std::string listing = output_of("qpdf --qdf --object-streams=disable " + quoted(file_) + " -");
    std::istringstream lines(listing);
    std::vector<double> sizes;
    double scale = 0, size = 0;
    for (std::string line; std::getline(lines, line);) {
      std::istringstream words(line);
      std::string first, second, third, fourth;
      words >> first >> second >> third >> fourth;
      if (line.ends_with(" Tm")) scale = std::abs(parse_number(fourth).value_or(0));
      if (line.ends_with(" Tf")) size = parse_number(second).value_or(0);
      if (line.ends_with("Tj") || line.ends_with("TJ")) sizes.push_back(scale * size * mm_per_point);
    }
    return sizes;
  }

 private:
  Scratch scratch_;
  std::filesystem::path file_ = scratch_ / "loading.pdf";
};

}  // namespace

TEST_CASE("every pocket's item stands on its loading sheet, its words in order") {
  const std::vector<std::string> texts{"Millrace", "Öl & Ågot", "نور الهدى", "בית הטחנה", "Владимир", "Wheel\nwright"};
  const Sheet sheet = bed_of(texts);
  const LoadingPdf pdf({sheet, "Quernby Watermill", {"as for slate of 6 mm"}, {}});
  const std::string text = pdf.text();
  INFO(text);
  for (const SheetItem& item : sheet.items) CHECK(text.find(with_check(item.item.id)) != std::string::npos);
  // poppler gives words of scripts from right to left in the order in which they are read.
  for (const std::string words : {"Millrace", "Öl & Ågot", "نور الهدى", "בית הטחנה", "Владимир", "Wheel / wright"}) {
    INFO(words);
    CHECK(text.find(words) != std::string::npos);
  }
  CHECK(text.find("as for slate of 6 mm") != std::string::npos);
  CHECK(text.find("1 at ") != std::string::npos);
  CHECK(text.find("Never leave") != std::string::npos);
}

TEST_CASE("no letter of a loading sheet is set smaller than is read at arm's length") {
  for (const std::size_t count : {1, 6, 12, 40}) {
    std::vector<std::string> texts(count, "Weir Lane");
    const LoadingPdf pdf({bed_of(texts, 900, 600), "Quernby Watermill", {}, {}});
    const std::vector<double> sizes = pdf.sizes();
    INFO(count);
    REQUIRE(sizes.size() > count);
    CHECK(*std::ranges::min_element(sizes) >= least_loading_size - 0.01);  // of points that are written to six digits
    CHECK(pdf.pages() == (count <= 12 ? 1 : 2));
  }
}

TEST_CASE("a loading sheet is of the paper that was named") {
  const LoadingSheet loading{bed_of({"Weir Lane"}), "Quernby Watermill", {}, {}};
  const std::pair<PaperSize, std::pair<double, double>> papers[] = {
      {PaperSize::a4, {210, 297}}, {PaperSize::a3, {297, 420}}, {PaperSize::letter, {215.9, 279.4}}};
  for (const auto& [paper, size] : papers) {
    const std::vector<double> points = LoadingPdf(loading, paper).measures();
    CHECK(points[0] * mm_per_point == Approx(size.first).margin(0.01));
    CHECK(points[1] * mm_per_point == Approx(size.second).margin(0.01));
  }
}
