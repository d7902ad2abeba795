#include "time_command.h"

#include "command_tree.h"
#include "machine/spell.h"
#include "report.h"
#include "shop/machine_time.h"

namespace ordinatio {
namespace {

struct TimeWords {
  TimeOptions options;
  std::vector<std::string> took;
};

int run_time_command(const Common& common, TimeWords words) {
  for (const std::string& text : words.took) {
    const std::optional<double> seconds = time_in(text);
    if (!seconds || !(*seconds > 0)) {
      return report_fault({"\"" + text + "\" is no time", "--took", "a bed takes hours and minutes",
                           "Write, for example: --took 1h35m, or --took 95min"});
    }
    words.options.took.push_back(*seconds);
  }
  words.options.call = ledger_call(common);
  return run_in_shop(common, "",
                     [&](const Shop& shop) { return run_time(shop, words.options, progress_line("setting")); });
}

}  // namespace

void add_time_command(CLI::App& app, Common& common, int& code) {
  CLI::App* command =
      app.add_subcommand("time", "How long the machine takes: beds, all that waits, settings side by side");
  command->group(sheet_commands);
  const auto words = std::make_shared<TimeWords>();
  TimeOptions& options = words->options;
  command
      ->add_option("SHEET", options.sheets,
                   "the manifest (.json) of a sheet; with a ledger its name will do (default: all that waits)")
      ->type_name("FILE");
  command->add_option("--orders", options.orders, "the orders that wait, a CSV file (default: as for day)")
      ->type_name("FILE");
  command->add_option("--blanks", options.blanks, "the measured pieces, a CSV file (default: as shop.toml says)")
      ->type_name("FILE");
  command->add_option("--date", options.date, "the day for designs with a date mark, such as 2026-11-25")
      ->type_name("DATE");
  command->add_option("--machine", options.machines, "the machines to compare, with commas between their names")
      ->delimiter(',')
      ->type_name("WORDS");
  command
      ->add_option("--pitch", options.pitches, "scan pitches to compare, such as 0.08,0.1 (default: as shop.toml says)")
      ->delimiter(',')
      ->type_name("MM");
  command->add_option("--hours", options.hours, "for how many hours a day the machine runs (default: 8)")
      ->type_name("NUMBER");
  command->add_option("--from", options.from, "the first day of the work, to be told the last; each day counts")
      ->type_name("DATE");
  command
      ->add_option("--took", words->took, "what each sheet took, such as 1h35m: the machine's factor is fitted to it")
      ->type_name("TIME");
  command->add_flag("--keep", options.keep, "write that factor into shop.toml");
  add_ledger_options(command, common);
  show_examples(
      *command,
      {{"ordinatio time --pitch 0.08,0.1,0.12 --hours 5", "all that waits at three pitches, and the days"},
       {"ordinatio time out/orders/sheet-001.json", "one bed, by operation and piece"},
       {"ordinatio time out/orders/sheet-001.json --took 1h50m", "the factor by which this machine is slower"}});
  command->callback([words, &common, &code] { code = run_time_command(common, *words); });
}

}  // namespace ordinatio
