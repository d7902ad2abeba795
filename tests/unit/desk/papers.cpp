#include <catch2/catch.hpp>

#include "asked_desk.h"
#include "desk/page_texts.h"

namespace ordinatio::papers_test {
using Catch::Contains;
using desk_test::AskedDesk;

namespace {

void must(const Result<Account>& account) { REQUIRE(account.ok()); }

int status_of(AskedDesk& desk, const std::string& folder, const std::string& name) {
  Request request;
  request.path = "/file";
  request.query = {{"folder", folder}, {"name", name}};
  return desk.raw(request).status;
}

}  // namespace

TEST_CASE("the board is seen as it would be cut, and its files are made as by the command") {
  AskedDesk desk;
  const Json board = desk.get("/api/board", {{"design", ""}});
  CHECK_THAT(board["picture"].get<std::string>(), Contains("<g class=\"cut\">") && Contains("<g class=\"engrave\">"));
  CHECK(board["pockets"] > 1);
  CHECK(board["files"].empty());
  CHECK(desk.post("/api/board", {{"design", ""}})["account"]["sheets"] == 1);
  const Json files = desk.get("/api/board", {{"design", ""}})["files"];
  REQUIRE(!files.empty());
  for (const Json& file : files) CHECK(status_of(desk, "jig", file) == 200);
  CHECK(desk.get("/api/board", {{"design", "none"}}).contains("fault"));
}

TEST_CASE("papers for the parcels are made of what is engraved, and given out") {
  AskedDesk desk;
  must(desk.shop().intake("Order,Text,Quantity\n1001,Ada,2\n"));
  must(desk.shop().day());
  CHECK(desk.post("/api/packing", {{"labels", false}})["account"]["files"].empty());
  must(desk.shop().engraved("sheet-001"));
  for (const bool labels : {false, true}) {
    const std::string name = labels ? "labels.pdf" : "packing.pdf";
    CHECK(status_of(desk, "packing", name) == 404);
    CHECK(desk.post("/api/packing", {{"labels", labels}})["account"]["files"].size() == 1);
    CHECK(status_of(desk, "packing", name) == 200);
  }
  CHECK(desk.get("/api/today")["to_pack"].size() == 2);
}

TEST_CASE("files that commands made are given out by their names alone") {
  AskedDesk desk;
  REQUIRE(desk.post("/api/board", {{"design", ""}}).contains("account"));
  for (const char* name : {"../../shop.toml", "..", "", ".", "board.svg/..", "/etc/passwd"})
    CHECK(status_of(desk, "jig", name) == 404);
  for (const char* folder : {"..", "../..", "out", "/etc", "jig/..", "exports"}) {
    CHECK(status_of(desk, folder, "shop.toml") == 404);
    CHECK(status_of(desk, folder, "passwd") == 404);
  }
}

TEST_CASE("a link in a folder of files leads nowhere") {
  AskedDesk desk;
  REQUIRE(desk.post("/api/board", {{"design", ""}}).contains("account"));
  std::filesystem::create_symlink(desk.shop() / "shop.toml", desk.shop() / "out" / "jig" / "aside.svg");
  CHECK(status_of(desk, "jig", "aside.svg") == 404);
}

TEST_CASE("a stand's underside is seen before it is made") {
  AskedDesk desk;
  const Json stand = desk.get("/api/stand", {{"date", "2026-11-25"}});
  CHECK_THAT(stand["picture"].get<std::string>(), Contains("class=\"ink\""));
  CHECK(stand["width"] == 60);
  desk.shop().write("templates/stand.toml", "oops");
  CHECK(desk.get("/api/stand", {{"date", "2026-11-25"}}).contains("fault"));
}

TEST_CASE("stock is seen before the first order") {
  AskedDesk desk;
  const Json stock = desk.get("/api/stock");
  CHECK(stock["account"]["told"].size() == 1);
  const std::string picture = stock["picture"];
  std::size_t pieces = 0;
  for (std::size_t at = picture.find("class=\"piece\""); at != picture.npos;
       at = picture.find("class=\"piece\"", at + 1))
    ++pieces;
  CHECK(pieces == 6);
}

TEST_CASE("panes are planned aside, and their plans are seen") {
  AskedDesk desk;
  const std::map<std::string, std::string> query{{"kerf", "0"}, {"name", "panes.csv"}, {"piece", "100x150"}};
  CHECK(desk.get("/api/panes")["panes"].empty());
  desk.send("/api/panes", query, "id,width,height\nP1,310,320\nP2,90,90\n");
  const Json work = desk.worked();
  CHECK(work["account"]["held"].size() == 1);  // nothing goes into P2
  const Json seen = desk.get("/api/panes");
  REQUIRE(seen["panes"].size() == 1);
  CHECK(seen["panes"][0]["pieces"] == 6);
  CHECK_THAT(seen["panes"][0]["picture"].get<std::string>(), Contains(">P1-6</text>"));
  CHECK(seen["files"] == Json::array({"blanks.csv", "cutting.pdf"}));
  CHECK(status_of(desk, "panes", "cutting.pdf") == 200);
  desk.send("/api/panes", query, "no table");
  CHECK(desk.worked().contains("fault"));
}

TEST_CASE("faces are seen with the words that one types") {
  AskedDesk desk;
  const Json seen = desk.get("/api/faces", {{"words", "Weir & Leat"}});
  REQUIRE(seen["faces"].size() > 3);
  for (const Json& face : seen["faces"]) {
    INFO(face["name"]);
    CHECK(face["picture"].get<std::string>().empty() != face["cannot"].get<std::string>().empty());
  }
  const Json none = desk.get("/api/faces", {{"words", "\xE6\xB0\xB4"}});  // no Latin face writes water in Han
  CHECK(none["faces"][0]["cannot"] != "");
  CHECK(desk.get("/api/faces", {{"words", "\xF0\x9F\x98\x80"}}).contains("fault"));
}

TEST_CASE("a proof has a picture to send, and its yes or no is booked") {
  AskedDesk desk;
  must(desk.shop().intake("Order,Text,Quantity,Design\n1001,Weir Lane,1,asked\n1002,Old Ford,1,asked\n"));
  CHECK(desk.get("/api/proofs")["unseen"].size() == 2);
  desk.post("/api/proofs", {{"items", {"1001-1", "1002-1"}}, {"date", "2026-11-25"}});
  CHECK(desk.worked()["account"]["items_set"] == 2);
  const Json asked = desk.get("/api/proofs")["asked"];
  REQUIRE(asked.size() == 2);
  CHECK(asked[0]["file"] == "proof-1001-1.png");
  CHECK(status_of(desk, "proofs", "proof-1001-1.png") == 200);
  CHECK(status_of(desk, "proofs", "proofs.pdf") == 200);
  REQUIRE(desk.post("/api/approve", {{"items", {"1001-1"}}}).contains("account"));
  REQUIRE(desk.post("/api/correct", {{"item", "1002-1"}, {"what", "hold"}, {"value", "no: Olde Ford"}})
              .contains("account"));
  CHECK(desk.get("/api/proofs")["asked"].empty());
  CHECK(desk.get("/api/item", {{"number", "1001-1"}})["item"]["state"] == "approved");
  CHECK(desk.get("/api/today")["held"][0]["reason"] == "no: Olde Ford");
}

TEST_CASE("a sheet's loading sheet is made when it is asked for, and given out; no file is read by a path") {
  AskedDesk desk;
  desk.shop().measure(3);
  must(desk.shop().intake("Order,Text,Quantity\n1001,Weir Lane,1\n"));
  must(desk.shop().day());
  CHECK(status_of(desk, "loading", "sheet-001-loading.pdf") == 404);
  const Json made = desk.post("/api/loading", {{"sheet", "sheet-001"}});
  REQUIRE(made["account"]["files"].size() == 1);
  CHECK(made["account"]["files"][0] == "sheet-001-loading.pdf");
  CHECK(status_of(desk, "loading", "sheet-001-loading.pdf") == 200);
  std::filesystem::copy_file(desk.shop() / "out/sheets/sheet-001.json", desk.shop() / "copy.json");
  for (const std::string& other : {std::string(), std::string("sheet-009"), (desk.shop() / "copy.json").string()})
    CHECK(desk.post("/api/loading", {{"sheet", other}}).contains("fault"));
}

TEST_CASE("the page's documents, styles and modules are under 100 KB together") {
  std::size_t bytes = 0;
  for (const PageFile& file : page_files()) {
    if (!file.name.ends_with(".json")) bytes += file.text.size();
  }
  CHECK(bytes < 100'000);
  CHECK(bytes > 50'000);
}

TEST_CASE("no module has a text of several lines, since the spaces that lines begin with are not sent") {
  for (const PageFile& file : page_files()) {
    if (!file.name.ends_with(".js")) continue;
    for (std::string_view rest = file.text; !rest.empty();) {
      const std::string_view line = rest.substr(0, rest.find('\n'));
      CHECK_FALSE(line.starts_with(' '));
      INFO(file.name << ": " << line);
      CHECK(std::ranges::count(line, '`') % 2 == 0);
      rest.remove_prefix(std::min(line.size() + 1, rest.size()));
    }
  }
}

}  // namespace ordinatio::papers_test
