// What others make of the PDF files: qpdf 11.3 (Debian: qpdf) finds no damage; poppler 22.12 (Debian: poppler-utils) finds
// the page's size, the faces embedded, and the words where a person would look for them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "../unit/paper/sheet_pdf.h"
#include "bed/item_number.h"
#include "composed_sheet.h"
#include "paper/paper.h"
#include "picture.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;

namespace {

std::string good(const Result<std::string>& pdf) {
  if (!pdf.ok()) throw std::runtime_error(describe(pdf.fault()));
  return *pdf;
}

/// A file, and what programs say of it.
class Document {
 public:
  explicit Document(const std::string& pdf) { save(file_, pdf); }
  [[nodiscard]] std::string told(const std::string& program) const { return output_of(program + " " + quoted(file_)); }
  [[nodiscard]] std::string text() const { return output_of("pdftotext -layout " + quoted(file_) + " -"); }
  [[nodiscard]] std::string word_boxes() const { return output_of("pdftotext -bbox -l 1 " + quoted(file_) + " -"); }
  [[nodiscard]] golden::Picture page(int number, int dots_per_inch) const {
    output_of("pdftoppm -png -gray -singlefile -f " + std::to_string(number) + " -r " + std::to_string(dots_per_inch) +
              " " + quoted(file_) + " " + quoted(scratch_ / "page"));
    return golden::read_png(scratch_ / "page.png");
  }

 private:
  Scratch scratch_;
  std::filesystem::path file_ = scratch_ / "page.pdf";
};

/// Whether the words stand in the text in this order, each behind the one before.
void require_in_order(const std::string& text, const std::vector<std::string>& words) {
  std::size_t at = 0;
  for (const std::string& word : words) {
    INFO(word << " in\n" << text.substr(at));
    const std::size_t found = text.find(word, at);
    REQUIRE(found != std::string::npos);
    at = found + word.size();
  }
}

ProofPage held(const std::string& id, const std::string& words) {
  ProofPage page;
  page.item = {id, "plate", {words, {}, {}}, "orders.csv:9"};
  page.held = clean_inscription(words).fault();
  return page;
}

std::vector<ProofPage> proofs_of(const Sheet& sheet) {
  std::vector<ProofPage> pages;
  for (const SheetItem& item : sheet.items) pages.push_back({item.item, item.artwork, {}, {}});
  return pages;
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

Sheet plain_sheet(const std::vector<std::string>& texts) {
  BedPlan plan;
  plan.machine = {720, 400};  // 12 pockets
  return composed_sheet(plain_design, texts, plan);
}

/// The boxes of all words on the first page, mm, y up, from the letters' feet to the heads of capitals and ascenders.
std::vector<Bounds> word_boxes(const Document& document, double page_height) {
  std::istringstream lines(document.word_boxes());
  std::vector<Bounds> boxes;
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<word ") == std::string::npos) continue;
    const auto edge = [&line](const char* name) { return numbers_after(line, name, 1)[0] * mm_per_point; };
    const double top = page_height - edge("yMin="), bottom = page_height - edge("yMax=");
    // Poppler tells the face's ascender and descender: 1.069 and 0.293 em here; letters reach up to 0.8 em.
    boxes.push_back({edge("xMin="), bottom, edge("xMax="), top - (top - bottom) * 0.269 / 1.362});
  }
  return boxes;
}

/// Dark pixels side by side in one row: where each run of at least `length` begins and ends.
std::vector<std::pair<int, int>> dark_runs(const golden::Picture& picture, int row, int length) {
  std::vector<std::pair<int, int>> runs;
  for (int x = 0, start = 0; x <= picture.width; ++x) {
    const bool dark = x < picture.width && (picture.at(x, row) & 0xFF) < 0xC0;
    if (dark) continue;
    if (x - start >= length) runs.emplace_back(start, x);
    start = x + 1;
  }
  return runs;
}

}  // namespace

TEST_CASE("qpdf finds no damage in sheets and proofs") {
  const Sheet sheet = rich_sheet();
  std::vector<ProofPage> pages = proofs_of(sheet);
  pages.push_back(held("1050-1", "Happy 😀 birthday"));
  for (const std::string& pdf :
       {good(write_sheet_pdf(sheet, fonts())), good(write_proof_pdf(pages, "Invented Mill", fonts()))}) {
    CHECK(Document(pdf).told("qpdf --check").find("No syntax or stream encoding errors found") != std::string::npos);
  }
}

