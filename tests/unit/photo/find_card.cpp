// The card's marks in photos of known cameras.
#include <catch2/catch.hpp>
#include <cmath>

#include "scene.h"

namespace ordinatio::find_card_test {

namespace {

CardView found(const Scene& scene) {
  const auto view = find_card(render(scene));
  if (!view.ok()) FAIL(describe(view.fault()));
  return *view;
}

/// How far the places are, in mm on the card, where marks were found and where they are.
double worst_mark(const Scene& scene, const CardView& view) {
  double worst = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto place = scene.camera.seen_at(view.marks[i]);
    REQUIRE(place);
    worst = std::max(worst, length(*place - mark_places[i]));
  }
  return worst;
}

std::string why(const Scene& scene) {
  const auto view = find_card(render(scene));
  REQUIRE_FALSE(view.ok());
  CHECK_FALSE(view.fault().mend.empty());
  return view.fault().why;
}

}  // namespace

TEST_CASE("the marks are found to a twenty-fifth of a millimetre at any tilt and turn") {
  std::vector<Scene> scenes;
  for (const double tilt : {0.0, 15.0, 30.0, 45.0}) {
    for (const double roll : {0.0, 100.0, 215.0}) {
      Scene& scene = scenes.emplace_back();
      scene.camera.tilt = tilt, scene.camera.roll = roll, scene.camera.azimuth = 40 + roll;
      scene.blur = 0.8, scene.noise = 2, scene.falloff = 0.3, scene.vignette = 0.3;
    }
  }
  std::vector<Result<CardView>> views(scenes.size(), Fault{});
  for_each_parallel(scenes.size(), core_count(),
                    [&](std::size_t i, unsigned) { views[i] = find_card(render(scenes[i])); });
  for (std::size_t i = 0; i < scenes.size(); ++i) {
    const Camera& camera = scenes[i].camera;
    INFO("tilt " << camera.tilt << " roll " << camera.roll << " seed " << scenes[i].seed);
    if (!views[i].ok()) FAIL(describe(views[i].fault()));
    CHECK(worst_mark(scenes[i], *views[i]) < 0.04);
  }
}

TEST_CASE("the map of the card is right far beyond it") {
  Scene scene;
  scene.camera = {.aim = {80, 130}, .distance = 600, .tilt = 35, .azimuth = 250, .roll = 20};
  scene.noise = 2, scene.blur = 0.8;
  const CardView view = found(scene);
  for (const Point pixel : {Point{200, 150}, Point{1000, 400}, Point{1500, 1100}, Point{300, 1000}}) {
    INFO(pixel.x << ", " << pixel.y << "; seed " << scene.seed);
    CHECK(length(view.to_card(pixel) - *scene.camera.seen_at(pixel)) < 0.15);
  }
}

TEST_CASE("the scale is that of the direction in which the card is seen shortest") {
  Scene scene;
  scene.camera.tilt = 30, scene.camera.roll = 50;
  CHECK(found(scene).pixels_per_mm == Approx(1300.0 / 420 * std::cos(0.5236)).epsilon(0.01));
}

TEST_CASE("the blur is measured in millimetres on the card") {
  for (const double blur : {0.7, 1.5}) {  // pixels; those of the camera add half a one
    Scene scene;
    scene.blur = blur;
    CHECK(found(scene).blur == Approx(std::hypot(blur, 0.5) * 420 / 1300).epsilon(0.15));
  }
}

TEST_CASE("a photo that cannot be measured by says why and what to do") {
  Scene scene;
  scene.camera.distance = 500;
  SECTION("without a card") {
    scene.cards.clear();
    CHECK(why(scene) == "no mark of the card is seen");
  }
  SECTION("a mark hidden") {
    scene.patches = {{laid({{0, 0}, {30, 0}, {30, 30}, {0, 30}}, 20, {150, 88}), {0.3, 0.3, 0.3}}};
    CHECK(why(scene) == "only 3 of the card's 4 marks are seen");
  }
  SECTION("all marks but one hidden") {
    scene.patches = {{laid({{0, 0}, {300, 0}, {300, 300}, {0, 300}}, 0, {-40, 50}), {0.3, 0.3, 0.3}},
                     {laid({{0, 0}, {60, 0}, {60, 60}, {0, 60}}, 0, {120, -30}), {0.3, 0.3, 0.3}}};
    CHECK(why(scene) == "only 1 of the card's 4 marks is seen");
  }
  SECTION("too far away") {
    scene.camera.distance = 900;
    CHECK(why(scene) == "the card is too small in the picture: 1.4 pixels a millimetre");
  }
  SECTION("shaken") {
    scene.blur = 2.5;
    CHECK(why(scene).starts_with("the picture is too blurred: "));
  }
  SECTION("two cards") {
    scene.camera.distance = 640, scene.camera.aim = {80, 130};
    scene.cards.push_back({0.96, 0.28, -0.28, 0.96, 20, 170});
    CHECK(why(scene) == "more than one card is seen");
  }
  SECTION("as in a mirror") {
    scene.mirrored = true;
    CHECK(why(scene) == "the card is seen as in a mirror");
  }
  SECTION("four marks, one of them moved") {
    scene.cards.push_back({1, 0, 0, 1, 40, 250});
    scene.camera.distance = 1000;
    const Light grey{0.3, 0.3, 0.3};
    scene.camera.width = 3200, scene.camera.height = 2400, scene.camera.focal = 2600;
    scene.patches = {{laid({{0, 0}, {30, 0}, {30, 30}, {0, 30}}, 0, {145, 85}), grey},
                     {laid({{0, 0}, {30, 0}, {30, 130}, {0, 130}}, 0, {185, 235}), grey},
                     {laid({{0, 0}, {30, 0}, {30, 30}, {0, 30}}, 0, {25, 335}), grey}};
    CHECK(why(scene) == "four marks are seen, but they do not lie as on the card");
  }
  SECTION("hardly a picture") {
    scene.camera.width = 160, scene.camera.height = 120;
    CHECK(why(scene) == "the picture is 160 × 120 pixels");
  }
}

}  // namespace ordinatio::find_card_test
