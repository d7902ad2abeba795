#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>

#include "small_sheet.h"
#include "write/write.h"

namespace ordinatio::svg_test {

namespace {

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) ++found;
  return found;
}

/// What stands between each `from` and the next `to`.
std::vector<std::string> all_between(const std::string& text, const std::string& from, const std::string& to) {
  std::vector<std::string> found;
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos;) {
    at += from.size();
    found.push_back(text.substr(at, text.find(to, at) - at));
  }
  return found;
}

std::string path_data(const Path& path, double height, double scale = 1) {
  std::string out;
  append_path_data(out, path, height, scale);
  return out;
}

}  // namespace

TEST_CASE("the root is as large as the bed, and its units are millimetres") {
  const std::string svg = write_svg(small_sheet());
  const std::string head =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" "
      "width=\"200mm\" height=\"120mm\" viewBox=\"0 0 200 120\">\n";
  CHECK(svg.substr(0, head.size()) == head);
  CHECK(svg.ends_with("</svg>\n"));
}

TEST_CASE("in CSS pixels the root has no unit and everything is 96 / 25.4 as large") {
  const std::string svg = write_svg(small_sheet(), {true});
  CHECK(svg.find("width=\"755.906\" height=\"453.543\" viewBox=\"0 0 755.906 453.543\"") != std::string::npos);
  // The slab begins at (26, 36) mm, 84 mm below the upper edge; followed lines are 0.1 mm wide.
  CHECK(svg.find("<path d=\"M98.268 317.48L") != std::string::npos);
  CHECK(svg.find("stroke-width=\"0.378\"") != std::string::npos);
  CHECK(svg.find("mm\"") == std::string::npos);
  CHECK(count(svg, "<path") == count(write_svg(small_sheet()), "<path"));
}

TEST_CASE("there is a group an operation, in their order, and in it a group an item") {
  const std::string svg = write_svg(small_sheet());
  CHECK(all_between(svg, "<g id=\"", "\"") ==
        std::vector<std::string>{"engrave", "engrave-1042-1", "engrave-1042-2", "score", "score-1042-2", "mark",
                                 "mark-mark-1", "mark-mark-2", "mark-mark-3", "guide", "guide-blank-1", "guide-blank-2",
                                 "guide-scale-bar"});
  CHECK(all_between(svg, "<title>", "</title>") ==
        std::vector<std::string>{"sheet-001", "engrave", "item 1042-1, pocket 1", "item 1042-2, pocket 2", "score",
                                 "item 1042-2, pocket 2", "mark", "registration mark 1", "registration mark 2",
                                 "registration mark 3", "guide: never run", "outline of the blank in pocket 1",
                                 "outline of the blank in pocket 2", "scale bar: 100 mm"});
  CHECK(count(svg, "<g ") == count(svg, "</g>"));
}

TEST_CASE("what is engraved is filled and what is followed is not, each in its operation's colour") {
  Sheet sheet = small_sheet();
  sheet.frame.plan.palette.colours[0] = {0x01, 0xAB, 0xF0};
  const std::string svg = write_svg(sheet);
  CHECK(svg.find("<g id=\"engrave\" fill=\"#01ABF0\" stroke=\"none\">") != std::string::npos);
  CHECK(svg.find("<g id=\"score\" fill=\"none\" stroke=\"#E69F00\" stroke-width=\"0.1\">") != std::string::npos);
  CHECK(svg.find("<g id=\"mark\" fill=\"none\" stroke=\"#56B4E9\"") != std::string::npos);
  CHECK(svg.find("<g id=\"guide\" fill=\"none\" stroke=\"#999999\"") != std::string::npos);
}

TEST_CASE("an operation that has no parts has no group") {
  const std::string svg = write_svg(small_sheet());
  CHECK(svg.find("\"cut\"") == std::string::npos);
}

TEST_CASE("y is flipped at the bed's upper edge") {
  Path path;
  path.move_to({0, 0});
  path.line_to({10, 20});
  CHECK(path_data(path, 120) == "M0 120L10 100");
  CHECK(path_data(path, 120, 2) == "M0 240L20 200");
}

TEST_CASE("curves stay curves, commands are absolute, and closed contours are closed") {
  Path path;
  path.move_to({1, 1});
  path.line_to({2, 1});
  path.quad_to({3, 1}, {3, 2});
  path.cubic_to({3, 3}, {2, 4}, {1, 4});
  path.close();
  path.move_to({5, 5});
  path.line_to({6, 6});
  CHECK(path_data(path, 10) == "M1 9L2 9Q3 9 3 8C3 7 2 6 1 6ZM5 5L6 4");
}

