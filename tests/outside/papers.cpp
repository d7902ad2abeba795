// All papers by programs that others wrote: qpdf 11.3 (Debian: qpdf), poppler 22.12 (Debian: poppler-utils) and mupdf 1.21
// (Debian: mupdf-tools). Papers: ISO 216, of series A; ANSI/ASME Y14.1, size A; from memory. Structure: ISO 32000-1, 14.8.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <sstream>

#include "composed_sheet.h"
#include "paper/labels.h"
#include "paper/packing_list.h"
#include "paper/paper.h"
#include "picture.h"
#include "words_design.h"

using namespace ordinatio;
using namespace outside;

namespace {

struct KnownPaper {
  const char* name;
  PaperSize size;
  double width, height;  // mm
};
constexpr KnownPaper known_papers[] = {{"A3", PaperSize::a3, 297, 420},
                                       {"A4", PaperSize::a4, 210, 297},
                                       {"A5", PaperSize::a5, 148, 210},
                                       {"Letter", PaperSize::letter, 8.5 * mm_per_inch, 11 * mm_per_inch}};

const std::vector<std::string> words{"Weir Lane", "قصر النور", "בית הטחנה", "水車小屋"};

const Sheet& bed() {
  static const Sheet sheet = [] {
    BedPlan plan;
    plan.machine = {420, 297};
    return composed_sheet(words_design, words, plan);
  }();
  return sheet;
}

template <class Value>
Value good(const Result<Value>& value) {
  if (!value.ok()) throw std::runtime_error(describe(value.fault()));
  return *value;
}

std::vector<ProofPage> proofs() {
  std::vector<ProofPage> pages;
  for (const SheetItem& item : bed().items)
    pages.push_back({item.item, item.artwork, {}, {}, "please wrap it", "2026-11-02"});
  return pages;
}

std::vector<Parcel> parcels() {
  std::vector<Parcel> all;
  for (const SheetItem& item : bed().items) {
    Parcel parcel;
    parcel.order = item.item.id, parcel.customer = "Ines Dove", parcel.addresses = {"3 Weir Lane\nQuernby"};
    parcel.items.push_back({item.item.id, item.item.inscription.original, "", item.artwork, ""});
    all.push_back(std::move(parcel));
  }
  return all;
}

struct Printed {
  const char* name;
  std::string pdf;
};

/// Every paper that is printed on a size of a person's choice.
std::vector<Printed> made_on(PaperSize size) {
  LabelGrid grid;
  grid.paper = size, grid.columns = 2, grid.rows = 4, grid.left = 5, grid.top = 5;
  const std::vector<LabelItem> labels{{"1042-1/K", words[0]}, {"1042-2/K", words[1]}};
  return {{"proofs", good(write_proof_pdf(proofs(), "Invented Mill", fonts(), size))},
          {"contact sheet", good(write_contact_sheet(proofs(), "Invented Mill", fonts(), size)).pdf},
          {"loading sheet", good(write_loading_pdf({bed(), "Invented Mill", {}, {}}, fonts(), size))},
          {"packing list", good(write_packing_list(parcels(), "Invented Mill", fonts(), size)).pdf},
          {"labels", good(write_labels(labels, grid, 1, "Invented Mill", fonts())).pdf}};
}

const std::vector<Printed>& papers_on(PaperSize size) {
  static std::map<PaperSize, std::vector<Printed>> known;
  const auto [at, is_new] = known.try_emplace(size);
  if (is_new) at->second = made_on(size);
  return at->second;
}

class Paper {
 public:
  explicit Paper(const std::string& pdf) { save(file_, pdf); }
  [[nodiscard]] std::string told(const std::string& program, const std::string& more = "") const {
    return output_of(program + " " + quoted(file_) + " " + more);
  }
  [[nodiscard]] golden::Picture first_page(int dots_per_inch) const {
    output_of("pdftoppm -png -gray -singlefile -r " + std::to_string(dots_per_inch) + " " + quoted(file_) + " " +
              quoted(scratch_ / "page"));
    return golden::read_png(scratch_ / "page.png");
  }

