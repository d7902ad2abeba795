#include <catch2/catch.hpp>

#include "asked_desk.h"

namespace ordinatio::forms_test {
using Catch::Contains;
using desk_test::AskedDesk;
namespace fs = std::filesystem;

namespace {

std::string text_of(AskedDesk& desk, const std::string& file) { return *read_file(desk.shop() / file); }

/// What the page sends where these fields were changed.
Json changes(const Json& form, const std::vector<std::pair<std::string, std::string>>& fields,
             const std::string& name = "") {
  Json ask{{"digest", form.value("digest", "")}, {"name", name}, {"names", Json::array()}, {"values", Json::array()}};
  for (const auto& [field, value] : fields) {
    ask["names"].push_back(field);
    ask["values"].push_back(value);
  }
  return ask;
}

std::string value_of(const Json& form, const std::string& name) {
  for (const Json& field : form["fields"]) {
    if (field["name"] == name) return field["value"];
  }
  return "no such field";
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; ++at) ++count;
  return count;
}

}  // namespace

TEST_CASE("a gap is changed: the bed is drawn before it is saved, and every other byte of shop.toml stays") {
  AskedDesk desk;
  desk.shop().write("shop.toml",
                    "# mine\n[shop]\ndesign = \"slate\"\n[machine]\nwidth = 200\nheight = 160\n[jig]\ngap = 2  # "
                    "fingers\nedge = 10\n# end\n");
  const std::string own = text_of(desk, "shop.toml");
  const Json form = desk.get("/api/settings");
  CHECK(form["text"] == own);
  CHECK(value_of(form, "jig.gap") == "2");
  CHECK(value_of(form, "machine.spot").empty());

  const Json first = desk.post("/api/try-settings", changes(form, {}));
  const Json tried = desk.post("/api/try-settings", changes(form, {{"jig.gap", "40"}}));
  CHECK(first["pockets"] == 8);
  CHECK(tried["pockets"] == 4);
  CHECK(count_of(tried["picture"], "class=\"pocket\"") == 4);
  CHECK(count_of(tried["picture"], "class=\"registration\"") == 4);
  CHECK_THAT(tried["text"].get<std::string>(), Contains("gap = 40  # fingers"));
  CHECK(text_of(desk, "shop.toml") == own);

  const Json saved = desk.post("/api/save-settings", changes(form, {{"jig.gap", "40"}}));
  REQUIRE_FALSE(saved.contains("fault"));
  std::string expected = own;
  expected.replace(expected.find("gap = 2"), 7, "gap = 40");
  CHECK(text_of(desk, "shop.toml") == expected);
  CHECK(desk.post("/api/undo", {{"subject", saved["undo"]}})["account"]["told"][0] == "shop.toml is as it was before");
  CHECK(text_of(desk, "shop.toml") == own);
  CHECK(desk.post("/api/undo", {{"subject", saved["undo"]}}).contains("fault"));  // once
}

TEST_CASE("what shop.toml's reader refuses is said at its field, and the file stays as it is") {
  AskedDesk desk;
  const std::string own = text_of(desk, "shop.toml");
  const Json form = desk.get("/api/settings");
  const auto at = [&](const std::vector<std::pair<std::string, std::string>>& fields) {
    const Json answer = desk.post("/api/save-settings", changes(form, fields));
    CHECK(answer.contains("fault"));
    CHECK(text_of(desk, "shop.toml") == own);
    return answer["at"].get<std::string>();
  };
  CHECK(at({{"machine.width", "wide"}}) == "machine.width");
  CHECK(at({{"machine.spot", "30"}}) == "machine.spot");
  CHECK(at({{"shop.language", "Klingonese"}}) == "shop.language");
  at({{"shop.design", "none-such"}});
  at({{"blanks.file", "none-such.csv"}});
  at({{"ledger.file", "x"}});
  const Json board = desk.post("/api/try-settings", changes(form, {{"jig.fill", "false"}}));
  CHECK(board.contains("fault"));  // what a board needs is asked for …
  CHECK(std::ranges::count(board["unused"], Json("jig.rows")) == 0);
  CHECK(std::ranges::count(board["unused"], Json("jig.gap")) == 1);
  const Json small = desk.post("/api/try-settings", changes(form, {{"machine.width", "50"}}));
  CHECK(small["remark"]["what"].get<std::string>().size() > 0);  // … and a bed that is too small is drawn by nobody
  CHECK(small["pockets"] == 0);
}

