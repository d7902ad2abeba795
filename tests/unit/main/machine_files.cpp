// What a machine reads: SVG and DXF of the built program, held against each other and against what cutting needs.
#include <algorithm>
#include <cctype>
#include <nlohmann/json.hpp>
#include <sstream>
#include <vector>

#include "workshop.h"

namespace ordinatio::machine_files_test {
using Catch::Matchers::Contains;

namespace {

struct At {
  double x = 0, y = 0;
};
using Ring = std::vector<At>;

/// The numbers and letters of SVG path data, contour by contour; control points stand for their curves.
std::vector<Ring> rings_of(std::string data) {
  std::string spaced;
  for (const char c : data)
    spaced += std::isalpha(static_cast<unsigned char>(c)) ? std::string(" ") + c + " " : std::string(1, c);
  std::istringstream words(spaced);
  std::vector<Ring> rings;
  for (std::string word; words >> word;) {
    if (word == "M") {
      rings.emplace_back();
    } else if (!std::isalpha(static_cast<unsigned char>(word[0]))) {
      std::string up;
      words >> up;
      rings.back().push_back({*parse_number(word), *parse_number(up)});
    }
  }
  return rings;
}

/// The contours of each group of an operation, in the file's order.
std::vector<std::vector<Ring>> svg_cuts(const std::string& svg) {
  std::vector<std::vector<Ring>> items;
  const std::size_t begin = svg.find("<g id=\"cut\""), end = svg.find("\n  </g>", begin);
  for (std::size_t at = svg.find(" d=\"", begin); at < end; at = svg.find(" d=\"", at + 4)) {
    items.push_back(rings_of(svg.substr(at + 4, svg.find('"', at + 4) - at - 4)));
  }
  return items;
}

/// All contours on a layer, in the file's order.
std::vector<Ring> dxf_cuts(const std::string& dxf) {
  std::vector<Ring> rings;
  std::istringstream lines(dxf);
  std::string code, value, x;
  const auto next = [&] {
    const bool more = std::getline(lines, code) && std::getline(lines, value);
    for (std::string* text : {&code, &value}) text->erase(std::remove(text->begin(), text->end(), '\r'), text->end());
    return more;
  };
  bool is_cut = false, is_vertex = false;
  while (next()) {
    if (code == "0") is_vertex = value == "VERTEX";
    if (code == "0" && value == "POLYLINE") is_cut = false;
    if (code == "8" && !is_vertex && value == "CUT") {
      is_cut = true;
      rings.emplace_back();
    }
    if (is_cut && is_vertex && code == "10") x = value;
    if (is_cut && is_vertex && code == "20") rings.back().push_back({*parse_number(x), *parse_number(value)});
  }
  std::erase_if(rings, [](const Ring& ring) { return ring.empty(); });
  return rings;
}

bool is_inside(const Ring& ring, At p) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const At a = ring[i], b = ring[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

bool lies_in(const Ring& inner, const Ring& outer) {
  return std::ranges::all_of(inner, [&](At p) { return is_inside(outer, p); });
}

/// How many contours lie in one that comes before them, and how many in one that comes after.
std::pair<int, int> nested(const std::vector<Ring>& rings) {
  int too_late = 0, in_time = 0;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    for (std::size_t j = i + 1; j < rings.size(); ++j) {
      too_late += lies_in(rings[j], rings[i]) ? 1 : 0;
      in_time += lies_in(rings[i], rings[j]) ? 1 : 0;
    }
  }
  return {too_late, in_time};
}

std::string layer_colour(const std::string& dxf, const std::string& layer) {
  const std::size_t at = dxf.find("\r\n62\r\n", dxf.find("\r\n2\r\n" + layer + "\r\n")) + 6;
  return dxf.substr(at, dxf.find('\r', at) - at);
}

}  // namespace

TEST_CASE("the DXF of a day shows each operation in the hue that the SVG shows it in, and manifest and PDF say both") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv").code == 0);
  const std::string svg = workshop.read("out/orders/sheet-001.svg"), dxf = workshop.read("out/orders/sheet-001.dxf");
  CHECK_THAT(svg, Contains("<g id=\"engrave\" fill=\"#009E73\"") && Contains("stroke=\"#999999\""));
  const std::pair<const char*, const char*> wanted[] = {
      {"ENGRAVE", "3"}, {"SCORE", "2"}, {"CUT", "6"}, {"MARK", "4"}, {"GUIDE", "8"}};
  for (const auto& [layer, colour] : wanted) CHECK(layer_colour(dxf, layer) == colour);
  const auto manifest = nlohmann::json::parse(workshop.read("out/orders/sheet-001.json"));
  CHECK(manifest["palette"]["cut"] == "#CC79A7");
  CHECK(manifest["dxf_colours"]["cut"] == 6);
}

