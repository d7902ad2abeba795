// Maps of planes as numpy 1.24's singular value decomposition has them (Debian: python3-numpy), and the measuring card as poppler
// 22.12 draws it (Debian: poppler-utils), found in that picture as in a photo.
#include "photo/photo.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "composed_sheet.h"
#include "paper/paper.h"
#include "photo/card.h"

using namespace ordinatio;
using namespace outside;

namespace {

nlohmann::json json_of(const std::vector<Point>& points) {
  auto list = nlohmann::json::array();
  for (const Point p : points) list.push_back({p.x, p.y});
  return list;
}

struct Pairs {
  std::vector<Point> from, to;
};

/// Of a camera, with noise where there are more than four.
std::vector<Pairs> pairs_by_lot(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> place(0, 300), entry(-1, 1);
  std::vector<Pairs> cases;
  for (std::size_t i = 0; i < 200; ++i) {
    const Homography map{{4 + entry(random), entry(random), 900, entry(random), -4 + entry(random), 1500,
                          entry(random) / 1000, entry(random) / 1000, 1}};
    Pairs& pairs = cases.emplace_back();
    const std::size_t count = 4 + i % 5;
    for (std::size_t k = 0; k < count; ++k) {
      pairs.from.push_back(k < 4 ? mark_places[k] + 10 * Point{entry(random), entry(random)}
                                 : Point{place(random), place(random)});
      pairs.to.push_back(map(pairs.from.back()) + (count > 4 ? 1.0 : 0.0) * Point{entry(random), entry(random)});
    }
  }
  return cases;
}

}  // namespace

TEST_CASE("maps of planes are those of numpy's singular value decomposition") {
  constexpr unsigned seed = 1997;
  INFO("seed " << seed);
  const std::vector<Pairs> cases = pairs_by_lot(seed);
  const Scratch scratch;
  std::string lines;
  for (const Pairs& pairs : cases)
    lines += nlohmann::json{{"from", json_of(pairs.from)}, {"to", json_of(pairs.to)}}.dump() + "\n";
  save(scratch / "cases", lines);
  std::istringstream answers(
      output_of(std::string(PYTHON) + " " + TEST_FOLDER + "/outside/homography.py <" + quoted(scratch / "cases")));
  std::size_t count = 0;
  for (std::string line; std::getline(answers, line); ++count) {
    const auto expected = nlohmann::json::parse(line).get<std::vector<double>>();
    const auto map = homography_between(cases[count].from, cases[count].to);
    REQUIRE(map);
    const double sign = map->h[8] * expected[8] < 0 ? -1 : 1;
    for (std::size_t i = 0; i < 9; ++i) CHECK(map->h[i] == Approx(sign * expected[i]).margin(1e-9));
  }
  CHECK(count == cases.size());
}

TEST_CASE("the printed card has its marks where photos are measured by them, and its line is 100 mm long") {
  constexpr double dots_per_inch = 254, per_mm = dots_per_inch / 25.4;
  for (const CardPaper size : {CardPaper::iso_a4, CardPaper::us_letter}) {
    const auto pdf = write_card_pdf(size, fonts());
    REQUIRE(pdf.ok());
    const Scratch scratch;
    save(scratch / "card.pdf", *pdf);
    output_of("pdftocairo -png -singlefile -r 254 " + quoted(scratch / "card.pdf") + " " + quoted(scratch / "card"));
    if (const char* keep = std::getenv("ORDINATIO_KEEP_CARD")) save(keep, read(scratch / "card.png"));
    const auto picture = read_photo(read(scratch / "card.png"), "card.png");
    REQUIRE(picture.ok());
    const auto card = find_card(*picture);
    if (!card.ok()) FAIL(describe(card.fault()));
    CHECK(card->pixels_per_mm == Approx(per_mm).epsilon(2e-4));
    // Upright, in the middle of the upper half.
    const double width = size == CardPaper::iso_a4 ? 210 : 215.9, height = size == CardPaper::iso_a4 ? 297 : 279.4;
    const Point middle = card->to_photo(0.5 * mark_places[2]);
    CHECK(length(middle - Point{per_mm * width / 2, per_mm * height / 4}) < 1);
    for (std::size_t i = 0; i < 4; ++i) {
      const Point from_middle = mark_places[i] - 0.5 * mark_places[2];
      CHECK(length(card->marks[i] - middle - per_mm * Point{from_middle.x, -from_middle.y}) < 0.3);
    }
    // The check line: the longest level run of dark pixels on the card.
    int longest = 0;
    for (int y = 0; y < picture->height / 2 - 20; ++y) {
      int run = 0;
      for (int x = 0; x < picture->width; ++x) {
        run = picture->at(x, y)[1] < 140 ? run + 1 : 0;
        longest = std::max(longest, run);
      }
    }
    CHECK(longest == Approx(check_line * per_mm).margin(4));
    const std::string words = output_of("pdftotext -layout " + quoted(scratch / "card.pdf") + " -");
    for (const char* said : {"it must be 100 mm", "level with", "finger's breadth", "wide-angle", "true size"}) {
      INFO(said);
      CHECK(words.find(said) != std::string::npos);
    }
  }
}