TEST_CASE("the file's own words are saved where the reader takes them, else the fault tells line and column") {
  AskedDesk desk;
  const Json form = desk.get("/api/settings");
  const std::string own = form["text"];
  Json ask{{"digest", form["digest"]}, {"text", own + "# a note\n"}};
  CHECK(desk.post("/api/try-settings", ask)["pockets"] == 6);
  CHECK(text_of(desk, "shop.toml") == own);
  REQUIRE_FALSE(desk.post("/api/save-settings", ask).contains("fault"));
  CHECK(text_of(desk, "shop.toml") == own + "# a note\n");

  ask = {{"digest", desk.get("/api/settings")["digest"]}, {"text", "# first\n[shop]\nnmae = \"Mill\"\n"}};
  CHECK(desk.post("/api/save-settings", ask)["fault"]["where"] == "shop.toml:3:1");
  ask["text"] = "[shop\n";
  CHECK_THAT(desk.post("/api/save-settings", ask)["fault"]["where"].get<std::string>(), Contains("shop.toml:1:"));
  CHECK(text_of(desk, "shop.toml") == own + "# a note\n");
}

TEST_CASE("a shop.toml that cannot be read is shown with its words, and mended there") {
  AskedDesk desk;
  const std::string own = text_of(desk, "shop.toml");
  desk.shop().write("shop.toml", own + "[machine]\n");
  const Json form = desk.get("/api/settings");
  CHECK(form["text"] == own + "[machine]\n");
  CHECK(desk.get("/api/today").contains("fault"));
  CHECK_FALSE(desk.post("/api/save-settings", {{"digest", form["digest"]}, {"text", own}}).contains("fault"));
  CHECK_FALSE(desk.get("/api/today").contains("fault"));
}

TEST_CASE("a file that was changed by hand meanwhile is not written over, by a save or by an undo") {
  AskedDesk desk;
  const Json form = desk.get("/api/settings");
  const std::string own = form["text"];
  desk.shop().write("shop.toml", own + "# by hand\n");
  for (const char* path : {"/api/try-settings", "/api/save-settings"})
    CHECK(desk.post(path, changes(form, {{"jig.gap", "3"}}))["fault"]["what"] == "the file has changed meanwhile");
  CHECK(desk.post("/api/save-settings", {{"digest", ""}, {"text", own}}).contains("fault"));
  CHECK(text_of(desk, "shop.toml") == own + "# by hand\n");

  const Json saved = desk.post("/api/save-settings", changes(desk.get("/api/settings"), {{"jig.gap", "3"}}));
  const std::string mine = text_of(desk, "shop.toml") + "# again\n";
  desk.shop().write("shop.toml", mine);
  CHECK(desk.post("/api/undo", {{"subject", saved["undo"]}})["fault"]["what"] == "the file has changed meanwhile");
  CHECK(text_of(desk, "shop.toml") == mine);
}

