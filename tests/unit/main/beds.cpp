// One bed, one setting of the machine; more boards than one; what fits no pocket holds nobody up. By the program as a person
// runs it.
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "workshop.h"

namespace ordinatio::beds_test {
using Catch::Matchers::Contains;
using nlohmann::json;
using nlohmann::ordered_json;

namespace {

std::string design(double width, double height, const std::string& material, const std::string& head = "") {
  return head + "[blank]\nwidth = " + std::to_string(width) + "\nheight = " + std::to_string(height) +
         (material.empty() ? "" : "\nmaterial = \"" + material + "\"") +
         "\n[clear]\nmargin = 8\n[text]\ncap_height = { min = 3, max = 20 }\n";
}

/// Slate lying and standing, glass from behind, and a large slate, on a bed of 600 × 400 mm.
class Watermill : public Workshop {
 public:
  Watermill() {
    write("templates/slate.toml", design(150, 100, "slate"));
    write("templates/upright.toml", design(100, 150, "slate"));
    write("templates/glass.toml", design(150, 100, "glass", "side = \"back\"\n"));
    write("templates/large.toml", design(210, 148, "slate"));
    edit("shop.toml", "design = \"plaque-landscape\"", "design = \"slate\"");
  }
  void order(const std::string& rows) const { write("orders.csv", "Order,Text,Quantity,Design\n" + rows); }
  void cut_board() const {
    edit("shop.toml", "fill = true",
         "rows = 2\ncolumns = 2\npitch = [200, 160]\nfirst = [25, 25]\npocket = [153, 103]");
    edit("shop.toml", "gap = 10 ", "# gap = 10");
    edit("shop.toml", "edge = 20 ", "# edge = 20");
  }
  [[nodiscard]] json sheet(const std::string& name) const { return json::parse(read(name + ".json")); }
  [[nodiscard]] std::vector<std::string> sheets(const std::string& folder = "out/orders") const {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(shop() / folder)) {
      if (entry.path().extension() == ".json") names.push_back(folder + "/" + entry.path().stem().string());
    }
    std::sort(names.begin(), names.end());
    return names;
  }
};

std::set<std::string> values(const json& items, const std::string& key) {
  std::set<std::string> found;
  for (const auto& item : items) found.insert(item.contains(key) ? item[key].dump() : "none");
  return found;
}

/// A manifest as it was before it told the machine's setting.
std::string of_an_earlier_version(const std::string& text) {
  ordered_json manifest = ordered_json::parse(text);
  for (const char* key : {"checksum", "setting"}) manifest.erase(key);
  manifest["machine"].erase("thickness_spread");
  for (ordered_json& item : manifest["items"]) item.erase("material"), item.erase("thickness");
  manifest["checksum"] = sha256_hex(manifest.dump());
  return manifest.dump(1) + "\n";
}

}  // namespace

TEST_CASE("no two materials and no two sides lie on one bed, and the account says what each bed is") {
  const Watermill shop;
  shop.order("1,Mill Race,1,slate\n2,The Sluice,1,glass\n3,Tail Water,1,slate\n4,Weir View,1,glass\n");
  const Run day = shop.run("day");
  INFO(day.err);
  CHECK(day.code == 0);
  CHECK_THAT(day.out, Contains("sheet-001: slate\n") && Contains("sheet-002: glass, from behind: lay face down\n"));
  const auto slate = shop.sheet("out/orders/sheet-001"), glass = shop.sheet("out/orders/sheet-002");
  CHECK(slate["setting"] == json{{"side", "front"}, {"material", "slate"}});
  CHECK(glass["setting"] == json{{"side", "back"}, {"material", "glass"}});
  CHECK(values(slate["items"], "id") == std::set<std::string>{"\"1-1\"", "\"3-1\""});
  CHECK(values(glass["items"], "id") == std::set<std::string>{"\"2-1\"", "\"4-1\""});
}

