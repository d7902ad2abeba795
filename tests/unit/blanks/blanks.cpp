#include "blanks/blanks.h"
#include "base/account.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

namespace ordinatio::blanks_test {
namespace fs = std::filesystem;
using Catch::Contains;
using Lines = std::vector<std::string>;

namespace {

const Outline nominal = rectangle_outline(150, 100, Corner::cut, 8);

Result<Logo> no_drawing(const std::string& name) { return Fault{"the drawing is missing", name, "", "Put it there"}; }

Blanks taken(std::string_view text, const ReadDrawing& read_drawing = no_drawing) {
  auto blanks = parse_blanks(text, "blanks.csv", 150, 100, nominal, read_drawing);
  if (!blanks.ok()) FAIL(describe(blanks.fault()));
  return *blanks;
}
std::string refused(std::string_view text) {
  const auto blanks = parse_blanks(text, "blanks.csv", 150, 100, nominal, no_drawing);
  REQUIRE_FALSE(blanks.ok());
  return describe(blanks.fault());
}
/// The one piece of a row in which only one cell is filled besides its id.
BlankRow piece(const std::string& column, const std::string& cell, const ReadDrawing& read_drawing = no_drawing) {
  const Blanks blanks = taken("id," + column + "\nS-1,\"" + cell + "\"\n", read_drawing);
  for (const HeldItem& item : blanks.held) FAIL(describe(item.fault));
  return blanks.rows.at(0);
}
/// Why the row is held; the row behind it, S-9, must have gone on.
std::string held(const std::string& columns, const std::string& cells, const ReadDrawing& read_drawing = no_drawing) {
  std::string last = "S-9";
  last.append(static_cast<std::size_t>(std::count(columns.begin(), columns.end(), ',')) + 1, ',');
  const Blanks blanks = taken("id," + columns + "\nS-1," + cells + "\n" + last + "\n", read_drawing);
  REQUIRE(blanks.held.size() == 1);
  REQUIRE(blanks.rows.size() == 1);
  CHECK(blanks.rows[0].blank.id == "S-9");
  CHECK(blanks.held[0].id == "S-1");
  return describe(blanks.held[0].fault);
}
std::string held_cell(const std::string& column, const std::string& cell,
                      const ReadDrawing& read_drawing = no_drawing) {
  return held(column, "\"" + cell + "\"", read_drawing);
}
std::string place_in(const std::string& column) { return "blanks.csv:2:5, column \"" + column + "\": "; }

bool same(const Outline& a, const Outline& b) {
  const auto radii = [](const Outline& of) {
    return of.radii.empty() ? std::vector<double>(of.vertices.size()) : of.radii;
  };
  return a.vertices == b.vertices && radii(a) == radii(b);
}
Outline corners(const std::array<CornerShape, 4>& shapes) { return rectangle_outline(150, 100, shapes); }
CornerShape rounded(double radius) { return {Corner::rounded, radius, radius}; }
CornerShape cut(double across, double up) { return {Corner::cut, across, up}; }

/// A drawing of filled polygons, as read_logo gives it.
ReadDrawing drawing(const Polygons& shapes) {
  return [shapes](const std::string&) -> Result<Logo> { return Logo{path_of(shapes), {0, 0, 500, 500}}; };
}
Polygon box(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

}  // namespace

// ---- what may be left out ----

TEST_CASE("a piece of which nothing but its id is written is the nominal piece") {
  for (const char* text : {"id\nS-1\n", "id,width,height,corners,chips,keep_clear,outline\nS-1,,, ,,,\n",
                           "ID,Material\nS-1\n", "note;Id\n;S-1\n"}) {
    INFO(text);
    const Blanks blanks = taken(text);
    REQUIRE(blanks.rows.size() == 1);
    const BlankRow& row = blanks.rows[0];
    CHECK(row.blank.id == "S-1");
    CHECK(same(row.blank.outline, nominal));
    CHECK_FALSE(differs(row, nominal));
    CHECK((row.width == 150 && row.height == 100));
    CHECK((row.blank.chips.empty() && row.blank.kept_clear.empty()));
    CHECK_FALSE(row.blank.thickness);
    CHECK((row.used.empty() && row.note.empty() && row.blank.material.empty()));
    CHECK(row.source == "blanks.csv:2");
    CHECK(blanks.held.empty());
  }
}

TEST_CASE("width or height alone leaves the other nominal, and the corners what they are") {
  const BlankRow shorter = piece("width", "138");
  CHECK(same(shorter.blank.outline, rectangle_outline(138, 100, Corner::cut, 8)));
  CHECK((shorter.width == 138 && shorter.height == 100));
  CHECK(differs(shorter, nominal));
  CHECK(same(piece("height", " 98,5 mm").blank.outline, rectangle_outline(150, 98.5, Corner::cut, 8)));
}

TEST_CASE("width alone does not tell the shape of a piece whose nominal is no rectangle") {
  const Outline slanted{{{0, 0}, {150, 0}, {140, 100}, {5, 100}}, {}};
  const auto blanks =
      parse_blanks("id,width,corners\nS-1,140,\nS-2,140,square\nS-3,,\n", "b.csv", 150, 100, slanted, no_drawing);
  REQUIRE(blanks.ok());
  REQUIRE(blanks->held.size() == 1);
  CHECK_THAT(describe(blanks->held[0].fault), Contains("b.csv:2:5, column \"width\"") && Contains("no rectangle"));
  REQUIRE(blanks->rows.size() == 2);
  CHECK(same(blanks->rows[0].blank.outline, rectangle_outline(140, 100, Corner::square, 0)));
  CHECK(same(blanks->rows[1].blank.outline, slanted));
}

TEST_CASE("words of a row are kept as they came") {
  const Blanks blanks = taken(
      "id,material,thickness,factory_edges,used,note\n"
      "=S-1,\"slate, blue\",\"6,5\",left bottom,2041-1,\" +found @home \"\n");
  REQUIRE(blanks.rows.size() == 1);
  const BlankRow& row = blanks.rows[0];
  CHECK(row.blank.id == "=S-1");
  CHECK(row.blank.material == "slate, blue");
  CHECK(row.blank.thickness == 6.5);
  CHECK((row.factory_edges.left && row.factory_edges.bottom && !row.factory_edges.right && !row.factory_edges.top));
  CHECK(row.used == "2041-1");
  CHECK(row.note == "+found @home");
}

// ---- corners ----

TEST_CASE("corners are written once for all, or by name") {
  const CornerShape square{}, as_nominal = cut(8, 8);
  struct Case {
    const char* cell;
    std::array<CornerShape, 4> shapes;
  };
  const Case cases[] = {
      {"square", {square, square, square, square}},
      {"r18", {rounded(18), rounded(18), rounded(18), rounded(18)}},
      {"Rounded 18 mm", {rounded(18), rounded(18), rounded(18), rounded(18)}},
      {"radius 7,5", {rounded(7.5), rounded(7.5), rounded(7.5), rounded(7.5)}},
      {"cut 10", {cut(10, 10), cut(10, 10), cut(10, 10), cut(10, 10)}},
      {"cut 12x8", {cut(12, 8), cut(12, 8), cut(12, 8), cut(12, 8)}},
      {"cut 12 × 8", {cut(12, 8), cut(12, 8), cut(12, 8), cut(12, 8)}},
      {"lower-left r18; upper-right cut 10", {rounded(18), as_nominal, cut(10, 10), as_nominal}},
      {"ul cut 12x8; LR r 4;", {as_nominal, rounded(4), as_nominal, cut(12, 8)}},
      {"upper left r3; ur square", {as_nominal, as_nominal, square, rounded(3)}},
  };
  for (const Case& c : cases) {
    INFO(c.cell);
    CHECK(same(piece("corners", c.cell).blank.outline, corners(c.shapes)));
  }
}

TEST_CASE("corners that cannot be told, or do not fit, hold their row") {
  CHECK_THAT(held_cell("corners", "top-left r18"), Contains("the nearest is upper-left"));
  CHECK_THAT(held_cell("corners", "Bottom right cut 10; ul r3"), Contains("the nearest is lower-right"));
  CHECK_THAT(held_cell("corners", "round"), Contains(place_in("corners") + "\"round\" is no shape of a corner"));
  CHECK_THAT(held_cell("corners", "r18; ur cut 3"), Contains("\"r18\" does not say which corner"));
  CHECK_THAT(held_cell("corners", "ur r3; upper-right cut 3"), Contains("a second time"));
  CHECK_THAT(held_cell("corners", "r-2"), Contains("\"-2\" is no radius of a corner: it must be at least 0.1 mm"));
  CHECK_THAT(held_cell("corners", "cut 3x"), Contains("\"\" is no size of a cut"));
  CHECK_THAT(held_cell("corners", "r60"), Contains(place_in("corners") + "the corners do not fit") &&
                                              Contains("right edge") && Contains("60 mm and 60 mm of 100 mm"));
  CHECK(same(piece("corners", "r50").blank.outline, rectangle_outline(150, 100, Corner::rounded, 50)));
  CHECK_THAT(held_cell("corners", "cut 75x10"), Contains("75 mm and 75 mm of 150 mm"));  // no edge would be left
  CHECK_THAT(held_cell("corners", "ur cut 10x100"), Contains("8 mm and 100 mm of 100 mm"));
  CHECK_THAT(held_cell("height", "12"), Contains(place_in("height") + "the corners do not fit"));  // the nominal ones
}

// ---- chips ----

TEST_CASE("a chip is a notch in its edge, measured from the left or from the bottom") {
  CHECK(piece("chips", "top 40-62 7").blank.chips == Polygons{box(40, 93, 62, 100)});
  CHECK(piece("chips", "bottom 40-62 7").blank.chips == Polygons{box(40, 0, 62, 7)});
  CHECK(piece("chips", "Left 40 – 62,5 7 mm").blank.chips == Polygons{box(0, 40, 7, 62.5)});
  CHECK(piece("chips", "right 0-62 9").blank.chips == Polygons{box(141, 0, 150, 62)});
  CHECK(piece("chips", "top 40-62 7; left 0-9 4").blank.chips == Polygons{box(40, 93, 62, 100), box(0, 0, 4, 9)});
  CHECK(area_of(piece("chips", "top 40-62 7").blank) == Approx(150 * 100 - 4 * 32 - 22 * 7));
}

TEST_CASE("chips that contradict the piece hold their row") {
  CHECK_THAT(held_cell("chips", "top 140-162 7"),
             Contains(place_in("chips") + "the chip \"top 140-162 7\" is outside") &&
                 Contains("its top edge is 150 mm long") && Contains("from the left"));
  CHECK_THAT(held("width,chips", "138,top 130-145 7"), Contains("its top edge is 138 mm long"));
  CHECK_THAT(held_cell("chips", "left 90-101 7"), Contains("is outside") && Contains("from the bottom"));
  CHECK_THAT(held_cell("chips", "top 40-62 100"), Contains("as deep as the piece") && Contains("100 mm high"));
  CHECK_THAT(held_cell("chips", "left 40-62 150"), Contains("150 mm wide"));
  CHECK_THAT(held_cell("chips", "top 62-40 7"), Contains("has no length"));
  CHECK_THAT(held_cell("chips", "topp 40-62 7"), Contains("\"topp\" is no edge: the nearest is top"));
  CHECK_THAT(held_cell("chips", "top 40 62 7"), Contains("cannot be told") && Contains("top 40-62 7"));
  CHECK_THAT(held_cell("chips", "top 40-62"), Contains("cannot be told"));
  CHECK_THAT(held_cell("chips", "top 40-62 -7"), Contains("cannot be told"));
  CHECK_THAT(held_cell("chips", "top 0-3 3"), Contains("takes nothing from the piece"));  // the corner is cut by 8
  CHECK_THAT(held_cell("chips", "top 40-62 60; bottom 40-62 60"), Contains("part the piece in 2"));
  CHECK_THAT(held_cell("chips", "top 40-62 50; bottom 62-80 50"), Contains("part the piece in 2"));  // but for a point
  CHECK_THAT(held_cell("chips", "top 0-150 60; bottom 0-150 60"), Contains("leave nothing of the piece"));
}

// ---- things kept clear ----

TEST_CASE("things to keep clear have a name, a place, a size, and perhaps a margin") {
  const auto things =
      piece("keep_clear",
            "old stamp 20 30,5 25 12; hole round 15 15 3 margin 4; 60 60 5 5 mm; Mill 's mark ROUND 90 50 2")
          .blank.kept_clear;
  REQUIRE(things.size() == 4);
  CHECK(things[0].name == "old stamp");
  CHECK(things[0].corners == box(20, 30.5, 45, 42.5));
  CHECK((things[0].radius == 0 && things[0].margin == 2));
  CHECK(things[1].name == "hole");
  CHECK(things[1].corners == Polygon{{15, 15}});
  CHECK((things[1].radius == 3 && things[1].margin == 4));
  CHECK(things[2].name.empty());
  CHECK(things[3].name == "Mill 's mark");
  CHECK(things[3].radius == 2);
}

TEST_CASE("things that cannot be told, or lie off the piece, hold their row") {
  CHECK_THAT(held_cell("keep_clear", "stamp 20 30 25"),
             Contains(place_in("keep_clear") + "the place of \"stamp 20 30 25\" cannot be told"));
  CHECK_THAT(held_cell("keep_clear", "stamp"), Contains("left, bottom, width and height"));
  CHECK_THAT(held_cell("keep_clear", "hole round 15 15"), Contains("its centre's x, its y, and its radius"));
  CHECK_THAT(held_cell("keep_clear", "stamp 20,30,25,12"), Contains("cannot be told"));
  CHECK_THAT(held_cell("keep_clear", "stamp 20 30 0 12"), Contains("\"0\" is no size"));
  CHECK_THAT(held_cell("keep_clear", "hole round 15 15 -3"), Contains("\"-3\" is no size"));
  CHECK_THAT(held_cell("keep_clear", "hole round 15 15 3 margin x"), Contains("\"x\" is no margin"));
  CHECK_THAT(
      held_cell("keep_clear", "stamp 20 120 25 12"),
      Contains("\"stamp\" is beside the piece: the piece reaches from 0 to 150 mm across and from 0 to 100 mm up"));
  CHECK_THAT(held_cell("keep_clear", "stamp 140 30 25 12"), Contains("\"stamp\" reaches beyond the piece"));
  CHECK_THAT(held("chips,keep_clear", "top 40-62 9,hole round 50 96 2"), Contains("\"hole\" is beside the piece"));
  CHECK(piece("keep_clear", "stamp 125.5 30 25 12").blank.kept_clear.size() ==
        1);  // a rule shows no less than half a mm
}

// ---- outlines ----

TEST_CASE("an outline turns either way, and what it has not of its hull are chips") {
  for (const char* cell : {"0,0 150,0 148,99 3,101", "3,101 148,99; 150,0  0,0 3,101"}) {
    const BlankRow row = piece("outline", cell);
    CHECK((row.width == 150 && row.height == 101));
    CHECK(row.blank.chips.empty());
    CHECK(area_of(row.blank.outline.vertices) == Approx(area_of(Polygon{{0, 0}, {150, 0}, {148, 99}, {3, 101}})));
    CHECK(is_convex(row.blank.outline.vertices));
  }
  const BlankRow pocketed = piece("outline", "0,0 60,0 75,20 90,0 150,0 150,100 100,100 80,90 50,100 0,100");
  CHECK(pocketed.blank.outline.vertices.size() == 4);
  REQUIRE(pocketed.blank.chips.size() == 2);
  double missing = 0;
  for (const Polygon& chip : pocketed.blank.chips) {
    CHECK(area_of(chip) > 0);
    missing += area_of(chip);
  }
  CHECK(missing == Approx(30 * 20 / 2 + 50 * 10 / 2));
  CHECK(area_of(pocketed.blank) == Approx(150 * 100 - missing));
}

TEST_CASE("an outline is moved to start at 0,0, and that is noted") {
  const Blanks blanks =
      taken("id,outline,keep_clear\nS-1,\"10,-5 160,-5 160,95 10,95\",stamp 1 1 9 9\nS-2,\"0,0 9,0 9,9\",\n");
  CHECK(blanks.held.empty());
  CHECK(hull_of(blanks.rows[0].blank.outline.vertices).vertices == hull_of(box(0, 0, 150, 100)).vertices);
  REQUIRE(blanks.notes.size() == 1);
  CHECK_THAT(blanks.notes[0], Contains("outlines on line 2 did not start at 0,0"));
}

TEST_CASE("outlines that are none hold their row") {
  const auto outline = [](const std::string& cell) { return held_cell("outline", cell); };
  CHECK_THAT(outline("0,0 150,100 150,0 0,100"),
             Contains(place_in("outline") + "the outline crosses itself: the edge 0,0 to "
                                            "150,100 meets the edge 150,0 to 0,100"));
  CHECK_THAT(outline("0,0 50,50 100,100 100,0 50,50 0,90"), Contains("crosses itself"));  // through a corner
  CHECK_THAT(outline("0,0 150,0 150,100 0,100 0,0 150,0 150,100 0,100"), Contains("crosses itself"));  // twice about
  CHECK_THAT(outline("0,0 50,50 100,0 100,100 50,50 0,100"),
             Contains("hangs together by less than 0.1 mm"));  // a waist of nothing
  CHECK_THAT(outline("0,0 150,0 75,0"), Contains("has no area"));
  CHECK_THAT(outline("0,0 150,0"), Contains("fewer than three corners"));
  CHECK_THAT(outline("0,0 150,0 0,0"), Contains("fewer than three corners"));
  CHECK_THAT(outline("0,0 150;0 3,4"), Contains("\"150\" is no point"));
  CHECK_THAT(outline("0,0 nan,0 3,4"), Contains("\"nan,0\" is no point"));
  CHECK_THAT(outline("0,0 1e999,0 3,4"), Contains("is no point"));
  CHECK_THAT(outline("0,0 20000,0 3,4"), Contains("slip of the pen"));
  CHECK_THAT(outline("0,0 1,0 1,0.5 0,0.5"), Contains("too small"));
  std::string many;
  for (int i = 0; i <= 2000; ++i) many += std::to_string(i) + "," + std::to_string(i * i % 97) + " ";
  CHECK_THAT(outline(many), Contains("more than 2000 corners"));
}

TEST_CASE("what stands beside an outline must agree with it") {
  const std::string outline = "\"0,0 150,0 148,99 3,101\"";
  CHECK_THAT(held("outline,width", outline + ",140"),
             Contains("column \"width\": 140 mm contradicts the outline: its box measures 150 mm there"));
  CHECK_THAT(held("outline,height", outline + ",100"), Contains("column \"height\": 100 mm contradicts the outline"));
  CHECK_THAT(held("outline,corners", outline + ",r3"), Contains("column \"corners\": corners beside an outline"));
  const Blanks blanks = taken("id,outline,width,height,chips\nS-1," + outline + ",150,101.3,bottom 10-20 5\n");
  CHECK(blanks.held.empty());
  CHECK(blanks.rows.at(0).blank.chips == Polygons{box(10, 0, 20, 5)});
}

TEST_CASE("an outline may be the largest filled shape of a drawing") {
  const Polygon piece_shape{{30, 40}, {180, 40}, {180, 90}, {170, 139}, {30, 139}};
  const Blanks blanks = taken("id,outline\nS-1,S-1.SVG\n", drawing({box(0, 0, 4, 4), piece_shape}));
  REQUIRE(blanks.rows.size() == 1);
  CHECK((blanks.rows[0].width == Approx(150) && blanks.rows[0].height == Approx(99)));
  CHECK(area_of(blanks.rows[0].blank) == Approx(area_of(piece_shape)));
  REQUIRE(blanks.notes.size() == 1);  // that it was moved is nothing to note: a photograph has a margin
  CHECK_THAT(blanks.notes[0], Contains("blanks.csv:2: smaller shapes and holes in S-1.SVG passed over: 1"));

  Polygon inside = box(31, 41, 179, 138);
  std::reverse(inside.begin(), inside.end());
  CHECK_THAT(held_cell("outline", "S-1.svg", drawing({box(30, 40, 180, 139), inside})),
             Contains(place_in("outline") + "the drawing shows the piece as a line"));
  CHECK_THAT(held_cell("outline", "S-1.svg", drawing({})), Contains("no filled shape"));
  CHECK_THAT(held_cell("outline", "gone.svg"), Contains(place_in("outline") + "the drawing is missing: gone.svg"));
  CHECK_THAT(held_cell("outline", "../S-1.svg", drawing({piece_shape})), Contains("not beside this file"));
  CHECK_THAT(held_cell("outline", "/S-1.svg", drawing({piece_shape})), Contains("not beside this file"));
}

TEST_CASE("a drawn outline that crosses itself holds its row, as a written one does") {
  const Polygon crossing{{0, 45}, {33, 108}, {33, 72}, {22, 126}, {0, 72}, {154, 81}, {11, 27}};
  CHECK_THAT(held_cell("outline", "S-1.svg", drawing({crossing})),
             Contains(place_in("outline") + "the outline crosses itself: the edge 0,45 to 33,108"));
}

// ---- numbers, ids, columns ----

TEST_CASE("what is no length holds its row") {
  CHECK(held_cell("width", "wide") ==
        place_in("width") + "\"wide\" is no width: it is no number in mm. Write millimetres, such as 198 or 198.5.");
  CHECK_THAT(held_cell("width", "-5"), Contains("it must be at least 1 mm"));
  CHECK_THAT(held_cell("height", "inf"), Contains(place_in("height") + "\"inf\" is no height"));
  CHECK_THAT(held_cell("height", "10001"), Contains("slip of the pen"));
  CHECK_THAT(held_cell("width", "1,200"), Contains("its comma may part thousands or decimals"));
  CHECK_THAT(held_cell("thickness", "0"), Contains(place_in("thickness")) && Contains("more than 0 mm"));
  CHECK_THAT(held_cell("factory_edges", "left botom"), Contains(place_in("factory_edges")) && Contains("bottom"));
}

TEST_CASE("an id is there, once, in one line") {
  const Blanks blanks = taken("id,width\nS-1,\nS-2,\n,140\nS-1,140\n\"S\n3\",\nS-2,wide\nS-4,\n");
  REQUIRE(blanks.rows.size() == 1);
  CHECK(blanks.rows[0].blank.id == "S-4");
  Lines lines;
  for (const HeldItem& item : blanks.held) lines.push_back(item.id + " | " + describe(item.fault));
  REQUIRE(lines.size() == 6);
  CHECK_THAT(lines[0],
             Contains("S-1 | blanks.csv:2:1, column \"id\": the id \"S-1\" is there more than once: on lines 2 and 5"));
  CHECK_THAT(lines[1], Contains("S-2 | blanks.csv:3:1") && Contains("on lines 3 and 8"));
  CHECK_THAT(lines[2], Contains("line 4 | blanks.csv:4:1, column \"id\": the piece has no id"));
  CHECK_THAT(lines[3], Contains("S-1 | blanks.csv:5:1"));
  CHECK_THAT(lines[4], Contains("line 6 | blanks.csv:6:1") && Contains("holds a line end or a control character"));
  CHECK_THAT(lines[5], Contains("\"wide\" is no width"));  // the first thing that is wrong with it
}

TEST_CASE("columns that are not known are noted with the nearest that is") {
  const Blanks blanks = taken("id,thicknes,shelf\nS-1,6,A3\n\n , ,\n");
  CHECK(blanks.rows.size() == 1);
  CHECK(blanks.notes ==
        Lines{"blanks.csv: column \"thicknes\" is not known and was passed over; the nearest is \"thickness\"",
              "blanks.csv: column \"shelf\" is not known and was passed over",
              "blanks.csv: nothing stands on line 4: passed over"});
}

TEST_CASE("a file that cannot be read at all is refused") {
  CHECK_THAT(refused(""),
             Contains("no blanks: the file is empty") || Contains("blanks.csv: no blanks: the file is empty"));
  CHECK_THAT(refused("id,width\n"), Contains("no row below the header"));
  CHECK_THAT(refused("width\n140\n"), Contains("blanks.csv:1: no column \"id\""));
  CHECK_THAT(refused("id,Width,width\nS-1,1,2\n"), Contains("the column \"width\" is there twice: as columns 2 and 3"));
}

TEST_CASE("a row that lost a field is held, and its neighbours are not") {
  CHECK_THAT(held("width,height", "140"), Contains("the row has 2 fields") && Contains("column \"height\""));
  CHECK_THAT(held("width", "140,7"), Contains("the row has 3 fields"));
}

TEST_CASE("a file is read from the disk, its drawings beside it") {
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-blanks-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  std::ofstream(folder / "stock.csv") << "\xEF\xBB\xBFid;outline;width\nS-1;S-1.svg;\nS-2;;148,5\n";
  std::ofstream(folder / "S-1.svg") << R"(<svg xmlns="http://www.w3.org/2000/svg" width="170mm" height="120mm" )"
                                    << R"(viewBox="0 0 170 120"><path d="M10 10H160V109L20 110L10 100Z"/></svg>)";
  const auto blanks = read_blanks(folder / "stock.csv", 150, 100, nominal);
  const auto missing = read_blanks(folder / "gone.csv", 150, 100, nominal);
  fs::remove_all(folder);
  CHECK_FALSE(missing.ok());
  REQUIRE(blanks.ok());
  for (const HeldItem& item : blanks->held) FAIL(describe(item.fault));
  REQUIRE(blanks->rows.size() == 2);
  CHECK(blanks->rows[0].width == Approx(150));
  CHECK(blanks->rows[0].height == Approx(100));
  CHECK(blanks->rows[1].width == 148.5);
  // y up: the corner that is missing at the drawing's foot is missing at the piece's.
  const Polygons drawn = polygons_of(path_of(blanks->rows[0].blank), 0.01);
  CHECK(area_of(intersection({box(0, 0, 10, 10)}, drawn, 1e-4)) == Approx(50).margin(0.5));
  CHECK(blanks->notes[0] == "stock.csv: read as UTF-8 with BOM, as its byte order mark says");
}

TEST_CASE("corners that are not named are as the nominal ones") {
  const Outline cut_round = rectangle_outline(200, 150, Corner::cut, 8);
  const auto blanks = parse_blanks("id,corners\nS-1,ur r18\nS-2,square\n", "b.csv", 200, 150, cut_round, no_drawing);
  REQUIRE(blanks.ok());
  REQUIRE(blanks->rows.size() == 2);
  const CornerShape cut{Corner::cut, 8, 8};
  CHECK(same(blanks->rows[0].blank.outline,
             rectangle_outline(200, 150, {cut, cut, CornerShape{Corner::rounded, 18}, cut})));
  CHECK(same(blanks->rows[1].blank.outline, rectangle_outline(200, 150, Corner::square, 0)));
}

TEST_CASE("an id as long as a file is none, and its row goes by its line") {
  const Blanks blanks = taken("id,width\n" + std::string(100'000, 'S') + ",140\nS-2,141\n");
  REQUIRE(blanks.held.size() == 1);
  CHECK(blanks.held[0].id == "line 2");
  CHECK_THAT(describe(blanks.held[0].fault), Contains("it has 100000 bytes, and the limit is 500"));
  CHECK(blanks.rows.size() == 1);
}

}  // namespace ordinatio::blanks_test
