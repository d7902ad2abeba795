#include <catch2/catch.hpp>

#include <functional>

#include "check/check.h"
#include "one_file.h"
#include "sheet_by_hand.h"

namespace ordinatio::dxf_test {

TEST_CASE("a DXF file that is the sheet passes, R12 and R2000") {
  const Sheet sheet = sheet_by_hand();
  for (const std::string& text : {dxf_r12_of(polylines_by_hand()), dxf_r2000_of(polylines_by_hand())}) {
    const MaybeFault fault = check_dxf(text, sheet);
    INFO((fault ? describe(*fault) : ""));
    CHECK_FALSE(fault);
  }
}

TEST_CASE("chords may be finer than they need be, but no coarser than the tolerance") {
  const Sheet sheet = sheet_by_hand();
  const std::string text = dxf_r12_of(polylines_by_hand());  // within 0.01 mm
  CHECK_FALSE(check_dxf(text, sheet, 0.05));
  std::vector<HandPolyline> coarse = polylines_by_hand();
  auto& sail = coarse[2].points;  // every fourth point of the curve: 0.16 mm
  for (std::size_t i = sail.size() - 2; i > 2; --i) {
    if (i % 4 != 1) sail.erase(sail.begin() + static_cast<std::ptrdiff_t>(i));
  }
  CHECK(check_dxf(dxf_r12_of(coarse), sheet, 0.01));
  CHECK_FALSE(check_dxf(dxf_r12_of(coarse), sheet, 0.2));
}

namespace {

using Drawing = std::vector<HandPolyline>;

void move_all(Drawing& drawing, const std::function<Point(Point)>& to) {
  for (HandPolyline& polyline : drawing) {
    for (Point& p : polyline.points) p = to(p);
  }
}

}  // namespace

TEST_CASE("each kind of damage to a DXF drawing is told, R12 and R2000") {
  struct Damage {
    const char* name;
    std::function<void(Drawing&)> damage;
    const char* told;
  };
  const Damage table[] = {
      {"25.4 times too large", [](Drawing& d) { move_all(d, [](Point p) { return 25.4 * p; }); }, "contour 1"},
      {"25.4 times too small", [](Drawing& d) { move_all(d, [](Point p) { return (1 / 25.4) * p; }); }, "contour 1"},
      {"mirrored left to right", [](Drawing& d) { move_all(d, [](Point p) {
                                                    return Point{200 - p.x, p.y};
                                                  }); },
       "contour 1"},
      {"upside down", [](Drawing& d) { move_all(d, [](Point p) {
                                         return Point{p.x, 120 - p.y};
                                       }); }, "contour 1"},
      {"a quarter turn", [](Drawing& d) { move_all(d, [](Point p) {
                                            return Point{-p.y, p.x};
                                          }); }, "contour 1"},
      {"one item mirrored about its start",
       [](Drawing& d) {
         for (Point& p : d[2].points) p.x = 260 - p.x;
       },
       "1042-2, engrave"},
      {"one item moved by 0.05 mm",
       [](Drawing& d) {
         for (Point& p : d[2].points) p.x += 0.05;
       },
       "1042-2, engrave"},
      {"a missing item", [](Drawing& d) { d.erase(d.begin() + 2); }, "1042-2, engrave"},
      {"an item twice", [](Drawing& d) { d.insert(d.begin() + 2, d[2]); }, "1042-2, score"},
      {"a hole left out", [](Drawing& d) { d.erase(d.begin() + 1); }, "1042-1, engrave"},
      {"a hole filled, turned the other way round", [](Drawing& d) { std::swap(d[1].points[1], d[1].points[3]); },
       "ink area"},
      {"an area 0.2 % too large",
       [](Drawing& d) {
         for (Point& p : d[0].points) p.y = p.y == 44 ? 44.055 : p.y;
       },
       "ink area"},
      {"a scored line 0.2 % too long",
       [](Drawing& d) {
         for (Point& p : d[3].points) p.y = p.y == 64 ? 64.152 : p.y;
       },
       "runs"},
      {"a contour left open", [](Drawing& d) { d[1].closed = false; }, "open"},
      {"a mark closed", [](Drawing& d) { d[4].closed = true; }, "closed"},
      {"a closing vertex said twice", [](Drawing& d) { d[1].points.push_back(d[1].points[0]); }, "twice"},
      {"a layer that is not declared", [](Drawing& d) { d[2].layer = "Slate"; }, "not declared"},
      {"a layer that is another's", [](Drawing& d) { d[3].layer = "CUT"; }, "1042-2, score"},
      {"the last part left out", [](Drawing& d) { d.pop_back(); }, "blank-1, guide: missing"},
      {"more than the sheet has", [](Drawing& d) { d.push_back(d[1]); }, "not on the sheet"},
  };
  const Sheet sheet = sheet_by_hand();
  for (const Damage& damage : table) {
    Drawing drawing = polylines_by_hand();
    damage.damage(drawing);
    for (const std::string& text : {dxf_r12_of(drawing), dxf_r2000_of(drawing)}) {
      const MaybeFault fault = check_dxf(text, sheet);
      INFO(damage.name << ": " << (fault ? describe(*fault) : "passed"));
      REQUIRE(fault);
      CHECK(describe(*fault).find(damage.told) != std::string::npos);
      CHECK(fault->where.starts_with("sheet-001.dxf:"));
    }
  }
}

TEST_CASE("each kind of damage to a DXF text is told") {
  struct Damage {
    const char *name, *from, *to, *told;
  };
  const Damage table[] = {
      {"inches", "$INSUNITS\r\n70\r\n4", "$INSUNITS\r\n70\r\n1", "$INSUNITS"},
      {"imperial", "$MEASUREMENT\r\n70\r\n1", "$MEASUREMENT\r\n70\r\n0", "$MEASUREMENT"},
      {"fractions", "$LUNITS\r\n70\r\n2", "$LUNITS\r\n70\r\n5", "$LUNITS"},
      {"no units at all", "9\r\n$INSUNITS\r\n70\r\n4\r\n", "", "$INSUNITS"},
      {"another version", "AC1009", "AC1015", "$ACADVER"},
      {"wrong extents", "$EXTMAX\r\n10\r\n154.0000", "$EXTMAX\r\n10\r\n155.0000", "$EXTMAX"},
      {"an exponent", "10\r\n22.0000\r\n20\r\n22.0000", "10\r\n2.2e1\r\n20\r\n22.0000", "plain decimal"},
      {"a decimal comma", "10\r\n22.0000\r\n20\r\n22.0000", "10\r\n22,0000\r\n20\r\n22.0000", "plain decimal"},
      {"no number", "10\r\n22.0000\r\n20\r\n22.0000", "10\r\nnan\r\n20\r\n22.0000", "plain decimal"},
      {"a bulge", "10\r\n22.0000\r\n20\r\n22.0000", "10\r\n22.0000\r\n20\r\n22.0000\r\n42\r\n1.0000", "group 42"},
      {"a vertex lifted", "10\r\n22.0000\r\n20\r\n22.0000", "10\r\n22.0000\r\n20\r\n22.0000\r\n30\r\n1.0000", "lifted"},
      {"a vertex without y", "10\r\n22.0000\r\n20\r\n22.0000", "10\r\n22.0000", "both coordinates"},
      {"another entity", "ENTITIES\r\n0\r\n", "ENTITIES\r\n0\r\nLINE\r\n8\r\nENGRAVE\r\n0\r\n", "no entity"},
      {"a flag that smooths", "66\r\n1\r\n70\r\n1\r\n0\r\nVERTEX\r\n8\r\nSCORE",
       "66\r\n1\r\n70\r\n5\r\n0\r\nVERTEX\r\n8\r\nSCORE", "neither open nor closed"},
      {"cut in the colour of the guide", "CUT\r\n70\r\n0\r\n62\r\n6", "CUT\r\n70\r\n0\r\n62\r\n8",
       "layer CUT has colour 8, not 6"},
      {"a layer without a colour", "MARK\r\n70\r\n0\r\n62\r\n4\r\n", "MARK\r\n70\r\n0\r\n", "layer MARK has colour"},
      {"a layer that is missing", "0\r\nLAYER\r\n2\r\nCUT\r\n70\r\n0\r\n62\r\n6\r\n", "", "layer CUT is missing"},
      {"a layer twice", "LAYER\r\n2\r\nCUT\r\n", "LAYER\r\n2\r\nSCORE\r\n", "declared twice"},
      {"a section twice", "0\r\nEOF\r\n", "0\r\nSECTION\r\n2\r\nTABLES\r\n0\r\nENDSEC\r\n0\r\nEOF\r\n", "twice"},
      {"no EOF", "0\r\nEOF\r\n", "", "too early"},
      {"more after EOF", "EOF\r\n", "EOF\r\n0\r\nEOF\r\n", "after EOF"},
      {"no entities", "2\r\nENTITIES", "2\r\nTHINGS", "ENTITIES"},
      {"a SEQEND left out", "SEQEND\r\n8\r\nSCORE\r\n0\r\n", "", "SEQEND"},
  };
  const Sheet sheet = sheet_by_hand();
  for (const Damage& damage : table) {
    const MaybeFault fault = check_dxf(damaged(dxf_r12_of(polylines_by_hand()), damage.from, damage.to), sheet);
    INFO(damage.name << ": " << (fault ? describe(*fault) : "passed"));
    REQUIRE(fault);
    CHECK(describe(*fault).find(damage.told) != std::string::npos);
  }
}

TEST_CASE("a DXF file cut off anywhere is refused") {
  const Sheet sheet = sheet_by_hand();
  const std::string whole = dxf_r12_of(polylines_by_hand());
  for (std::size_t length = 0; length < whole.size(); length += length < 300 ? 1 : 7) {
    INFO("after " << length << " bytes");
    REQUIRE(check_dxf(std::string_view(whole).substr(0, length), sheet));
  }
}

}  // namespace ordinatio::dxf_test