TEST_CASE("a design is tried with words of the person's own, saved, and sets the next item so") {
  AskedDesk desk;
  const std::string own = text_of(desk, "templates/slate.toml");
  const Json form = desk.get("/api/design", {{"name", "slate"}});
  CHECK(value_of(form, "text.cap_height.max") == "12");
  Json ask = changes(form, {{"text.cap_height.max", "5"}, {"text.case", "upper"}}, "slate");
  ask["words"] = "Weir Lane";
  const Json tried = desk.post("/api/try-design", ask);
  CHECK(tried["set"]["cap_height"].get<double>() == Approx(5));
  CHECK(tried["set"]["lines"][0] == "WEIR LANE");
  CHECK(text_of(desk, "templates/slate.toml") == own);
  const auto capitals = [&] {
    return desk.post("/api/fit", {{"words", "Weir"}, {"design", "slate"}})["cap_height"].get<double>();
  };
  CHECK(capitals() == Approx(12));  // only tried

  const Json saved = desk.post("/api/save-design", ask);
  CHECK(text_of(desk, "templates/slate.toml") ==
        "[blank]\nwidth = 60\nheight = 40\n[clear]\nmargin = 3\n[text]\ncap_height = { min = 2, max = 5 }\ncase = "
        "\"upper\"\n");
  CHECK(capitals() == Approx(5));
  CHECK_FALSE(desk.post("/api/undo", {{"subject", saved["undo"]}}).contains("fault"));
  CHECK(text_of(desk, "templates/slate.toml") == own);

  Json wrong = changes(form, {{"clear.margin", "30"}}, "slate");
  CHECK(desk.post("/api/save-design", wrong).contains("fault"));
  wrong = changes(form, {{"text.font", "no-such-face"}}, "slate");
  CHECK(desk.post("/api/save-design", wrong).contains("fault"));
  CHECK(text_of(desk, "templates/slate.toml") == own);
}

TEST_CASE("a design is copied under a name of its own, and its copy goes with the undo") {
  AskedDesk desk;
  const Json copied = desk.post("/api/copy-design", {{"from", "slate"}, {"name", "gate-Mühle"}});
  REQUIRE_FALSE(copied.contains("fault"));
  CHECK(text_of(desk, "templates/gate-Mühle.toml") == text_of(desk, "templates/slate.toml"));
  CHECK(desk.get("/api/design", {{"name", "gate-Mühle"}})["file"] == "gate-Mühle.toml");
  CHECK(desk.post("/api/copy-design", {{"from", "slate"}, {"name", "gate-Mühle"}}).contains("fault"));
  CHECK(desk.post("/api/copy-design", {{"from", "slate"}, {"name", "asked"}}).contains("fault"));
  CHECK_FALSE(desk.post("/api/undo", {{"subject", copied["undo"]}}).contains("fault"));
  CHECK_FALSE(fs::exists(desk.shop() / "templates/gate-Mühle.toml"));
}

TEST_CASE("a design's name never leads out of the folder of templates") {
  AskedDesk desk;
  const auto files = [&] {
    return std::distance(fs::recursive_directory_iterator((desk.shop() / "shop.toml").parent_path()), {});
  };
  desk.get("/api/settings");
  const auto before = files();
  for (const std::string& name :
       {std::string("../shop"), std::string("/etc/passwd"), std::string(".."), std::string(), std::string("slate.toml"),
        std::string("a/b"), std::string("a\\b"), std::string("a b"), std::string("slate, face script"),
        std::string("a\0b", 3), std::string(200, 'n')}) {
    CHECK(desk.get("/api/design", {{"name", name}}).contains("fault"));
    for (const char* path : {"/api/try-design", "/api/save-design"})
      CHECK(desk.post(path, {{"name", name}, {"digest", ""}, {"text", "x = 1"}, {"words", ""}}).contains("fault"));
    CHECK(desk.post("/api/copy-design", {{"from", name}, {"name", "new"}}).contains("fault"));
    CHECK(desk.post("/api/copy-design", {{"from", "slate"}, {"name", name}}).contains("fault"));
  }
  CHECK(files() == before);
}

