// A piece measured from its photograph: the card to print, the table straightened, the piece as it is drawn, its row.
#include <cmath>

#include "desk/answers.h"
#include "desk/pictures.h"
#include "shop/photo_piece.h"
#include "shop/piece_draft.h"

namespace ordinatio::inline desk {
namespace {

constexpr double table_air = 14;  // mm around the piece that are shown with it

std::string joined(std::initializer_list<double> numbers) {
  std::string text;
  for (const double number : numbers) {
    if (!text.empty()) text += ' ';
    append_number(text, number, 6);
  }
  return text;
}

double hundredth(double mm) { return std::round(mm * 100) / 100; }

/// For SVG, whose y runs down.
std::string view_of(const Bounds& box, double air) {
  return joined({box.left - air, -box.top - air, box.width() + 2 * air, box.height() + 2 * air});
}

/// The whole table where the piece is in doubt: it may be another thing on it.
std::string view_of(const PieceSight& sight) {
  Bounds piece, table;
  for (const Point corner : sight.outline) piece.add(corner);
  const double width = sight.width, height = sight.height;
  for (const Point end : {Point{0, 0}, Point{width, 0}, Point{0, height}, Point{width, height}})
    table.add(sight.to_piece(end));
  return sight.doubt.empty() ? view_of(piece, table_air) : view_of(table, 0);
}

Json shape_of(const PieceSight& sight) {
  Json spots = Json::array();
  for (const Point corner : sight.outline) {
    spots.push_back({{"kind", "corner"},
                     {"x", hundredth(corner.x)},
                     {"y", hundredth(corner.y)},
                     {"w", 0},
                     {"h", 0},
                     {"m", 0},
                     {"n", ""}});
  }
  const Transform& to = sight.to_piece;
  return {{"width", sight.width},
          {"height", sight.height},
          {"place", "matrix(" + joined({to.xx, -to.yx, to.xy, -to.yy, to.dx, -to.dy}) + ")"},
          {"view", view_of(sight)},
          {"spots", spots},
          {"doubt", sight.doubt}};
}

Result<const Design*> nominal_of(TrialBench& bench) { return bench.design(bench.shop().default_design); }

struct DrawnPiece {
  BlankCells cells;
  BlankRow row;
};
/// As it would be read, whether its id is new or not.
Result<DrawnPiece> drawn(TrialBench& bench, const Ask& ask, const std::string& id) {
  const Result<const Design*> nominal = nominal_of(bench);
  if (!nominal.ok()) return nominal.fault();
  PieceDraft draft{id, ask.text("material"), ask.text("glass"), ask.text("thickness"), ask.text("note"), {}, {}, {}};
  for (const std::string& spot : ask.texts("spots")) {
    if (auto fault = add_spot(draft, spot)) return *std::move(fault);
  }
  BlankCells cells = cells_of(draft);
  Result<BlankRow> row = piece_of(cells, **nominal);
  if (!row.ok()) return row.fault();
  return DrawnPiece{std::move(cells), *std::move(row)};
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
  answer["words"] = {{"id", rows.ok() ? next_id(**rows) : ""},
                     {"material", rows.ok() && !(*rows)->empty() ? (*rows)->back().blank.material : ""},
                     {"thickness", ""},
                     {"glass", ""},
                     {"note", ""}};
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
  const std::string id = ask->text("id");  // it may be seen before it is named
  const Result<DrawnPiece> piece = drawn(**bench, *ask, id.empty() ? "?" : id);
  if (!piece.ok()) return answer_of(piece.fault());
  const BlankRow& row = piece->row;
  return answer_of(Json{{"picture", piece_picture(row.blank)}, {"width", row.width}, {"height", row.height}});
}

Response add_piece(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Result<DrawnPiece> piece = drawn(**bench, *ask, ask->text("id"));
  if (!piece.ok()) return answer_of(piece.fault());
  const std::string& id = piece->row.blank.id;
  return answer_of(run_add_blank((*bench)->shop(), desk.call("add piece " + id), piece->cells), piece_subject + id);
}

}  // namespace ordinatio::inline desk
