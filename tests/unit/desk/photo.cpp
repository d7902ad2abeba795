// A piece from its photograph, as the desk answers.
#include <catch2/catch.hpp>

#include "../photo/known_piece.h"
#include "asked_desk.h"

namespace ordinatio::desk_photo_test {
using Catch::Contains;
using desk_test::AskedDesk;

namespace {

const std::string& photograph() {
  static const std::string jpeg = photograph_of_known_piece();
  return jpeg;
}

Response got(AskedDesk& desk, const std::string& path, const std::map<std::string, std::string>& query) {
  Request request;
  request.path = path;
  request.query = query;
  return desk.raw(request);
}

Json draft_of(const Json& seen, const std::string& id) {
  Json spots = Json::array();
  for (const Json& spot : seen["spots"]) {
    if (spot.is_string()) {
      spots.push_back(spot);
      continue;
    }
    std::string text = spot["kind"];
    for (const char* number : {"x", "y", "w", "h", "m"}) text += " " + spot[number].dump();
    spots.push_back(text);
  }
  return {{"id", id}, {"material", "slate"}, {"thickness", "6"}, {"glass", ""}, {"note", ""}, {"spots", spots}};
}

std::string rows_of(AskedDesk& desk) { return *read_file(desk.shop() / "blanks.csv"); }

}  // namespace

TEST_CASE("a photograph becomes a piece on the shelf, and is taken off it again") {
  AskedDesk desk;
  const std::string before = rows_of(desk);
  const Json seen = desk.send("/api/photo", "IMG_1.jpg", photograph());
  REQUIRE(seen["spots"].size() == known_piece.size());
  CHECK(seen["doubt"] == "");
  CHECK(seen["words"]["id"] == "S-7");
  const Response picture = got(desk, "/photo", {{"photo", seen["photo"]}});
  CHECK(picture.type == "image/jpeg");
  CHECK(picture.body.starts_with("\xFF\xD8"));

  Json draft = draft_of(seen, "");
  const Json tried = desk.post("/api/try-piece", draft);
  CHECK_THAT(tried["picture"].get<std::string>(), Contains("class=\"piece\""));
  CHECK(tried["width"].get<double>() == Approx(150).margin(0.5));
  CHECK(tried["height"].get<double>() == Approx(100).margin(0.5));
  CHECK(rows_of(desk) == before);

  draft["id"] = "S-7";
  draft["spots"].push_back("chip 60 -3 20 8");
  draft["spots"].push_back("round 20 20 8 8 2 nail hole");
  const Json added = desk.post("/api/add-piece", draft);
  REQUIRE(added.contains("account"));
  CHECK(added["undo"] == "piece S-7");
  CHECK_THAT(rows_of(desk),
             Contains("S-7") && Contains("bottom 60-80 5") && Contains("nail hole round 24 24 4 margin 2"));
  CHECK(desk.get("/api/pieces")["pieces"].size() == 7);
  CHECK_THAT(desk.post("/api/add-piece", draft_of(seen, "S-7"))["fault"]["what"].get<std::string>(),
             Contains("is there already"));
  CHECK(desk.post("/api/undo", {{"subject", added["undo"]}}).contains("account"));
  CHECK(desk.get("/api/pieces")["pieces"].size() == 6);
}

TEST_CASE("what is no photograph to measure by is refused in words, and the desk goes on") {
  AskedDesk desk;
  const std::string& jpeg = photograph();
  // ITU-T T.81: SOI, then a baseline frame of 65,500 × 65,500 pixels.
  const std::string huge("\xFF\xD8\xFF\xC0\x00\x11\x08\xFF\xDC\xFF\xDC\x03\x01\x22\x00\x02\x11\x01\x03\x11\x01\xFF\xD9",
                         23);
  const std::pair<std::string, std::string> cases[]{
      {"nothing", ""},
      {"text", "id,width\nS-1,20\n"},
      {"cut off", jpeg.substr(0, jpeg.size() / 2)},
      {"its head alone", jpeg.substr(0, 20)},
      {"huge", huge},
      {"a script", "<svg xmlns='http://www.w3.org/2000/svg'/>"},
      {"no card", jpeg_of(Photo{400, 300, std::vector<std::uint8_t>(360'000, 90)})},
      {"a PNG's sign", "\x89PNG\r\n\x1A\n"},
      {"zeros", std::string(5'000, '\0')}};
  for (const auto& [name, bytes] : cases) {
    INFO(name);
    const Json answer = desk.send("/api/photo", name, bytes);
    REQUIRE(answer.contains("fault"));
    CHECK(answer["fault"]["where"] == name);
    CHECK(!answer["fault"]["what"].get<std::string>().empty());
    CHECK(!answer["fault"]["why"].get<std::string>().empty());
    CHECK(!answer["fault"]["mend"].get<std::string>().empty());
  }
  CHECK(desk.get("/api/pieces")["pieces"].size() == 6);
}

TEST_CASE("the desk keeps the latest photographs alone, and gives out no other") {
  AskedDesk desk;
  std::vector<std::string> names;
  for (int i = 0; i < 6; ++i) names.push_back(desk.send("/api/photo", "a.jpg", photograph())["photo"]);
  CHECK(got(desk, "/photo", {{"photo", names.front()}}).status == 404);
  CHECK(got(desk, "/photo", {{"photo", names.back()}}).status == 200);
  for (const char* name : {"", "../shop.toml", "0", "99", "shop.toml"})
    CHECK(got(desk, "/photo", {{"photo", name}}).status == 404);
  Request upload{Method::post, "/api/photo", {}, {}, ""};
  CHECK(body_limit_of(upload) == photo_limit);
  for (const auto& entry : std::filesystem::recursive_directory_iterator((desk.shop() / "shop.toml").parent_path()))
    CHECK(entry.path().extension() != ".jpg");
}

TEST_CASE("the card to print is given out on either paper") {
  AskedDesk desk;
  for (const char* paper : {"a4", "letter", ""}) {
    const Response card = got(desk, "/card", {{"paper", paper}});
    CHECK(card.type == "application/pdf");
    CHECK(card.body.starts_with("%PDF-"));
  }
}

TEST_CASE("a drawing that is no piece is refused with what is wrong") {
  AskedDesk desk;
  const auto refused = [&](const Json& spots) {
    const Json draft = draft_of({{"spots", spots}}, "S-9");
    const Json tried = desk.post("/api/try-piece", draft), added = desk.post("/api/add-piece", draft);
    REQUIRE((tried.contains("fault") && added.contains("fault")));
    return tried["fault"]["what"].get<std::string>();
  };
  const std::string before = rows_of(desk);
  CHECK_THAT(refused({"corner 0 0", "corner 9 9"}), Contains("fewer than three corners"));
  CHECK_THAT(refused({"corner 0 0", "corner 50 50", "corner 50 0", "corner 0 60"}), Contains("crosses itself"));
  CHECK_THAT(refused({"corner 0 0", "corner 50 0", "corner 50 40", "corner nan 40"}), Contains("no place on a piece"));
  CHECK_THAT(refused({"corner 0 0", "corner 50 0", "corner 50 40", "corner 0 40", "area 80 10 9 9 0 stamp"}),
             Contains("beside the piece"));
  CHECK_THAT(refused({"corner 0 0", "corner 50 0", "corner 50 40", "corner 0 40", "chip 20 -1 0 5"}),
             Contains("no length"));
  CHECK(rows_of(desk) == before);
}

}  // namespace ordinatio::desk_photo_test