TEST_CASE("words of a file that nobody wrote by hand are refused unread") {
  AskedDesk desk;
  const Json form = desk.get("/api/settings");
  std::string dots = "a";
  for (int i = 0; i < 50'000; ++i) dots += ".a";
  for (const std::string& text :
       {dots + " = 1\n", std::string(words_limit + 1, '\n'), "x = " + std::string(60'000, '[')}) {
    CHECK(desk.post("/api/save-settings", {{"digest", form["digest"]}, {"text", text}}).contains("fault"));
    const Json design = desk.get("/api/design", {{"name", "slate"}});
    CHECK(desk.post("/api/try-design", {{"name", "slate"}, {"digest", design["digest"]}, {"text", text}, {"words", ""}})
              .contains("fault"));
  }
  CHECK(text_of(desk, "shop.toml") == form["text"]);
  desk.shop().write("templates/long.toml", std::string(words_limit + 1, '\n'));
  CHECK(desk.get("/api/design", {{"name", "long"}}).contains("fault"));
}

TEST_CASE("a piece is drawn while it is measured, put on the shelf, measured again, and each is taken back") {
  AskedDesk desk;
  const std::string own = text_of(desk, "blanks.csv");
  const Json form = desk.get("/api/measure", {{"name", ""}});
  CHECK(value_of(form, "piece.id").empty());
  const auto tried = [&](const std::vector<std::pair<std::string, std::string>>& fields) {
    return desk.post("/api/try-measure", changes(Json::object(), fields));
  };
  CHECK(tried({{"piece.id", ""}, {"piece.glass", ""}})["width"] == 60);  // before anything is typed
  CHECK(tried({{"piece.width", "5"}})["width"] == 5);
  const Json wide = tried({{"piece.width", "58 wide"}});
  CHECK(wide["at"] == "piece.width");
  CHECK(tried({{"piece.chips", "top 5-15 4"}})["picture"].get<std::string>().find("class=\"chip\"") !=
        std::string::npos);
  CHECK(tried({{"piece.chips", "top 5-"}})["at"] == "piece.chips");
  CHECK(tried({{"piece.corners", "cut 300"}})["at"] == "piece.corners");
  CHECK(tried({{"piece.keep_clear", "stamp 10 10"}})["at"] == "piece.keep_clear");
  CHECK(text_of(desk, "blanks.csv") == own);

  CHECK(desk.post("/api/save-measure", changes(Json::object(), {{"piece.width", "58"}}))
            .contains("fault"));  // it has no id
  CHECK(desk.post("/api/save-measure", changes(Json::object(), {{"piece.id", "S-1"}}))
            .contains("fault"));  // another has it
  const Json added = desk.post(
      "/api/save-measure",
      changes(Json::object(), {{"piece.id", "S-7"}, {"piece.width", "58"}, {"piece.note", "a \"flake\", small"}}));
  REQUIRE_FALSE(added.contains("fault"));
  const std::string with_it = text_of(desk, "blanks.csv");
  CHECK_THAT(with_it, Contains("S-7,58,") && Contains("a \"\"flake\"\", small"));
  CHECK(desk.get("/api/pieces")["pieces"].size() == 7);

  const Json again = desk.get("/api/measure", {{"name", "S-7"}});
  CHECK(value_of(again, "piece.width") == "58");
  CHECK(value_of(again, "piece.note") == "a \"flake\", small");
  CHECK(value_of(again, "piece.id") == "no such field");
  const Json changed =
      desk.post("/api/save-measure", changes(again, {{"piece.width", "57.5"}, {"piece.used", "by me"}}, "S-7"));
  REQUIRE_FALSE(changed.contains("fault"));
  std::string narrower = with_it;
  narrower.replace(narrower.find("S-7,58,"), 7, "S-7,57.5,");
  CHECK(text_of(desk, "blanks.csv") == narrower);
  CHECK_FALSE(desk.post("/api/undo", {{"subject", changed["undo"]}}).contains("fault"));
  CHECK(text_of(desk, "blanks.csv") == with_it);
  CHECK_FALSE(desk.post("/api/undo", {{"subject", added["undo"]}}).contains("fault"));
  CHECK(desk.get("/api/pieces")["pieces"].size() == 6);
  CHECK(desk.get("/api/measure", {{"name", "none"}}).contains("fault"));
}

TEST_CASE("a piece on which something was made is not measured again") {
  AskedDesk desk;
  desk.send("/api/intake", "monday.csv", "Order,Text,Quantity\n1001,Weir Lane,1\n");
  REQUIRE(desk.post("/api/spoil", {{"item", ""}, {"piece", "S-1"}, {"reason", "fell"}}).contains("account"));
  CHECK(desk.post("/api/save-measure", changes(Json::object(), {{"piece.width", "50"}}, "S-1")).contains("fault"));
  CHECK_FALSE(
      desk.post("/api/save-measure", changes(Json::object(), {{"piece.width", "50"}}, "S-2")).contains("fault"));
}

}  // namespace ordinatio::forms_test
