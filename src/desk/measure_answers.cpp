// A piece that is measured by hand: its row as a form, and the piece as the row draws it.
#include <algorithm>

#include "desk/form_answers.h"
#include "desk/pictures.h"
#include "shop/measuring.h"
#include "shop/shelf.h"

namespace ordinatio::inline desk {
namespace {

/// The columns of the file of pieces that a person measures.
const Form& piece_form() {
  using enum FieldKind;
  static const Form form{{"piece", "id"},
                         {"piece", "width", text},
                         {"piece", "height", text},
                         {"piece", "thickness", text},
                         {"piece", "corners"},
                         {"piece", "chips"},
                         {"piece", "keep_clear"},
                         {"piece", "material"},
                         {"piece", "glass", word, "", {"", "annealed", "none"}},
                         {"piece", "note"}};
  return form;
}

/// The row as it stands; of a new piece no cell has anything.
std::vector<FilledField> fields_of(const BlankCells& cells, bool is_new) {
  std::vector<FilledField> fields;
  for (const FormField& field : piece_form()) {
    if (field.key == "id" && !is_new) continue;
    const auto cell = std::ranges::find(cells, field.key, &BlankCell::column);
    fields.push_back({&field, "piece", "piece." + std::string(field.key), cell == cells.end() ? "" : cell->text});
  }
  return fields;
}

/// Only cells of the form, and only those that are others now: whatever else the row has stays.
BlankCells cells_of(const std::vector<FormChange>& changes, const BlankCells& before) {
  BlankCells cells;
  for (const FilledField& field : fields_of(before, before.empty())) {
    const auto change = std::ranges::find(changes, field.name, &FormChange::name);
    if (change != changes.end() && change->value != field.value)
      cells.push_back({std::string(field.field->key), change->value});
  }
  return cells;
}

/// "blanks.csv:12:4, column "chips"" is at piece.chips.
Response refused(const Fault& fault) {
  Json answer{{"fault", shape_of(fault)}, {"text", ""}, {"at", ""}};
  for (const FormField& field : piece_form()) {
    if (fault.where.ends_with("column \"" + std::string(field.key) + "\""))
      answer["at"] = "piece." + std::string(field.key);
  }
  return answer_of(answer);
}

/// What a request says of a piece, held against the file as it is now.
struct Measured {
  std::string id;  // of the row that is measured anew; empty: a new one
  BlankCells before, cells;
  std::string bytes;  // of the file
  BlankRow row;
};

/// unnamed: the id of a piece that has none yet. work: Measured&, const Shop& → Response.
template <class Work>
Response with_piece(WorkshopDesk& desk, const Request& request, const char* unnamed, Work&& work) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Shop& shop = (*bench)->shop();
  const Result<const Design*> nominal = (*bench)->design(shop.default_design);
  if (!nominal.ok()) return answer_of(nominal.fault());
  Result<std::string> bytes = shelf_bytes(shop);
  if (!bytes.ok()) return answer_of(bytes.fault());
  Measured measured{ask->text("name"), {}, {}, *std::move(bytes), {}};
  if (!measured.id.empty()) {
    Result<BlankCells> before = cells_of_row(measured.bytes, measured.id, shelf_file(shop).filename().string());
    if (!before.ok()) return answer_of(before.fault());
    measured.before = *std::move(before);
  }
  measured.cells = cells_of(asked_changes(*ask), measured.before);
  if (measured.id.empty() && std::ranges::count(measured.cells, "id", &BlankCell::column) == 0)
    measured.cells.push_back({"id", unnamed});
  Result<BlankRow> row = measured_piece(shop, **nominal, measured.bytes, measured.id, measured.cells);
  if (!row.ok()) return refused(row.fault());
  measured.row = *std::move(row);
  return work(measured, shop);
}

}  // namespace

Response show_measures(WorkshopDesk& desk, const Request& request) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const std::string id = request.parameter("name");
  const Result<std::string> bytes = shelf_bytes((*bench)->shop());
  if (!bytes.ok()) return answer_of(bytes.fault());
  const std::string file = shelf_file((*bench)->shop()).filename().string();
  const Result<BlankCells> cells = id.empty() ? BlankCells() : cells_of_row(*bytes, id, file);
  if (!cells.ok()) return answer_of(cells.fault());
  Json answer = shape_of_form("", fields_of(*cells, id.empty()), {});
  answer["file"] = file;
  return answer_of(answer);
}

Response try_measures(WorkshopDesk& desk, const Request& request) {
  return with_piece(desk, request, "?", [](const Measured& measured, const Shop&) {
    return answer_of(Json{{"text", ""},
                          {"at", ""},
                          {"picture", piece_picture(measured.row.blank)},
                          {"width", measured.row.width},
                          {"height", measured.row.height}});
  });
}

Response save_measures(WorkshopDesk& desk, const Request& request) {
  return with_piece(desk, request, "", [&](const Measured& measured, const Shop& shop) {
    const LedgerCall call = desk.call("measure " + measured.row.blank.id);
    const std::string id = measured.row.blank.id;
    if (measured.id.empty()) {
      const Result<Account> added = run_add_blank(shop, call, measured.cells);
      if (!added.ok()) return refused(added.fault());
      return answer_of(added, desk.take_backs().add([shop, call, id] { return run_remove_blank(shop, call, id); }));
    }
    const Result<Account> changed = run_change_blank(shop, call, id, measured.cells);
    if (!changed.ok()) return refused(changed.fault());
    return answer_of(changed, desk.take_backs().add([shop, call, id, cells = measured.before] {
      return run_change_blank(shop, call, id, cells);
    }));
  });
}

}  // namespace ordinatio::inline desk
