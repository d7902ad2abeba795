// Codes by a reader that we did not write: zbarimg 0.23 (Debian: zbar-tools) reads them from the labels' page as poppler 22.12
// draws it at 300 dpi, and from the plates' SVG as librsvg 2.54 draws it. What a code is: ISO/IEC 18004. The words of a packing
// list as poppler's pdftotext reads them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <sstream>

#include "bed/plates.h"
#include "composed_sheet.h"
#include "paper/labels.h"
#include "paper/packing_list.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;

namespace {

template <class Value>
Value good(const Result<Value>& value) {
  if (!value.ok()) throw std::runtime_error(describe(value.fault()));
  return *value;
}

std::set<std::string> lines_in(const std::string& text) {
  std::set<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.insert(line);
  return lines;
}

/// What the reader finds on a picture.
std::set<std::string> codes_on(const std::filesystem::path& picture) {
  return lines_in(output_of("zbarimg --quiet --raw -Sdisable -Sqrcode.enable " + quoted(picture)));
}

std::set<std::string> codes_in_pdf(const std::string& pdf, const std::string& dots_per_inch) {
  const Scratch scratch;
  save(scratch / "labels.pdf", pdf);
  output_of("pdftoppm -r " + dots_per_inch + " -gray -singlefile -png " + quoted(scratch / "labels.pdf") + " " +
            quoted(scratch / "labels"));
  return codes_on(scratch / "labels.png");
}

const std::vector<std::string> numbers{"1042-2/K", "3204-1/P",     "fair-1042-10/7",           "A/B-7-1/Z",
                                       "№ 7-1/Q",  "הזמנה-12-3/4", "MILL 2026-11-25-0001-12/X"};

std::vector<LabelItem> label_items() {
  std::vector<LabelItem> items;
  for (const std::string& number : numbers) items.push_back({number, "Rose Cottage\nFord End"});
  return items;
}

Sheet sheet_of_plates(const PlateWish& wish) {
  BedPlan plan;
  plan.jig.gap = 5;
  Typesetter typesetter(fonts());
  std::vector<SheetItem> items;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    SheetItem plate;
    plate.item = {"plate-" + std::to_string(i), "plate", {}, "test"};
    plate.artwork = good(plate_of(numbers[i], wish, plan.machine, typesetter));
    items.push_back(std::move(plate));
  }
  const Point measures = plate_measures(wish);
  return good(build_sheet(good(lay_bed(plan, measures.x, measures.y)), std::move(items), "plates-001", 1));
}

/// The bed's ink alone, black on white.
std::set<std::string> codes_in_svg(const std::string& svg, bool pale) {
  const Scratch scratch;
  save(scratch / "plates.svg", svg);
  output_of("rsvg-convert --dpi-x 254 --dpi-y 254 --background-color white " + quoted(scratch / "plates.svg") + " -o " +
            quoted(scratch / "plates.png"));
  output_of("convert " + quoted(scratch / "plates.png") + " -colorspace gray -threshold 80% " +
            (pale ? "-negate " : "") + quoted(scratch / "black.png"));
  return codes_on(scratch / "black.png");
}

}  // namespace

TEST_CASE("every label's code is read from its page at 300 dpi, and says the number") {
  const std::set<std::string> wanted(numbers.begin(), numbers.end());
  LabelGrid measures;
  CHECK(codes_in_pdf(good(write_labels(label_items(), measures, 1, "Mill", fonts())).pdf, "300") == wanted);
}

TEST_CASE("the smallest label that is not refused is read too") {
  LabelGrid measures;
  measures.width = 28, measures.height = 10;
  const auto labels =
      good(write_labels({{"1042-2/K", "Rose Cottage"}, {"1042-3/8", "Ford"}}, measures, 2, "Mill", fonts()));
  CHECK(codes_in_pdf(labels.pdf, "300") == std::set<std::string>{"1042-2/K", "1042-3/8"});
}

TEST_CASE("a plate's code is read from the SVG as it would be engraved, marked or filled, dark or pale") {
  const std::set<std::string> wanted(numbers.begin(), numbers.end());
  for (const Operation operation : {Operation::mark, Operation::engrave}) {
    for (const bool pale : {false, true}) {
      PlateWish wish;
      wish.size = 30, wish.operation = operation, wish.pale = pale;
      INFO(name_of(operation) << (pale ? ", pale" : ""));
      CHECK(codes_in_svg(write_svg(sheet_of_plates(wish)), pale) == wanted);
    }
  }
}

TEST_CASE("a packing list's words are text, in their order, also those that read from right to left") {
  std::vector<Parcel> parcels(3);
  parcels[0] = {"3201", "Marigold Fenwick", {"wrap it well"}, {{"3201-1/W", "Rose Cottage\nFord End", ""}}, {}};
  parcels[1] = {"3203", "ليلى الطحان", {}, {{"3203-1/F", "بيت الورد\nعند النهر", ""}}, {}};
  parcels[2] = {"3204",
                "נעמה נחלאי",
                {"נא לארוז היטב"},
                {{"3204-1/P", "בית הטחנה\nעל הנחל", ""}},
                {{"3204-2/N", "בית הטחנה", "held: to be asked"}}};
  const Scratch scratch;
  save(scratch / "packing.pdf", good(write_packing_list(parcels, "Mill", fonts(), PaperSize::a4)).pdf);
  const std::string text = output_of("pdftotext -raw " + quoted(scratch / "packing.pdf") + " -");
  std::size_t at = 0;
  for (const char* words :
       {"3201",       "Marigold Fenwick", "wrap it well",     "3201-1/W",  "Rose Cottage", "Ford End",
        "3203",       "ليلى الطحان",      "3203-1/F",         "بيت الورد", "عند النهر",    "3204",
        "נעמה נחלאי", "נא לארוז היטב",    "3204-1/P",         "בית הטחנה", "על הנחל",      "Not in this parcel",
        "3204-2/N",   "בית הטחנה",        "held: to be asked"}) {
    const std::size_t found = text.find(words, at);
    INFO(words << " in\n" << text);
    REQUIRE(found != std::string::npos);
    at = found;
  }
}
