// A page's steps: found in it, and done in a workshop.
#include <sstream>

#include "examples.h"

namespace ordinatio {
namespace {

/// Adds lines to a workshop's file: below their table where it stands there already, else at the end.
std::string adding(const std::string& lines, const std::string& place, const std::string& file) {
  const std::string heading = lines.substr(0, lines.find('\n'));
  const bool one_table = heading.starts_with('[') && !heading.starts_with("[[") && heading.ends_with(']');
  const std::string at_end = "cat '" + place + "' >> '" + file + "'";
  if (!one_table) return at_end;
  const std::string found = "^\\[" + heading.substr(1, heading.size() - 2) + "\\]";
  return "if grep -q '" + found + "' '" + file + "'; then sed 1d '" + place + "' > '" + place + ".lines'; sed -i '/" +
         found + "/r " + place + ".lines' '" + file + "'; else " + at_end + "; fi";
}

/// Each step leaves its log and its exit code.
std::string script_of(const std::vector<ManualStep>& steps, const fs::path& logs) {
  std::string script = "PATH='" + fs::path(ORDINATIO).parent_path().string() + "':\"$PATH\"\n";
  // The desk is open until it is interrupted, and there is nobody to look at a browser.
  script +=
      "ordinatio() {\n  if [ \"$1\" = desk ]; then set -- \"$@\" --no-open; timeout --preserve-status -s INT 3 "
      "ordinatio \"$@\"\n"
      "  else command ordinatio \"$@\"; fi\n}\n";
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const std::string place = (logs / std::to_string(i)).string();
    std::string command = steps[i].text;
    if (steps[i].kind == ManualStep::Kind::file) {
      REQUIRE_FALSE(write_file(place + ".file", steps[i].text));
      command = steps[i].file == "shop.toml" ? adding(steps[i].text, place + ".file", steps[i].file)
                                             : "cat '" + place + ".file' > '" + steps[i].file + "'";
    }
    script += "{ " + command + "\n} >'" + place + ".log' 2>&1 </dev/null\necho $? >'" + place + ".code'\n";
  }
  return script;
}

}  // namespace

std::vector<ManualStep> steps_of(std::string_view page) {
  enum class Block { none, commands, file, other } block = Block::none;
  std::vector<ManualStep> steps;
  std::istringstream lines{std::string(page)};
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("```")) {
      std::string language, file;
      std::istringstream(line.substr(3)) >> language >> file;
      const bool is_end = block != Block::none;
      block = is_end ? Block::none : !file.empty() ? Block::file : language == "sh" ? Block::commands : Block::other;
      if (block == Block::file) steps.push_back({ManualStep::Kind::file, "", file});
    } else if (block == Block::commands && !line.empty()) {
      steps.push_back({ManualStep::Kind::command, line, ""});
    } else if (block == Block::file) {
      steps.back().text += line + "\n";
    }
  }
  return steps;
}

std::vector<StepOutcome> run_steps(const std::vector<ManualStep>& steps, const Workshop& workshop) {
  const fs::path logs = workshop.shop().parent_path() / "logs";
  fs::create_directories(logs);
  REQUIRE_FALSE(write_file(logs / "script", script_of(steps, logs)));
  const std::string command =
      "cd '" + workshop.shop().string() + "' && sh '" + (logs / "script").string() + "' >/dev/null 2>&1";
  REQUIRE(std::system(command.c_str()) == 0);
  std::vector<StepOutcome> outcomes;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto code = read_file(logs / (std::to_string(i) + ".code"));
    const auto log = read_file(logs / (std::to_string(i) + ".log"));
    outcomes.push_back({code.ok() ? std::stoi(*code) : -1, log.ok() ? *log : ""});
  }
  return outcomes;
}

void check_steps(std::string_view name, const std::vector<ManualStep>& steps, const Workshop& workshop) {
  const std::vector<StepOutcome> outcomes = run_steps(steps, workshop);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    INFO(name << ": " << (steps[i].file.empty() ? steps[i].text : steps[i].file) << "\n" << outcomes[i].log);
    CHECK(outcomes[i].code >= 0);
    CHECK(outcomes[i].code <= 1);
  }
}

}  // namespace ordinatio