TEST_CASE("coordinates have three places at most, no exponent and no negative zero") {
  Path path;
  path.move_to({1.23456, 9.9999});
  path.line_to({0.00001, 10.0004});
  path.line_to({-0.0001, 1e-9});
  path.line_to({123456.7891, 10});
  CHECK(path_data(path, 10) == "M1.235 0L0 0L0 10L123456.789 0");
}

TEST_CASE("the file holds groups, titles, paths and nothing else") {
  for (const bool css_pixels : {false, true}) {
    const std::string svg = write_svg(small_sheet(), {css_pixels});
    std::set<std::string> elements;
    for (const std::string& tag : all_between(svg, "<", ">")) elements.insert(tag.substr(0, tag.find_first_of(" /")));
    CHECK(elements == std::set<std::string>{"?xml", "svg", "title", "metadata", "g", "path", ""});  // "": the end tags
    for (const char* unwanted : {"transform", "style=", "class=", "xlink", "href", "xmlns:", "<!"}) {
      CHECK(svg.find(unwanted) == std::string::npos);
    }
  }
}

TEST_CASE("no customer's words are in the file") {
  const std::string svg = write_svg(small_sheet());
  CHECK(svg.find("Mill") == std::string::npos);
}

TEST_CASE("the metadata are JSON that tells the sheet and the unit") {
  for (const bool css_pixels : {false, true}) {
    const auto metadata = all_between(write_svg(small_sheet(), {css_pixels}), "<metadata>", "</metadata>");
    REQUIRE(metadata.size() == 1);
    const auto json = nlohmann::json::parse(metadata[0]);
    CHECK(json.at("sheet") == "sheet-001");
    CHECK(json.at("unit") == (css_pixels ? "1/96 in" : "mm"));
  }
}

TEST_CASE("the metadata are JSON whatever a remade item's number holds") {
  Sheet sheet = small_sheet();
  sheet.name = "remake-\"7\"\\<A&B>-1";
  std::string metadata = all_between(write_svg(sheet), "<metadata>", "</metadata>").at(0);
  const std::pair<std::string, std::string> entities[] = {
      {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&amp;", "&"}};
  for (const auto& [entity, letter] : entities) {
    for (std::size_t at = 0; (at = metadata.find(entity, at)) != std::string::npos; ++at) {
      metadata.replace(at, entity.size(), letter);
    }
  }
  INFO(metadata);
  REQUIRE(nlohmann::json::accept(metadata));
  CHECK(nlohmann::json::parse(metadata).at("sheet") == sheet.name);
}

TEST_CASE("an order's number that XML would take for markup is kept in titles, and is an id all the same") {
  const std::string svg = write_svg(small_sheet("A<&>\"7\"-1"));
  CHECK(svg.find("<title>item A&lt;&amp;&gt;&quot;7&quot;-1, pocket 1</title>") != std::string::npos);
  for (const std::string& id : all_between(svg, " id=\"", "\"")) {
    INFO(id);
    CHECK(id.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.") ==
          std::string::npos);
  }
}

TEST_CASE("no two groups have one id, whatever the orders' numbers") {
  const std::pair<const char*, const char*> numbers[] = {
      {"1042-1", "1042-2"}, {"A/1-1", "A_1-1"}, {"Ä-1", "Ö-1"}, {"№7-1", "§§7-1"}, {"a b-1", "a_b-1"}};
  for (const auto& [first, second] : numbers) {
    INFO(first << " and " << second);
    std::vector<std::string> ids = all_between(write_svg(small_sheet(first, second)), " id=\"", "\"");
    std::ranges::sort(ids);
    const bool unique = std::ranges::adjacent_find(ids) == ids.end();
    CHECK(unique);
  }
}

TEST_CASE("what is not finite is never written") {
  Sheet sheet = small_sheet();
  sheet.parts[0].path.line_to({std::numeric_limits<double>::quiet_NaN(), 1});
  CHECK_THROWS_AS(write_svg(sheet), std::domain_error);
  sheet.parts[0].path = {};
  sheet.parts[0].path.move_to({std::numeric_limits<double>::infinity(), 1});
  CHECK_THROWS_AS(write_svg(sheet), std::domain_error);
}

}  // namespace ordinatio::svg_test
