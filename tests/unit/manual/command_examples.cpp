// Every example that a command's help shows runs as it is printed, in a workshop where there is something for it to do.
#include "../photo/known_piece.h"
#include "command_line.h"
#include "command_tree.h"
#include "examples.h"
#include "manual/manual.h"

namespace ordinatio::command_examples_test {

namespace {

/// What has happened in the workshop before an example is given.
struct ExampleScene {
  std::string_view example;  // what it begins with; the first that fits counts
  bool has_ledger;
  std::vector<std::string> before;
};

constexpr const char* laid = "ordinatio day --no-dxf --no-pdf";
constexpr const char* speeds =
    "sed -i 's/^# \\(scan_speed\\|scan_pitch\\|travel_speed\\|acceleration\\)/\\1/' shop.toml";
constexpr const char* station_named =
    R"(printf '[[stations]]\nname = "engraving"\nrate = "12 an hour"\n' >> shop.toml)";
constexpr const char* laid_orders = "ordinatio day orders.csv --no-dxf --no-pdf";

const std::vector<ExampleScene>& scenes() {
  static const std::vector<ExampleScene> all{
      {"ordinatio remake 1002-2 --sheet", false, {laid_orders}},
      {"ordinatio remake 1001-1 --sheet", false, {laid_orders}},
      {"ordinatio align", false, {laid_orders}},
      {"ordinatio loading out", false, {laid_orders}},
      {"ordinatio loading", true, {laid}},
      {"ordinatio time out", false, {speeds, laid_orders}},
      {"ordinatio time", false, {speeds}},
      {"ordinatio run-sheet", true, {laid}},
      {"ordinatio remake", true, {laid, "ordinatio engraved sheet-001"}},
      {"ordinatio stands --date", true, {laid, "ordinatio engraved sheet-001"}},
      {"ordinatio answer", true, {laid, "ordinatio engraved 1 2 3", "ordinatio intake changed.csv"}},
      {"ordinatio release", true, {"ordinatio hold 1002-2 --reason \"to be asked\""}},
      {"ordinatio undo sheet-003", true, {laid, "ordinatio engraved sheet-003"}},
      {"ordinatio undo", true, {"ordinatio correct 1002-2 --text \"Other words\""}},
      {"ordinatio approve",
       true,
       {"sed -i 's/# approval/approval/' templates/plaque-landscape.toml", "ordinatio proof"}},
      {"ordinatio engraved", true, {laid}},
      {"ordinatio packed", true, {laid, "ordinatio engraved sheet-001"}},
      {"ordinatio packing", true, {laid, "ordinatio engraved sheet-001"}},
      {"ordinatio labels", true, {laid, "ordinatio engraved sheet-001"}},
      {"ordinatio plates", true, {laid, "ordinatio engraved sheet-001"}},
      {"ordinatio spoil 1002-2", true, {laid}},
      {"ordinatio resume", true, {laid}},
      {"ordinatio move 1002-2 --piece", true, {"ordinatio pin 1003-1 S-12", laid, "ordinatio take-off 1003-1"}},
      {"ordinatio move", true, {laid}},
      {"ordinatio take-off", true, {laid}},
      {"ordinatio backup", true, {"mkdir stick"}},
      {"ordinatio intake", true, {}},
      {"ordinatio correct", true, {}},
      {"ordinatio set", true, {}},
      {"ordinatio hold", true, {}},
      {"ordinatio pin", true, {}},
      {"ordinatio first", true, {}},
      {"ordinatio cancel", true, {}},
      {"ordinatio let-go", true, {}},
      {"ordinatio spoil", true, {}},
      {"ordinatio stock", true, {}},
      {"ordinatio history", true, {}},
      {"ordinatio list", true, {}},
      {"ordinatio check", true, {}},
      {"ordinatio measure", false, {}},
      {"ordinatio plan --plaques", false, {station_named}},
      {"ordinatio plan", true, {station_named}},
      {"ordinatio ", false, {}},
  };
  return all;
}

ManualStep command_step(std::string text) { return {ManualStep::Kind::command, std::move(text), ""}; }
ManualStep file_step(std::string file, std::string text) {
  return {ManualStep::Kind::file, std::move(text), std::move(file)};
}

/// The files that the manual's page on pieces has its reader save.
std::vector<ManualStep> saved_on_page_of_pieces() {
  std::vector<ManualStep> steps = steps_of(manual_page("pieces")->text);
  std::erase_if(steps, [](const ManualStep& step) { return !step.file.ends_with(".csv"); });
  return steps;
}

const std::string header = "Order,Text,Quantity,Design\n";
const std::string ledger_table = "\n[ledger]\nfile = \"workshop.ledger\"\n";

/// Three full sheets of orders, and four rows that are none.
std::string monday_orders() {
  std::string rows = header + "1001,Rowan Cottage,1,\n1002,For Ines and Tomasz,2,\n1003,The Mill,24,\n";
  for (int order = 1004; order < 1007; ++order) rows += std::to_string(order) + ",Weir Lane,1,\n";
  for (int order = 1007; order < 1011; ++order) rows += std::to_string(order) + ",The Dovecote,two,\n";
  return rows;
}

/// The same with other words where there is one piece of each: three questions.
std::string changed_orders() {
  std::string rows = monday_orders();
  for (std::size_t at = 0; (at = rows.find("Weir Lane", at)) != std::string::npos;) rows.replace(at, 9, "Weir Side");
  return rows;
}

std::string forty_pieces() {
  std::string rows = "id\n";
  for (int piece = 1; piece <= 40; ++piece) rows += "S-" + std::to_string(piece) + "\n";
  return rows;
}

std::vector<ManualStep> ledger_steps() {
  return {file_step("shop.toml", "\n[blanks]\nfile = \"blanks.csv\"\n" + ledger_table),
          file_step("blanks.csv", forty_pieces()),
          file_step("monday.csv", monday_orders()),
          file_step("changed.csv", changed_orders()),
          file_step("fair.csv", header + "1002,The Old Forge,1,\n"),
          command_step("ordinatio intake monday.csv")};
}

std::vector<ManualStep> steps_to(const std::string& example) {
  const auto scene =
      std::ranges::find_if(scenes(), [&](const ExampleScene& one) { return example.starts_with(one.example); });
  REQUIRE(scene != scenes().end());
  std::vector<ManualStep> steps = scene->has_ledger ? ledger_steps() : saved_on_page_of_pieces();
  if (example.starts_with("ordinatio measure")) steps.push_back(file_step("photo.jpg", photograph_of_known_piece()));
  for (const std::string& before : scene->before) steps.push_back(command_step(before));
  steps.push_back(command_step(example));
  return steps;
}

/// The program's own examples are one story: what its second heading asks for is done where the heading stands.
std::vector<ManualStep> story_of(const std::vector<CommandExample>& examples) {
  std::vector<ManualStep> steps;
  for (const CommandExample& example : examples) {
    if (!example.command.empty()) steps.push_back(command_step(example.command));
    if (example.about.find("[ledger]") == std::string::npos) continue;
    steps.push_back(file_step("shop.toml", ledger_table));
    steps.push_back(file_step("monday.csv", header + "1001,The Old Forge,1,\n1002,Weir Lane,2,\n"));
  }
  return steps;
}

}  // namespace

TEST_CASE("every command's help shows an example, and each runs as it is printed", "[.help]") {
  const CommandLine line;
  for (const CommandWords& command : program_words(line.program()).commands) {
    INFO(command.name);
    CHECK_FALSE(command.examples.empty());
    for (const CommandExample& example : command.examples) {
      check_steps("ordinatio help " + command.name, steps_to(example.command), Workshop());
    }
  }
}

TEST_CASE("the program's help tells a day and a week that run as they are printed", "[.help]") {
  const CommandLine line;
  const auto steps = story_of(program_words(line.program()).examples);
  CHECK(steps.size() > 10);
  check_steps("ordinatio --help", steps, Workshop());
}

TEST_CASE("no scene stands for an example that no help shows any more", "[.help]") {
  const CommandLine line;
  const auto commands = program_words(line.program()).commands;
  for (const ExampleScene& scene : scenes()) {
    INFO(scene.example);
    CHECK(std::ranges::any_of(commands, [&](const CommandWords& command) {
      return std::ranges::any_of(
          command.examples, [&](const CommandExample& example) { return example.command.starts_with(scene.example); });
    }));
  }
}

}  // namespace ordinatio::command_examples_test