TEST_CASE("every face is embedded as a subset with its characters' names, and nothing tells the day") {
  const Document document(good(write_proof_pdf(proofs_of(rich_sheet()), "Invented Mill", fonts())));
  std::istringstream lines(document.told("pdffonts"));
  std::string line;
  std::getline(lines, line);
  const std::size_t column = line.find("emb sub uni");
  REQUIRE(column != std::string::npos);
  std::getline(lines, line);
  std::size_t faces = 0;
  for (; std::getline(lines, line); ++faces) CHECK(line.substr(column, 11) == "yes yes yes");
  CHECK(faces > 4);
  const std::string told = document.told("TZ=UTC pdfinfo");
  CHECK(told.find("Title:           Proofs · Invented Mill\n") != std::string::npos);
  CHECK(told.find("CreationDate:    Sat Jan  1 00:00:00 2000 UTC\n") != std::string::npos);
  CHECK(told.find("ModDate:         Sat Jan  1 00:00:00 2000 UTC\n") != std::string::npos);
}

TEST_CASE("a sheet says what it is, what lies in each pocket, and what to beware of") {
  const Sheet sheet = rich_sheet();
  std::string text = Document(good(write_sheet_pdf(sheet, fonts()))).text();
  for (const char* words : {"sheet-001 · sheet 1 · bed 360 × 250 mm · 8 items", "Laser class 4", "100 mm"}) {
    INFO(text);
    CHECK(text.find(words) != std::string::npos);
  }
  for (const SheetItem& item : sheet.items) {
    const std::string label = "pocket " + std::to_string(item.pocket) + " · " + with_check(item.item.id) + " · ";
    CHECK(text.find(label + item.artwork.hash.substr(0, 8)) != std::string::npos);
  }
  CHECK(text.find("Never leave a running machine alone") != std::string::npos);
}

TEST_CASE("what else is to be said stands with the sheet's heading, or on a page of its own") {
  const std::string remark = "Estimated time 1 h 35 min: engrave 1 h 33 min, row by row";
  for (const Sheet& sheet : {rich_sheet(), asymmetric_sheet()}) {
    CHECK(Document(good(write_sheet_pdf(sheet, fonts()))).text().find("Estimated") == std::string::npos);
    CHECK(Document(good(write_sheet_pdf(sheet, fonts(), {remark}))).text().find(remark) != std::string::npos);
    const std::string longer(300, 'w');  // wider than the bed
    const std::string text = Document(good(write_sheet_pdf(sheet, fonts(), {longer}))).text();
    CHECK(text.find("wwwwwwwwww") != std::string::npos);
    CHECK(text.find(sheet.name + " · sheet 1 · bed") != std::string::npos);
  }
}

TEST_CASE("no word on a sheet lies on ink, on a mark, off the bed or on another word") {
  std::vector<Sheet> sheets{rich_sheet(), asymmetric_sheet(), plain_sheet({"A", "B"})};
  for (int step = 0; step < 19;
       ++step) {  // until rows nearly touch, and their labels come near what speaks of the sheet
    sheets.push_back(sheets.back());
    for (Pocket& pocket : sheets.back().frame.pockets) pocket.box.bottom -= 0.5;
  }
  for (const Sheet& sheet : sheets) {
    const Machine& bed = sheet.frame.plan.machine;
    const std::vector<Bounds> words = word_boxes(Document(good(write_sheet_pdf(sheet, fonts()))), bed.height);
    CHECK(words.size() > 10);
    for (std::size_t i = 0; i < words.size(); ++i) {
      const Bounds& word = words[i];
      CHECK((word.left > 0 && word.bottom > 0 && word.right < bed.width && word.top < bed.height));
      for (const SheetPart& part : sheet.parts) {
        INFO(part.id << " under a word at " << word.left << ", " << word.bottom);
        if (part.operation != Operation::guide) CHECK_FALSE(overlap(word, bounds_of(part.path)));
      }
      for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(word, words[j]));
    }
  }
}

TEST_CASE("a proof shows the words as typed beside those engraved, what was changed, and the artwork's hash") {
  const Sheet sheet = plain_sheet({"In loving\u00A0memory\r\nŁukasz  Żółć"});
  const Artwork& artwork = sheet.items[0].artwork;
  const Document document(good(write_proof_pdf(proofs_of(sheet), "Invented Mill", fonts())));
  require_in_order(document.text(), {"Invented Mill",
                                     "Proof",
                                     "1041-1",
                                     "Design",
                                     "plate",
                                     "Capitals",
                                     "mm tall",
                                     "Faces",
                                     "serif",
                                     "Artwork",
                                     artwork.hash.substr(0, 16),
                                     "152.4 mm",
                                     "101.6 mm",
                                     "As it was typed",
                                     "As it is engraved",
                                     "In loving[U+00A0]memory",
                                     "In loving memory",
                                     "Łukasz ␣Żółć",
                                     "Łukasz Żółć",
                                     "What was changed",
                                     "line 2, character 7",
                                     "spaces in a row",
                                     "Every word is right.",
                                     "Name",
                                     "Date",
                                     artwork.hash.substr(0, 16),
                                     "This rule measures 100 mm"});
}

