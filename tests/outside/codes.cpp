// Codes by a reader that we did not write: zbarimg 0.23 (Debian: zbar-tools) reads them from the labels' page as poppler 22.12
// draws it at 300 dpi, and from the plates' SVG as librsvg 2.54 draws it. What a code is: ISO/IEC 18004. The words of a packing
// list as poppler's pdftotext reads them.
#include <catch2/catch.hpp>
#include <cmath>

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

/// A part of a picture, mm from its upper left corner.
struct Part {
  double left = 0, top = 0, width = 0, height = 0;
};

std::string pixels(double mm, double dots_per_inch) {
  return std::to_string(std::lround(mm / mm_per_inch * dots_per_inch));
}

/// What a reader finds who holds it above one part after the other, as a person does; a line each.
std::vector<std::string> codes_on(const std::filesystem::path& picture, double dots_per_inch,
                                  const std::vector<Part>& parts) {
  const Scratch scratch;
  std::vector<std::string> codes;
  for (const Part& part : parts) {
    output_of("convert " + quoted(picture) + " -crop " + pixels(part.width, dots_per_inch) + "x" +
              pixels(part.height, dots_per_inch) + "+" + pixels(part.left, dots_per_inch) + "+" +
              pixels(part.top, dots_per_inch) + " +repage " + quoted(scratch / "part.png"));
    const std::string read = output_of("zbarimg --nodbus --quiet --raw -Sdisable -Sqrcode.enable " +
                                       quoted(scratch / "part.png") + " || true");
    codes.push_back(read.substr(0, read.find_last_not_of('\n') + 1));
  }
  return codes;
}

/// The labels of the first page, one after the other.
std::vector<std::string> codes_in_pdf(const std::string& pdf, const LabelGrid& measures, std::size_t first,
                                      std::size_t count) {
  const Scratch scratch;
  save(scratch / "labels.pdf", pdf);
  output_of("pdftoppm -r 300 -gray -singlefile -png " + quoted(scratch / "labels.pdf") + " " +
            quoted(scratch / "labels"));
  std::vector<Part> parts;
  for (std::size_t place = first - 1; place < first - 1 + count; ++place) {
    const auto columns = static_cast<std::size_t>(measures.columns);
    parts.push_back({measures.left + static_cast<double>(place % columns) * (measures.width + measures.gap_x),
                     measures.top + static_cast<double>(place / columns) * (measures.height + measures.gap_y),
                     measures.width, measures.height});
  }
  return codes_on(scratch / "labels.png", 300, parts);
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
  plan.machine.width = 220, plan.machine.height = 160;
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

/// The bed as it would be engraved: what the beam touches black, or, pale, what it leaves.
std::vector<std::string> codes_in_svg(const Sheet& sheet, bool pale) {
  const Scratch scratch;
  save(scratch / "plates.svg", write_svg(sheet));
  output_of("rsvg-convert --dpi-x 254 --dpi-y 254 --background-color white " + quoted(scratch / "plates.svg") + " -o " +
            quoted(scratch / "plates.png"));
  output_of("convert " + quoted(scratch / "plates.png") + " -colorspace gray -threshold 80% " +
            (pale ? "-negate " : "") + quoted(scratch / "black.png"));
  std::vector<Part> parts;
  for (const SheetItem& item : sheet.items) {
    const Bounds box = bounds_of(transformed(path_of(item.artwork.blank), item.to_bed));
    constexpr double around = 1;
    parts.push_back({box.left - around, sheet.frame.plan.machine.height - box.top - around, box.width() + 2 * around,
                     box.height() + 2 * around});
  }
  return codes_on(scratch / "black.png", 254, parts);
}

}  // namespace

TEST_CASE("every label's code is read from its page at 300 dpi, and says the number") {
  const LabelGrid measures;
  const std::string pdf = good(write_labels(label_items(), measures, 1, "Mill", fonts())).pdf;
  CHECK(codes_in_pdf(pdf, measures, 1, numbers.size()) == numbers);
}

TEST_CASE("the smallest label that is not refused is read too, on a sheet whose first label is used up") {
  LabelGrid measures;
  measures.width = 28, measures.height = 10;
  const auto labels =
      good(write_labels({{"1042-2/K", "Rose Cottage"}, {"1042-3/8", "Ford"}}, measures, 2, "Mill", fonts()));
  CHECK(codes_in_pdf(labels.pdf, measures, 1, 3) == std::vector<std::string>{"", "1042-2/K", "1042-3/8"});
}

TEST_CASE("a plate's code is read from the SVG as it would be engraved, marked or filled, dark or pale") {
  for (const Operation operation : {Operation::mark, Operation::engrave}) {
    for (const bool pale : {false, true}) {
      PlateWish wish;
      wish.size = 30, wish.operation = operation, wish.pale = pale;
      INFO(name_of(operation) << (pale ? ", pale" : ""));
      CHECK(codes_in_svg(sheet_of_plates(wish), pale) == numbers);
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
  // Poppler puts what reads from right to left between two signs of its own (U+202B, U+202C; Unicode UAX #9).
  std::string text = output_of("pdftotext " + quoted(scratch / "packing.pdf") + " -");
  for (const std::string sign : {"\u202B", "\u202C"}) {
    for (std::size_t sign_at = text.find(sign); sign_at != std::string::npos; sign_at = text.find(sign))
      text.erase(sign_at, sign.size());
  }
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
