#include "command_line.h"

#include <iostream>

#include "base/harmless.h"
#include "desk_command.h"
#include "help_command.h"
#include "help_page.h"
#include "plan_command.h"
#include "time_command.h"
#include "usage_fault.h"
#include "version.h"

namespace ordinatio {
namespace {

constexpr const char* about_program =
    "Ordinatio sets a day's orders as large as they legibly fit, each on its own piece, and lays them on sheets: bed "
    "files (SVG, DXF) at true size with registration marks, that any laser runs.";

void show_days(CLI::App& app) {
  show_examples(app, {{"", "A day, from the start"},
                      {"ordinatio new my-workshop", "a folder that works as it is"},
                      {"cd my-workshop", "look into shop.toml: machine, jig, columns of your export"},
                      {"ordinatio proof orders.csv", "out/proofs/proofs.pdf, a page an item, for the customers' yes"},
                      {"ordinatio day orders.csv", "out/orders/sheet-001.svg, .dxf, .pdf, .json"},
                      {"ordinatio remake 1002-2 --sheet out/orders/sheet-001.json", "a misprint, again, alone"},
                      {"", "A week with a ledger ([ledger] in shop.toml)"},
                      {"ordinatio intake monday.csv", "as often as you like: what is new is added once"},
                      {"ordinatio day", "everything that waits is laid on sheets, out/sheets"},
                      {"ordinatio engraved sheet-001",
                       "the bed is done; or it was interrupted: ordinatio resume sheet-001 --done 1-5"},
                      {"ordinatio remake 1002-2", "a misprint, again; its piece is written off"},
                      {"ordinatio history 1002-2", "what became of it; stock, list and check look at all"}});
  show_closing(app, "An item is held, with the reason, when it cannot be engraved as it should be; the others go on.");
  show_closing(
      app,
      "A laser of class 4 blinds and burns, and its smoke harms. Never leave it running alone; keep to its "
      "manual, to local codes, and to what is licensed practice where you work. Tempered glass shatters: never "
      "engrave it.");
}

std::string page_for(const CLI::App& app) {
  const CLI::App* program = &app;
  while (program->get_parent() != nullptr) program = program->get_parent();
  const ProgramWords words = program_words(*program);
  return &app == program ? help_page(words) : help_page(words, command_words(app));
}

}  // namespace

CommandLine::CommandLine() : app_(about_program, "ordinatio") {
  app_.require_subcommand(1);
  app_.formatter_fn([](const CLI::App* app, const std::string&, CLI::AppFormatMode) { return page_for(*app); });
  app_.set_help_flag("-h,--help", "show this page");
  app_.set_version_flag("--version", std::string("ordinatio ") + program_version(), "name the version");
  shop_.add_to(app_, common_, code_);
  ledger_.add_to(app_, common_, code_);
  packing_.add_to(app_, common_, code_);
  add_time_command(app_, common_, code_);
  add_plan_command(app_, common_, code_);
  add_desk_command(app_, code_);
  add_help_command(app_, code_);
  show_days(app_);  // last: a command begins with what the program shows
}

int CommandLine::run(int argc, char** argv) {
  common_.cause = cause_of(argc, argv);
  try {
    app_.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return print_page(app_.help());
  } catch (const CLI::CallForVersion& version) {
    return print_page(std::string(version.what()) + '\n');
  } catch (const CLI::ParseError& error) {
    return report_fault(usage_fault(app_, error));
  }
  return code_;
}

}  // namespace ordinatio
