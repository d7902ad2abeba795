// The whole way, from a photo to the piece's outline, for known cameras and pieces.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "picture_files.h"
#include "scene.h"

namespace ordinatio::survey_test {

namespace {

const Polygon slate{{0, 0}, {150, 0}, {150, 100}, {0, 100}};
constexpr Light slate_light{0.04, 0.045, 0.05};

Scene scene_with(const Polygon& piece, Light light = slate_light) {
  Scene scene;
  scene.camera = {.width = 1800, .height = 1350, .focal = 1460, .aim = {80, 110}, .distance = 400};
  scene.table = {0.35, 0.27, 0.18};
  scene.grain = 0.1, scene.falloff = 0.3, scene.vignette = 0.3, scene.blur = 0.7, scene.noise = 2;
  scene.patches = {{piece, light}};
  return scene;
}

Result<PieceProposal> straightened_and_proposed(const Scene& scene) {
  const Photo photo = render(scene);
  const auto card = find_card(photo);
  if (!card.ok()) return card.fault();
  const TablePicture table = straighten(photo, *card);
  return propose_piece(table);
}

PieceProposal proposed(const Scene& scene) {
  const auto piece = straightened_and_proposed(scene);
  if (!piece.ok()) FAIL(describe(piece.fault()));
  return *piece;
}

Bounds box_of(const Polygon& polygon) {
  Bounds box;
  for (const Point p : polygon) box.add(p);
  return box;
}

/// The farthest that a corner lies from the truth's nearest, on the table.
double worst_corner(const Polygon& truth, const PieceProposal& piece) {
  double worst = 0;
  for (const Point corner : truth) {
    double nearest = 1e9;
    for (const Point p : piece.outline) nearest = std::min(nearest, length(piece.to_card(p) - corner));
    worst = std::max(worst, nearest);
  }
  return worst;
}

double worst_side(const Polygon& truth, const Polygon& outline) {
  double worst = 0;
  for (std::size_t i = 0; i < truth.size(); ++i) {
    const double wanted = length(truth[(i + 1) % truth.size()] - truth[i]);
    double best = 1e9;
    for (std::size_t k = 0; k < outline.size(); ++k)
      best = std::min(best, std::abs(length(outline[(k + 1) % outline.size()] - outline[k]) - wanted));
    worst = std::max(worst, best);
  }
  return worst;
}

}  // namespace

TEST_CASE("every side of a piece is within a tenth of a millimetre at any tilt and turn") {
  std::vector<Scene> scenes;
  std::vector<Polygon> pieces;
  for (const double tilt : {0.0, 15.0, 30.0, 45.0}) {
    for (const double turn : {0.0, 110.0, 235.0}) {
      pieces.push_back(laid(slate, turn / 8, {10, 145}));
      scenes.push_back(scene_with(pieces.back()));
      scenes.back().camera.tilt = tilt, scenes.back().camera.roll = turn,
      scenes.back().camera.azimuth = 300 + 1.5 * turn;
    }
  }
  std::vector<Result<PieceProposal>> all(scenes.size(), Fault{});
  for_each_parallel(all.size(), core_count(),
                    [&](std::size_t i, unsigned) { all[i] = straightened_and_proposed(scenes[i]); });
  for (std::size_t i = 0; i < all.size(); ++i) {
    INFO("tilt " << scenes[i].camera.tilt << " turn " << scenes[i].camera.roll << " seed " << scenes[i].seed);
    if (!all[i].ok()) FAIL(describe(all[i].fault()));
    const PieceProposal& found = *all[i];
    CHECK(found.doubt.empty());
    CHECK(found.outline.size() == 4);
    // Half a millimetre is promised; in rendered photos a tenth is kept.
    CHECK(worst_side(slate, found.outline) < 0.1);
    CHECK(worst_corner(pieces[i], found) < 0.15);
  }
}

TEST_CASE("a piece with a chip, a cut corner and no right angles keeps them") {
  const Polygon offcut =
      laid({{0, 0}, {140, 4}, {148, 70}, {120, 98}, {70, 95}, {64, 86}, {55, 94}, {6, 90}}, 15, {40, 142});
  Scene scene = scene_with(offcut, {0.6, 0.62, 0.6});
  scene.camera.tilt = 25, scene.camera.azimuth = 100;
  const PieceProposal found = proposed(scene);
  CHECK(found.doubt.empty());
  CHECK(found.outline.size() == offcut.size());
  CHECK(worst_corner(offcut, found) < 0.5);
  CHECK(area_of(found.outline) == Approx(area_of(offcut)).epsilon(0.003));
  const Bounds box = box_of(found.outline);
  CHECK(std::abs(box.left) + std::abs(box.bottom) < 1e-9);
}

TEST_CASE("a round piece comes out round to the tolerance") {
  Polygon disc;
  for (int i = 0; i < 360; ++i)
    disc.push_back(Point{50, 200} + 45 * Point{std::cos(i * 0.0174533), std::sin(i * 0.0174533)});
  const PieceProposal found = proposed(scene_with(disc));
  CHECK(found.doubt.empty());
  CHECK(found.outline.size() < 50);
  for (const Point corner : found.outline)
    CHECK(length(found.to_card(corner) - Point{50, 200}) == Approx(45).margin(0.3));
}

TEST_CASE("light pieces, dark pieces and pieces on a dark table are found alike") {
  struct Case {
    Light piece, table;
  };
  const Case cases[]{{{0.75, 0.75, 0.72}, {0.03, 0.03, 0.03}},
                     {{0.25, 0.12, 0.05}, {0.6, 0.6, 0.6}},
                     {{0.1, 0.2, 0.12}, {0.2, 0.2, 0.35}}};
  const Polygon piece = laid(slate, 10, {10, 150});
  std::vector<Result<PieceProposal>> all(std::size(cases), Fault{});
  for_each_parallel(all.size(), core_count(), [&](std::size_t i, unsigned) {
    Scene scene = scene_with(piece, cases[i].piece);
    scene.table = cases[i].table;
    all[i] = straightened_and_proposed(scene);
  });
  for (std::size_t i = 0; i < all.size(); ++i) {
    INFO(cases[i].piece.red << " on " << cases[i].table.red);
    if (!all[i].ok()) FAIL(describe(all[i].fault()));
    CHECK(all[i]->doubt.empty());
    CHECK(worst_side(slate, all[i]->outline) < 0.3);
    CHECK(worst_corner(piece, *all[i]) < 0.3);
  }
}

TEST_CASE("a JPEG of the phone's own, turned by its EXIF, is surveyed as a whole") {
  const Polygon piece = laid(slate, 0, {0, 150});
  Scene scene = scene_with(piece);
  scene.camera.tilt = 20, scene.camera.azimuth = 200;
  const std::string jpeg = jpeg_of(render(scene), 88);
  for (const int orientation : {1, 3, 6, 8}) {
    INFO(orientation);
    const auto survey = survey_photo(with_orientation(jpeg, orientation), "IMG_2.jpg");
    if (!survey.ok()) FAIL(describe(survey.fault()));
    REQUIRE(survey->piece.ok());
    CHECK(survey->piece->outline.size() == 4);
    CHECK(worst_side(slate, survey->piece->outline) < 0.3);
    CHECK(worst_corner(piece, *survey->piece) < 0.3);
  }
  // As in a mirror the card is not measured by.
  const auto mirrored = survey_photo(with_orientation(jpeg, 2), "IMG_2.jpg");
  REQUIRE_FALSE(mirrored.ok());
  CHECK(describe(mirrored.fault())
            .starts_with("IMG_2.jpg: the photo cannot be measured by: the card is seen as in a mirror"));
}

TEST_CASE("where the proposal is in doubt it is a box, and says so") {
  Scene scene = scene_with(laid(slate, 0, {5, 150}));
  SECTION("hardly another colour than the table") {
    scene.patches[0].light = {0.345, 0.268, 0.18};
    const auto found = straightened_and_proposed(scene);
    if (found.ok()) CHECK(found->doubt.find("hardly stands out") != std::string::npos);
  }
  SECTION("out of the picture") {
    scene.camera.aim = {80, -20};
    scene.camera.distance = 360;
    const auto found = straightened_and_proposed(scene);
    REQUIRE(found.ok());
    CHECK(found->doubt == "the piece reaches out of the picture; this is only the box of what is seen of it");
    CHECK(found->outline.size() == 4);
  }
  SECTION("two things, the larger one's outline is given") {
    scene.patches.push_back({laid({{0, 0}, {80, 0}, {80, 60}, {0, 60}}, 0, {-60, -100}), slate_light});
    const auto found = straightened_and_proposed(scene);
    REQUIRE(found.ok());
    CHECK(found->doubt == "more than one thing lies beside the card: this is the outline of the largest");
    CHECK(worst_side(slate, found->outline) < 0.3);
  }
  SECTION("touching the card's margin") {
    scene.patches[0].shape = laid(slate, 0, {5, 126});
    const auto found = straightened_and_proposed(scene);
    REQUIRE_FALSE(found.ok());
    CHECK(found.fault().mend.find("a finger's breadth from the card") != std::string::npos);
  }
  SECTION("nothing there") {
    scene.patches.clear();
    const auto found = straightened_and_proposed(scene);
    if (found.ok()) CHECK_FALSE(found->doubt.empty());
  }
}

TEST_CASE("the straightened picture shows each place where it says") {
  Scene scene = scene_with(laid({{0, 0}, {8, 0}, {8, 8}, {0, 8}}, 0, {36, 176}), {0.9, 0.1, 0.1});
  scene.camera.tilt = 40, scene.camera.azimuth = 75, scene.noise = 0;
  const Photo photo = render(scene);
  const auto card = find_card(photo);
  REQUIRE(card.ok());
  for (const double scale : {2.0, 4.0, 7.0}) {
    const TablePicture table = straighten(photo, *card, scale);
    const Point pixel = table.to_pixel({40, 180}), back = table.to_mm(pixel);
    CHECK(length(back - Point{40, 180}) < 1e-9);
    double red = 0;
    Point middle;
    for (int y = 0; y < table.picture.height; ++y) {
      for (int x = 0; x < table.picture.width; ++x) {
        const std::uint8_t* rgb = table.picture.at(x, y);
        if (rgb[0] < 150 || rgb[1] > 120) continue;
        middle = middle + Point{x + 0.5, y + 0.5}, ++red;
      }
    }
    CHECK(length(1 / red * middle - pixel) < 0.1 * table.pixels_per_mm);
    CHECK(red == Approx(64 * table.pixels_per_mm * table.pixels_per_mm).epsilon(0.15));
    // Up is up: what lies above the card on the table is above it in the picture.
    CHECK(pixel.y < table.to_pixel({40, 100}).y);
  }
}

TEST_CASE("a photo that shows the horizon is straightened within reach, and no larger than the limit") {
  Scene scene = scene_with(laid(slate, 0, {5, 150}));
  scene.camera.tilt = 62, scene.camera.azimuth = 270, scene.camera.distance = 500;
  const Photo photo = render(scene);
  CardView card;
  std::array<Point, 4> places;
  // The map from the camera itself: what is tested is the straightening alone.
  const std::array<Point, 4> pixels{{{600, 900}, {1400, 900}, {1400, 1300}, {600, 1300}}};
  for (std::size_t i = 0; i < 4; ++i) places[i] = *scene.camera.seen_at(pixels[i]);
  card.to_photo = *homography_between(places, pixels);
  card.to_card = *inverse_of(card.to_photo);
  const TablePicture table = straighten(photo, card, 20);
  CHECK(table.box.width() <= card_paper.width() + 2 * 450 + 1e-9);
  CHECK(table.box.height() <= card_paper.height() + 2 * 450 + 1e-9);
  CHECK(static_cast<double>(table.picture.width) * table.picture.height <= 16e6);
  CHECK(std::ranges::count(table.seen, 1) > 1000);
}

}  // namespace ordinatio::survey_test
