#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "check/check.h"
#include "manifest/manifest.h"
#include "sheet_by_hand.h"

namespace ordinatio::manifest_test {
using nlohmann::ordered_json;

namespace {

ordered_json item_by_hand(const std::string& id, int pocket, const std::string& transform, double area) {
  ordered_json item = ordered_json::parse(R"({
    "design": "slate",
    "original": "The Mill House",
    "lines": ["The Mill House"],
    "changes": [{"line": 1, "column": 9, "weight": "note", "rule": "non-breaking space became a space"}],
    "source": "orders.csv:2", "size": 12.5, "shift": [6, 6.25], "cap_height": 8.75, "x_height": 0, "stroke": 0, "counter": 0, "engraved": [], "set": []})");
  item["original"] = "The Mill\xC2\xA0House";
  item["id"] = id;
  item["pocket"] = pocket;
  item["transform"] = ordered_json::parse(transform);
  item["faces"] = {{{"name", "Invented Serif"}, {"sha256", std::string(64, 'a')}}};
  item["areas"] = {{"engrave", area}};
  item["hash"] = std::string(64, 'b');
  return item;
}

ordered_json manifest_by_hand() {
  ordered_json manifest = ordered_json::parse(R"({
    "ordinatio": 1,
    "sheet": {"name": "sheet-001", "number": 1},
    "machine": {"width": 200, "height": 120.0, "thickness_spread": 1.5},
    "setting": {"side": "front"},
    "blank": {"width": 60, "height": 40},
    "pockets": [{"number": 1, "left": 10, "bottom": 10, "width": 60, "height": 40, "turned": false},
                {"number": 2, "left": 100, "bottom": 10, "width": 40, "height": 60, "turned": true}],
    "marks": {"kind": "cross", "size": 8, "places": [[150, 100]]},
    "scale_bar": true,
    "palette": {"engrave": "#009E73", "score": "#E69F00", "cut": "#CC79A7", "mark": "#56B4E9", "guide": "#999999"},
    "dxf_colours": {"engrave": 3, "score": 2, "cut": 6, "mark": 4, "guide": 8},
    "date": "2026-11-25", "remake_of": ""})");
  manifest["designs"]["slate"] = std::string(64, 'c');
  // The slab is 48 × 28, less a window of 18 × 8, less 98 − 57.6 outside of its round corner (the curve's closed form);
  // the sail is a triangle of 400 and a parabola's segment of ⅔ · 400.
  manifest["items"] = {item_by_hand("1042-1", 1, "[1, 0, 0, 1, 10, 10]", 1159.6),
                       item_by_hand("1042-2", 2, "[0, 1, -1, 0, 140, 10]", 2000.0 / 3)};
  return manifest;
}

/// With the checksum that goes with it.
std::string sealed(ordered_json manifest) {
  manifest["checksum"] = sha256_hex(manifest.dump());
  return manifest.dump(1) + "\n";
}

}  // namespace

TEST_CASE("a manifest that is the sheet's passes, and gives back what a remake needs") {
  const std::string text = sealed(manifest_by_hand());
  const MaybeFault fault = check_manifest(text, sheet_by_hand());
  INFO((fault ? describe(*fault) : ""));
  REQUIRE_FALSE(fault);
  const Result<Manifest> manifest = read_manifest(text, "sheet-001.json");
  REQUIRE(manifest.ok());
  CHECK(manifest->date == "2026-11-25");
  CHECK(manifest->pockets[1].turned);
  CHECK(manifest->pockets[1].box == Bounds{100, 10, 140, 70});
  CHECK(manifest->plan.marks.places == std::vector<Point>{{150, 100}});
  const ManifestItem& item = manifest->items[1];
  CHECK(item.item.id == "1042-2");
  CHECK(item.item.inscription.original == "The Mill\xC2\xA0House");
  CHECK(item.item.inscription.notes.at(0).column == 9);
  CHECK(item.to_bed == Transform{0, 1, -1, 0, 140, 10});
  CHECK(item.placement.size == 12.5);
  CHECK(item.date == "2026-11-25");
}

