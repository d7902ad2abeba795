#include "orders/design_choice.h"

#include <catch2/catch.hpp>

#include "workshop/shop_file.h"

namespace ordinatio::design_choice_test {
using Catch::Contains;
using Chosen = std::vector<std::pair<std::size_t, std::string>>;

namespace {

const std::string tables = R"([shop]
design = "slate"
[orders]
text = "Chosen"
[orders.labels]
text = ["Wording"]
[[orders.choice]]
label = "Wood"
[orders.choice.words]
"Oak" = { design = "oak" }
"Oak, large" = { design = "oak", size = [200, 133.5] }
[[orders.choice]]
column = "Hand"
[orders.choice.words]
"Script" = { face = "script" }
"Plain" = { design = "slate", face = "serif" }
)";

Shop shop_of(const std::string& text) {
  auto shop = parse_shop(text, "shop.toml");
  if (!shop.ok()) FAIL(describe(shop.fault()));
  return *shop;
}
std::string refused(const std::string& text) {
  const auto shop = parse_shop(text, "shop.toml");
  REQUIRE_FALSE(shop.ok());
  return describe(shop.fault());
}

/// The design chosen by words, each of the choice at that place; or what is wrong.
std::string chosen(const std::string& own, const Chosen& words) {
  const Shop shop = shop_of(tables);
  const DesignChooser chooser(shop.orders);
  DesignChooser::Choosing choosing(chooser, own);
  for (const auto& [choice, word] : words) {
    if (const MaybeFault fault = choosing.choose(choice, word)) return "held: " + describe(*fault);
  }
  return choosing.design();
}

}  // namespace

TEST_CASE("words choose a design, a face and a size, capitals and blanks aside") {
  CHECK(chosen("", {}).empty());
  CHECK(chosen("elm", {}) == "elm");
  CHECK(chosen("", {{0, "OAK"}}) == "oak");
  CHECK(chosen("", {{0, " oak,  Large "}}) == "oak, size 200x133.5");
  CHECK(chosen("", {{1, "script"}}) == "slate, face script");  // the shop's own design in that face
  CHECK(chosen("elm", {{1, "script"}}) == "elm, face script");
  CHECK(chosen("", {{0, "Oak, large"}, {1, "Script"}}) == "oak, face script, size 200x133.5");
  CHECK(chosen("", {{0, "  "}, {1, ""}}).empty());
  CHECK(chosen("oak", {{0, "Oak"}}) == "oak");  // said twice
}

TEST_CASE("a word that shop.toml does not have is held with those that it has") {
  CHECK(chosen("", {{0, "Oak, lrge"}}) ==
        "held: shop.toml does not say what \"Oak, lrge\" stands for: under [[orders.choice]] for \"Wood\" there are: "
        "\"Oak\", \"Oak, large\". Did you mean \"Oak, large\"? Else write the word there, with its design, face or "
        "size.");
  CHECK_THAT(chosen("", {{0, "42"}}), Contains("Write the word there"));
}

TEST_CASE("words that choose contradictory things hold the row") {
  CHECK(chosen("", {{0, "Oak"}, {1, "Plain"}}) ==
        "held: two things are chosen: design \"oak\" and design \"slate\": the one by \"Wood: Oak\", the other by "
        "\"Hand: "
        "Plain\"; a piece has one. Ask the customer, or mend the table in shop.toml.");
  CHECK_THAT(chosen("elm", {{0, "Oak"}}), Contains("the one by \"the row's own\""));
  CHECK_THAT(chosen("", {{1, "Plain"}, {1, "Script"}}), Contains("face \"serif\" and face \"script\""));
}

TEST_CASE("a table of choices that chooses nothing, or twice, is refused") {
  const std::string head = "[[orders.choice]]\n";
  CHECK_THAT(refused(head + "column = \"Wood\"\n"), Contains("orders.choice.words has none"));
  CHECK_THAT(refused(head + "[orders.choice.words]\nOak = { design = \"oak\" }\n"), Contains("column must stand here"));
  CHECK_THAT(refused(head + "column = \"Wood\"\n[orders.choice.words]\nOak = {}\n"), Contains("so are face and size"));
  CHECK_THAT(refused(head + "column = \"W\"\n[orders.choice.words]\nOak = { face = \"a\" }\nOAK = { face = \"b\" }\n"),
             Contains("is there twice"));
  CHECK_THAT(refused(head + "column = \"W\"\n[orders.choice.words]\nOak = { size = [0, 5] }\n"), Contains("size"));
  CHECK_THAT(refused(head + "column = \"W\"\n[orders.choice.words]\nOak = { colour = \"a\", face = \"b\" }\n"),
             Contains("unknown key \"colour\""));
  CHECK_THAT(refused(head + "label = \"W\"\n[orders.choice.words]\nOak = { face = \"a\" }\n"),
             Contains("shop.toml names no labels"));
  CHECK_THAT(refused("[orders.labels]\ntext = [\"Wording\"]\nother = [\"wood\"]\n" + head +
                     "label = \"Wood\"\n[orders.choice.words]\nOak = { face = \"a\" }\n"),
             Contains("named again"));
}

}  // namespace ordinatio::design_choice_test
