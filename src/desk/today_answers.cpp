// What there is to do today, and an export that comes in.
#include "bookkeeping/bookkeeping.h"
#include "desk/answers.h"
#include "desk/exports.h"
#include "intake/held_rows.h"
#include "shop/ledger_access.h"

namespace ordinatio::inline desk {
namespace {

Json shapes_of(WorkshopDesk& desk, Ledger& ledger, const std::vector<LedgerItem>& items) {
  Json list = Json::array();
  for (const LedgerItem& item : items) list.push_back(shape_of(item, ledger, desk.piece_to_come(item.number)));
  return list;
}

Json counts_of(Ledger& ledger) {
  Json counts = Json::array();
  for (const StateCount& count : ledger.items_by_state())
    counts.push_back({{"state", count.what}, {"count", count.count}});
  return counts;
}

Json rows_of(Ledger& ledger) {
  Json rows = Json::array();
  for (const LedgerHeldRow& row : ledger.open_rows()) {
    rows.push_back({{"name", row_name(row.id)},
                    {"reason", reason_of(row)},
                    {"mend", row.mend},
                    {"as_it_came", as_it_came(row)},
                    {"file", row.file}});
  }
  return rows;
}

Json questions_of(WorkshopDesk& desk, Ledger& ledger) {
  Json questions = Json::array();
  for (const LedgerQuestion& question : ledger.open_questions()) {
    questions.push_back({{"question", question.id},
                         {"kind", name_of(question.kind)},
                         {"asks", question.asks},
                         {"proposal", question.proposal},
                         {"items", shapes_of(desk, ledger, ledger.items_of_line(question.line))}});
  }
  return questions;
}

Response take(WorkshopDesk& desk, const Request& request, bool dry_run) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Result<std::filesystem::path> file = kept_export(desk.folder(), request.parameter("name"), request.body);
  if (!file.ok()) return answer_of(file.fault());
  IntakeOptions options;
  options.call = desk.call("intake " + file->filename().string());
  options.orders = *file;
  options.dry_run = dry_run;
  return answer_of(run_intake((*bench)->shop(), options));
}

}  // namespace

Result<std::unique_ptr<Ledger>> open_for_look(const Shop& shop, const LedgerCall& call) {
  return has_ledger(shop) ? open_ledger(shop, call, Ledger::Access::read) : open_to_see(shop, call);
}

Response show_today(WorkshopDesk& desk, const Request&) {
  return from_workshop(desk, [&](TrialBench& bench, Ledger& ledger) {
    std::vector<LedgerItem> waiting, held, to_prove, to_approve;
    for (LedgerItem& item : ledger.waiting_items()) {
      const bool is_new = item.state == ItemState::received || item.state == ItemState::ready;
      if ((is_new || item.state == ItemState::proofed) && needs_yes(bench, item))
        (is_new ? to_prove : to_approve).push_back(item);
      (item.state == ItemState::held ? held : waiting).push_back(std::move(item));
    }
    return answer_of(Json{{"counts", counts_of(ledger)},
                          {"waiting", shapes_of(desk, ledger, waiting)},
                          {"held", shapes_of(desk, ledger, held)},
                          {"rows", rows_of(ledger)},
                          {"questions", questions_of(desk, ledger)},
                          {"to_prove", shapes_of(desk, ledger, to_prove)},
                          {"to_approve", shapes_of(desk, ledger, to_approve)},
                          {"to_pack", shapes_of(desk, ledger, ledger.items_in(ItemState::engraved))},
                          {"sheets", shape_of_sheets(ledger)}});
  });
}

Response look_at_export(WorkshopDesk& desk, const Request& request) { return take(desk, request, true); }
Response take_export_in(WorkshopDesk& desk, const Request& request) { return take(desk, request, false); }

Response answer_question(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) -> Result<Account> {
    AnswerOptions options;
    options.question = static_cast<std::int64_t>(ask.number("question").value_or(0));
    const std::string answer = ask.text("answer");
    using Answer = AnswerOptions::Answer;
    options.answer = answer == "take" ? Answer::take : answer == "new" ? Answer::as_new : Answer::keep;
    options.call = desk.call("answer " + std::to_string(options.question) + " " + answer);
    return run_answer(shop, options);
  });
}

Response let_row_go(WorkshopDesk& desk, const Request& request) {
  return command(
      desk, request,
      [&](const Shop& shop, const Ask& ask) {
        return run_let_go(shop, {desk.call("let-go " + ask.text("row")), {ask.text("row")}});
      },
      "row");
}

}  // namespace ordinatio::inline desk
