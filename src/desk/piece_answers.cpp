// The measured pieces, and what is left of everything.
#include "bookkeeping/bookkeeping.h"
#include "desk/answers.h"
#include "desk/pictures.h"
#include "shop/ledger_access.h"

namespace ordinatio::inline desk {
namespace {

/// What the ledger knows of the piece; the file alone where it has not met it yet.
Json shape_of(const BlankRow& row, Ledger& ledger) {
  const std::optional<LedgerBlank> known = ledger.blank(row.blank.id);
  std::string state = row.used.empty() ? "free" : "used", item;
  if (known) state = name_of(known->state);
  if (known && known->item) item = ledger.item(*known->item)->number;
  return {{"id", row.blank.id},
          {"picture", piece_picture(row.blank)},
          {"width", row.width},
          {"height", row.height},
          {"material", row.blank.material},
          {"note", row.note},
          {"state", state},
          {"item", item}};
}

}  // namespace

Response show_pieces(WorkshopDesk& desk, const Request&) {
  return from_workshop(desk, [&](TrialBench& bench, Ledger& ledger) -> Response {
    const auto rows = bench.pieces();
    if (!rows.ok()) return answer_of(rows.fault());
    Json pieces = Json::array(), held = Json::array();
    for (const BlankRow& row : **rows) pieces.push_back(shape_of(row, ledger));
    for (const HeldItem& one : bench.pieces_held()) held.push_back(shape_of(one));
    return answer_of(Json{{"pieces", pieces}, {"held", held}});
  });
}

Response show_stock(WorkshopDesk& desk, const Request&) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Shop& shop = (*bench)->shop();
  if (has_ledger(shop)) return answer_of(run_stock(shop, {desk.call("stock")}));
  Account nothing;
  nothing.told.emplace_back("No orders were taken in yet.");
  return answer_of(Result<Account>(std::move(nothing)));
}

}  // namespace ordinatio::inline desk
