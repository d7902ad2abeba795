#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "small_sheet.h"
#include "write/write.h"

namespace ordinatio::manifest_test {
using Json = nlohmann::ordered_json;

namespace {

Json manifest_of(const Sheet& sheet) { return Json::parse(write_manifest(sheet)); }

}  // namespace

TEST_CASE("a manifest tells the sheet, the machine, the blank and the marks") {
  const Json json = manifest_of(small_sheet());
  CHECK(json.at("ordinatio") == 1);
  CHECK(json.at("sheet") == Json{{"name", "sheet-001"}, {"number", 1}});
  CHECK(json.at("machine") == Json{{"width", 200}, {"height", 120}, {"thickness_spread", 1.5}});
  CHECK(json.at("setting") == Json{{"side", "front"}});
  CHECK(json.at("blank") == Json{{"width", 60}, {"height", 40}});
  CHECK(json.at("marks").at("kind") == "cross");
  CHECK(json.at("marks").at("size") == 8);
  CHECK(json.at("marks").at("places") == Json::parse("[[8, 8], [192, 8], [8, 100]]"));
  CHECK(json.at("scale_bar") == true);
  CHECK(json.at("date") == "2026-11-25");
  CHECK(json.at("remake_of") == "");
  CHECK(json.at("designs") == Json{{"slate", std::string(64, 'c')}});
}

TEST_CASE("a manifest names the machine, and has what others worked out, where there is any") {
  Sheet sheet = small_sheet();
  CHECK_FALSE(manifest_of(sheet).contains("estimate"));
  sheet.frame.plan.machine.name = "the large one";
  const WorkedOut estimate{{{"time", 5700}, {"engrave", 5580}}, {{"1042-1", 3000}, {"1042-2", 2580}}};
  const Json json = Json::parse(write_manifest(sheet, estimate));
  CHECK(json.at("machine").at("name") == "the large one");
  CHECK(json.at("estimate") ==
        Json::parse(R"({"time": 5700.0, "engrave": 5580.0, "items": {"1042-1": 3000.0, "1042-2": 2580.0}})"));
}

TEST_CASE("a manifest tells the board, and what the pieces are of, how thick and which side up") {
  Sheet sheet = small_sheet();
  sheet.frame.plan.jig.name = "large";
  double thickness = 3.9;
  for (SheetItem& item : sheet.items) {
    item.artwork.blank.material = "glass", item.artwork.blank.thickness = thickness, item.artwork.from_behind = true;
    thickness = 4.1;
  }
  const Json json = manifest_of(sheet);
  CHECK(json.at("jig").at("name") == "large");
  CHECK(json.at("setting") == Json{{"side", "back"}, {"material", "glass"}, {"thickness", {3.9, 4.1}}});
  CHECK(json.at("items")[1].at("material") == "glass");
  CHECK(json.at("items")[1].at("thickness") == 4.1);
}

TEST_CASE("a manifest tells every pocket, with or without an item") {
  Sheet sheet = small_sheet();
  sheet.items.pop_back();
  const Json json = manifest_of(sheet);
  REQUIRE(json.at("pockets").size() == 2);
  CHECK(json.at("pockets")[1] ==
        Json::parse(R"({"number": 2, "left": 110, "bottom": 30, "width": 60, "height": 60, "turned": true})"));
  CHECK(json.at("items").size() == 1);
}

TEST_CASE("a manifest tells all that an item needs to be made again") {
  const Json item = manifest_of(small_sheet()).at("items").at(1);
  CHECK(item.at("id") == "1042-2");
  CHECK(item.at("design") == "slate");
  CHECK(item.at("pocket") == 2);
  CHECK(item.at("source") == "orders.csv:2");
  // A quarter turn, the blank's height to the right of the pocket's corner.
  CHECK(item.at("transform") == Json::parse("[0, 1, -1, 0, 150, 30]"));
  CHECK(item.at("size") == 12.5);
  CHECK(item.at("shift") == Json::parse("[6, 6.25]"));
  CHECK(item.at("cap_height") == 8.75);
  CHECK(item.at("hash") == std::string(64, 'b'));
  CHECK(item.at("faces") ==
        Json::parse(R"([{"name": "Invented Sans", "sha256": ")" + std::string(64, 'd') +
                    R"("}, {"name": "Invented Serif", "sha256": ")" + std::string(64, 'a') + "\"}]"));
}

