// The measured pieces, and what is left of everything.
#include "bookkeeping/bookkeeping.h"
#include "desk/answers.h"
#include "desk/pictures.h"
#include "shop/ledger_access.h"

namespace ordinatio::inline desk {
namespace {

/// As the ledger has it; as the file says where the ledger has not met the piece yet.
std::string state_of(const BlankRow& row, const std::optional<LedgerBlank>& known) {
  if (known) return std::string(name_of(known->state));
  return row.used.empty() ? "free" : "used";
}

Json shape_of(const BlankRow& row, Ledger& ledger) {
  const std::optional<LedgerBlank> known = ledger.blank(row.blank.id);
  const std::string item = known && known->item ? ledger.item(*known->item)->number : "";
  return {{"id", row.blank.id},
          {"picture", piece_picture(row.blank)},
          {"width", row.width},
          {"height", row.height},
          {"material", row.blank.material},
          {"note", row.note},
          {"state", state_of(row, known)},
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
  return from_workshop(desk, [&](TrialBench& bench, Ledger& ledger) -> Response {
    const auto rows = bench.pieces();
    if (!rows.ok()) return answer_of(rows.fault());
    std::vector<StockPiece> pieces;
    for (const BlankRow& row : **rows) pieces.push_back({&row.blank, state_of(row, ledger.blank(row.blank.id))});
    Account nothing;
    nothing.told.emplace_back("No orders were taken in yet.");
    const Result<Account> account =
        has_ledger(bench.shop()) ? run_stock(bench.shop(), {desk.call("stock")}) : Result<Account>(nothing);
    if (!account.ok()) return answer_of(account.fault());
    return answer_of(Json{{"account", shape_of(*account)}, {"picture", stock_picture(pieces)}});
  });
}

}  // namespace ordinatio::inline desk
