#include "paper/loading_words.h"

#include <catch2/catch.hpp>

#include "../write/small_sheet.h"
#include "bed/correction.h"
#include "check/check.h"
#include "paper/paper.h"
#include "paper/run_sheet.h"

namespace ordinatio::loading_test {
using Catch::Contains;

namespace {

const FontLibrary& fonts() {
  static const FontLibrary library("no/fonts/of/our/own");
  return library;
}

/// The piece in the first pocket, 60 × 40 in a pocket of 60 × 60 that is pushed to its lower left.
LoadingLine first_line(Sheet sheet, const Blank& piece, bool from_behind = false) {
  sheet.items[0].artwork.blank = piece;
  sheet.items[0].artwork.from_behind = from_behind;
  const Pocket& pocket = sheet.frame.pockets[0];
  const Bounds box = bounds_of(path_of(piece));
  sheet.items[0].to_bed = then(as_it_lies(sheet.items[0].artwork),
                               blank_to_bed(pocket, box.width(), box.height(), sheet.frame.plan.jig.datum));
  return loading_lines(sheet).front();
}

Blank piece(double width, double height) {
  Blank blank;
  blank.id = "S-12";
  blank.outline = rectangle_outline(width, height, Corner::square, 0);
  return blank;
}

Blank with_stamp(Blank blank, Point at) {
  blank.kept_clear.push_back({"old stamp", {at}, 3, 2});
  return blank;
}

}  // namespace

TEST_CASE("a loading sheet says how each piece lies") {
  struct Case {
    const char* what;
    Blank blank;
    bool turned_pocket, from_behind;
    std::string lie;
  };
  const Case cases[] = {
      {"as it was measured", piece(60, 60), false, false, "piece S-12"},
      {"a nominal one",
       [] {
         Blank blank = piece(60, 60);
         blank.id = "";
         return blank;
       }(),
       false, false, ""},
      {"turned in its pocket", piece(60, 60), true, false, "piece S-12 · turned: its top to the left"},
      {"measured otherwise", quarter_turned(piece(60, 60)), false, false, "piece S-12 · turned: its top to the left"},
      {"turned twice", quarter_turned(piece(60, 60)), true, false, "piece S-12 · turned: its top towards you"},
      {"face down", piece(60, 60), false, true, "piece S-12 · face down"},
      {"face down and measured otherwise", quarter_turned(piece(60, 60)), false, true,
       "piece S-12 · face down · turned: its top to the right"},
      {"short", piece(60, 52), false, false, "piece S-12 · 8 mm shorter than its pocket: push it to the lower left"},
      {"short and turned", piece(57, 50), true, false,
       "piece S-12 · turned: its top to the left · 10 mm narrower and 3 mm shorter than its pocket: push it to the "
       "lower left"},
      {"as good as full", piece(58.5, 59), false, false, "piece S-12"},
  };
  for (const Case& c : cases) {
    INFO(c.what);
    Sheet sheet = small_sheet();
    sheet.frame.plan.jig.clearance = 0.5;
    sheet.frame.pockets[0].turned = c.turned_pocket;
    const LoadingLine line = first_line(sheet, c.blank, c.from_behind);
    CHECK(line.lie == c.lie);
    CHECK(line.falls_short == (c.lie.find("than its pocket") != std::string::npos));
  }
}

TEST_CASE("what to watch is told by where it lies on the bed, as the piece lies there") {
  Sheet sheet = small_sheet();
  const auto watch = [&sheet](const Blank& blank, bool from_behind) {
    sheet.items[0].artwork.kept_clear = blank.kept_clear;
    return first_line(sheet, blank, from_behind).watch;
  };
  CHECK(watch(piece(60, 60), false).empty());
  CHECK(watch(with_stamp(piece(60, 60), {5, 55}), false) == "old stamp at the upper left");
  CHECK(watch(with_stamp(piece(60, 60), {30, 30}), false) == "old stamp in the middle");
  CHECK(watch(with_stamp(piece(60, 60), {5, 55}), true) == "old stamp at the upper right");
  sheet.frame.pockets[0].turned = true;
  CHECK(watch(with_stamp(piece(60, 60), {5, 55}), false) == "old stamp at the lower left");
  Blank chipped = piece(60, 60);
  chipped.chips = {{{55, 0}, {60, 0}, {60, 5}}};
  sheet.frame.pockets[0].turned = false;
  CHECK(watch(chipped, false) == "chip at the lower right");
}

TEST_CASE("what the design keeps clear is told once, of the bed") {
  Sheet sheet = small_sheet();
  for (SheetItem& item : sheet.items) item.artwork.kept_clear = {{"nail", {{5, 5}}, 1, 2}, {"nail", {{55, 5}}, 1, 2}};
  CHECK(kept_on_all(sheet) == "Kept clear, as the design says: 2 × nail.");
  CHECK(loading_lines(sheet).front().watch.empty());
}

TEST_CASE("how all pieces lie is told once") {
  std::vector<LoadingLine> lines{{1, "1-1", "", "face down", "", false}, {2, "2-1", "", "face down", "", false}};
  std::vector<LoadingLine> differ = lines, alone{lines.front()};
  differ[1].lie = "piece S-2";
  CHECK(lie_of_all(lines) == "face down");
  CHECK(lines[1].lie.empty());
  CHECK(lie_of_all(differ).empty());
  CHECK(differ[0].lie == "face down");
  CHECK(lie_of_all(alone).empty());
}

TEST_CASE("marks, empty pockets and the corner are told of every kind of sheet") {
  Sheet sheet = small_sheet();
  CHECK_THAT(mark_places_text(sheet), Contains("1 at ") && Contains(" · 3 at "));
  CHECK(empty_pockets(sheet).empty());
  sheet.items.erase(sheet.items.begin());
  CHECK(empty_pockets(sheet) == "Nothing goes into pocket 1.");
  CHECK(datum_words(sheet) == "Push each piece into the lower left corner of its pocket.");
  Sheet by_hand = *lay_by_hand(sheet.frame.plan, sheet.items.front(), {{100, 40}, {160, 40}}, "remake-1");
  CHECK(datum_words(by_hand).empty());
  CHECK(mark_places_text(by_hand).empty());
  CHECK_THAT(loading_lines(by_hand).front().lie, Contains("laid by hand where its corners were measured"));
  CHECK(write_loading_pdf({by_hand, "The Mill", {}, {}}, fonts()).ok());
}

TEST_CASE("a loading sheet is the same bytes each time, and is read back piece by piece") {
  const Sheet sheet = small_sheet();
  const auto pdf = write_loading_pdf({sheet, "The Mill", {"as for slate"}, {}}, fonts());
  REQUIRE(pdf.ok());
  CHECK(*pdf == *write_loading_pdf({sheet, "The Mill", {"as for slate"}, {}}, fonts()));
  CHECK_FALSE(check_loading(*pdf, sheet, 210, 297));
  CHECK_THAT(check_loading(*pdf, sheet, 297, 420)->what, Contains("has not its size"));
  CHECK_THAT(check_loading(pdf->substr(0, pdf->size() / 2), sheet, 210, 297)->what, Contains("not whole"));
  Sheet moved = sheet;
  moved.items[1].to_bed = then(moved.items[1].to_bed, shift_by({1, 0}));
  CHECK_THAT(check_loading(*pdf, moved, 210, 297)->what, Contains("is not in its place"));
  moved.frame.plan.machine.width = 500;
  CHECK_THAT(check_loading(*pdf, moved, 210, 297)->what, Contains("the bed is not on it"));
  moved.frame.plan.machine.width = 0;
  CHECK_THAT(write_loading_pdf({moved, "The Mill", {}, {}}, fonts()).fault().why, Contains("no measures"));
}

TEST_CASE("what people wrote is no markup on a run sheet") {
  const std::string hostile = "</svg><script>\"&'\x01\x80";
  Sheet sheet = small_sheet();
  sheet.name = hostile;
  for (SheetItem& item : sheet.items) item.artwork.lines = {hostile}, item.artwork.blank.id = hostile;
  RunSheet run{hostile, "2026-11-25", "Wednesday, 25 November 2026", {{hostile, hostile}},
               {},      {},           {{hostile, hostile}}};
  run.beds.push_back({hostile, hostile, sheet, hostile, hostile, {{hostile, "javascript:" + hostile}}});
  run.beds.push_back(run.beds.front());
  run.parts.push_back({hostile, hostile, {{hostile, hostile + "\n" + hostile, hostile, hostile}}, true});
  const std::string html = write_run_sheet(run);
  CHECK(html.find("<script") == std::string::npos);
  CHECK(html.find("script:") == std::string::npos);
  CHECK(html.find('\x01') == std::string::npos);
  CHECK(html.find('\x80') == std::string::npos);
  CHECK(html.find(" id=") == std::string::npos);  // beds on one page have no name in common
  CHECK(html.find("src=") == std::string::npos);
  CHECK_THAT(html, Contains("default-src 'none'") && Contains("&lt;/svg&gt;&lt;script&gt;&quot;&amp;"));
  CHECK(html == write_run_sheet(run));
}

TEST_CASE("addresses on a run sheet are relative ones, whatever files are called") {
  CHECK(html_address("sheets/sheet-001.svg") == "sheets/sheet-001.svg");
  CHECK(html_address("javascript:x \"ä?#%") == "javascript%3Ax%20%22%C3%A4%3F%23%25");
}

}  // namespace ordinatio::loading_test