TEST_CASE("the customer's words are kept as they came, beside those engraved and what was changed") {
  const Json item = manifest_of(small_sheet()).at("items").at(0);
  CHECK(item.at("original") == "The Mill\xC2\xA0House\nN\xC2\xBA 3");
  CHECK(item.at("lines") == Json::parse("[\"The Mill House\", \"N\xC2\xBA 3\"]"));
  CHECK(item.at("changes").at(0) ==
        Json::parse(R"({"line": 1, "column": 9, "weight": "note", "rule": "non-breaking space became a space"})"));
  CHECK(item.at("changes").at(1).at("weight") == "warning");
}

TEST_CASE("a manifest tells the engraved area of each item, holes taken out") {
  const Json items = manifest_of(small_sheet()).at("items");
  CHECK(items[0].at("areas").at("engrave").get<double>() == Approx(48 * 28 - 18 * 8));
  // A parabola's segment over the chord from (50, 10) to (10, 30) and the triangle under it.
  CHECK(items[1].at("areas").at("engrave").get<double>() == Approx(400 + 800.0 / 3));
  CHECK_FALSE(items[1].at("areas").contains("score"));
}

TEST_CASE("every kind of mark and way of lying has its word") {
  Sheet sheet = small_sheet();
  const std::pair<MarkPlan::Kind, const char*> kinds[] = {
      {MarkPlan::Kind::cross, "cross"}, {MarkPlan::Kind::ring, "ring"}, {MarkPlan::Kind::target, "target"}};
  for (const auto& [kind, word] : kinds) {
    sheet.frame.plan.marks.kind = kind;
    CHECK(manifest_of(sheet).at("marks").at("kind") == word);
  }
  const std::pair<Jig::Lie, const char*> lies[] = {
      {Jig::Lie::as_drawn, "as-drawn"}, {Jig::Lie::quarter_turn, "quarter-turn"}, {Jig::Lie::as_fits, "as-fits"}};
  for (const auto& [lie, word] : lies) {
    sheet.frame.plan.jig.lie = lie;
    CHECK(manifest_of(sheet).at("jig").at("lie") == word);
  }
}

TEST_CASE("the checksum is that of the manifest without it, however it is spaced") {
  Json json = manifest_of(small_sheet());
  const std::string checksum = json.at("checksum");
  json.erase("checksum");
  CHECK(sha256_hex(json.dump()) == checksum);
  json.at("items")[0]["pocket"] = 2;
  CHECK(sha256_hex(json.dump()) != checksum);
}

TEST_CASE("the checksum tells two sheets apart by the least of their contents") {
  const auto checksum = [](const Sheet& sheet) { return manifest_of(sheet).at("checksum").get<std::string>(); };
  const std::string plain = checksum(small_sheet());
  CHECK(checksum(small_sheet()) == plain);
  Sheet sheet = small_sheet();
  sheet.items[0].artwork.cap_height += 1e-12;
  CHECK(checksum(sheet) != plain);
  sheet = small_sheet();
  sheet.items[0].item.inscription.original += ' ';
  CHECK(checksum(sheet) != plain);
}

TEST_CASE("numbers come back as they were, to the last bit") {
  Sheet sheet = small_sheet();
  sheet.items[0].artwork.placement.size = 0.1 + 0.2;
  sheet.items[0].to_bed.dx = 1.0 / 3;
  const Json item = manifest_of(sheet).at("items")[0];
  CHECK(item.at("size").get<double>() == 0.1 + 0.2);
  CHECK(item.at("transform")[4].get<double>() == 1.0 / 3);
}

TEST_CASE("words that JSON would take for its own are kept") {
  Sheet sheet = small_sheet("\"7\"\\-1");
  sheet.items[0].item.inscription.original = "\"}\n\t\\ {";
  const Json item = manifest_of(sheet).at("items")[0];
  CHECK(item.at("id") == "\"7\"\\-1");
  CHECK(item.at("original") == "\"}\n\t\\ {");
}

}  // namespace ordinatio::manifest_test
