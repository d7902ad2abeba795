#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <map>
#include <set>

#include "small_sheet.h"
#include "write/write.h"

namespace ordinatio::dxf_test {

namespace {

struct Tag {
  int code;
  std::string value;
  friend bool operator==(const Tag&, const Tag&) = default;
};

/// The file's tags; each line must end in CR LF.
std::vector<Tag> tags_of(const std::string& dxf) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < dxf.size();) {
    const std::size_t end = dxf.find("\r\n", at);
    REQUIRE(end != std::string::npos);
    lines.push_back(dxf.substr(at, end - at));
    REQUIRE(lines.back().find_first_of("\r\n") == std::string::npos);
    at = end + 2;
  }
  REQUIRE(lines.size() % 2 == 0);
  std::vector<Tag> tags;
  for (std::size_t i = 0; i < lines.size(); i += 2) tags.push_back({std::stoi(lines[i]), lines[i + 1]});
  return tags;
}

struct Record {
  std::string type;
  std::vector<Tag> tags;
  [[nodiscard]] std::vector<std::string> all(int code) const {
    std::vector<std::string> values;
    for (const Tag& tag : tags) {
      if (tag.code == code) values.push_back(tag.value);
    }
    return values;
  }
  [[nodiscard]] std::string first(int code) const {
    const auto values = all(code);
    return values.empty() ? "" : values.front();
  }
};

std::vector<Record> records_of(const std::string& dxf) {
  std::vector<Record> records;
  for (const Tag& tag : tags_of(dxf)) {
    if (tag.code == 0) {
      records.push_back({tag.value, {}});
    } else {
      records.back().tags.push_back(tag);
    }
  }
  return records;
}

/// What follows a header's variable, up to the next one.
std::vector<std::string> variable(const std::string& dxf, const std::string& name) {
  const std::vector<Tag> tags = tags_of(dxf);
  auto at = std::ranges::find(tags, Tag{9, name});
  std::vector<std::string> values;
  while (at != tags.end() && ++at != tags.end() && at->code != 9 && at->code != 0) values.push_back(at->value);
  return values;
}

struct Contour {
  std::string layer;
  bool closed = false;
  std::vector<Point> points;
};

std::vector<Point> points_of(const Record& record) {
  std::vector<Point> points;
  const auto x = record.all(10), y = record.all(20);
  for (std::size_t i = 0; i < x.size(); ++i) points.push_back({std::stod(x[i]), std::stod(y[i])});
  return points;
}

std::vector<Contour> contours_of(const std::string& dxf) {
  std::vector<Contour> contours;
  for (const Record& record : records_of(dxf)) {
    if (record.type == "POLYLINE") contours.push_back({record.first(8), record.first(70) == "1", {}});
    if (record.type == "VERTEX") contours.back().points.push_back(points_of(record)[0]);
    if (record.type == "LWPOLYLINE") {
      contours.push_back({record.first(8), record.first(70) == "1", points_of(record)});
      CHECK(record.first(90) == std::to_string(contours.back().points.size()));
    }
  }
  return contours;
}

std::map<std::string, std::string> layer_colours(const std::string& dxf) {
  std::map<std::string, std::string> colours;
  for (const Record& record : records_of(dxf)) {
    if (record.type == "LAYER") colours[record.first(2)] = record.first(62);
  }
  return colours;
}

std::string written(DxfVersion version, const Sheet& sheet = small_sheet(), double tolerance = curve_tolerance) {
  return write_dxf(sheet, {version, tolerance});
}

constexpr DxfVersion versions[] = {DxfVersion::r12, DxfVersion::r2000};

}  // namespace