TEST_CASE("the workshop's own colours and indices are in the files of a day, and of a remake of a sheet from before") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  workshop.edit("shop.toml", "cut = \"#CC79A7\"", "cut = \"#FF0000\"");
  workshop.edit("shop.toml", "[colours]", "[colours.dxf]\ncut = 10\n[colours]");
  // A sheet of an earlier version, whose manifest tells no indices.
  auto old = nlohmann::ordered_json::parse(workshop.read("out/orders/sheet-001.json"));
  old.erase("dxf_colours"), old.erase("checksum");
  old["checksum"] = sha256_hex(old.dump());
  workshop.write("old.json", old.dump(1) + "\n");
  const Run run = workshop.run("remake 1001-1 --sheet old.json");
  INFO(run.err);
  CHECK(run.code == 0);
  CHECK(layer_colour(workshop.read("out/remake/remake-1001-1.dxf"), "CUT") == "10");
  CHECK(nlohmann::json::parse(workshop.read("out/remake/remake-1001-1.json"))["palette"]["cut"] == "#FF0000");
  CHECK(workshop.run("align old.json --measured 8,8 592,8 8,392 580,392").code == 0);
  workshop.edit("shop.toml", "cut = 10", "cut = 3");
  const Run wrong = workshop.run("day orders.csv");
  CHECK(wrong.code == 2);
  CHECK_THAT(wrong.err, Contains("colours.dxf.cut looks like engrave"));
}

TEST_CASE("cut letters: what lies inside comes before what it lies in, in SVG and DXF, each item whole") {
  const Workshop workshop;
  workshop.edit("templates/plaque-landscape.toml", "operation = \"engrave\"      # fills",
                "operation = \"cut\" # fills");
  workshop.edit("templates/plaque-landscape.toml", "operation = \"engrave\"      # \"score\"", "operation = \"cut\" #");
  workshop.edit("templates/plaque-landscape.toml", "width = 0.6\n", "");  // a line that is followed has none
  workshop.write("orders.csv", "Order,Text,Quantity,Design\n1,Boggle 8 @ 60%,1,\n2,\"B\nooo\",1,\n");
  const Run day = workshop.run("day orders.csv --no-pdf");
  INFO(day.err);
  REQUIRE(day.code <= 1);
  const auto items = svg_cuts(workshop.read("out/orders/sheet-001.svg"));
  REQUIRE(items.size() == 2);
  std::vector<Ring> in_a_row;
  for (const std::vector<Ring>& rings : items) {
    const auto [too_late, in_time] = nested(rings);
    CHECK(too_late == 0);
    CHECK(in_time > 10);  // counters in letters, and all of it in the border
    in_a_row.insert(in_a_row.end(), rings.begin(), rings.end());
  }
  const std::vector<Ring> rings = dxf_cuts(workshop.read("out/orders/sheet-001.dxf"));
  CHECK(nested(rings).first == 0);
  REQUIRE(rings.size() == in_a_row.size());
  for (std::size_t i = 0; i < rings.size(); ++i) {  // both files in one order: y down in one, up in the other
    CHECK(rings[i][0].x == Approx(in_a_row[i][0].x).margin(0.001));
    CHECK(rings[i][0].y == Approx(400 - in_a_row[i][0].y).margin(0.001));
  }
  // The proof's hash is the sheet's, whatever order its contours are cut in.
  const auto manifest = nlohmann::json::parse(workshop.read("out/orders/sheet-001.json"));
  const Run proof = workshop.run("remake 1-1 --sheet out/orders/sheet-001.json");
  CHECK(proof.code == 0);
  CHECK(nlohmann::json::parse(workshop.read("out/remake/remake-1-1.json"))["items"][0]["hash"] ==
        manifest["items"][0]["hash"]);
}

}  // namespace ordinatio::machine_files_test
