// The time to come: machines and pitches side by side, the workshop's stations.
#include "desk/answers.h"
#include "desk/given_files.h"
#include "plan/plan_words.h"
#include "shop/settings_card.h"

namespace ordinatio::inline desk {
namespace {

Json shape_of(const TimedSetting& one) {
  return {{"machine", one.machine}, {"pitch", one.pitch}, {"beds", one.beds},
          {"seconds", one.seconds}, {"a_bed", one.a_bed}, {"plaques_an_hour", one.plaques_an_hour},
          {"days", one.days},       {"done", one.done},   {"is_whole", one.is_whole}};
}

Json shape_of(const WorkPlan& work) {
  const Plan& plan = work.plan;
  Json stations = Json::array(), needs = Json::array();
  for (std::size_t i = 0; i < plan.stations.size(); ++i) {
    const StationPlan& station = plan.stations[i];
    stations.push_back({{"name", work.task.stations[i].name},
                        {"rate", rate_words(work.task.stations[i])},
                        {"pieces", station.pieces},
                        {"hours", station.hours},
                        {"days", station.days},
                        {"first", iso_text(station.first)},
                        {"last", iso_text(station.last)},
                        {"is_slowest", i == plan.slowest}});
  }
  for (const Purchase& need : purchases(work.task, plan))
    needs.push_back({{"station", need.station}, {"name", need.name}, {"count", need.count}});
  return {{"plaques", work.task.plaques},
          {"prepared", plan.prepared},
          {"early", iso_text(plan.done.low)},
          {"likely", iso_text(plan.done.middle)},
          {"late", iso_text(plan.done.high)},
          {"runs", plan.runs},
          {"stations", stations},
          {"needs", needs}};
}

}  // namespace

Response show_hours(WorkshopDesk& desk, const Request&) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Shop& shop = (*bench)->shop();
  Json machines = Json::array(), settings = Json::array();
  for (const ShopMachine& machine : shop.machines) {
    if (machine.motion) machines.push_back({{"name", machine.bed.name}, {"pitch", machine.motion->scan_pitch}});
  }
  SeenAhead& seen = desk.ahead();
  const std::lock_guard lock(seen.guard);
  for (const TimedSetting& one : seen.settings) settings.push_back(shape_of(one));
  return answer_of({{"machines", machines}, {"settings", settings}, {"files", files_in(shop, "settings-card")}});
}

Response make_settings_card(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    SettingsCardOptions options;
    options.speed = ask.text("speed"), options.power = ask.text("power"), options.pitch = ask.text("pitch");
    options.size = ask.text("size");
    options.blank = ask.text("piece");
    options.out = shop.folder / "out" / "settings-card";
    return run_settings_card(shop, options);
  });
}

Response show_plan(WorkshopDesk& desk, const Request&) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Shop& shop = (*bench)->shop();
  Json answer{{"stations", shop.stations.size()}, {"files", files_in(shop, "plan")}};
  SeenAhead& seen = desk.ahead();
  const std::lock_guard lock(seen.guard);
  if (seen.plan) answer["plan"] = shape_of(*seen.plan);
  return answer_of(answer);
}

}  // namespace ordinatio::inline desk
