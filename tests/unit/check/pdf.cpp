#include <catch2/catch.hpp>

#include "check/check.h"
#include "one_file.h"
#include "sheet_by_hand.h"

namespace ordinatio::pdf_test {

namespace {

/// A PDF of the objects given, numbered from 1, the first the catalogue (ISO 32000-1, 7.5).
std::string pdf_of(const std::vector<std::string>& objects) {
  std::string text = "%PDF-1.5\n", offsets;
  for (std::size_t i = 0; i < objects.size(); ++i) {
    const std::string offset = std::to_string(text.size());
    offsets += std::string(10 - offset.size(), '0') + offset + " 00000 n \n";
    text += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
  }
  const std::string start = std::to_string(text.size()), size = std::to_string(objects.size() + 1);
  return text + "xref\n0 " + size + "\n0000000000 65535 f \n" + offsets + "trailer << /Size " + size +
         " /Root 1 0 R >>\nstartxref\n" + start + "\n%%EOF\n";
}

std::string stream_of(const std::string& entries, const std::string& content) {
  return "<< " + entries + " /Length " + std::to_string(content.size()) + " >>\nstream\n" + content + "\nendstream";
}

// 200 mm by 120 mm.
constexpr const char* page_object =
    "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 566.929134 340.157480] /Contents 4 0 R /Resources << /XObject << /x5 "
    "5 0 R >> >> >>";

const std::string content_by_hand = R"(q 2.834645669 0 0 2.834645669 0 0 cm
0 0.619608 0.45098 rg
16 16 m 50 16 l 58 16 64 22 64 30 c 64 44 l 16 44 l h
22 22 m 22 30 l 40 30 l 40 22 l h f
130 20 m 130 60 l 116.66666667 60 110 46.66666667 110 20 c h f
0.901961 0.623529 0 RG 0.1 w
134 16 m 134 64 l 106 64 l 106 16 l h S
0.337255 0.705882 0.913725 RG
146 100 m 154 100 l 150 96 m 150 104 l S
0.6 0.6 0.6 RG 10 10 60 40 re S
BT 0 0.619608 0.45098 rg /F1 10 Tf 20 20 Td (engrave \(f\) 1 0 0 re f) Tj ET
0.2 0.2 0.2 rg 5 5 3 3 re f
1 1 1 rg 0 0 m 200 120 l W n
Q
)";

std::string pdf_by_hand(const std::string& content, const std::string& page = page_object) {
  return pdf_of({"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>", page,
                 stream_of("", content), "null"});
}

/// The drawing in a form twice as large and 3 mm aside, set back by its matrix and by the page.
std::string pdf_with_form() {
  const std::string form = stream_of("/Type /XObject /Subtype /Form /BBox [0 0 2000 2000] /Matrix [0.5 0 0 0.5 0 0]",
                                     "q 2 0 0 2 6 0 cm " + content_by_hand + " Q");
  return pdf_of({"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>", page_object,
                 stream_of("", "q 1 0 0 1 -3 0 cm /x5 Do Q"), form});
}

}  // namespace

TEST_CASE("a PDF file that is the sheet passes, in plain and as a form") {
  for (const std::string& text : {pdf_by_hand(content_by_hand), pdf_with_form()}) {
    const MaybeFault fault = check_pdf(text, sheet_by_hand());
    INFO((fault ? describe(*fault) : ""));
    CHECK_FALSE(fault);
  }
}

TEST_CASE("comments, strings, arrays, dictionaries and pictures in a page's content hide nothing and paint nothing") {
  constexpr const char* beside[] = {
      "% 0 0 50 50 re f\nQ",
      "/P << /MCID 0 /A [ (a\\)]) <48> << /B /C >> ] >> BDC 5 5 3 3 re n EMC Q",
      "BT [ (b\\\\) -20.5 (( re f)) <6372> ] TJ ET true null Tc Q",
      "BI /W 1 /H 1 /BPC 8 /CS /G ID \x01 1 0 0 rg 9 9 9 9 re f EI Q",
  };
  for (const char* text : beside) {
    const std::string content = damaged(content_by_hand, "W n\nQ", std::string("W n\n") + text);
    const MaybeFault fault = check_pdf(pdf_by_hand(content), sheet_by_hand());
    INFO(text << (fault ? describe(*fault) : ""));
    CHECK_FALSE(fault);
    // What stands behind them is seen.
    const std::string more = damaged(content, text, std::string(text) + " 0 0.619608 0.45098 rg 9 9 90 90 re f");
    CHECK(check_pdf(pdf_by_hand(more), sheet_by_hand()));
  }
}