TEST_CASE("pieces lie together by what they are measured to be, in no more sheets than it takes") {
  const Watermill shop;
  shop.edit("shop.toml", "# [blanks]", "[blanks]");
  shop.edit("shop.toml", "# file = \"blanks.csv\"", "file = \"blanks.csv\"");
  shop.write("templates/slate.toml", design(150, 100, ""));
  shop.write("blanks.csv",
             "id,material,thickness\nA,slate,5\nB,slate,9\nC,Slate,6.5\nD,slate,8\nE,slate,\nF,oak,5\nG,slate,7\n");
  shop.order("1,Mill Race,7,slate\n");
  const Run day = shop.run("day --no-pdf");
  INFO(day.err << day.out);
  CHECK(day.code == 0);
  // 5 to 6.5, 7 to 8 (9 is more than 1.5 from 7), 9; slate that nobody gauged; oak.
  CHECK_THAT(day.out, Contains("7 items set on 5 sheets"));
  CHECK_THAT(day.out, Contains("slate, 5 to 6.5 mm thick") && Contains("slate, 7 to 8 mm thick") &&
                          Contains("slate, 9 mm thick") && Contains("oak, 5 mm thick") && Contains(": slate\n"));
  for (const std::string& name : shop.sheets()) {
    const json sheet = shop.sheet(name);
    double least = 1e9, most = 0;
    for (const auto& item : sheet["items"]) {
      if (!item.contains("thickness")) continue;
      least = std::min(least, item["thickness"].get<double>()), most = std::max(most, item["thickness"].get<double>());
    }
    CHECK(most - least <= 1.5);
    CHECK(sheet["setting"].contains("thickness") == (most > 0));
  }
  shop.edit("shop.toml", "thickness_spread = 1.5", "thickness_spread = 4");
  CHECK_THAT(shop.run("day --no-pdf").out, Contains("7 items set on 3 sheets") && Contains("slate, 5 to 9 mm thick"));
  shop.edit("shop.toml", "thickness_spread = 4", "thickness_spread = 0");
  CHECK_THAT(shop.run("day --no-pdf").out, Contains("7 items set on 7 sheets"));
}

TEST_CASE("designs that say how thick their pieces are do not share a bed beyond the limit") {
  const Watermill shop;
  shop.write("templates/thin.toml", design(150, 100, "glass") + "[blank.x]\n");
  CHECK(shop.run("jig --design thin").code == 2);
  for (const auto& [name, thickness] : {std::pair{"thin", "3"}, {"middle", "4"}, {"thick", "10"}}) {
    std::string text = design(150, 100, "glass");
    shop.write("templates/" + std::string(name) + ".toml",
               text.insert(text.find("\n[clear]"), "\nthickness = " + std::string(thickness)));
  }
  shop.order("1,Mill Race,2,thin\n2,Sluice,1,thick\n3,Weir,1,middle\n");
  const Run day = shop.run("day --no-pdf");
  CHECK(day.code == 0);
  CHECK_THAT(day.out, Contains("sheet-001: glass, 3 to 4 mm thick\n") && Contains("sheet-002: glass, 10 mm thick\n"));
}

TEST_CASE("landscape and portrait of one blank share a bed, each as it lies, and stay so when made again") {
  const Watermill shop;
  shop.cut_board();
  shop.order("1,Mill Race,1,slate\n2,Wheel House,1,upright\n3,Tail Water,1,slate\n");
  const Run day = shop.run("day");
  INFO(day.err);
  CHECK_THAT(day.out, Contains("3 items set on 1 sheet, 0 held."));
  const auto sheet = shop.sheet("out/orders/sheet-001");
  CHECK(sheet["pockets"][0]["turned"] == false);
  CHECK(sheet["pockets"][1]["turned"] == true);
  CHECK(sheet["pockets"][2]["turned"] == false);
  CHECK(shop.run("align out/orders/sheet-001.json --measured 8,8 592,8 8,392 580,392").code == 0);
  REQUIRE(shop.run("remake 2-1 --sheet out/orders/sheet-001.json --pocket 3").code == 0);
  const auto remade = shop.sheet("out/remake/remake-2-1");
  CHECK(remade["pockets"][2]["turned"] == true);
  CHECK(remade["items"][0]["hash"] == sheet["items"][1]["hash"]);
  // A quarter turn, within pocket 3: what lies there lies as it did, two pockets further on.
  const auto was = sheet["items"][1]["transform"], now = remade["items"][0]["transform"];
  for (int i = 0; i < 4; ++i) CHECK(was[i] == now[i]);
  CHECK(now[4].get<double>() - was[4].get<double>() == Approx(25 - 225));
}