TEST_CASE("the header tells the version, millimetres and the true extents") {
  for (const DxfVersion version : versions) {
    const std::string dxf = written(version);
    using Values = std::vector<std::string>;
    CHECK(variable(dxf, "$ACADVER") == Values{version == DxfVersion::r12 ? "AC1009" : "AC1015"});
    CHECK(variable(dxf, "$INSUNITS") == Values{"4"});
    CHECK(variable(dxf, "$MEASUREMENT") == Values{"1"});
    CHECK(variable(dxf, "$LUNITS") == Values{"2"});
    // From the first mark's arm, and the bar below it, to the third mark's.
    CHECK(variable(dxf, "$EXTMIN") == Values{"4.0000", "2.0000", "0.0000"});
    CHECK(variable(dxf, "$EXTMAX") == Values{"196.0000", "104.0000", "0.0000"});
  }
}

TEST_CASE("the extents are those of what is drawn, not of the bed") {
  Sheet sheet = small_sheet();
  sheet.parts.erase(sheet.parts.begin() + 1, sheet.parts.end());
  const std::string dxf = written(DxfVersion::r12, sheet);
  CHECK(variable(dxf, "$EXTMIN") == std::vector<std::string>{"26.0000", "36.0000", "0.0000"});
  CHECK(variable(dxf, "$EXTMAX") == std::vector<std::string>{"74.0000", "64.0000", "0.0000"});
}

TEST_CASE("the file is ASCII, numbers have four places, and no customer's words are in it") {
  for (const DxfVersion version : versions) {
    const std::string dxf = written(version, small_sheet("Zo\xC3\xAB-1", "J\xC3\xBCrgen-1"));
    CHECK(std::ranges::all_of(dxf, [](char c) { return c == '\r' || c == '\n' || (c >= ' ' && c <= '~'); }));
    CHECK(dxf.find("Mill") == std::string::npos);
    CHECK(dxf.find("rgen") == std::string::npos);
    for (const Tag& tag : tags_of(dxf)) {
      if (tag.code < 10 || tag.code > 59) continue;  // the codes that hold decimals
      CHECK(tag.value.size() - tag.value.find('.') == 5);
      CHECK(tag.value.find_first_not_of("-0123456789.") == std::string::npos);
      CHECK(tag.value != "-0.0000");
    }
  }
}

TEST_CASE("every operation is a layer, declared whether used or not, in the palette's index") {
  Sheet sheet = small_sheet();
  sheet.frame.plan.palette.indices = {1, 30, 5, 2, 9};
  for (const DxfVersion version : versions) {
    CHECK(layer_colours(written(version, sheet)) ==
          std::map<std::string, std::string>{
              {"0", "7"}, {"ENGRAVE", "1"}, {"SCORE", "30"}, {"CUT", "5"}, {"MARK", "2"}, {"GUIDE", "9"}});
  }
}

TEST_CASE("contours come in the sheet's order on their operation's layer, closed or open, no vertex said twice") {
  for (const DxfVersion version : versions) {
    const auto contours = contours_of(written(version));
    std::vector<std::string> layers;
    for (const Contour& contour : contours) {
      layers.push_back(contour.layer);
      CHECK(contour.closed == (contour.layer != "MARK" && !(contour.layer == "GUIDE" && contour.points.size() == 2)));
      for (std::size_t i = 1; i < contour.points.size(); ++i) CHECK_FALSE(contour.points[i] == contour.points[i - 1]);
      if (contour.closed) CHECK_FALSE(contour.points.front() == contour.points.back());
    }
    // A slab and its window, a sail; a rectangle; two arms of each mark; two outlines, and the bar with its three ticks.
    const std::vector<std::string> wanted{"ENGRAVE", "ENGRAVE", "ENGRAVE", "SCORE", "MARK",  "MARK",  "MARK",  "MARK",
                                          "MARK",    "MARK",    "GUIDE",   "GUIDE", "GUIDE", "GUIDE", "GUIDE", "GUIDE"};
    CHECK(layers == wanted);
    CHECK(contours[0].points == std::vector<Point>{{26, 36}, {74, 36}, {74, 64}, {26, 64}});
  }
}

TEST_CASE("both versions hold the same points") {
  const auto r12 = contours_of(written(DxfVersion::r12)), r2000 = contours_of(written(DxfVersion::r2000));
  REQUIRE(r12.size() == r2000.size());
  for (std::size_t i = 0; i < r12.size(); ++i) CHECK(r12[i].points == r2000[i].points);
}