TEST_CASE("each kind of damage to a PDF page is told, with the operation and the pocket") {
  struct Damage {
    const char *name, *from, *to, *told;
  };
  const Damage table[] = {
      {"25.4 times too small", "q 2.834645669 0 0 2.834645669 0 0 cm", "q 0.1116 0 0 0.1116 0 0 cm", "engrave"},
      {"in points", "q 2.834645669 0 0 2.834645669 0 0 cm", "q", "1042-1"},
      {"mirrored", "q 2.834645669 0 0 2.834645669 0 0 cm", "q -2.834645669 0 0 2.834645669 566.929134 0 cm", "engrave"},
      {"upside down", "q 2.834645669 0 0 2.834645669 0 0 cm", "q 2.834645669 0 0 -2.834645669 0 340.15748 cm",
       "engrave"},
      {"moved by 0.05 mm", "0 0 cm", "0.1417 0 cm", "1042-1 leaves its clear area by 0.05"},
      {"a hole left out", "22 22 m 22 30 l 40 30 l 40 22 l h f", "f", "1 contours, not 2"},
      {"a hole filled", "22 22 m 22 30 l 40 30 l 40 22 l h f", "22 22 m 40 22 l 40 30 l 22 30 l h f", "ink area"},
      {"a missing item", "130 20 m 130 60 l 116.66666667 60 110 46.66666667 110 20 c h f", "", "engrave in pocket 2"},
      {"an item twice", "130 20 m 130 60 l 116.66666667 60 110 46.66666667 110 20 c h f",
       "130 20 m 130 60 l 116.66666667 60 110 46.66666667 110 20 c h "
       "130 20 m 130 60 l 116.66666667 60 110 46.66666667 110 20 c h f",
       "2 contours, not 1"},
      {"an area 0.2 % too large", "22 30 l 40 30 l", "22 29.87 l 40 29.87 l", "ink area"},
      {"a wrong colour", "0.901961 0.623529 0 RG", "0.801961 0.623529 0 RG", "score in pocket 2"},
      {"filled for stroked", "106 64 l 106 16 l h S", "106 64 l 106 16 l h f", "score in pocket 2"},
      {"a scored line 0.2 % too short", "134 64 l 106 64 l", "134 63.848 l 106 63.848 l", "runs"},
      {"something more in an operation's colour", "0.6 0.6 0.6 RG", "0.6 0.6 0.6 RG 180 100 m 190 110 l S",
       "guide: something is painted at (185, 105)"},
      {"a state restored too often", "W n\nQ", "W n\nQ Q", "never saved"},
      {"a token that is none", "W n\nQ", "W n )\nQ", "it is damaged"},
      {"an operator that is none", "W n\nQ", "W x n\nQ", "\"x\" is no operator"},
      {"a string that does not end", "re f) Tj", "re f Tj", "does not end"},
      {"an array that does not end", "W n\nQ", "W n [ (a) Q", "does not end"},
      {"a number with an exponent", "5 5 3 3 re f", "5 5 3e0 3 re f", "no plain decimal"},
      {"operands without an operator", "W n\nQ", "W n\nQ 1 2", "ends before an operator"},
      {"a form that is not there", "W n\nQ", "W n /x9 Do\nQ", "is not there"},
      {"an operator without its numbers", "0.1 w", "0.1 w 1 0 cm", "lacks a number"},
  };
  for (const Damage& damage : table) {
    const MaybeFault fault = check_pdf(pdf_by_hand(damaged(content_by_hand, damage.from, damage.to)), sheet_by_hand());
    INFO(damage.name << ": " << (fault ? describe(*fault) : "passed"));
    REQUIRE(fault);
    CHECK(describe(*fault).find(damage.told) != std::string::npos);
    CHECK(fault->where == "sheet-001.pdf");
  }
}

TEST_CASE("pages after the bed's are for people: words and lines pass, an operation's colour does not") {
  const auto with_page = [](const std::string& second) {
    return pdf_of({"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R 6 0 R] /Count 2 >>", page_object,
                   stream_of("", content_by_hand), "null",
                   "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 7 0 R /Resources << >> >>",
                   stream_of("", second)});
  };
  CHECK_FALSE(check_pdf(with_page("BT 0 0.619608 0.45098 rg /F1 10 Tf 20 20 Td (Cautions) Tj ET 0.2 G 9 9 50 50 re S"),
                        sheet_by_hand()));
  const MaybeFault fault = check_pdf(with_page("0 0.619608 0.45098 rg 9 9 50 50 re f"), sheet_by_hand());
  REQUIRE(fault);
  CHECK(describe(*fault).find("page 2 paints something in an operation's colour") != std::string::npos);
}

TEST_CASE("a PDF page of another size, turned or scaled, is refused") {
  const std::pair<const char*, const char*> table[] = {{"566.929134", "567"},
                                                       {"[0 0 566.929134 340.157480]", "[1 1 566.929134 340.157480]"},
                                                       {"/Contents", "/Rotate 90 /Contents"},
                                                       {"/Contents", "/UserUnit 2 /Contents"}};
  for (const auto& [from, to] : table) {
    INFO(to);
    CHECK(check_pdf(pdf_by_hand(content_by_hand, damaged(page_object, from, to)), sheet_by_hand()));
  }
  CHECK_FALSE(check_pdf(pdf_by_hand(content_by_hand, damaged(page_object, "566.929134", "566.935")), sheet_by_hand()));
}

TEST_CASE("a PDF that is damaged, or whose form draws itself, is refused") {
  const std::string whole = pdf_by_hand(content_by_hand);
  CHECK(check_pdf("", sheet_by_hand()));
  CHECK(check_pdf(whole.substr(0, whole.size() / 2), sheet_by_hand()));
  CHECK(check_pdf(damaged(whole, "startxref\n", "startxref\n1"), sheet_by_hand()));
  const std::string loop = pdf_of({"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
                                   page_object, stream_of("", "/x5 Do"),
                                   stream_of("/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Resources << /XObject << "
                                             "/x5 5 0 R >> >>",
                                             "/x5 Do")});
  const MaybeFault fault = check_pdf(loop, sheet_by_hand());
  REQUIRE(fault);
  CHECK(fault->what == "forms lie too deep in one another");
}

}  // namespace ordinatio::pdf_test