TEST_CASE("an order that fits no pocket is held with what fails and by how much, and the others go on") {
  const bool with_ledger = GENERATE(false, true);
  const Watermill shop;
  shop.cut_board();
  if (with_ledger) {
    shop.edit("shop.toml", "# [ledger]", "[ledger]");
    shop.edit("shop.toml", "# file = \"workshop.ledger\"", "file = \"workshop.ledger\"");
  }
  shop.order("1,Mill Race,1,slate\n2,Long Acre Barn,1,large\n3,Tail Water,1,slate\n");
  const Run day = shop.run("day orders.csv --no-pdf");
  INFO(day.err << day.out);
  CHECK(day.code == 1);
  CHECK_THAT(day.out, Contains("2 items set on 1 sheet, 1 held."));
  CHECK_THAT(day.out, Contains("2-1/") && Contains("design large") && Contains("[jig]") &&
                          Contains("a blank of 210 x 148 mm does not fit a pocket of 153 x 103 mm") &&
                          Contains("it is 57 mm too wide and 45 mm too high"));
  const Run proof = shop.run("proof " + std::string(with_ledger ? "" : "orders.csv ") + "--item 2-1");
  INFO(proof.err);
  CHECK(proof.code == 1);
  CHECK_THAT(proof.out, Contains("1 item set, 0 held.") && Contains("has a proof, but no sheet can take it"));
  if (!with_ledger) return;
  CHECK_THAT(shop.run("list").out, Contains("2-1") && Contains("57 mm too wide"));
  shop.edit("shop.toml", "pocket = [153, 103]", "pocket = [210, 150]\n# ");
  shop.edit("shop.toml", "pitch = [200, 160]", "pitch = [220, 160]");
  CHECK_THAT(shop.run("day --no-pdf").out, Contains("1 item set on 1 sheet, 0 held."));
}

TEST_CASE("a measured piece that fits no pocket is named with what fails, and proved all the same") {
  const Watermill shop;
  shop.cut_board();
  shop.edit("shop.toml", "# [blanks]", "[blanks]");
  shop.edit("shop.toml", "# file = \"blanks.csv\"", "file = \"blanks.csv\"");
  shop.write("blanks.csv", "id,width,height\nS-1,160,100\nS-2,158,104.5\n");
  shop.order("1,Mill Race,1,slate\n");
  const Run day = shop.run("day --no-pdf");
  CHECK(day.code == 1);
  CHECK_THAT(day.out, Contains("piece S-2 of 158 x 104.5 mm fits no pocket of design slate") &&
                          Contains("it is 4.5 mm too wide and 1 mm too high"));
  const Run proof = shop.run("proof");
  CHECK(proof.code == 1);
  CHECK_THAT(proof.out, Contains("1 item set, 0 held.") && Contains("no sheet can take it"));
}

TEST_CASE("a workshop has as many boards as it names: by design, by size, and for stands") {
  const Watermill shop;
  shop.cut_board();
  shop.edit("shop.toml", "[marks] ",
            "[jig.big]\nrows = 1\ncolumns = 2\npitch = [250, 1]\nfirst = [30, 100]\npocket = [211, 149]\n"
            "[jig.feet]\nrows = 3\ncolumns = 4\npitch = [130, 60]\nfirst = [30, 100]\npocket = [121, 41]\n[marks] ");
  shop.edit("templates/stand-words.toml", "[blank]", "jig = \"feet\"\n[blank]");
  shop.write("templates/named.toml", design(150, 100, "slate", "jig = \"big\"\n"));
  shop.order("1,Mill Race,1,slate\n2,Long Acre Barn,1,large\n3,Weir,1,named\n");
  const Run day = shop.run("day --no-pdf");
  INFO(day.err << day.out);
  CHECK(day.code == 0);
  CHECK_THAT(day.out, Contains("sheet-001: slate\n") && Contains("sheet-002: jig big: slate\n"));
  const auto big = shop.sheet("out/orders/sheet-002");
  CHECK(big["jig"]["name"] == "big");
  CHECK(big["pockets"].size() == 2);
  CHECK(values(big["items"], "id") == std::set<std::string>{"\"2-1\"", "\"3-1\""});
  CHECK_FALSE(shop.sheet("out/orders/sheet-001")["jig"].contains("name"));

  CHECK_THAT(shop.run("stands --count 3 --date 2026-11-25").out, Contains("stands-001: jig feet"));
  CHECK(shop.sheet("out/stands/stands-001")["pockets"].size() == 12);

  CHECK_THAT(shop.run("jig").out, Contains("4 pockets on the board"));
  CHECK_THAT(shop.run("jig --design large").out, Contains("2 pockets on the board") && Contains("jig-big"));
  CHECK(fs::exists(shop.shop() / "out/jig/jig.svg"));
  CHECK(fs::exists(shop.shop() / "out/jig/jig-big.svg"));

  // A remake and an alignment keep the board that the sheet was laid on, whatever shop.toml says now.
  shop.edit("shop.toml", "[jig.big]", "[jig.huge]");
  CHECK(shop.run("align out/orders/sheet-002.json --measured 8,8 592,8 8,392 580,392").code == 0);
  CHECK(shop.sheet("out/align/sheet-002-aligned")["jig"]["name"] == "big");
  const Run gone = shop.run("day --no-pdf");
  CHECK(gone.code == 1);
  CHECK_THAT(gone.out, Contains("no board is called \"big\"") && Contains("3-1/"));
}

