// Items of a sheet laid otherwise: what may be had instead, and the command.
#include "bookkeeping/bookkeeping.h"
#include "desk/answers.h"
#include "shop/ledger_access.h"

namespace ordinatio::inline desk {
namespace {

constexpr double highest_pocket = 100'000;  // a bed has fewer

}  // namespace

Response show_suiting(WorkshopDesk& desk, const Request& request) {
  return from_workshop(desk, [&](TrialBench& bench, Ledger& ledger) -> Response {
    const auto item = item_meant(ledger, desk.call("look"), request.parameter("item"), "");
    if (!item.ok()) return answer_of(item.fault());
    Json pieces = Json::array();
    const auto lies = ledger.placement_of(item->id);
    if (lies && lies->state == LedgerPlacement::State::on_sheet) {
      const auto suiting = bench.suiting(*ledger.sheet(lies->sheet), item->number);
      if (!suiting.ok()) return answer_of(suiting.fault());
      for (const std::string& id : *suiting) {
        const auto piece = ledger.blank(id);
        if (!piece || piece->state == LedgerBlank::State::free) pieces.push_back(id);
      }
    }
    return answer_of(Json{{"pieces", pieces}});
  });
}

Response move_item(WorkshopDesk& desk, const Request& request) {
  return command(
      desk, request,
      [&](const Shop& shop, const Ask& ask) -> Result<Account> {
        MoveOptions options{{}, ask.text("item"), {}, ask.text("piece")};
        std::string where = " --piece " + options.piece;
        if (const auto pocket = ask.number("pocket")) {
          options.pocket = *pocket >= 1 && *pocket <= highest_pocket ? static_cast<int>(*pocket) : 0;
          where = " --pocket " + std::to_string(*options.pocket);
        }
        options.call = desk.call("move " + options.item + where);
        return run_move(shop, options);
      },
      "item");
}

}  // namespace ordinatio::inline desk
