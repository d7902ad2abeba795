// Every command that README and the manual show runs as it is printed, in a new workshop, in the page's order.
#include "examples.h"

#include "manual/manual.h"

namespace ordinatio::examples_test {

namespace {

/// Commands that are not run here, and why.
struct ExceptedCommand {
  std::string_view command, why;
};
constexpr ExceptedCommand excepted[] = {
    {"sh .ci/setup && cmake --workflow --preset demo", "installs packages and builds the program that is tested here"},
    {"sh .ci/setup tests && cmake --workflow --preset test", "builds and runs these very tests"},
};

bool is_excepted(std::string_view line) {
  return std::ranges::any_of(excepted, [&](const ExceptedCommand& one) {
    return line.starts_with(one.command) &&
           line.find_first_not_of(' ', one.command.size()) == line.find('#', one.command.size());
  });
}

/// Steps of a page without those that are excepted.
std::vector<ManualStep> steps_to_run(std::string_view page) {
  std::vector<ManualStep> steps = steps_of(page);
  std::erase_if(steps, [](const ManualStep& step) { return is_excepted(step.text); });
  return steps;
}

void check_page(std::string_view name, std::string_view text) { check_steps(name, steps_to_run(text), Workshop()); }

std::string readme() { return *read_file(fs::path(PROJECT_FOLDER) / "README.md"); }

}  // namespace

TEST_CASE("what a page shows is read as the maker reads it: files to save, commands to give") {
  const auto steps = steps_of(
      "Words.\n```sh\nordinatio day\n\nordinatio list   # all\n```\n```csv panes.csv\nid\nA\n```\n"
      "```toml\nnot = \"saved\"\n```\n");
  REQUIRE(steps.size() == 3);
  CHECK(steps[0].text == "ordinatio day");
  CHECK(steps[1].text == "ordinatio list   # all");
  CHECK(steps[2].file == "panes.csv");
  CHECK(steps[2].text == "id\nA\n");
}

TEST_CASE("an example that fails is seen: a command of no such name, and what follows it is run all the same") {
  const Workshop workshop;
  const auto outcomes = run_steps(steps_of("```sh\nmkdir inner\ncd inner\nordinatio dya\npwd\n```\n"), workshop);
  REQUIRE(outcomes.size() == 4);
  CHECK(outcomes[2].code == 2);
  CHECK(outcomes[3].code == 0);
  CHECK(outcomes[3].log == (workshop.shop() / "inner").string() + "\n");
}

TEST_CASE("README's commands run as they are printed") { check_page("README", readme()); }

TEST_CASE("each page's commands run as they are printed, in a new workshop") {
  for (const ManualPage& page : manual_pages()) {
    DYNAMIC_SECTION(page.name) { check_page(page.name, page.text); }
  }
}

TEST_CASE("the manual teaches by examples: most pages have some, and all of them are found") {
  std::size_t commands = 0, pages = 0;
  for (const ManualPage& page : manual_pages()) {
    const auto steps = steps_of(page.text);
    const auto count = std::ranges::count(steps, ManualStep::Kind::command, &ManualStep::kind);
    commands += static_cast<std::size_t>(count);
    pages += count > 0 ? 1 : 0;
  }
  CHECK(pages >= 11);
  CHECK(commands >= 70);
}

TEST_CASE("what is excepted is shown, and gives its reason") {
  const std::string text = readme();
  for (const ExceptedCommand& one : excepted) {
    INFO(one.command);
    CHECK(text.find(std::string("\n") + std::string(one.command)) != std::string::npos);
    CHECK_FALSE(one.why.empty());
  }
}

}  // namespace ordinatio::examples_test