TEST_CASE("what is wrong with a board is told with its table, before anything is written") {
  const Watermill shop;
  const std::string good = shop.read("shop.toml");
  const auto refused = [&](const std::string& table) {
    shop.write("shop.toml", good);
    shop.edit("shop.toml", "[marks] ", table + "\n[marks] ");
    const auto before = shop.files();
    const Run run = shop.run("day orders.csv");
    CHECK(run.code == 2);
    CHECK(shop.files() == before);
    return run.err;
  };
  CHECK_THAT(refused("[jig.big]\nrows = 2\n"), Contains("jig.big.columns is missing"));
  CHECK_THAT(refused("[jig.big]\nrow = 2\n"), Contains("unknown key \"row\""));
  CHECK_THAT(refused("[jig.big]\nrows = 1\ncolumns = 9\nfirst = [10, 10]\npitch = [200, 1]\npocket = [100, 50]\n"),
             Contains("shop.toml, [jig.big]") && Contains("off the bed") && Contains("mm beyond its edge"));
  CHECK_THAT(refused("[jig.\"big one\"]\nfill = true\n"), Contains("is no name for a board"));
}

TEST_CASE("where all boards have names there is no other") {
  const Watermill shop;
  std::string text = shop.read("shop.toml");
  const std::size_t from = text.find("[jig] "), to = text.find("[marks] ");
  shop.write("shop.toml", text.substr(0, from) +
                              "[jig.zinnia]\nrows = 1\ncolumns = 1\nfirst = [30, 30]\npocket = [150, 100]\n"
                              "[jig.aster]\nrows = 1\ncolumns = 1\nfirst = [30, 30]\npocket = [210, 148]\n" +
                              text.substr(to));
  shop.order("1,Mill Race,1,slate\n2,Long Acre Barn,1,large\n");
  const Run day = shop.run("day --no-pdf");
  INFO(day.err << day.out);
  CHECK_THAT(day.out, Contains("sheet-001: jig zinnia: slate") && Contains("sheet-002: jig aster: slate"));
}

TEST_CASE("a sheet from before the setting was told still serves, and one that mixes is not made again") {
  const Watermill shop;
  shop.order("1,Mill Race,1,slate\n2,The Sluice,1,glass\n");
  REQUIRE(shop.run("day --no-pdf").code == 0);
  shop.write("old.json", of_an_earlier_version(shop.read("out/orders/sheet-002.json")));
  REQUIRE(shop.run("align old.json --measured 8,8 592,8 8,392 580,392").code == 0);
  CHECK(shop.sheet("out/align/sheet-002-aligned")["setting"]["side"] == "back");
  REQUIRE(shop.run("remake 2-1 --sheet old.json").code == 0);
  CHECK(shop.sheet("out/remake/remake-2-1")["setting"]["material"] == "glass");

  ordered_json mixed = ordered_json::parse(of_an_earlier_version(shop.read("out/orders/sheet-001.json")));
  ordered_json glass = ordered_json::parse(shop.read("out/orders/sheet-002.json"));
  glass["items"][0]["pocket"] = 2;
  mixed["items"].push_back(glass["items"][0]);
  mixed["designs"]["glass"] = glass["designs"]["glass"];
  shop.write("mixed.json", of_an_earlier_version(mixed.dump()));
  const auto before = shop.files();
  const Run run = shop.run("align mixed.json --measured 8,8 592,8 8,392 580,392");
  CHECK(run.code == 2);
  CHECK_THAT(run.err, Contains("items of one sheet need different settings of the machine"));
  CHECK(shop.files() == before);
}

}  // namespace ordinatio::beds_test