TEST_CASE("numbers come back from a manifest to the last bit") {
  const double size = 0.1 + 0.2;
  ordered_json manifest = manifest_by_hand();
  manifest["items"][0]["size"] = size;
  CHECK(read_manifest(sealed(manifest), "m.json")->items[0].placement.size == size);
}

TEST_CASE("a serial number comes back from a manifest, where there is one") {
  ordered_json manifest = manifest_by_hand();
  manifest["items"][0]["number"] = "014";
  const Result<Manifest> read = read_manifest(sealed(manifest), "m.json");
  REQUIRE(read.ok());
  CHECK(read->items[0].item.number == "014");
  CHECK(read->items[1].item.number.empty());
  manifest["items"][0]["number"] = 14;
  CHECK_FALSE(read_manifest(sealed(manifest), "m.json").ok());
}

TEST_CASE("a manifest tells what the machine is set to, and one from before that is still read") {
  ordered_json manifest = manifest_by_hand();
  manifest["setting"] = {{"side", "back"}, {"material", "glass"}, {"thickness", {3.9, 4.2}}};
  const double thicknesses[] = {4.2, 3.9};
  for (int i = 0; i < 2; ++i) {
    ordered_json& item = manifest["items"][static_cast<std::size_t>(i)];
    item["from_behind"] = true, item["material"] = "Glass", item["thickness"] = thicknesses[i];
  }
  const Result<Manifest> read = read_manifest(sealed(manifest), "m.json");
  REQUIRE(read.ok());
  CHECK(read->setting == MachineSetting{"glass", MachineSetting::Thickness{3.9, 4.2}, true});
  CHECK(read->items[0].piece.thickness == 4.2);
  manifest.erase("setting");
  manifest["machine"].erase("thickness_spread");
  const Result<Manifest> earlier = read_manifest(sealed(manifest), "m.json");
  REQUIRE(earlier.ok());
  CHECK_FALSE(earlier->setting);
}

TEST_CASE("a manifest of a sheet that mixes is refused, and says which item") {
  ordered_json good = manifest_by_hand();
  good["setting"] = {{"side", "front"}, {"material", "slate"}, {"thickness", {6, 7.5}}};
  for (ordered_json& item : good["items"]) item["material"] = "slate", item["thickness"] = 6.5;
  REQUIRE(read_manifest(sealed(good), "m.json").ok());
  const std::pair<std::pair<const char*, ordered_json>, const char*> changes[] = {
      {{"material", "glass"}, "item 1042-2 has another material"},
      {{"from_behind", true}, "item 1042-2 has another side"},
      {{"thickness", 7.6}, "item 1042-2 has another thickness"}};
  for (const auto& [change, told] : changes) {
    ordered_json mixed = good;
    mixed["items"][1][change.first] = change.second;
    const Result<Manifest> read = read_manifest(sealed(mixed), "m.json");
    INFO(told);
    REQUIRE_FALSE(read.ok());
    CHECK(read.fault().why.find(told) != std::string::npos);
  }
  good["items"][1].erase("thickness");
  CHECK_FALSE(read_manifest(sealed(good), "m.json").ok());
  good["items"][1]["thickness"] = 7.6;
  good["setting"]["thickness"] = {6, 7.6};
  CHECK_FALSE(read_manifest(sealed(good), "m.json").ok());
}

TEST_CASE("a manifest that is laid out anew is still the same one") {
  ordered_json manifest = manifest_by_hand();
  manifest["checksum"] = sha256_hex(manifest.dump());
  CHECK_FALSE(check_manifest(manifest.dump(), sheet_by_hand()));
  CHECK_FALSE(check_manifest(manifest.dump(8), sheet_by_hand()));
}

