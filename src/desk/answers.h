// The desk's answers, a file a page. Of this folder alone.
#pragma once

#include "desk/shapes.h"
#include "desk/workshop_desk.h"
#include "ledger/database.h"

namespace ordinatio::inline desk {

// ---- start_answers.cpp ----
Response show_shop(WorkshopDesk& desk, const Request& request);
Response make_shop(WorkshopDesk& desk, const Request& request);
Response begin_ledger(WorkshopDesk& desk, const Request& request);

// ---- today_answers.cpp ----
Response show_today(WorkshopDesk& desk, const Request& request);
/// The ledger for a look at it; where none was begun yet, an empty one. Faults: the workshop keeps none.
Result<std::unique_ptr<Ledger>> open_for_look(const Shop& shop, const LedgerCall& call);
Response look_at_export(WorkshopDesk& desk, const Request& request);
Response take_export_in(WorkshopDesk& desk, const Request& request);
Response answer_question(WorkshopDesk& desk, const Request& request);
Response let_row_go(WorkshopDesk& desk, const Request& request);

// ---- column_answers.cpp ----
Response show_columns(WorkshopDesk& desk, const Request& request);
Response try_columns(WorkshopDesk& desk, const Request& request);
Response keep_columns(WorkshopDesk& desk, const Request& request);

// ---- item_answers.cpp ----
Response show_item(WorkshopDesk& desk, const Request& request);
Response fit_words(WorkshopDesk& desk, const Request& request);
Response search_items(WorkshopDesk& desk, const Request& request);
Response show_design(WorkshopDesk& desk, const Request& request);

// ---- item_acts.cpp ----
Response correct_item(WorkshopDesk& desk, const Request& request);
Response set_item(WorkshopDesk& desk, const Request& request);
Response approve_items(WorkshopDesk& desk, const Request& request);
Response pack_items(WorkshopDesk& desk, const Request& request);
Response undo_last(WorkshopDesk& desk, const Request& request);
Response spoil_one(WorkshopDesk& desk, const Request& request);
Response remake_item(WorkshopDesk& desk, const Request& request);

// ---- sheet_answers.cpp ----
Response show_sheets(WorkshopDesk& desk, const Request& request);
Response show_sheet(WorkshopDesk& desk, const Request& request);
Response book_engraved(WorkshopDesk& desk, const Request& request);
Response resume_sheet(WorkshopDesk& desk, const Request& request);
Response give_file(WorkshopDesk& desk, const Request& request);
Response make_loading(WorkshopDesk& desk, const Request& request);
/// Every sheet in a line.
Json shape_of_sheets(Ledger& ledger);

// ---- proof_answers.cpp ----
Response show_proofs(WorkshopDesk& desk, const Request& request);

// ---- paper_answers.cpp ----
Response show_board(WorkshopDesk& desk, const Request& request);
Response make_board(WorkshopDesk& desk, const Request& request);
Response make_packing(WorkshopDesk& desk, const Request& request);
Response show_stand(WorkshopDesk& desk, const Request& request);
Response show_panes(WorkshopDesk& desk, const Request& request);
Response begin_panes(WorkshopDesk& desk, const Request& request);
Response show_sample_faces(WorkshopDesk& desk, const Request& request);

// ---- move_answers.cpp ----
Response show_suiting(WorkshopDesk& desk, const Request& request);
Response move_item(WorkshopDesk& desk, const Request& request);

// ---- work_answers.cpp ----
/// How work stands; that it failed is no fault of the request that asks for it.
Response state_of_work(WorkshopDesk& desk);
Response begin_specimen(WorkshopDesk& desk, const Request& request);
Response begin_day(WorkshopDesk& desk, const Request& request);
Response begin_proofs(WorkshopDesk& desk, const Request& request);
Response begin_stands(WorkshopDesk& desk, const Request& request);
Response begin_hours(WorkshopDesk& desk, const Request& request);
Response begin_plan(WorkshopDesk& desk, const Request& request);
Response show_work(WorkshopDesk& desk, const Request& request);
Response stop_work(WorkshopDesk& desk, const Request& request);

// ---- settings_answers.cpp ----
Response show_settings(WorkshopDesk& desk, const Request& request);
Response try_settings(WorkshopDesk& desk, const Request& request);
Response save_settings(WorkshopDesk& desk, const Request& request);

// ---- design_answers.cpp ----
Response show_design_file(WorkshopDesk& desk, const Request& request);
Response try_design(WorkshopDesk& desk, const Request& request);
Response save_design(WorkshopDesk& desk, const Request& request);
Response copy_design(WorkshopDesk& desk, const Request& request);

// ---- measure_answers.cpp ----
Response show_measures(WorkshopDesk& desk, const Request& request);
Response try_measures(WorkshopDesk& desk, const Request& request);
Response save_measures(WorkshopDesk& desk, const Request& request);

// ---- piece_answers.cpp ----
Response show_pieces(WorkshopDesk& desk, const Request& request);
Response show_stock(WorkshopDesk& desk, const Request& request);
// ---- ahead_answers.cpp ----
Response show_hours(WorkshopDesk& desk, const Request& request);
Response show_plan(WorkshopDesk& desk, const Request& request);
Response make_settings_card(WorkshopDesk& desk, const Request& request);

// ---- photo_answers.cpp ----
Response look_at_piece(WorkshopDesk& desk, const Request& request);
Response give_photo(WorkshopDesk& desk, const Request& request);
Response give_card(WorkshopDesk& desk, const Request& request);
Response try_piece(WorkshopDesk& desk, const Request& request);
Response add_piece(WorkshopDesk& desk, const Request& request);
/// Before a piece's id: what undo takes to take its row away again. No number of an item or a sheet begins so.
inline const std::string piece_subject = "piece ";

/// Reads the workshop and its ledger for an answer. work: TrialBench&, Ledger& → Response.
template <class Work>
Response from_workshop(WorkshopDesk& desk, Work&& work) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const auto look = [&]() -> Result<Response> {
    const auto ledger = open_for_look((*bench)->shop(), desk.call("look"));
    if (!ledger.ok()) return ledger.fault();
    return work(**bench, **ledger);
  };
  const Result<Response> response = guarded(look);
  return response.ok() ? *response : answer_of(response.fault());
}

/// Runs one command in the workshop. work: const Shop&, const Ask& → Result<Account>. subject: the name in the ask of what
/// undo takes to take it back; empty: nothing does.
template <class Work>
Response command(WorkshopDesk& desk, const Request& request, Work&& work, const char* subject = "") {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  return answer_of(work((*bench)->shop(), *ask), ask->text(subject));
}

}  // namespace ordinatio::inline desk
