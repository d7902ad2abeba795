#include "help_command.h"

#include <memory>

#include "base/base.h"
#include "base/phrase.h"
#include "command.h"
#include "command_tree.h"
#include "manual/manual.h"

namespace ordinatio {
namespace {

std::vector<const CLI::App*> commands_of(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App*) { return true; });
}

std::string line_of(std::string_view name, std::string_view what) {
  return "  " + padded(name, 12) + std::string(what) + '\n';
}

/// Every page and every command, a line each.
std::string contents(const CLI::App& app) {
  std::string text = "The manual, page by page: ordinatio help PAGE\n\n";
  for (const ManualPage& page : manual_pages()) text += line_of(page.name, heading_of(page));
  text += "\nThe commands, and what each takes: ordinatio help COMMAND\n\n";
  for (const CLI::App* command : commands_of(app)) text += line_of(command->get_name(), command->get_description());
  return text;
}

Fault unknown(const std::string& word, const CLI::App& app) {
  std::vector<std::string> names;
  for (const ManualPage& page : manual_pages()) names.emplace_back(page.name);
  for (const CLI::App* command : commands_of(app)) names.push_back(command->get_name());
  const auto nearest = nearest_word(word, std::vector<std::string_view>(names.begin(), names.end()));
  return {"no page and no command is called \"" + word + "\"", "help", "",
          nearest ? "Did you mean \"" + *nearest + "\"?" : "See them all by: ordinatio help"};
}

int run_help(const std::string& word, const CLI::App& app) {
  if (word.empty()) return print_page(contents(app));
  if (const ManualPage* page = manual_page(word)) return print_page(page->text);
  for (const CLI::App* command : commands_of(app)) {
    if (command->get_name() == word) return print_page(command->help(app.get_name()));
  }
  return report_fault(unknown(word, app));
}

}  // namespace

void add_help_command(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand("help", "Read a page of the manual, or what a command takes");
  const auto word = std::make_shared<std::string>();  // as long as the command lives
  command->add_option("PAGE", *word, "a page or a command; without one all of them are listed")->type_name("PAGE");
  command->group(manual_commands);
  show_examples(*command, {{"ordinatio help", "every page and every command"},
                           {"ordinatio help orders", "how an export is read, and what shop.toml says of it"}});
  command->callback([&app, &code, word] { code = run_help(*word, app); });
}

}  // namespace ordinatio
