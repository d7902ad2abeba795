// A piece measured from its photograph: the card to print, the table straightened, the piece as it is drawn, its row.
#include "desk/answers.h"
#include "desk/pictures.h"
#include "shop/photo_piece.h"
#include "shop/piece_draft.h"

namespace ordinatio::inline desk {
namespace {

PieceDraft draft_of(const Ask& ask) {
  return {ask.text("id"),   ask.text("material"), ask.text("glass"),  ask.text("thickness"),
          ask.text("note"), ask.texts("corners"), ask.texts("chips"), ask.texts("keep_clear")};
}

Json shape_of(const PieceSight& sight) {
  Json corners = Json::array();
  for (const Point corner : sight.outline) corners.push_back(corner_text(corner));
  const Transform& place = sight.to_piece;
  return {{"width", sight.width},
          {"height", sight.height},
          {"place", {place.xx, place.yx, place.xy, place.yy, place.dx, place.dy}},
          {"corners", corners},
          {"doubt", sight.doubt}};
}

Result<const Design*> nominal_of(TrialBench& bench) { return bench.design(bench.shop().default_design); }

/// The piece as it would be read, whether its id is new among them or not.
Result<BlankRow> drawn(TrialBench& bench, const PieceDraft& draft, BlankCells& cells) {
  const Result<const Design*> nominal = nominal_of(bench);
  if (!nominal.ok()) return nominal.fault();
  Result<BlankCells> read = cells_of(draft);
  if (!read.ok()) return read.fault();
  cells = *std::move(read);
  return piece_of(cells, **nominal);
}

Response unknown_photo() { return {404, "text/plain; charset=utf-8", "The desk keeps no such picture.\n"}; }

}  // namespace

Response look_at_piece(WorkshopDesk& desk, const Request& request) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Result<const Design*> nominal = nominal_of(**bench);
  if (!nominal.ok()) return answer_of(nominal.fault());
  const auto rows = (*bench)->pieces();
  Result<PieceSight> sight =
      look_at_photo(request.body, request.parameter("name"), (*nominal)->width, (*nominal)->height);
  if (!sight.ok()) return answer_of(sight.fault());
  Json answer = shape_of(*sight);
  answer["photo"] = desk.photos().keep(std::move(sight->jpeg));
  answer["id"] = rows.ok() ? next_id(**rows) : "";
  answer["material"] = rows.ok() && !(*rows)->empty() ? (*rows)->back().blank.material : "";
  return answer_of(answer);
}

Response give_photo(WorkshopDesk& desk, const Request& request) {
  const std::string* jpeg = desk.photos().find(request.parameter("photo"));
  return jpeg == nullptr ? unknown_photo() : Response{200, "image/jpeg", *jpeg};
}

Response give_card(WorkshopDesk& desk, const Request& request) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Result<std::string> pdf = card_pdf((*bench)->shop(), request.parameter("paper"));
  if (!pdf.ok()) return answer_of(pdf.fault());
  return {200, "application/pdf", *pdf, {{"Content-Disposition", "attachment; filename=\"card.pdf\""}}};
}

Response try_piece(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  PieceDraft draft = draft_of(*ask);
  if (draft.id.empty()) draft.id = "?";  // it is not named yet, and may be seen all the same
  BlankCells cells;
  const Result<BlankRow> row = drawn(**bench, draft, cells);
  if (!row.ok()) return answer_of(row.fault());
  return answer_of(Json{{"picture", piece_picture(row->blank)}, {"width", row->width}, {"height", row->height}});
}

Response add_piece(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  BlankCells cells;
  const PieceDraft draft = draft_of(*ask);
  const Result<BlankRow> row = drawn(**bench, draft, cells);
  if (!row.ok()) return answer_of(row.fault());
  return answer_of(run_add_blank((*bench)->shop(), desk.call("add piece " + row->blank.id), cells),
                   piece_subject + row->blank.id);
}

}  // namespace ordinatio::inline desk
