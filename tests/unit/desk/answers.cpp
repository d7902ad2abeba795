#include <catch2/catch.hpp>

#include "asked_desk.h"

namespace ordinatio::answers_test {
using Catch::Contains;
using desk_test::AskedDesk;
namespace fs = std::filesystem;

namespace {

void must(const Result<Account>& account) { REQUIRE(account.ok()); }

const std::string header = "Order,Text,Quantity\n";

}  // namespace

TEST_CASE("an export is looked at, taken in, and kept in the workshop's folder") {
  AskedDesk desk;
  const std::string rows = header + "1001,Weir Lane,2\n1002,Mill House,two\n";
  const Json seen = desk.send("/api/look", "monday.csv", rows);
  CHECK(seen["account"]["told"][0] == "monday.csv: 2 new items of 1 new order");
  CHECK(desk.get("/api/today")["waiting"].empty());

  const Json taken = desk.send("/api/intake", "monday.csv", rows);
  REQUIRE(taken["account"]["held"].size() == 1);
  CHECK_THAT(taken["account"]["held"][0]["fault"]["mend"].get<std::string>(), !Contains("ordinatio"));
  const Json today = desk.get("/api/today");
  REQUIRE(today["waiting"].size() == 2);
  CHECK(today["waiting"][0]["words"] == "Weir Lane");
  CHECK(today["rows"].size() == 1);
  CHECK(fs::exists(desk.shop() / "exports/monday.csv"));

  desk.send("/api/intake", "monday.csv", header + "1003,Ford End,1\n");  // another file of that name
  CHECK(fs::exists(desk.shop() / "exports/monday-2.csv"));
  CHECK(desk.get("/api/today")["waiting"].size() == 3);
  CHECK(desk.post("/api/let-go", {{"row", "row-1"}}).contains("account"));
  CHECK(desk.get("/api/today")["rows"].empty());
  CHECK(desk.post("/api/undo", {{"subject", "row-1"}}).contains("account"));
}

TEST_CASE("a file's name never leads out of the folder of exports") {
  AskedDesk desk;
  desk.send("/api/intake", "../../outside.csv", header + "1001,Weir Lane,1\n");
  CHECK(fs::exists(desk.shop() / "exports/outside.csv"));
  CHECK_FALSE(fs::exists((desk.shop() / "shop.toml").parent_path().parent_path() / "outside.csv"));
  for (const std::string& name : {std::string(), std::string(".."), std::string("a/"), std::string(300, 'n')})
    CHECK(desk.send("/api/intake", name, header + "1001,Weir Lane,1\n").contains("fault"));
}

TEST_CASE("words that are typed come out as the day would set them on that piece") {
  AskedDesk desk;
  must(desk.shop().intake(header + "1001,Weir Lane,1\n"));
  const Json before = desk.post("/api/fit", {{"number", "1001-1"}, {"words", "Weir Lane"}, {"piece", "S-1"}});
  const Json longer =
      desk.post("/api/fit", {{"number", "1001-1"}, {"words", "Weir Lane and the Old Ford"}, {"piece", "S-1"}});
  CHECK(longer["cap_height"].get<double>() < before["cap_height"].get<double>());
  CHECK(before["piece"] == "S-1");
  CHECK_THAT(before["picture"].get<std::string>(), Contains("class=\"piece\"") && Contains("<g class=\"engrave\">"));

  must(desk.shop().correct(CorrectionOptions::What::pin, "1001-1", "S-1"));
  REQUIRE(desk.shop().day().ok());
  const Result<std::string> bytes = read_file(desk.shop() / "out/sheets/sheet-001.json");
  REQUIRE(bytes.ok());
  const Result<Manifest> manifest = read_manifest(*bytes, "");
  REQUIRE(manifest.ok());
  CHECK(manifest->items.front().cap_height == Approx(before["cap_height"].get<double>()).epsilon(1e-4));
}

TEST_CASE("what cannot be set is answered with the reason, and with what can be seen of it") {
  AskedDesk desk;
  CHECK(desk.post("/api/fit", {{"words", std::string(4'000, 'w')}}).contains("fault"));
  CHECK_THAT(desk.post("/api/fit", {{"words", "\xF0\x9F\x98\x80"}})["fault"]["what"].get<std::string>(),
             Contains("U+1F600"));
  CHECK(desk.post("/api/fit", {{"words", "Weir"}, {"piece", "S-99"}})["fault"]["what"] == "there is no piece S-99");
  CHECK(desk.post("/api/fit", {{"words", "Weir"}, {"design", "../slate"}}).contains("fault"));
}

TEST_CASE("an item's page has its original, its story and the pieces it may have") {
  AskedDesk desk;
  must(desk.shop().intake(header + "1001,Weir Lane,2\n"));
  CHECK(desk.post("/api/correct", {{"item", "1001-1"}, {"what", "words"}, {"value", "Weir Side"}}).contains("account"));
  const Json page = desk.get("/api/item", {{"number", "1001-1"}});
  CHECK(page["item"]["words"] == "Weir Side");
  CHECK(page["exported"] == "Weir Lane");
  CHECK(page["neighbours"].size() == 1);
  CHECK(page["pieces"].size() == 6);
  CHECK(page["story"].size() >= 2);
  CHECK(desk.post("/api/undo", {{"subject", "1001-1"}}).contains("account"));
  CHECK(desk.get("/api/item", {{"number", "1001-1"}})["item"]["words"] == "Weir Lane");
  CHECK(desk.get("/api/item", {{"number", "1001-9"}}).contains("fault"));
  CHECK(desk.get("/api/search", {{"words", "wEiR"}})["items"].size() == 2);
}

TEST_CASE("the day's sheets are made aside, and booked from the desk as by the commands") {
  AskedDesk desk;
  must(desk.shop().intake(header + "1001,Weir Lane,3\n"));
  CHECK(desk.post("/api/day", {{"date", "2026-11-25"}})["kind"] == "day");
  CHECK(desk.worked()["account"]["items_set"] == 3);
  const Json sheet = desk.get("/api/sheet", {{"name", "sheet-001"}});
  REQUIRE(sheet["places"].size() == 3);
  CHECK_THAT(sheet["picture"].get<std::string>(), Contains("data-pocket=\"3\"") && Contains("class=\"registration\""));
  CHECK(desk.post("/api/engraved", {{"sheet", "sheet-001"}, {"pockets", "1-2"}}).contains("account"));
  CHECK(desk.post("/api/spoil", {{"item", "1001-2"}, {"piece", ""}, {"reason", "it broke"}}).contains("account"));
  const Json after = desk.get("/api/sheet", {{"name", "sheet-001"}});
  CHECK(after["places"][0]["state"] == "engraved");
  CHECK(after["places"][1]["state"] == "spoiled");
  CHECK(desk.shop().check()->held.empty());
  CHECK(desk.get("/api/sheets")["sheets"][0]["engraved"] == 1);
  CHECK(desk.get("/api/stock").contains("account"));
  CHECK(desk.get("/api/pieces")["pieces"].size() == 6);
}

TEST_CASE("work that is stopped leaves nothing half done") {
  AskedDesk desk;
  desk.shop().measure(60);
  must(desk.shop().intake(header + "1001,Weir Lane and the Old Ford,50\n"));
  desk.post("/api/day", {{"date", "2026-11-25"}});
  CHECK(desk.post("/api/proofs", {{"items", Json::array()}, {"date", ""}}).contains("fault"));  // one thing at a time
  desk.post("/api/stop-work", Json::object());
  const Json work = desk.worked();
  REQUIRE(work.contains("fault"));
  CHECK(work["fault"]["what"] == "the work was stopped");
  CHECK(work["stopped"] == true);
  CHECK(desk.get("/api/sheets")["sheets"].empty());
  CHECK(desk.shop().check()->held.empty());
  for (const auto& entry : fs::recursive_directory_iterator((desk.shop() / "shop.toml").parent_path()))
    CHECK_THAT(entry.path().string(), !Contains("unfinished") && !Contains(".svg"));
  desk.post("/api/day", {{"date", "2026-11-25"}});
  CHECK(desk.worked()["account"]["items_set"] == 50);
}

TEST_CASE("a press that is sent twice is done once") {
  AskedDesk desk;
  must(desk.shop().intake(header + "1001,Weir Lane,1\n"));
  REQUIRE(desk.shop().day().ok());
  must(desk.shop().engraved("sheet-001"));
  const Json remake{{"item", "1001-1"}, {"piece", ""}, {"reason", "a misprint"}, {"later", false}};
  const Json once = desk.post("/api/remake", remake, "press-1");
  REQUIRE(once.contains("account"));
  CHECK(desk.post("/api/remake", remake, "press-1") == once);
  CHECK(desk.get("/api/sheets")["sheets"].size() == 2);
}

TEST_CASE("only files that the ledger knows are given out") {
  AskedDesk desk;
  must(desk.shop().intake(header + "1001,Weir Lane,1\n"));
  REQUIRE(desk.shop().day().ok());
  const auto status = [&](const std::string& sheet, const std::string& name) {
    Request request;
    request.path = "/file";
    request.query = {{"sheet", sheet}, {"name", name}};
    return desk.raw(request).status;
  };
  CHECK(status("sheet-001", "sheet-001.svg") == 200);
  for (const char* name :
       {"../../shop.toml", "/etc/passwd", "sheet-001.svg/../../../shop.toml", "", "..", "workshop.ledger"})
    CHECK(status("sheet-001", name) == 404);
  CHECK(status("../sheet-001", "sheet-001.svg") == 404);
}

TEST_CASE("what is to be typed on a terminal is left out of what the page says") {
  CHECK(without_commands("Let it go: ordinatio release 1042-2/K") == "Let it go");
  CHECK(without_commands("Mend it. Then let the row go: ordinatio let-go row-1") == "Mend it. Then let the row go");
  CHECK(without_commands("row-1 is let go: \"a\". ordinatio undo row-1 takes that back") == "row-1 is let go: \"a\"");
  CHECK(without_commands("ordinatio list shows it. Look there") == "Look there");
  CHECK(without_commands("Write the text") == "Write the text");
}

TEST_CASE("a piece is seen where its words cannot be set") {
  AskedDesk desk;
  const Json held = desk.post("/api/fit", {{"words", "\xF0\x9F\x98\x80"}, {"piece", "S-1"}});
  CHECK(held.contains("fault"));
  CHECK_THAT(held["picture"].get<std::string>(), Contains("class=\"piece\""));
}

TEST_CASE("no path leads to anything but the page's own files") {
  AskedDesk desk(false);
  const auto status = [&](const std::string& path) {
    Request request;
    request.path = path;
    return desk.raw(request).status;
  };
  CHECK(status("/") == 200);
  CHECK(status("/desk.js") == 200);
  for (const char* path :
       {"/../shop.toml", "/shop.toml", "//etc/passwd", "/desk.js/", "/index.html/..", "/page/desk.js", "/api/none"})
    CHECK(status(path) == 404);
}

TEST_CASE("a request that is not what shapes.json says costs a fault") {
  AskedDesk desk(false);
  for (const char* body :
       {"", "[]", "{", "nul", "{\"words\":{\"a\":1}}", "{\"items\":[[1]]}", "\"words\"", "{\"items\":[1]}"}) {
    Request request;
    request.method = Method::post;
    request.path = "/api/fit";
    request.body = body;
    INFO(body);
    CHECK(desk.raw(request).status == 422);
  }
}

TEST_CASE("every route of shapes.json is answered, and there is no other") {
  AskedDesk desk(false);
  const ShapeCheck check;
  for (const auto& [route, shape] : check.shapes().items()) {
    if (!route.starts_with("GET ") && !route.starts_with("POST ")) continue;
    Request request;
    request.method = route.starts_with("GET ") ? Method::get : Method::post;
    const std::string path = route.substr(route.find(' ') + 1);
    request.path = path.substr(0, path.find('?'));
    INFO(route);
    const Response response = desk.raw(request);
    CHECK((response.status != 404 || request.path == "/file" || request.path == "/photo"));
  }
}

}  // namespace ordinatio::answers_test
