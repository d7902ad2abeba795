#include <catch2/catch.hpp>
#include <limits>

#include "../write/small_sheet.h"
#include "bed/item_number.h"
#include "paper/paper.h"
#include "write/write.h"

namespace ordinatio::proof_test {

namespace {

const FontLibrary& fonts() {
  static const FontLibrary library("no/fonts/of/our/own");
  return library;
}

std::string pdf_of(const std::vector<ProofPage>& pages, const std::string& shop = "The Mill") {
  const Result<std::string> pdf = write_proof_pdf(pages, shop, fonts());
  if (!pdf.ok()) throw std::runtime_error(describe(pdf.fault()));
  return *pdf;
}

ProofPage proof() {
  const Sheet sheet = small_sheet();
  ProofPage page;
  page.item = sheet.items[0].item;
  page.artwork = sheet.items[0].artwork;
  return page;
}

ProofPage held(const std::string& original) {
  ProofPage page;
  page.item = {"1042-1", "slate", {original, {}, {}}, "orders.csv:2"};
  page.held = Fault{"U+1F600 GRINNING FACE cannot be engraved", "line 1, character 7", "no installed face draws it",
                    "Ask the customer for other words"};
  return page;
}

ProofPage on_blank(double width, double height) {
  ProofPage page = proof();
  page.artwork->blank.outline = rectangle_outline(width, height, Corner::square, 0);
  return page;
}

std::size_t count(const std::string& text, const std::string& wanted) {
  std::size_t found = 0;
  for (std::size_t at = text.find(wanted); at != std::string::npos; at = text.find(wanted, at + 1)) ++found;
  return found;
}

std::size_t pages_in(const std::string& pdf) { return count(pdf, "/Type /Page\n") + count(pdf, "/Type /Page "); }

}  // namespace

TEST_CASE("a proof is the same bytes each time, and tells one shop from another") {
  CHECK(pdf_of({proof(), held("a")}) == pdf_of({proof(), held("a")}));
  CHECK(pdf_of({proof()}) != pdf_of({proof()}, "Another Mill"));
}

TEST_CASE("an item takes one A4 page, and a larger sheet only where its blank is larger") {
  struct Case {
    double width, height;
    const char* page;  // ISO 216 in points, from memory: A4 210 × 297, A3 297 × 420, A2 420 × 594 mm
  };
  const Case cases[] = {
      {60, 40, "[ 0 0 595.275591 841.889764 ]"},       {152.4, 101.6, "[ 0 0 595.275591 841.889764 ]"},
      {101.6, 152.4, "[ 0 0 595.275591 841.889764 ]"}, {200, 150, "[ 0 0 841.889764 1190.551181 ]"},
      {350, 200, "[ 0 0 1190.551181 841.889764 ]"},    {300, 400, "[ 0 0 1190.551181 1683.779528 ]"},
  };
  for (const Case& c : cases) {
    INFO(c.width << " × " << c.height);
    const std::string pdf = pdf_of({on_blank(c.width, c.height)});
    CHECK(count(pdf, std::string("/MediaBox ") + c.page) == pages_in(pdf));
  }
  CHECK(pages_in(pdf_of({on_blank(152.4, 101.6)})) == 1);
  CHECK(pages_in(pdf_of({on_blank(101.6, 152.4)})) == 1);
  CHECK(pages_in(pdf_of({on_blank(2000, 500)})) >= 1);  // beyond A0: a page made to measure
  CHECK(pages_in(pdf_of({proof(), proof(), held("a")})) == 3);
}

TEST_CASE("on a paper that is chosen a plaque is as large as a scale of ISO 5455 lets it be") {
  struct Case {
    double width, height;
    PaperSize paper;
    double reduction;
    const char*
        page;  // points; ISO 216: A5 148 × 210, A3 297 × 420 mm; ANSI/ASME Y14.1: size A 8.5 × 11 in; from memory
  };
  const Case cases[] = {
      {90, 60, PaperSize::a5, 1, "[ 0 0 419.527559 595.275591 ]"},
      {152.4, 101.6, PaperSize::a5, 2, "[ 0 0 419.527559 595.275591 ]"},
      {200, 150, PaperSize::a5, 2, "[ 0 0 595.275591 419.527559 ]"},
      {200, 150, PaperSize::a4, 2, "[ 0 0 595.275591 841.889764 ]"},
      {350, 250, PaperSize::a4, 2, "[ 0 0 841.889764 595.275591 ]"},
      {152.4, 101.6, PaperSize::letter, 1, "[ 0 0 612 792 ]"},
      {60, 40, PaperSize::a3, 1, "[ 0 0 841.889764 1190.551181 ]"},
      {2000, 500, PaperSize::a4, 10, "[ 0 0 841.889764 595.275591 ]"},
  };
  for (const Case& c : cases) {
    INFO(c.width << " × " << c.height << ", paper " << static_cast<int>(c.paper));
    const ProofPage page = on_blank(c.width, c.height);
    CHECK(proof_reduction(*page.artwork, c.paper) == c.reduction);
    const Result<std::string> pdf = write_proof_pdf({page}, "The Mill", fonts(), c.paper);
    REQUIRE(pdf.ok());
    CHECK(count(*pdf, std::string("/MediaBox ") + c.page) == pages_in(*pdf));
  }
}

TEST_CASE("a contact sheet has many plaques to a page, all at one scale") {
  std::vector<ProofPage> pages(20, proof());
  pages.push_back(held("a"));
  const Result<ContactSheet> sheet = write_contact_sheet(pages, "The Mill", fonts());
  REQUIRE(sheet.ok());
  CHECK(sheet->ink.size() == pages_in(sheet->pdf));
  CHECK(sheet->ink.size() == 2);
  CHECK(sheet->ink[0] > sheet->ink[1]);
  CHECK(write_contact_sheet(pages, "The Mill", fonts())->pdf == sheet->pdf);
  CHECK(write_contact_sheet(pages, "The Mill", fonts(), PaperSize::a3)->ink.size() == 1);
  CHECK_FALSE(write_contact_sheet({}, "The Mill", fonts()).ok());
  CHECK_FALSE(write_contact_sheet({on_blank(9'000, 60)}, "The Mill", fonts()).ok());
}

TEST_CASE("the whole hash of each artwork stands in the file's properties, in the order of its pages") {
  ProofPage second = proof();
  second.item.id = "1042-2";
  second.artwork->hash = std::string(64, 'e');
  const std::string pdf = pdf_of({proof(), held("a"), second});
  CHECK(pdf.find("1042-1 " + proof().artwork->hash + ", 1042-2 " + second.artwork->hash) != std::string::npos);
}

TEST_CASE("the items of an order stand below it in the table of contents") {
  ProofPage second = proof(), other = proof();
  second.item.id = "1042-2", other.item.id = "1043-1";
  const std::string pdf = pdf_of({proof(), second, other});
  CHECK(count(pdf, "/Title (Order 1042)") == 1);
  CHECK(count(pdf, "/Title (Order 1043)") == 1);
  CHECK(count(pdf, "/Title (1042-") == 2);
}

TEST_CASE("a long list of changes goes on on further pages") {
  ProofPage page = proof();
  for (std::size_t i = 0; i < 150; ++i) {
    page.item.inscription.notes.push_back({CleaningNote::Weight::note, 1, i, "rule " + std::to_string(i)});
  }
  CHECK(pages_in(pdf_of({page})) == 4);
}

TEST_CASE("places of the same change share a line") {
  ProofPage page = proof();
  for (std::size_t i = 0; i < 40; ++i) {
    page.item.inscription.notes.push_back({CleaningNote::Weight::note, 1, i, "the same"});
  }
  CHECK(pages_in(pdf_of({page})) == 1);
}

TEST_CASE("words of 200 characters fit beside themselves on one page") {
  ProofPage page = proof();
  std::string text;
  while (text.size() < 200) text += "wheel and weir ";
  page.item.inscription = {text, {text}, {}};
  CHECK(pages_in(pdf_of({page})) == 1);
}

TEST_CASE(
    "what glues two words looks like a space where it is shown as engraved, and is spelled out where it was typed") {
  const auto pdf = [](const std::string& original, const std::string& line) {
    ProofPage page = proof();
    page.item.inscription = {original, {line}, {}};
    return pdf_of({page});
  };
  const std::string spaced = pdf("Ada Bo", "Ada Bo");
  CHECK(pdf("Ada Bo", "Ada\u00A0Bo") == spaced);
  CHECK(pdf("Ada Bo", "Ada\u202FBo") == spaced);
  CHECK(pdf("Ada\u00A0Bo", "Ada Bo") != spaced);
}

TEST_CASE("a held item has its page whatever its words and whatever is known of the reason") {
  for (const char* words : {"Happy 😀 birthday", "\xFF\xFE", "", "a\u202Eb", "👨\u200D👩\u200D👧\r\n\tx"}) {
    CHECK(pages_in(pdf_of({held(words)})) == 1);
  }
  ProofPage unknown = held("a");
  unknown.held.reset();
  CHECK(pages_in(pdf_of({unknown})) == 1);
}

TEST_CASE("names of any length and kind stand on the page") {
  ProofPage page = proof();
  page.item.id = std::string(300, '7') + "-1";
  page.item.design = std::string(200, 'd');
  CHECK(pages_in(pdf_of({page}, std::string(500, 'S'))) == 1);
  page.item.id = "\xFF(1)\\-1";
  CHECK(pages_in(pdf_of({page}, "Shop \xFF 😀")) == 1);
}

TEST_CASE("a proof bears its item's number with the check character, for what an order asked for") {
  ProofPage page = held("a");
  CHECK(pdf_of({page}).find("/Title (" + with_check("1042-1") + ")") != std::string::npos);
  ProofPage written_out = page;
  written_out.item.id = with_check("1042-1");  // what is no item's number is shown as it is
  CHECK(pdf_of({page}) == pdf_of({written_out}));
  page.item.source.clear();
  CHECK(pdf_of({page}).find("/Title (1042-1)") != std::string::npos);
}

TEST_CASE("a proof of nothing is a mistake") {
  const Result<std::string> pdf = write_proof_pdf({}, "The Mill", fonts());
  REQUIRE_FALSE(pdf.ok());
  CHECK(pdf.fault().what == "there is nothing to make a proof of");
}

TEST_CASE("artwork that is not finite is refused by the proof as well") {
  ProofPage page = proof();
  page.artwork->layers[0].path.line_to({0, std::numeric_limits<double>::quiet_NaN()});
  CHECK_FALSE(write_proof_pdf({page}, "The Mill", fonts()).ok());
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), 1e300, -1.0}) {
    ProofPage tall = proof();
    tall.artwork->cap_height = bad;
    CHECK_FALSE(write_proof_pdf({tall}, "The Mill", fonts()).ok());
  }
  CHECK_FALSE(write_proof_pdf({on_blank(1e300, 60)}, "The Mill", fonts()).ok());
  CHECK_FALSE(write_proof_pdf({on_blank(60, 5081)}, "The Mill", fonts()).ok());
  CHECK_FALSE(write_proof_pdf({on_blank(60, std::numeric_limits<double>::quiet_NaN())}, "The Mill", fonts()).ok());
}

}  // namespace ordinatio::proof_test
