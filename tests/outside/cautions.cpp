// The cautions of every paper that goes to a machine, a saw or the stock, as poppler reads them: whole, and tall enough.
// Source: pdftotext 22.12 (Debian: poppler-utils), its text and its words' boxes.
#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "../unit/paper/sheet_pdf.h"
#include "bed/jig.h"
#include "composed_sheet.h"
#include "paper/cautions.h"
#include "paper/cutting_pdf.h"
#include "paper/paper.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;
using Catch::Matchers::Contains;

namespace {

std::string good(const Result<std::string>& pdf) {
  if (!pdf.ok()) throw std::runtime_error(describe(pdf.fault()));
  return *pdf;
}

/// A word as it stands on a page: its capitals' height, mm, were it one.
struct Word {
  std::string text;
  int page = 0;
  double capitals = 0;
};

struct Paper {
  std::string text;  // of all pages, one blank between words
  std::vector<Word> words;
  std::vector<double> longest;  // of each page, mm
};

// Poppler tells the face's ascender and descender: 1.069 and 0.293 em in Noto Sans, whose capitals are 0.714 em.
constexpr double capitals_of_box = 0.714 / 1.362;

Paper paper_of(const std::string& pdf) {
  const Scratch scratch;
  const auto file = scratch / "paper.pdf";
  save(file, pdf);
  Paper paper;
  std::istringstream words(output_of("pdftotext -raw " + quoted(file) + " -"));
  for (std::string word; words >> word;) paper.text += (paper.text.empty() ? "" : " ") + word;
  std::istringstream lines(output_of("pdftotext -bbox " + quoted(file) + " -"));
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<page ") != std::string::npos) {
      paper.longest.push_back(std::max(numbers_after(line, "width=", 1)[0], numbers_after(line, "height=", 1)[0]) *
                              mm_per_point);
    }
    if (line.find("<word ") == std::string::npos) continue;
    const double box = (numbers_after(line, "yMax=", 1)[0] - numbers_after(line, "yMin=", 1)[0]) * mm_per_point;
    const std::size_t begin = line.find('>') + 1;
    paper.words.push_back({line.substr(begin, line.find('<', begin) - begin), static_cast<int>(paper.longest.size()),
                           box * capitals_of_box});
  }
  return paper;
}

/// All of the cautions are there, each word at least 3 mm tall, be the page printed at its size or on A4.
void require_cautions(const Paper& paper, const Cautions& cautions) {
  const std::string words = in_running_text(cautions);
  INFO(paper.text);
  REQUIRE_THAT(paper.text, Contains(words));
  std::vector<std::string> wanted;
  std::istringstream list(words);
  for (std::string word; list >> word;) wanted.push_back(word);
  const auto first = std::ranges::search(paper.words, wanted, {}, &Word::text).begin();
  REQUIRE(first != paper.words.end());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Word& word = *(first + static_cast<std::ptrdiff_t>(i));
    const double reduced = std::min(1.0, 297 / paper.longest.at(static_cast<std::size_t>(word.page) - 1));
    INFO(word.text << " on page " << word.page);
    CHECK(word.capitals * reduced >= 3);
  }
}

constexpr const char* plain_design = R"(
about = "Invented: letters alone"
[blank]
width = 101.6
height = 152.4
[clear]
margin = 6
[text]
words = "inscription"
font = "serif"
cap_height = { min = 1, max = 20 }
)";

Sheet sheet_on(double width, double height, double gap, double edge, std::size_t items) {
  BedPlan plan;
  plan.machine = {width, height};
  plan.jig.gap = gap, plan.jig.edge = edge;
  plan.marks.size = 4;
  return composed_sheet(plain_design, std::vector<std::string>(items, "Millrace"), plan);
}

}  // namespace

TEST_CASE(
    "a sheet bears its cautions whole and 3 mm tall, on the bed where there is room, else on a page of their own") {
  struct Case {
    double width, height, gap, edge;
    std::size_t items, pages;
  };
  for (const Case& c : {Case{297, 210, 10, 54, 1, 1},   // as large as A4, with room along its edges
                        Case{330, 330, 2, 8, 6, 2},     // tight
                        Case{600, 400, 10, 20, 10, 2},  // the default, full
                        Case{600, 400, 2, 8, 10, 2}, Case{1300, 900, 10, 20, 20, 2}, Case{120, 170, 2, 8, 1, 2}}) {
    INFO(c.width << " x " << c.height << ", gap " << c.gap << ", edge " << c.edge);
    const Paper paper = paper_of(good(write_sheet_pdf(sheet_on(c.width, c.height, c.gap, c.edge, c.items), fonts())));
    CHECK(paper.longest.size() == c.pages);
    require_cautions(paper, engraving_cautions());
  }
}

TEST_CASE("a sheet tells each operation's colour and index, and the item in each pocket, wherever there is room") {
  for (const auto& [gap, items] : {std::pair{10.0, 2}, {2.0, 6}}) {
    const Sheet sheet = sheet_on(330, 330, gap, 8, static_cast<std::size_t>(items));
    const Paper paper = paper_of(good(write_sheet_pdf(sheet, fonts())));
    CHECK_THAT(paper.text, Contains("Colours: engrave #009E73, DXF 3 · score #E69F00, DXF 2 · cut #CC79A7, DXF 6 · "
                                    "mark #56B4E9, DXF 4 · guide #999999, DXF 8 (never run)"));
    for (const SheetItem& item : sheet.items) CHECK_THAT(paper.text, Contains(item.artwork.hash.substr(0, 8)));
  }
}

TEST_CASE("a board's PDF speaks of what the board is made of") {
  BedPlan plan;
  Typesetter typesetter(fonts());
  const auto frame = lay_bed(plan, 152.4, 101.6);
  REQUIRE(frame.ok());
  const auto board = build_jig(*frame, typesetter);
  REQUIRE(board.ok());
  const Paper paper = paper_of(good(write_sheet_pdf(board->sheet, fonts())));
  require_cautions(paper, board_cautions());
  for (const char* words : {"PVC or vinyl", "glued boards", "smoke", "catch fire"})
    CHECK_THAT(paper.text, Contains(words));
}

TEST_CASE("every cutting sheet bears the cautions of its way of cutting, however long its pane's note") {
  for (const double kerf : {0.0, 3.0}) {
    const auto plan = plan_cutting({"P-1", 900, 600, {}, false, {}}, {101.6, 152.4, kerf});
    REQUIRE(plan.ok());
    std::string note;
    for (int i = 0; i < 300; ++i) note += "from the north roof ";
    for (const std::string& remark : {std::string(), note}) {
      const Paper paper = paper_of(good(write_cutting_pdf({{*plan, "glass", remark, 4.0}}, "Invented Mill", fonts())));
      INFO("kerf " << kerf << (remark.empty() ? "" : ", a long note"));
      require_cautions(paper, cutting_cautions(kerf));
      CHECK_THAT(paper.text, Contains("Numbers in rings"));
    }
  }
}

TEST_CASE("every page of the stock speaks of edges and old coatings") {
  std::vector<BlankPicture> pieces(20);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    pieces[i].blank = {"S-" + std::to_string(100 + i), rectangle_outline(200, 150, Corner::square, 0), {}, {}};
  }
  const Paper paper = paper_of(good(write_blanks_pdf(pieces, "Invented Mill", fonts())));
  require_cautions(paper, handling_cautions());
  const auto gloves = std::ranges::count(paper.words, "cut-resistant", &Word::text);
  CHECK(static_cast<std::size_t>(gloves) == paper.longest.size());
}
