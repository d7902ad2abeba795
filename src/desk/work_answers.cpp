// Work that takes a while: begun, watched, stopped.
#include <algorithm>

#include "bookkeeping/work_plan.h"
#include "desk/answers.h"
#include "shop/day.h"
#include "shop/machine_time.h"
#include "shop/proof.h"
#include "shop/specimen.h"
#include "shop/stands.h"

namespace ordinatio::inline desk {
namespace {

constexpr double work_patience = 5;  // seconds for another command to end: this one is not waited for

/// Whether it is a day of the calendar's form; the designs read it.
std::string date_of(const WorkshopDesk& desk, const Ask& ask) {
  const std::string date = ask.text("date");
  return date.empty() ? desk.today() : date;
}

/// A number that may be any, as one that a command refuses where it is none of its own.
int count_of(double number) { return static_cast<int>(std::clamp(number, -1.0, 1e9)); }

/// make: const Shop&, const Ask&, LedgerCall → Background::Work.
template <class Make>
Response begin(WorkshopDesk& desk, const Request& request, const std::string& kind, Make&& make) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  LedgerCall call = desk.call(kind);
  call.wait = work_patience;
  if (auto fault = desk.background().begin(kind, make((*bench)->shop(), *ask, call))) return answer_of(*fault);
  return state_of_work(desk);
}

}  // namespace

Response state_of_work(WorkshopDesk& desk) {
  Response response = answer_of(shape_of(desk.background().state()));
  response.status = 200;
  return response;
}

Response begin_specimen(WorkshopDesk& desk, const Request& request) {
  return begin(desk, request, "specimen", [&](const Shop& shop, const Ask& ask, const LedgerCall&) {
    SpecimenOptions options;
    options.out = shop.folder / "out" / "specimen";
    if (!ask.text("words").empty()) options.text = ask.text("words");
    return [shop, options](const Progress& progress) { return run_specimen(shop, options, progress); };
  });
}

Response begin_day(WorkshopDesk& desk, const Request& request) {
  return begin(desk, request, "day", [&](const Shop& shop, const Ask& ask, const LedgerCall& call) {
    DayOptions options;
    options.date = date_of(desk, ask);
    options.call = call;
    return [shop, options](const Progress& progress) { return run_day(shop, options, progress); };
  });
}

Response begin_proofs(WorkshopDesk& desk, const Request& request) {
  return begin(desk, request, "proofs", [&](const Shop& shop, const Ask& ask, const LedgerCall& call) {
    ProofOptions options;
    options.out = shop.folder / "out" / "proofs";
    options.items = ask.texts("items");
    options.pictures = true;
    options.date = date_of(desk, ask);
    options.call = call;
    return [shop, options](const Progress& progress) { return run_proof(shop, options, progress); };
  });
}

Response begin_stands(WorkshopDesk& desk, const Request& request) {
  return begin(desk, request, "stands", [&](const Shop& shop, const Ask& ask, const LedgerCall& call) {
    StandOptions options;
    if (const auto count = ask.number("count")) options.count = count_of(*count);
    options.date = date_of(desk, ask);
    options.call = call;
    return [shop, options](const Progress& progress) { return run_stands(shop, options, progress); };
  });
}

Response begin_hours(WorkshopDesk& desk, const Request& request) {
  return begin(desk, request, "hours", [&](const Shop& shop, const Ask& ask, const LedgerCall& call) {
    TimeOptions options;
    options.machines = ask.texts("machines");
    for (const std::string& pitch : ask.texts("pitches")) options.pitches.push_back(parse_number(pitch).value_or(0));
    options.hours = ask.number("hours").value_or(options.hours);
    options.from = options.date = date_of(desk, ask);
    options.call = call;
    options.shown = [&seen = desk.ahead()](const std::vector<TimedSetting>& settings) {
      const std::lock_guard lock(seen.guard);
      seen.settings = settings;
    };
    return [shop, options](const Progress& progress) { return run_time(shop, options, progress); };
  });
}

Response begin_plan(WorkshopDesk& desk, const Request& request) {
  return begin(desk, request, "plan", [&](const Shop& shop, const Ask& ask, const LedgerCall& call) {
    PlanOptions options;
    if (const auto plaques = ask.number("plaques")) options.plaques = count_of(*plaques);
    options.from = date_of(desk, ask);
    options.call = call;
    options.out = shop.folder / "out" / "plan";
    return [shop, options, &seen = desk.ahead()](const Progress&) -> Result<Account> {
      Result<WorkPlan> plan = run_plan(shop, options);
      if (!plan.ok()) return plan.fault();
      const std::lock_guard lock(seen.guard);
      seen.plan = *std::move(plan);
      return seen.plan->account;
    };
  });
}

Response show_work(WorkshopDesk& desk, const Request&) { return state_of_work(desk); }

Response stop_work(WorkshopDesk& desk, const Request&) {
  desk.background().stop();
  return state_of_work(desk);
}

}  // namespace ordinatio::inline desk