TEST_CASE("a manifest edited by hand is refused, whatever was edited") {
  const std::pair<const char*, const char*> edits[] = {
      {"1042-2", "1042-3"},
      {"\"pocket\": 2", "\"pocket\": 1"},
      {"\"set\": [],\n   \"id\": \"1042-2\"", "\"set\": [\"\"],\n   \"id\": \"1042-2\""},
      {"2026-11-25", "2026-11-26"},
      {"\"remake_of\": \"\"", "\"remake_of\": \"\", \"more\": 1"}};
  for (const auto& [from, to] : edits) {
    const Result<Manifest> manifest = read_manifest(damaged(sealed(manifest_by_hand()), from, to), "sheet-001.json");
    INFO(from);
    REQUIRE_FALSE(manifest.ok());
    CHECK(manifest.fault().why == "it was changed by hand after it was written");
    CHECK(manifest.fault().where == "sheet-001.json");
  }
}

TEST_CASE("what is no manifest is told with its place") {
  struct Bad {
    const char* name;
    std::string text;
    const char* told;
  };
  ordered_json nan = manifest_by_hand();
  nan["machine"]["width"] = nullptr;
  ordered_json negative = manifest_by_hand();
  negative["machine"]["width"] = -600;
  ordered_json no_pocket = manifest_by_hand();
  no_pocket["items"][1].erase("pocket");
  ordered_json half = manifest_by_hand();
  half["items"][1]["pocket"] = 1.5;
  ordered_json colour = manifest_by_hand();
  colour["palette"]["cut"] = "pink";
  ordered_json index = manifest_by_hand();
  index["dxf_colours"]["cut"] = 256;
  ordered_json kind = manifest_by_hand();
  kind["marks"]["kind"] = "heart";
  ordered_json version = manifest_by_hand();
  version["ordinatio"] = 2;
  const Bad table[] = {
      {"empty", "", "it is no JSON"},
      {"text", "line\nline", "it is no JSON"},
      {"cut off", sealed(manifest_by_hand()).substr(0, 500), "it is no JSON"},
      {"a list", "[]", "is not an object"},
      {"nothing in it", "{}", "ordinatio is missing"},
      {"no checksum", manifest_by_hand().dump(), "checksum is missing"},
      {"a null for a number", sealed(nan), "machine.width is not a number"},
      {"a size below zero", sealed(negative), "machine.width is not a number above zero"},
      {"a field left out", sealed(no_pocket), "items[1].pocket is missing"},
      {"half a pocket", sealed(half), "items[1].pocket is not a whole number"},
      {"no colour", sealed(colour), "palette.cut is not a colour"},
      {"no index", sealed(index), "dxf_colours.cut is not an index from 1 to 255"},
      {"an unknown mark", sealed(kind), "marks.kind is not a word that is known here"},
      {"another version", sealed(version), "another version"},
      {"a number out of all bounds", "{\"ordinatio\": 1e999}", "out of all bounds"},
      {"a bomb of brackets", std::string(1'000'000, '['), "too deep"},
      {"text that is not UTF-8", "{\"ordinatio\": \"\xFF\"}", "it is no JSON"},
  };
  for (const Bad& bad : table) {
    const Result<Manifest> manifest = read_manifest(bad.text, "sheet-001.json");
    INFO(bad.name);
    REQUIRE_FALSE(manifest.ok());
    INFO(describe(manifest.fault()));
    CHECK(manifest.fault().why.find(bad.told) != std::string::npos);
    CHECK(manifest.fault().where.starts_with("sheet-001.json"));
  }
}