TEST_CASE("words of every script can be found and copied") {
  const std::vector<std::string> words{"Øst & Ærø", "ΑΘΗΝΑ", "Москва", "Երևան", "سارة العلي", "תל אביב",
                                       "นางสาว",    "शांति",  "বাংলা",  "தமிழ்",  "山田花子",   "한국어 이름"};
  const std::string text =
      Document(good(write_proof_pdf(proofs_of(plain_sheet(words)), "Invented Mill", fonts()))).text();
  for (const std::string& word : words) {
    INFO(word);
    const std::size_t typed = text.find(word);
    REQUIRE(typed != std::string::npos);
    CHECK(text.find(word, typed + 1) != std::string::npos);  // and once more, as engraved
  }
}

TEST_CASE("a held item's page gives the reason, the mend and the words, the undrawable ones spelled out") {
  const Document document(good(
      write_proof_pdf({held("1042-1", "Happy 😀 birthday"), held("1043-1", "a\u202Eb")}, "Invented Mill", fonts())));
  const std::string text = document.text();
  require_in_order(
      text, {"Held, not engraved", with_check("1042-1"), "GRINNING FACE", "Where", "line 1, character 7", "Why", "Mend",
             "Order", "orders.csv:9", "As it was typed", "Not engraved", "Happy [U+1F600] birthday",
             "Held, not engraved", with_check("1043-1"), "U+202E", "a[U+202E]b"});
  CHECK(text.find("Every word is right.") == std::string::npos);
}

TEST_CASE("a proof is at true size: its ruler is 100 mm long and the blank as wide as it says") {
  const Document document(good(write_proof_pdf(proofs_of(plain_sheet({"F"})), "Invented Mill", fonts())));
  const golden::Picture page = document.page(1, 254);  // 10 pixels to the mm
  CHECK((page.width == 2100 || page.width == 2101));   // poppler rounds a broken pixel up
  CHECK((page.height == 2970 || page.height == 2971));
  const auto ruler = dark_runs(page, 2970 - 120, 500);
  REQUIRE(ruler.size() == 1);
  CHECK(std::abs(ruler[0].second - ruler[0].first - 1000) <= 3);  // and half a line's width at either end
  std::vector<int> edges;
  for (int row = 0; row < 1500; ++row) {
    for (const auto& [left, right] : dark_runs(page, row, 950)) {
      if (right - left < 1100) edges.push_back(right - left);
    }
  }
  REQUIRE_FALSE(edges.empty());
  for (const int edge : edges) CHECK(std::abs(edge - 1016) <= 3);
}

TEST_CASE("the clear edge is dotted unless a border runs along it") {
  const auto legend_of = [](const std::string& border) {
    BedPlan plan;
    plan.machine = {720, 400};
    const Sheet sheet = composed_sheet(plain_design + border, {"F"}, plan);
    return Document(good(write_proof_pdf(proofs_of(sheet), "Invented Mill", fonts()))).text();
  };
  CHECK(legend_of("").find("Dotted line: all ink stays inside it.") != std::string::npos);
  CHECK(legend_of("[[border]]\ndistance = 6\nwidth = 0.8\n").find("All ink stays inside the border.") !=
        std::string::npos);
  CHECK(legend_of("[[border]]\ndistance = 9\nwidth = 0.8\n").find("Dotted line") != std::string::npos);
}

TEST_CASE("each item has its place in the table of contents, and each page its name") {
  const std::string pdf = good(write_proof_pdf(proofs_of(plain_sheet({"A", "B"})), "Invented Mill", fonts()));
  CHECK(pdf.find("/Outlines") != std::string::npos);
  CHECK(pdf.find("/PageLabels") != std::string::npos);
  CHECK(pdf.find("/Title (" + with_check("1042-1") + ")") != std::string::npos);
  CHECK(pdf.find("/Title (Order 1042)") != std::string::npos);
  CHECK(pdf.find("/Link") == std::string::npos);
}
