#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <set>

#include "orders/orders.h"
#include "workshop/shipped_texts.h"
#include "workshop/workshop.h"

namespace ordinatio::new_shop_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

/// A folder's path where nothing is now, nor afterwards.
struct Place {
  fs::path path = fs::temp_directory_path() / ("ordinatio-new-" + std::to_string(::getpid()));
  Place() { fs::remove_all(path); }
  explicit Place(const fs::path& at) : path(at) { fs::remove_all(path); }
  ~Place() { fs::remove_all(path); }
};

std::set<std::string> files_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_directory()) names.insert(entry.path().lexically_relative(folder).generic_string());
  }
  return names;
}

void save(const fs::path& path, std::string_view bytes) { std::ofstream(path, std::ios::binary) << bytes; }

const std::set<std::string> all_files = {"README.txt",
                                         "fonts/README.txt",
                                         "orders.csv",
                                         "shop.toml",
                                         "templates/dedication.toml",
                                         "templates/house-number.toml",
                                         "templates/mark.svg",
                                         "templates/name-and-line.toml",
                                         "templates/plaque-landscape.toml",
                                         "templates/plaque-portrait.toml",
                                         "templates/spaced-capitals.toml",
                                         "templates/stand-logo.toml",
                                         "templates/stand-words.toml"};

}  // namespace

TEST_CASE("the program carries the shipped texts byte for byte") {
  const std::pair<std::string, std::string_view> shipped[] = {{"shop.toml", shop_toml()},
                                                              {"orders.csv", orders_csv()},
                                                              {"README.txt", readme_txt()},
                                                              {"fonts.txt", fonts_txt()},
                                                              {"plaque-landscape.toml", plaque_landscape_toml()},
                                                              {"plaque-portrait.toml", plaque_portrait_toml()},
                                                              {"name-and-line.toml", name_and_line_toml()},
                                                              {"dedication.toml", dedication_toml()},
                                                              {"spaced-capitals.toml", spaced_capitals_toml()},
                                                              {"house-number.toml", house_number_toml()},
                                                              {"stand-words.toml", stand_words_toml()},
                                                              {"stand-logo.toml", stand_logo_toml()},
                                                              {"mark.svg", mark_svg()}};
  for (const auto& [name, text] : shipped) {
    const auto bytes = read_file(fs::path(PROJECT_FOLDER) / "templates" / name);
    REQUIRE(bytes.ok());
    CHECK(*bytes == text);
  }
}

TEST_CASE("a new workshop has all its files and works as it is") {
  const Place place;
  REQUIRE_FALSE(new_shop(place.path));
  CHECK(files_in(place.path) == all_files);
  const auto shop = read_shop(place.path);
  if (!shop.ok()) FAIL(describe(shop.fault()));
  CHECK(shop->default_design == "plaque-landscape");
  CHECK(shop->stand_design == "stand-words");
  for (const auto& entry : fs::directory_iterator(place.path / "templates")) {
    if (entry.path().extension() != ".toml") continue;
    const auto design = read_design(entry.path());
    if (!design.ok()) FAIL(describe(design.fault()));
    const bool is_for_customers = std::ranges::any_of(
        design->texts, [](const TextPart& text) { return std::holds_alternative<InscriptionPart>(text.words); });
    CHECK(design->samples.empty() != is_for_customers);  // each of those has words to show
  }
}

TEST_CASE("the sample orders are orders of the new workshop, and show each of its designs for customers' words") {
  const Place place;
  REQUIRE_FALSE(new_shop(place.path));
  const auto shop = read_shop(place.path);
  REQUIRE(shop.ok());
  const auto orders = read_orders(place.path / "orders.csv", shop->orders);
  if (!orders.ok()) FAIL(describe(orders.fault()));
  CHECK(orders->held.empty());
  CHECK(orders->orders[1].quantity == 2);
  std::set<std::string> shown;
  for (const Order& order : orders->orders) {
    if (!order.design.empty()) shown.insert(order.design);
  }
  std::set<std::string> designs;
  for (const auto& entry : fs::directory_iterator(place.path / "templates")) {
    const std::string name = entry.path().stem().string();
    if (entry.path().extension() == ".toml" && !name.starts_with("stand-")) designs.insert(name);
  }
  CHECK(shown == designs);
}

TEST_CASE("an empty folder becomes a workshop, one that holds anything does not") {
  const Place place;
  fs::create_directories(place.path);
  CHECK_FALSE(new_shop(place.path));

  for (const std::string name : {"notes.txt", "templates/mine.toml", ".hidden"}) {
    fs::remove_all(place.path);
    fs::create_directories(place.path / "templates");
    save(place.path / name, "mine");
    const auto fault = new_shop(place.path);
    REQUIRE(fault);
    CHECK(describe(*fault) == place.path.string() + ": cannot make a workshop: the folder is not empty: it holds " +
                                  name + ". Name a folder that does not exist yet.");
    CHECK(files_in(place.path) == std::set<std::string>{name});
  }
}

TEST_CASE("a workshop is never made over another") {
  const Place place;
  REQUIRE_FALSE(new_shop(place.path));
  CHECK_THAT(describe(new_shop(place.path).value()), Contains("it holds shop.toml"));
}

TEST_CASE("a run that was cut short can be run again") {
  const Place place;
  REQUIRE_FALSE(new_shop(place.path));
  fs::remove(place.path / "shop.toml");
  fs::remove(place.path / "templates/mark.svg");
  save(place.path / "templates/mark.svg.part", "<svg");
  CHECK_FALSE(new_shop(place.path));
  CHECK(files_in(place.path) == all_files);

  fs::remove(place.path / "shop.toml");
  save(place.path / "orders.csv", "Order,Text\n1,mine\n");
  CHECK_THAT(describe(new_shop(place.path).value()), Contains("it holds orders.csv"));
}

TEST_CASE("nothing is written through a link") {
  const Place place;
  const Place elsewhere{place.path.string() + "-elsewhere"};
  fs::create_directories(place.path);
  fs::create_directories(elsewhere.path);
  fs::create_directory_symlink(elsewhere.path, place.path / "templates");
  CHECK_THAT(describe(new_shop(place.path).value()), Contains("it holds templates"));
  CHECK(files_in(elsewhere.path).empty());
}

TEST_CASE("a file in the folder's place is refused") {
  const Place place;
  save(place.path, "mine");
  CHECK(new_shop(place.path));
  CHECK(*read_file(place.path) == "mine");
}

}  // namespace ordinatio::new_shop_test
