#include "bookkeeping/work_plan.h"

#include "base/phrase.h"
#include "check/check.h"
#include "paper/plan_pdf.h"
#include "plan/day.h"
#include "plan/plan_words.h"
#include "shop/ledger_access.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

MaybeFault deliver_plan(const PlanPaper& paper, const PlanOptions& options, Account& account) {
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "plan.");
  if (!outbox.ok()) return outbox.fault();
  const Result<std::string> written = (*outbox)->put("plan.pdf", paper.pdf);
  if (!written.ok()) return written.fault();
  const Point measures = paper_measures(options.paper);
  if (auto fault = check_specimen(*written, paper.ink, measures.x, measures.y)) return fault;
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.files = *std::move(files);
  return std::nullopt;
}

/// What is still to be made, and what of it is under way.
MaybeFault count_what_waits(Ledger& ledger, WorkPlan& work) {
  const std::size_t waiting = ledger.waiting_items().size();
  const std::size_t on_sheets = ledger.items_in(ItemState::on_sheet).size();
  if (waiting + on_sheets == 0) {
    return Fault{"nothing waits", "the ledger", "all items are engraved, or it has none",
                 "Give a number of plaques: ordinatio plan --plaques 300"};
  }
  work.task.plaques = static_cast<int>(std::min<std::size_t>(waiting + on_sheets, most_plaques + 1));
  if (on_sheets > 0) {
    work.account.notes.push_back(counted(on_sheets, "item") + (on_sheets == 1 ? " lies" : " lie") +
                                 " on sheets that are not engraved yet: planned from the first station on");
  }
  return std::nullopt;
}

MaybeFault plan_and_write(const Shop& shop, const PlanOptions& options, WorkPlan& work) {
  Result<Plan> plan = plan_work(work.task);
  if (!plan.ok()) return plan.fault();
  work.plan = *std::move(plan);
  work.account.told = plan_lines(work.task, work.plan);
  const Workroom workroom(shop);
  const Result<PlanPaper> paper = write_plan_pdf(work.task, work.plan, shop.name, workroom.fonts(), options.paper);
  if (!paper.ok()) return paper.fault();
  return deliver_plan(*paper, options, work.account);
}

}  // namespace

Result<WorkPlan> run_plan(const Shop& shop, const PlanOptions& options) {
  constexpr std::size_t iso_day = 10;  // "2026-11-25"
  const std::string from = options.from.empty() ? options.call.now.substr(0, iso_day) : options.from;
  const auto day = day_named(from);
  if (!day) {
    return Fault{in_quotes(from) + " is no date", "--from", "", "Write it as year-month-day, such as 2026-12-01"};
  }
  WorkPlan work{{shop.stations, options.plaques.value_or(0), *day, shop.days_off, options.seed}, {}, {}};
  if (!options.plaques) {
    if (shop.ledger.empty()) {
      return Fault{"how many plaques wait is not known", "--plaques", "the workshop keeps no ledger",
                   "Give their number: ordinatio plan --plaques 300"};
    }
    const Result<Account> counted_up =
        from_ledger(shop, options.call, [&](Ledger& ledger, Account&) { return count_what_waits(ledger, work); });
    if (!counted_up.ok()) return counted_up.fault();
  }
  if (auto fault = plan_and_write(shop, options, work)) return *std::move(fault);
  return work;
}

}  // namespace ordinatio::inline bookkeeping