TEST_CASE("a curve is parted as finely as the tolerance asks") {
  // |Δ²P| = |(20, −40)| = 44.7, n = √(2 · 44.7 / 8ε): 33.4 for 0.01 mm, 10.6 for 0.1 mm; and the corner that it starts from
  // and the one before it.
  const auto points = [](double tolerance) {
    return contours_of(written(DxfVersion::r12, small_sheet(), tolerance))[2].points.size();
  };
  CHECK(points(0.01) == 36);
  CHECK(points(0.1) == 13);
  CHECK_THROWS_AS(written(DxfVersion::r12, small_sheet(), 0), std::domain_error);
}

TEST_CASE("points that fall together in the last place become one, and a speck becomes nothing") {
  Sheet sheet = small_sheet();
  Path path;
  path.move_to({10, 10});
  path.line_to({10.00004, 10.00002});
  path.line_to({20, 10});
  path.line_to({20, 20});
  path.line_to({10.00001, 10.00001});
  path.close();
  path.move_to({50, 50});
  path.line_to({50.00002, 50.00001});
  path.line_to({50.00001, 50});
  path.close();
  sheet.parts = {{Operation::engrave, "1", "1", path}};
  for (const DxfVersion version : versions) {
    const auto contours = contours_of(written(version, sheet));
    REQUIRE(contours.size() == 1);
    CHECK(contours[0].points == std::vector<Point>{{10, 10}, {20, 10}, {20, 20}});
  }
}

TEST_CASE("an R12 polyline says that vertices follow, and ends; there is no handle in the file") {
  const auto records = records_of(written(DxfVersion::r12));
  std::size_t polylines = 0, ends = 0;
  for (std::size_t i = 0; i < records.size(); ++i) {
    if (records[i].type == "POLYLINE") {
      ++polylines;
      CHECK(records[i].first(66) == "1");
      CHECK(records[i + 1].type == "VERTEX");
    }
    if (records[i].type == "SEQEND") ++ends;
    CHECK(records[i].first(5).empty());
    CHECK(records[i].first(42).empty());  // a bulge
  }
  CHECK(polylines == 16);
  CHECK(ends == polylines);
  CHECK(records.back().type == "EOF");
}

TEST_CASE("in R2000 every handle is one thing's, the seed is above them, and owners exist") {
  const std::string dxf = written(DxfVersion::r2000);
  std::set<unsigned long> handles;
  std::vector<unsigned long> owners;
  for (const Record& record : records_of(dxf)) {
    for (const Tag& tag : record.tags) {
      const bool is_dimstyle = record.type == "DIMSTYLE";
      if (record.type != "SECTION" && tag.code == (is_dimstyle ? 105 : 5)) {
        INFO(record.type << " " << tag.value);
        CHECK(handles.insert(std::stoul(tag.value, nullptr, 16)).second);
      }
      if (tag.code == 330) owners.push_back(std::stoul(tag.value, nullptr, 16));
    }
  }
  CHECK(handles.size() > 40);
  CHECK_FALSE(handles.contains(0));
  for (const unsigned long owner : owners) CHECK((owner == 0 || handles.contains(owner)));
  CHECK(std::stoul(variable(dxf, "$HANDSEED").at(0), nullptr, 16) > *handles.rbegin());
}

TEST_CASE("a sheet without parts is still a file") {
  Sheet sheet = small_sheet();
  sheet.parts.clear();
  for (const DxfVersion version : versions) {
    CHECK(contours_of(written(version, sheet)).empty());
    CHECK(variable(written(version, sheet), "$EXTMAX") == std::vector<std::string>{"0.0000", "0.0000", "0.0000"});
  }
}

TEST_CASE("what is not finite is never written to a DXF file") {
  Sheet sheet = small_sheet();
  sheet.parts[0].path.line_to({std::numeric_limits<double>::quiet_NaN(), 1});
  CHECK_THROWS(written(DxfVersion::r12, sheet));
}

}  // namespace ordinatio::dxf_test
