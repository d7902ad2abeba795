#include "plan_command.h"

#include <nlohmann/json.hpp>

#include "base/harmless.h"
#include "bookkeeping/work_plan.h"
#include "command_tree.h"

namespace ordinatio {
namespace {

using Json = nlohmann::ordered_json;

struct PlanTyped {
  PlanOptions options;
  std::string paper;
};

Json json_of(const Spread<Day>& days) {
  return {{"1 of 10", iso_text(days.low)}, {"5 of 10", iso_text(days.middle)}, {"9 of 10", iso_text(days.high)}};
}

Json json_of(const WorkStation& station, const StationPlan& plan) {
  Json needs = Json::array();
  for (const Need& need : plan.needs) needs.push_back({{"name", need.name}, {"count", need.count}});
  return {{"name", station.name},          {"pieces", plan.pieces},
          {"hours", plan.hours},           {"days", plan.days},
          {"first", iso_text(plan.first)}, {"last", iso_text(plan.last)},
          {"breakage", station.breakage},  {"to_buy", needs}};
}

std::string plan_as_json(const WorkPlan& work) {
  Json stations = Json::array();
  for (std::size_t i = 0; i < work.plan.stations.size(); ++i) {
    stations.push_back(json_of(work.task.stations[i], work.plan.stations[i]));
  }
  const Spread<int>& pieces = work.plan.pieces;
  const Json plan{{"plaques", work.task.plaques},
                  {"from", iso_text(work.task.from)},
                  {"prepare", work.plan.prepared},
                  {"used", {{"1 of 10", pieces.low}, {"5 of 10", pieces.middle}, {"9 of 10", pieces.high}}},
                  {"stations", stations},
                  {"slowest", work.task.stations[work.plan.slowest].name},
                  {"done", json_of(work.plan.done)},
                  {"runs", work.plan.runs},
                  {"seed", work.task.seed}};
  Json account = Json::parse(account_as_json(work.account));
  account["plan"] = plan;
  return with_escaped_marks(account.dump(1, ' ', false, Json::error_handler_t::replace) + "\n");
}

int plan_and_tell(const Common& common, PlanTyped& typed) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  PlanOptions& options = typed.options;
  options.call = ledger_call(common);
  options.paper = paper_named(typed.paper).value_or(PaperSize::a4);
  options.out = common.out.empty() ? shop->folder / "out" : common.out;
  const Result<WorkPlan> work = run_plan(*shop, options);
  if (!work.ok()) return report_fault(work.fault());
  return common.json ? print_page(plan_as_json(*work)) : report(work->account, common, "");
}

}  // namespace

void add_plan_command(CLI::App& app, Common& common, int& code) {
  CLI::App* command = app.add_subcommand("plan", "Plan the weeks to come: days, pieces, what to buy, when all is done");
  command->group(sheet_commands);
  const auto typed = std::make_shared<PlanTyped>();
  command
      ->add_option("--plaques", typed->options.plaques,
                   "how many are to be made (default: all in the ledger that are not engraved yet)")
      ->type_name("NUMBER");
  command->add_option("--from", typed->options.from, "the first day of work, such as 2026-12-01 (default: today)")
      ->type_name("DATE");
  command
      ->add_option("--seed", typed->options.seed,
                   "of the lots by which pieces break; the same seed gives the same plan (default: 1)")
      ->type_name("NUMBER");
  choose_from(command->add_option("--paper", typed->paper, "what it is printed on (default: A4)"),
              {"a4", "a5", "letter"});
  add_common(command, common, "out");
  add_clock_options(command, common);
  show_examples(*command, {{"ordinatio plan --plaques 300 --from 2026-12-01",
                            "out/plan.pdf; stations as [[stations]] in shop.toml"},
                           {"ordinatio plan --from 2026-12-01 --json", "all that waits in the ledger, as data"}});
  command->callback([typed, &common, &code] { code = plan_and_tell(common, *typed); });
}

}  // namespace ordinatio
