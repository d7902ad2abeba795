// The pages as the program gives them out.
#include "manual/manual.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <sstream>

#include "base/base.h"

namespace ordinatio::manual_test {
namespace fs = std::filesystem;

namespace {

/// "## name" and what stands below it, up to the next heading of that rank.
std::string section(const std::string& text, const std::string& name) {
  const std::size_t begin = text.find("\n## " + name + "\n");
  REQUIRE(begin != std::string::npos);
  const std::size_t body = text.find('\n', begin + 1) + 1;
  return text.substr(body, text.find("\n## ", body) - body);
}

std::string readme() { return *read_file(fs::path(PROJECT_FOLDER) / "README.md"); }

}  // namespace

TEST_CASE("every page in the folder is in the program, word for word") {
  std::set<std::string> files, pages;
  const fs::path folder = fs::path(PROJECT_FOLDER) / "src/manual";
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == ".md") files.insert(entry.path().stem().string());
  }
  for (const ManualPage& page : manual_pages()) {
    pages.emplace(page.name);
    CHECK(page.text == *read_file(folder / (std::string(page.name) + ".md")));
  }
  CHECK(files == pages);
}

TEST_CASE("a page opens with its heading, is short enough to be read at once, and fits a window") {
  constexpr int longest_page = 120;
  constexpr std::size_t widest_line = 110;
  for (const ManualPage& page : manual_pages()) {
    INFO(page.name);
    CHECK(page.text.starts_with("# "));
    CHECK(heading_of(page).size() < 80);
    CHECK(heading_of(page).find('\n') == std::string_view::npos);
    CHECK(page.text.ends_with('\n'));
    CHECK(std::ranges::count(page.text, '\n') <= longest_page);
    std::istringstream lines{std::string(page.text)};
    for (std::string line; std::getline(lines, line);) {
      INFO(line);
      CHECK((line.starts_with("|") || line.size() <= widest_line));  // a table's row is one line
    }
  }
}

TEST_CASE("a page is found by its name alone") {
  REQUIRE(manual_page("orders") != nullptr);
  CHECK(manual_page("orders")->name == "orders");
  CHECK(manual_page("order") == nullptr);
  CHECK(manual_page("") == nullptr);
}

TEST_CASE("README's index names every page, and README is short") {
  const std::string text = readme();
  CHECK(std::ranges::count(text, '\n') < 160);
  for (const ManualPage& page : manual_pages()) {
    INFO(page.name);
    CHECK(text.find("](src/manual/" + std::string(page.name) + ".md)") != std::string::npos);
  }
}

TEST_CASE("the cautions are the same in README and in the manual") {
  const ManualPage* page = manual_page("cautions");
  REQUIRE(page != nullptr);
  const std::string cautions = section(readme(), "Cautions");
  CHECK(cautions.size() > 1000);
  CHECK(std::string(page->text) == "# " + std::string(heading_of(*page)) + "\n" + cautions);
}

}  // namespace ordinatio::manual_test