TEST_CASE("a manifest of another sheet is told from this one's") {
  struct Change {
    const char* name;
    void (*change)(Sheet&);
    const char* told;
  };
  const Change table[] = {
      {"name", [](Sheet& s) { s.name = "sheet-002"; }, "name"},
      {"number", [](Sheet& s) { s.number = 2; }, "number"},
      {"bed", [](Sheet& s) { s.frame.plan.machine.height = 121; }, "bed"},
      {"blank", [](Sheet& s) { s.frame.blank_width = 61; }, "blanks"},
      {"a pocket", [](Sheet& s) { s.frame.pockets[1].box.right += 0.001; }, "pocket"},
      {"the board", [](Sheet& s) { s.frame.plan.jig.name = "large"; }, "the board"},
      {"the machine", [](Sheet& s) { s.frame.plan.machine.name = "large"; }, "the machine"},
      {"the spread", [](Sheet& s) { s.frame.plan.machine.thickness_spread = 2; }, "how far thicknesses may differ"},
      {"a material", [](Sheet& s) { s.items[1].artwork.blank.material = "glass"; }, "another setting"},
      {"a thickness", [](Sheet& s) { s.items[1].artwork.blank.thickness = 4; }, "another setting"},
      {"a side", [](Sheet& s) { s.items[1].artwork.from_behind = true; }, "another setting"},
      {"how a pocket lies", [](Sheet& s) { s.frame.pockets[1].turned = false; }, "pocket"},
      {"a mark", [](Sheet& s) { s.frame.marks[0].x += 0.001; }, "marks' places"},
      {"the marks' size", [](Sheet& s) { s.frame.plan.marks.size = 9; }, "marks' kind or size"},
      {"scale bar", [](Sheet& s) { s.frame.plan.scale_bar = false; }, "scale bar"},
      {"palette", [](Sheet& s) { s.frame.plan.palette.colours[2].blue ^= 1; }, "palette"},
      {"index", [](Sheet& s) { s.frame.plan.palette.indices[2] = 5; }, "palette"},
      {"date", [](Sheet& s) { s.date = ""; }, "date"},
      {"remake", [](Sheet& s) { s.remake_of = "sheet-000"; }, "remade"},
      {"design", [](Sheet& s) { s.designs["slate"][0] = 'd'; }, "checksum"},
      {"one item more", [](Sheet& s) { s.items.push_back(s.items[0]); }, "number of items"},
      {"two items swapped", [](Sheet& s) { std::swap(s.items[0], s.items[1]); }, "1042-2: its id"},
      {"original", [](Sheet& s) { s.items[1].item.inscription.original += " "; }, "original"},
      {"lines", [](Sheet& s) { s.items[1].item.inscription.lines[0] += "s"; }, "lines"},
      {"changes", [](Sheet& s) { s.items[1].item.inscription.notes.clear(); }, "changed"},
      {"serial number", [](Sheet& s) { s.items[1].item.number = "7"; }, "serial number"},
      {"source", [](Sheet& s) { s.items[1].item.source = "x"; }, "source"},
      {"pocket", [](Sheet& s) { s.items[1].pocket = 1; }, "its pocket"},
      {"place", [](Sheet& s) { s.items[1].to_bed.dx += 1e-9; }, "place on the bed"},
      {"size", [](Sheet& s) { s.items[1].artwork.placement.size += 1e-9; }, "size or place"},
      {"cap height", [](Sheet& s) { s.items[1].artwork.cap_height += 1e-9; }, "cap height"},
      {"face", [](Sheet& s) { s.items[1].artwork.faces[0].checksum[0] = 'z'; }, "faces"},
      {"hash", [](Sheet& s) { s.items[1].artwork.hash[0] = 'z'; }, "hash"},
      {"ink", [](Sheet& s) { s.items[1].artwork.layers[0].path = s.items[0].artwork.layers[0].path; }, "ink area"},
  };
  const std::string text = sealed(manifest_by_hand());
  for (const Change& change : table) {
    Sheet sheet = sheet_by_hand();
    change.change(sheet);
    const MaybeFault fault = check_manifest(text, sheet);
    INFO(change.name << ": " << (fault ? describe(*fault) : "passed"));
    REQUIRE(fault);
    CHECK(fault->what.find(change.told) != std::string::npos);
  }
}

}  // namespace ordinatio::manifest_test
