// What customers are to see before it is engraved, and what they have seen.
#include "desk/answers.h"
#include "desk/given_files.h"
#include "shop/ledger_access.h"
#include "shop/proof.h"

namespace ordinatio::inline desk {

Response show_proofs(WorkshopDesk& desk, const Request&) {
  return from_workshop(desk, [&](TrialBench& bench, Ledger& ledger) {
    const std::vector<std::string> files = files_in(bench.shop(), "proofs");
    Json unseen = Json::array(), asked = Json::array();
    for (const LedgerItem& item : ledger.waiting_items()) {
      const bool is_new = item.state == ItemState::received || item.state == ItemState::ready;
      Json shape{{"item", shape_of(item, ledger, desk.piece_to_come(item.number))}, {"file", ""}};
      if (item.state == ItemState::proofed) {
        const std::string file = proof_picture_name(item.number);
        if (std::ranges::find(files, file) != files.end()) shape["file"] = file;
        asked.push_back(std::move(shape));
      } else if (is_new && needs_yes(bench, item)) {
        unseen.push_back(std::move(shape));
      }
    }
    return answer_of(Json{{"unseen", unseen}, {"asked", asked}, {"files", files}});
  });
}

}  // namespace ordinatio::inline desk
