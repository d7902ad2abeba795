// Boards, sheets laid to their marks, and pieces laid by hand: by the work of the commands, in a workshop as it is new.
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "../check/one_file.h"
#include "../paper/sheet_pdf.h"
#include "base/account.h"
#include "check/check.h"
#include "manifest/manifest.h"
#include "paper/paper.h"
#include "shop/align.h"
#include "shop/day.h"
#include "shop/jig.h"
#include "shop/measured.h"
#include "shop/remake.h"
#include "workshop/shop_file.h"

namespace ordinatio::laying_test {
using Catch::Contains;
using Model = Registration::Model;
namespace fs = std::filesystem;

namespace {

/// A new workshop, and what its first sheet is.
class Laid {
 public:
  Laid() : folder_(fs::temp_directory_path() / ("ordinatio-laid-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    REQUIRE_FALSE(new_shop(folder_));
    shop_ = *read_shop(folder_);
    DayOptions day;
    day.orders = folder_ / "orders.csv", day.out = folder_ / "day", day.pdf = false;
    REQUIRE(run_day(shop_, day).ok());
  }
  ~Laid() { fs::remove_all(folder_); }
  Laid(const Laid&) = delete;
  Laid& operator=(const Laid&) = delete;

  [[nodiscard]] const Shop& shop() const { return shop_; }
  [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_ / name; }
  [[nodiscard]] Manifest manifest(const std::string& name) const {
    auto manifest = read_manifest(*read_file(folder_ / name), name);
    if (!manifest.ok()) FAIL(describe(manifest.fault()));
    return *std::move(manifest);
  }
  [[nodiscard]] AlignOptions options(std::vector<std::string> measured, Model allowed = Model::rigid) const {
    return {folder_ / "day/sheet-001.json", folder_ / "align", std::move(measured), allowed};
  }
  Account align(const AlignOptions& options) const {
    auto account = run_align(shop_, options);
    if (!account.ok()) FAIL(describe(account.fault()));
    return *std::move(account);
  }
  [[nodiscard]] std::string refused(const AlignOptions& options) const {
    const auto account = run_align(shop_, options);
    REQUIRE_FALSE(account.ok());
    CHECK_FALSE(fs::exists(folder_ / "align"));
    return describe(account.fault());
  }

 private:
  fs::path folder_;
  Shop shop_;
};

std::string word(Point p) {
  std::string text;
  append_number(text, p.x, 9), text += ',';
  append_number(text, p.y, 9);
  return text;
}

Transform turn_about(double degrees, double scale, Point centre) {
  const double a = degrees * std::numbers::pi / 180, c = scale * std::cos(a), s = scale * std::sin(a);
  const Transform turn{c, s, -s, c, 0, 0};
  return then(then(shift_by(-1 * centre), turn), shift_by(centre));
}

std::vector<std::string> words(const std::vector<Point>& points, const Transform& by) {
  std::vector<std::string> all;
  for (const Point p : points) all.push_back(word(by(p)));
  return all;
}

const Transform turned = turn_about(0.4, 1, {300, 200});

}  // namespace

TEST_CASE("a sheet is laid to its marks: the same artwork, everything moved, and the manifest tells by what") {
  const Laid laid;
  const Manifest before = laid.manifest("day/sheet-001.json");
  const Account account = laid.align(laid.options(words(before.marks, turned)));
  CHECK(account.warnings.empty());
  REQUIRE(account.files.size() == 4);
  CHECK(account.files[0] == laid / "align/sheet-001-aligned.dxf");
  const Manifest after = laid.manifest("align/sheet-001-aligned.json");
  REQUIRE(after.items.size() == before.items.size());
  for (std::size_t i = 0; i < after.items.size(); ++i) {
    CHECK(after.items[i].hash == before.items[i].hash);
    CHECK(after.items[i].pocket == before.items[i].pocket);
    for (const Point p : {Point{0, 0}, {150, 0}, {0, 100}}) {
      CHECK(length(after.items[i].to_bed(p) - turned(before.items[i].to_bed(p))) < 1e-6);
    }
  }
  REQUIRE(after.correction);
  CHECK(turn_of(after.correction->registration.to_bed) == Approx(0.4));
  CHECK(after.correction->registration.redundancy == 5);
  CHECK(after.marks == before.marks);
  CHECK_FALSE(before.correction);
}

TEST_CASE("a sheet that was laid once is laid again from its drawing, not from where it was laid") {
  const Laid laid;
  const Manifest before = laid.manifest("day/sheet-001.json");
  AlignOptions options = laid.options(words(before.marks, turned));
  laid.align(options);
  const std::string first = *read_file(laid / "align/sheet-001-aligned.svg");
  options.manifest = laid / "align/sheet-001-aligned.json";
  options.out = laid / "again";
  laid.align(options);
  CHECK(*read_file(laid / "again/sheet-001-aligned.svg") == first);
}

TEST_CASE("scale and affine are allowed where they are asked for, and leave less") {
  const Laid laid;
  const std::vector<Point> marks = laid.manifest("day/sheet-001.json").marks;
  const Transform scaled = turn_about(0.2, 1.004, {300, 200}), sheared{1.003, 0, 0.002, 0.998, -1, 0.5};
  CHECK_THAT(laid.refused(laid.options(words(marks, scaled))),
             Contains("does not agree") && Contains("mark 1, drawn at 8,8, is off by"));
  CHECK_THAT(laid.refused(laid.options(words(marks, sheared), Model::similar)), Contains("does not agree"));
  CHECK(laid.align(laid.options(words(marks, scaled), Model::similar)).warnings.empty());
  CHECK(laid.align(laid.options(words(marks, sheared), Model::affine)).warnings.empty());
  const auto correction = laid.manifest("align/sheet-001-aligned.json").correction;
  CHECK(correction->registration.to_bed.xy == Approx(0.002));
}

TEST_CASE("two or three marks will do, by their numbers, and it is said what two cannot show") {
  const Laid laid;
  const std::vector<Point> marks = laid.manifest("day/sheet-001.json").marks;
  const auto numbered = [&](int n) {
    return std::to_string(n) + ":" + word(turned(marks[static_cast<std::size_t>(n) - 1]));
  };
  const Account account = laid.align(laid.options({numbered(4), numbered(1)}));
  CHECK(std::ranges::any_of(account.notes, [](const std::string& note) {
    return note.find("a slip across the line between them does not show") != std::string::npos;
  }));
  const auto two = laid.manifest("align/sheet-001-aligned.json").correction;
  CHECK(two->numbers == std::vector<int>{4, 1});
  CHECK(turn_of(two->registration.to_bed) == Approx(0.4));
  laid.align(laid.options({numbered(3), numbered(1), numbered(2)}, Model::affine));
  CHECK(laid.manifest("align/sheet-001-aligned.json").correction->registration.redundancy == 0);
}

TEST_CASE("measured places that are none, or of which it is not clear which they are, are refused") {
  const Laid laid;
  CHECK_THAT(laid.refused(laid.options({"8,8", "592;8"})), Contains("\"592;8\" is no place") && Contains("--measured"));
  CHECK_THAT(laid.refused(laid.options({"8,8", "nan,8"})), Contains("\"nan,8\" is no place"));
  CHECK_THAT(laid.refused(laid.options({"8,8,8", "9,9"})), Contains("\"8,8,8\" is no place"));
  CHECK_THAT(laid.refused(laid.options({"1.5:8,8", "2:9,9"})), Contains("\"1.5:8,8\" is no place"));
  CHECK_THAT(laid.refused(laid.options({"8,8", "592,8"})), Contains("2 places are given and the sheet has 4 marks"));
  CHECK_THAT(laid.refused(laid.options({"1:8,8", "592,8"})), Contains("some places are numbered and some are not"));
  CHECK_THAT(laid.refused(laid.options({"1:8,8", "7:592,8"})), Contains("there is no mark 7"));
  CHECK_THAT(laid.refused(laid.options({"1:8,8"})), Contains("not enough"));
}

TEST_CASE("a correction is refused over its limit, or off the bed, and what is suspicious is worth a look") {
  const Laid laid;
  const std::vector<Point> marks = laid.manifest("day/sheet-001.json").marks;
  std::vector<Point> slipped = marks;
  slipped[1].y += 1;
  AlignOptions options = laid.options(words(slipped, {}));
  CHECK_THAT(laid.refused(options), Contains("mark 2, drawn at 592,8, is off by") && Contains("the limit is 0.3 mm"));
  options.limit = std::nan("");
  CHECK_THAT(laid.refused(options), Contains("this is no limit"));
  CHECK_THAT(laid.refused(laid.options(words(marks, shift_by({0, -5})))),
             Contains("registration mark 1 would leave the bed"));
  options.limit = 1;
  CHECK(laid.align(options).warnings.empty());
  const Transform large = turn_about(0, 0.97, {300, 200});
  const Account account = laid.align(laid.options(words(marks, large), Model::similar));
  REQUIRE(account.warnings.size() == 1);
  CHECK_THAT(account.warnings[0], Contains("a scale of 0.97"));
}

TEST_CASE("marks that were mistaken for one another are told as a turn too large") {
  Account account;
  Correction correction{Correction::By::marks, {1, 2}, {}};
  correction.registration = *register_points({{8, 8}, {592, 8}}, {{592, 8}, {8, 8}}, Model::rigid);
  account_for(account, correction, {});
  REQUIRE(account.warnings.size() == 1);
  CHECK_THAT(account.warnings[0], Contains("a turn of") && Contains("180 degrees"));
}

TEST_CASE("a sheet whose design has changed is not laid, and the item is named") {
  const Laid laid;
  const std::vector<Point> marks = laid.manifest("day/sheet-001.json").marks;
  std::string design = *read_file(laid / "templates/plaque-landscape.toml");
  design.replace(design.find("max = 25"), 8, "max = 24");
  REQUIRE_FALSE(write_file(laid / "templates/plaque-landscape.toml", design));
  CHECK_THAT(laid.refused(laid.options(words(marks, turned))), Contains("has changed since sheet-001"));
}

TEST_CASE("an item that would lie elsewhere than its sheet says is not laid") {
  const Laid laid;
  auto json = nlohmann::ordered_json::parse(*read_file(laid / "day/sheet-001.json"));
  json["items"][1]["transform"][4] = json["items"][1]["transform"][4].get<double>() + 0.5;
  json.erase("checksum");
  json["checksum"] = sha256_hex(json.dump());
  REQUIRE_FALSE(write_file(laid / "day/sheet-001.json", json.dump()));
  const std::vector<Point> marks = laid.manifest("day/sheet-001.json").marks;
  CHECK_THAT(laid.refused(laid.options(words(marks, turned))), Contains("lies elsewhere than on sheet-001"));
}

TEST_CASE("a PDF is held against items where they were laid, though each lies over its neighbour's pocket") {
  BedPlan plan;
  plan.machine = {120, 120};
  plan.jig.fill_bed = false;
  plan.jig.columns = 1, plan.jig.rows = 4, plan.jig.first = {40, 20}, plan.jig.pitch_y = 20;
  plan.jig.pocket_width = 40, plan.jig.pocket_height = 18;
  plan.marks.places = {{10, 30}, {110, 30}, {10, 90}};
  const auto frame = lay_bed(plan, 40, 18);
  REQUIRE(frame.ok());
  std::vector<SheetItem> items(4);
  for (std::size_t i = 0; i < items.size(); ++i) {
    items[i].item.id = "1-" + std::to_string(i + 1);
    items[i].artwork.blank.outline = rectangle_outline(40, 18, Corner::square, 0);
    items[i].artwork.clear_area.region = region_of(*inset(items[i].artwork.blank.outline, 2));
    Path ink;
    ink.move_to({4, 4});
    ink.line_to({10 + 5 * static_cast<double>(i), 4});
    ink.line_to({4, 14});
    ink.close();
    items[i].artwork.layers = {{Operation::engrave, ink}};
  }
  auto sheet = build_sheet(*frame, items, "sheet-001-aligned", 1);
  REQUIRE(sheet.ok());
  std::vector<Point> measured;
  for (const Point p : sheet->frame.marks) measured.push_back(p + Point{0, 20});
  REQUIRE_FALSE(correct(*sheet, {1, 2, 3}, measured, Model::rigid));
  const FontLibrary fonts("none");
  const auto pdf = write_sheet_pdf(*sheet, fonts);
  REQUIRE(pdf.ok());
  const MaybeFault fault = check_pdf(*pdf, *sheet);
  INFO((fault ? describe(*fault) : ""));
  CHECK_FALSE(fault);
  sheet->items[0].artwork.clear_area.region = region_of(*inset(sheet->items[0].artwork.blank.outline, 4.5));
  CHECK_THAT(check_pdf(*pdf, *sheet)->what, Contains("item 1-1 leaves its clear area by 0.5"));
}

TEST_CASE("one piece laid by hand is engraved where it lies") {
  const Laid laid;
  const Transform place = then(turn_about(12, 1, {}), shift_by({200, 100}));
  const std::vector<Point> corners{{0, 0}, {152.4, 0}, {152.4, 101.6}, {0, 101.6}};
  RemakeOptions options{"1001-1", laid / "day/sheet-001.json", laid / "remake", {}, {}};
  options.corners = words(corners, place);
  const auto account = run_remake(laid.shop(), options);
  if (!account.ok()) FAIL(describe(account.fault()));
  CHECK_THAT(account->notes.at(0), Contains("the piece lies turned by 12 degrees"));
  const Manifest after = laid.manifest("remake/remake-1001-1.json");
  REQUIRE(after.items.size() == 1);
  CHECK(after.items[0].pocket == 0);
  CHECK(after.pockets.empty());
  CHECK(after.marks.empty());
  CHECK(after.items[0].hash == laid.manifest("day/sheet-001.json").items[0].hash);
  CHECK(length(after.items[0].to_bed(Point{152.4, 101.6}) - place(Point{152.4, 101.6})) < 1e-6);
  REQUIRE(after.correction);
  CHECK(after.correction->by == Correction::By::corners);

  SECTION("from there only by hand again, and never by marks") {
    options.manifest = laid / "remake/remake-1001-1.json", options.corners.clear();
    CHECK_THAT(run_remake(laid.shop(), options).fault().what, Contains("lay in no pocket"));
    AlignOptions align = laid.options({"1:8,8", "2:592,8"});
    align.manifest = options.manifest;
    CHECK_THAT(laid.refused(align), Contains("has no marks"));
  }
  SECTION("two corners do") {
    options.corners.resize(2), options.out = laid / "two";
    REQUIRE(run_remake(laid.shop(), options).ok());
    CHECK(length(laid.manifest("two/remake-1001-1.json").items[0].to_bed(Point{9, 9}) - place(Point{9, 9})) < 1e-6);
  }
  SECTION("corners of another piece are refused") {
    options.corners = {"200,100", "310,100"};
    CHECK_THAT(describe(run_remake(laid.shop(), options).fault()), Contains("corner 2 is off by") && Contains("1 mm"));
  }
  SECTION("a pocket and corners are not both given") {
    options.pocket = 2;
    CHECK_THAT(run_remake(laid.shop(), options).fault().where, Contains("--pocket"));
  }
}

TEST_CASE("a board is drawn where the day's sheets have their pieces") {
  const Laid laid;
  const auto account = run_jig(laid.shop(), {"", laid / "jig"});
  if (!account.ok()) FAIL(describe(account.fault()));
  const Manifest jig = laid.manifest("jig/jig.json"), day = laid.manifest("day/sheet-001.json");
  CHECK(account->items_set == jig.pockets.size());
  CHECK(account->files.size() == 4);
  REQUIRE(jig.pockets.size() == day.pockets.size());
  for (std::size_t i = 0; i < jig.pockets.size(); ++i) CHECK(jig.pockets[i].box == day.pockets[i].box);
  CHECK(jig.marks == day.marks);
  CHECK(jig.items.empty());
  CHECK_THAT(account->notes.at(1), Contains("finger notches are 13 mm across, not 20 mm"));
  CHECK_THAT(run_jig(laid.shop(), {"no-such", laid / "jig"}).fault().what, Contains("no-such"));
}

TEST_CASE("a jig's datum, clearance, kerf and notch are read, each in its range") {
  const auto shop =
      parse_shop("[jig]\ndatum = \"upper-right\"\nclearance = 1.5\nkerf = 0.15\nnotch = 0\n", "shop.toml");
  REQUIRE(shop.ok());
  CHECK(shop->plan.jig.datum == Jig::Datum::upper_right);
  CHECK(shop->plan.jig.clearance == 1.5);
  CHECK(shop->plan.jig.kerf == 0.15);
  CHECK(shop->plan.jig.notch == 0);
  const auto message = [](const std::string& line) {
    return describe(parse_shop("[jig]\n" + line, "shop.toml").fault());
  };
  CHECK_THAT(message("kerf = 6\n"), Contains("shop.toml:2:8: jig.kerf must be from 0 to 5: it is 6"));
  CHECK_THAT(message("clearance = -1\n"), Contains("jig.clearance must be from 0"));
  CHECK_THAT(message("notch = -1\n"), Contains("jig.notch must be from 0"));
  CHECK_THAT(message("datum = \"lower\"\n"), Contains("one of lower-left, lower-right, upper-left, upper-right"));
}

TEST_CASE("sheets of another datum corner are remade at that corner") {
  const Laid laid;
  Shop shop = laid.shop();
  shop.plan.jig.datum = Jig::Datum::upper_right;
  shop.plan.jig.fill_bed = false;
  shop.plan.jig.columns = shop.plan.jig.rows = 2;
  shop.plan.jig.first = {40, 40}, shop.plan.jig.pitch_x = 180, shop.plan.jig.pitch_y = 130;
  shop.plan.jig.pocket_width = 160, shop.plan.jig.pocket_height = 110;
  DayOptions day;
  day.orders = laid / "orders.csv", day.out = laid / "corner", day.pdf = false;
  REQUIRE(run_day(shop, day).ok());
  const Manifest sheet = laid.manifest("corner/sheet-001.json");
  CHECK(sheet.plan.jig.datum == Jig::Datum::upper_right);
  CHECK(length(sheet.items[0].to_bed(Point{152.4, 101.6}) - Point{200, 280}) < 1e-9);
  REQUIRE(run_remake(laid.shop(), {"1001-1", laid / "corner/sheet-001.json", laid / "remake", 4, {}}).ok());
  CHECK(length(laid.manifest("remake/remake-1001-1.json").items[0].to_bed(Point{152.4, 101.6}) - Point{380, 150}) <
        1e-9);
}

}  // namespace ordinatio::laying_test