 private:
  Scratch scratch_;
  std::filesystem::path file_ = scratch_ / "paper.pdf";
};

/// The longest run of dark pixels in any of the lowest `rows` rows.
int longest_dark_run(const golden::Picture& picture, int rows) {
  int longest = 0;
  for (int row = picture.height - rows; row < picture.height; ++row) {
    for (int x = 0, run = 0; x < picture.width; ++x) {
      run = (picture.at(x, row) & 0xFF) < 0xC0 ? run + 1 : 0;
      longest = std::max(longest, run);
    }
  }
  return longest;
}

/// 255 for each black pixel.
double darkness(const golden::Picture& picture) {
  double sum = 0;
  for (const std::uint32_t pixel : picture.pixels) sum += 255 - static_cast<double>(pixel & 0xFF);
  return sum;
}

}  // namespace

TEST_CASE("papers are of the size that was named, to a hundredth of a millimetre, and nobody finds damage in them") {
  for (const KnownPaper& known : known_papers) {
    for (const Printed& printed : papers_on(known.size)) {
      INFO(printed.name << " on " << known.name);
      const Paper paper(printed.pdf);
      CHECK(paper.told("qpdf --check").find("No syntax or stream encoding errors found") != std::string::npos);
      const std::vector<double> box = numbers_after(paper.told("pdfinfo -box"), "MediaBox:", 4);
      CHECK(std::abs(box[2] * mm_per_point - known.width) < 0.01);
      CHECK(std::abs(box[3] * mm_per_point - known.height) < 0.01);
      CHECK(paper.told("mutool draw -F text -o /dev/null", "2>&1").find("error") == std::string::npos);
    }
  }
}

TEST_CASE("the rule of 100 mm measures 100 mm on the page as it is drawn") {
  for (const KnownPaper& known : known_papers) {
    for (const Printed& printed : papers_on(known.size)) {
      if (std::string_view(printed.name) == "labels") continue;  // every label is where it was measured to be
      if (std::string_view(printed.name) == "loading sheet") continue;
      INFO(printed.name << " on " << known.name);
      const golden::Picture page = Paper(printed.pdf).first_page(254);  // 10 pixels to the mm
      CHECK(std::abs(longest_dark_run(page, 200) - 1000) <= 3);         // and half a line's width at either end
    }
  }
}

TEST_CASE("a contact sheet shows all the ink at its scale: poppler draws its area") {
  std::vector<ProofPage> pages = proofs();
  const ContactSheet shown = good(write_contact_sheet(pages, "Invented Mill", fonts()));
  for (ProofPage& page : pages) page.artwork->layers.clear();
  const ContactSheet bare = good(write_contact_sheet(pages, "Invented Mill", fonts()));
  CHECK(bare.ink[0] == 0);
  constexpr int dots_per_inch = 508;  // 20 pixels to the mm
  constexpr double black = 255 - 0x1A, pixels_per_mm2 = 400;
  const double area =
      (darkness(Paper(shown.pdf).first_page(dots_per_inch)) - darkness(Paper(bare.pdf).first_page(dots_per_inch))) /
      black / pixels_per_mm2;
  CHECK(shown.ink[0] > 20);  // mm²: nothing would be drawn right by being nothing
  CHECK(area == Approx(shown.ink[0]).epsilon(0.01));
}

TEST_CASE("papers are tagged: their words can be read aloud, line after line, in every script") {
  for (const Printed& printed : papers_on(PaperSize::a4)) {
    INFO(printed.name);
    const Paper paper(printed.pdf);
    CHECK(paper.told("pdfinfo").find("Tagged:          yes") != std::string::npos);
    const std::string structure = paper.told("pdfinfo -struct-text");
    CHECK(structure.find(words[0]) != std::string::npos);
    if (std::string_view(printed.name) != "proofs") continue;
    for (const std::string& word : words) CHECK(structure.find(word) != std::string::npos);
    CHECK(structure.find("H1") != std::string::npos);
    CHECK(structure.find("2026-11-02") != std::string::npos);
  }
}
