#include <catch2/catch.hpp>
#include <cmath>

#include "../write/small_sheet.h"
#include "bed/item_number.h"
#include "paper/cautions.h"
#include "paper/paper.h"
#include "paper/sheet_labels.h"
#include "sheet_pdf.h"
#include "write/write.h"

namespace ordinatio::sheet_picture_test {

namespace {

const FontLibrary& fonts() {
  static const FontLibrary library("no/fonts/of/our/own");
  return library;
}

std::string pdf_of(const Sheet& sheet) {
  const Result<std::string> pdf = write_sheet_pdf(sheet, fonts());
  if (!pdf.ok()) throw std::runtime_error(describe(pdf.fault()));
  return *pdf;
}

}  // namespace

TEST_CASE("the page is the bed in points") {
  // 200 mm = 566.929134 pt, 120 mm = 340.157480 pt, at 25.4 mm and 72 pt to the inch
  CHECK(pdf_of(small_sheet()).find("/MediaBox [ 0 0 566.929134 340.15748 ]") != std::string::npos);
}

TEST_CASE("a sheet's PDF and picture are the same bytes each time, and tell one sheet from another") {
  const Sheet sheet = small_sheet();
  CHECK(pdf_of(sheet) == pdf_of(sheet));
  CHECK(pdf_of(sheet) != pdf_of(small_sheet("1043-1")));
  CHECK(*write_sheet_png(sheet, fonts(), 4) == *write_sheet_png(sheet, fonts(), 4));
}

TEST_CASE("a pocket's caption bears the item's number with its check character, for what an order asked for") {
  const auto numbered = [](bool is_ordered, bool is_written_out) {
    Sheet sheet = small_sheet();
    for (SheetItem& item : sheet.items) {
      if (is_written_out) item.item.id = with_check(item.item.id);
      if (!is_ordered) item.item.source.clear();
    }
    return pdf_of(sheet);
  };
  CHECK(numbered(true, false) == numbered(false, true));
  CHECK(numbered(true, false) != numbered(false, false));
}

TEST_CASE("a pocket's caption bears the customer's name, and every mark its number") {
  Sheet sheet = small_sheet();
  sheet.items.front().item.customer = "Ada Wren";
  CHECK(pdf_of(sheet) != pdf_of(small_sheet()));
  sheet.items.front().item.customer = std::string(500, 'W');  // cut, lest it drive the number away
  CHECK(pdf_of(sheet) != pdf_of(small_sheet()));
  Sheet renumbered = small_sheet();
  for (SheetPart& part : renumbered.parts) {
    if (part.id == "mark-1") part.id = "mark-7";
  }
  CHECK(pdf_of(renumbered) != pdf_of(small_sheet()));
}

TEST_CASE("what finds no room on the bed stands on a page of its own, the picture's below it") {
  Sheet sheet = small_sheet();
  Path all_over;
  all_over.add_rectangle({0, 0, 200, 120});
  sheet.parts.insert(sheet.parts.begin(), {Operation::engrave, "all-over", "", all_over});
  const std::string pdf = pdf_of(sheet);
  CHECK(pdf.find("/Count 2") != std::string::npos);
  CHECK(pdf.find("/MediaBox [ 0 0 595.275591 841.889764 ]") != std::string::npos);  // A4
  const auto rows = [](const Sheet& of) {
    const std::string png = *write_sheet_png(of, fonts(), 1);
    std::size_t number = 0;
    for (std::size_t i = 20; i < 24; ++i) number = 256 * number + static_cast<unsigned char>(png[i]);
    return number;
  };
  CHECK(rows(sheet) > 160);
}

TEST_CASE("words on a large bed are larger: it is printed on A4, and cautions are then still 3 mm tall") {
  CHECK(enlargement_for({200, 120}) == 1);
  CHECK(enlargement_for({297, 210}) == 1);
  CHECK(enlargement_for({594, 100}) == Approx(2));
  CHECK(enlargement_for({630, 630}) == Approx(3));
  Lettering lettering = *Lettering::with(fonts());
  const SetLine line = lettering.set("H", caution_size);
  CHECK(line.size * line.shaped.ink.top >= 3);
}

TEST_CASE("a sheet that cannot be drawn is a fault with its reason") {
  Sheet sheet = small_sheet();
  sheet.frame.plan.machine.width = std::nan("");
  CHECK_FALSE(write_sheet_pdf(sheet, fonts()).ok());
  CHECK_FALSE(write_sheet_png(sheet, fonts(), 4).ok());
  CHECK_FALSE(write_sheet_png(small_sheet(), fonts(), 0).ok());
  Sheet crooked = small_sheet();
  crooked.parts[0].path.line_to({std::nan(""), 0});
  const Result<std::string> pdf = write_sheet_pdf(crooked, fonts());
  REQUIRE_FALSE(pdf.ok());
  CHECK(pdf.fault().what == "the PDF cannot be drawn");
}

TEST_CASE("a sheet's name need not be UTF-8, and its bed may be narrower than a word") {
  Sheet sheet = small_sheet();
  sheet.name = "\xFF";
  CHECK(pdf_of(sheet).find("/Title ([0xFF])") != std::string::npos);
  sheet.frame.plan.machine = {10, 10};
  CHECK(pdf_of(sheet).starts_with("%PDF"));
}

TEST_CASE("an item's number may be anything that an order's number was") {
  for (const char* id : {"№ 7/ü-1", "😀-1", "\xFF-1", "a\u202Eb-1"}) CHECK(pdf_of(small_sheet(id)).starts_with("%PDF"));
}

}  // namespace ordinatio::sheet_picture_test
