#include <catch2/catch.hpp>

#include "../bookkeeping/ledger_shop.h"
#include "desk/desk.h"
#include "desk/routes.h"
#include "shape_check.h"

namespace ordinatio::start_test {
namespace fs = std::filesystem;

namespace {

struct Place {
  fs::path path = fs::temp_directory_path() / ("ordinatio-start-" + std::to_string(::getpid()));
  Place() { fs::remove_all(path); }
  ~Place() { fs::remove_all(path); }
};

const auto noon = [] { return std::string("2026-11-25T12:00:00Z"); };

Json measures() {
  return {{"name", "Quernby \"Old\" Mill"},
          {"bed_width", 600},
          {"bed_height", 400},
          {"piece_width", 148.5},
          {"piece_height", 210},
          {"corner_radius", 0},
          {"material", "slate"}};
}

}  // namespace

TEST_CASE("an empty place becomes a workshop with the measures that were given, and keeps a ledger") {
  const Place place;
  WorkshopDesk desk(place.path, noon, "1.2.3");
  Router router(desk, "key");
  Request request;
  request.path = "/api/shop";
  CHECK(Json::parse(router.answer(request).body)["is_new"] == true);

  request = {Method::post, "/api/new", {}, {}, measures().dump()};
  REQUIRE(router.answer(request).status == 200);
  const Result<Shop> shop = read_shop(place.path);
  REQUIRE(shop.ok());
  CHECK(shop->name == "Quernby \"Old\" Mill");
  CHECK(shop->ledger == "workshop.ledger");
  CHECK(shop->default_design == "plaque-portrait");
  CHECK(shop->plan.machine.width == 600);
  const Result<LaidDesign> design = read_design(place.path / "templates/plaque-portrait.toml");
  REQUIRE(design.ok());
  CHECK(design->width == 148.5);
  CHECK(design->material == "slate");
  CHECK(router.answer(request).status == 422);  // there is one now

  request = {Method::get, "/api/shop", {}, {}, ""};
  CHECK(Json::parse(router.answer(request).body)["ledger"] == true);
}

TEST_CASE("an export that nobody told of is guessed, tried and kept, and what a person wrote into shop.toml stays") {
  const Place place;
  WorkshopDesk desk(place.path, noon, "1.2.3");
  Router router(desk, "key");
  REQUIRE(router.answer({Method::post, "/api/new", {}, {}, measures().dump()}).status == 200);
  const std::string mine = "# my own remark\n" + *read_file(place.path / "shop.toml");
  REQUIRE_FALSE(write_file(place.path / "shop.toml", mine));

  const ShapeCheck check;
  const auto answered = [&](const std::string& route, const Request& request) {
    const Response response = router.answer(request);
    Json answer = Json::parse(response.body);
    INFO(response.body);
    CHECK(check.difference(route, answer) == "");
    return answer;
  };
  const std::string bytes =
      "Number;When;Cell;How many\n2601;Monday;Words: Weir Lane | Finish: oil;1\n2602;Monday;Words: Mill House | "
      "Finish: wax;2\n";
  const Json guess =
      answered("POST /api/columns?name", {Method::post, "/api/columns", {{"name", "fair.csv"}}, {}, bytes});
  CHECK(guess["columns"]["text"] == "Cell");
  CHECK(guess["columns"]["order"] == "Number");
  CHECK(guess["labels"][0]["meaning"] == "words");
  CHECK(guess["rows"].size() == 2);

  const Json ask{{"file", guess["file"]},     {"order", "Number"}, {"text", "Cell"},
                 {"quantity", "How many"},    {"design", ""},      {"label_words", {"Words"}},
                 {"label_others", {"Finish"}}};
  const Json tried = answered("POST /api/try-columns", {Method::post, "/api/try-columns", {}, {}, ask.dump()});
  REQUIRE(tried["trials"].size() == 2);
  CHECK(tried["trials"][1]["words"] == "Mill House");
  CHECK(tried["trials"][1]["picture"].get<std::string>().starts_with("<svg"));
  CHECK(*read_file(place.path / "shop.toml") == mine);  // only tried

  answered("POST /api/keep-columns", {Method::post, "/api/keep-columns", {}, {}, ask.dump()});
  const std::string kept = *read_file(place.path / "shop.toml");
  CHECK(kept.starts_with("# my own remark\n"));
  CHECK(kept.find("\nquantity = \"How many\"") != std::string::npos);
  const Json taken =
      answered("POST /api/intake?name", {Method::post, "/api/intake", {{"name", "fair.csv"}}, {}, bytes});
  CHECK(taken["account"]["told"][0] == "fair.csv: 3 new items of 2 new orders");
}

TEST_CASE("a workshop is not made of measures that are none") {
  const Place place;
  WorkshopDesk desk(place.path, noon, "1.2.3");
  Router router(desk, "key");
  for (const auto& [name, value] : std::vector<std::pair<const char*, Json>>{{"bed_width", "wide"},
                                                                             {"bed_width", -1},
                                                                             {"bed_height", 1e9},
                                                                             {"piece_width", 0},
                                                                             {"corner_radius", -0.5}}) {
    Json ask = measures();
    ask[name] = value;
    CHECK(router.answer({Method::post, "/api/new", {}, {}, ask.dump()}).status == 422);
    CHECK_FALSE(fs::exists(place.path / "shop.toml"));
  }
}

TEST_CASE("the desk opens on a workshop or an empty place, and on nothing else") {
  const Place place;
  CHECK(Desk::open({place.path, 0, "1.2.3", noon}).ok());
  fs::create_directories(place.path);
  CHECK(Desk::open({place.path, 0, "1.2.3", noon}).ok());
  std::ofstream(place.path / "letters.txt") << "Dear miller";
  const auto refused = Desk::open({place.path, 0, "1.2.3", noon});
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.fault().what == "there is no workshop");
}

}  // namespace ordinatio::start_test
