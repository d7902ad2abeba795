// An item of a sheet laid otherwise from the desk.
#include <catch2/catch.hpp>

#include "asked_desk.h"

namespace ordinatio::moves_test {
using Catch::Contains;
using desk_test::AskedDesk;

namespace {

const std::string header = "Order,Text,Quantity,Design\n";

int pocket_of(AskedDesk& desk, const std::string& item) {
  return desk.get("/api/item", {{"number", item}})["item"]["pocket"].get<int>();
}

}  // namespace

TEST_CASE("a sheet says where its items may go, and they go there and back") {
  AskedDesk desk;
  REQUIRE(desk.shop().intake(header + "1001,Weir Lane,1,\n1002,Old Ford,1,\n1003,Mill,1,\n").ok());
  REQUIRE(desk.shop().day().ok());
  const auto sheet = [&] { return desk.get("/api/sheet", {{"name", "sheet-001"}}); };
  CHECK(sheet()["pockets"] == Json({1, 2, 3, 4, 5, 6}));
  CHECK_THAT(sheet()["picture"].get<std::string>(),
             Contains("<g class=\"pocket\" data-pocket=\"5\"><path class=\"hole\""));

  const Json moved = desk.post("/api/move", {{"item", "1001-1"}, {"pocket", 5}});
  CHECK_THAT(moved["account"]["warnings"].dump(), Contains("into pocket 5 of sheet-001"));
  CHECK(moved["undo"] == "1001-1");
  CHECK(pocket_of(desk, "1001-1") == 5);
  CHECK(desk.post("/api/undo", {{"subject", "1001-1"}}).contains("account"));
  CHECK(pocket_of(desk, "1001-1") == 1);

  REQUIRE(desk.shop().engraved("sheet-001", "2").ok());
  CHECK(sheet()["pockets"] == Json({1, 3, 4, 5, 6}));
  for (const Json& pocket : {Json(2), Json(7), Json(0), Json(-1), Json(1.5e300), Json(1)}) {
    INFO(pocket.dump());
    CHECK(desk.post("/api/move", {{"item", "1001-1"}, {"pocket", pocket}}).contains("fault"));
  }
  CHECK(desk.post("/api/correct", {{"item", "1003-1"}, {"what", "take-off"}, {"value", ""}}).contains("account"));
  CHECK(desk.get("/api/item", {{"number", "1003-1"}})["item"]["state"] == "received");
  CHECK(desk.shop().check()->held.empty());
}

TEST_CASE("pieces are offered that are free and suit the item's place; on these it is set") {
  AskedDesk desk;
  desk.shop().write(
      "blanks.csv",
      "id,width,height,material,thickness\nS-1,,,slate,5\nS-2,,,slate,5\nS-3,58,,slate,5.5\nS-4,,,copper,5\n"
      "S-5,,,slate,9\nS-6,90,80,slate,5\nS-7,30,20,slate,5\n");
  REQUIRE(desk.shop().intake(header + "1001,Weir Lane,1,\n1002,Old Ford,1,\n").ok());
  for (const char* item : {"1", "2"}) {
    const std::string number = std::string("100") + item + "-1";
    REQUIRE(desk.shop().correct(CorrectionOptions::What::pin, number, std::string("S-") + item).ok());
  }
  REQUIRE(desk.shop().day().ok());
  CHECK(desk.get("/api/suiting", {{"item", "1001-1"}})["pieces"] == Json({"S-3"}));
  const Json moved = desk.post("/api/move", {{"item", "1001-1"}, {"piece", "S-3"}});
  CHECK(moved["undo"] == "1001-1");
  CHECK(desk.get("/api/item", {{"number", "1001-1"}})["item"]["piece"] == "S-3");
  CHECK(desk.get("/api/suiting", {{"item", "1001-1"}})["pieces"] == Json({"S-1"}));
  CHECK(desk.post("/api/move", {{"item", "1001-1"}, {"piece", "S-4"}}).contains("fault"));
  CHECK(desk.post("/api/move", {{"item", "1001-1"}}).contains("fault"));
  REQUIRE(desk.shop().engraved("sheet-001").ok());
  CHECK(desk.get("/api/suiting", {{"item", "1001-1"}})["pieces"].empty());
  CHECK(desk.get("/api/suiting", {{"item", "1001-9"}}).contains("fault"));
}

}  // namespace ordinatio::moves_test
