#include "shop/piece_glass.h"

#include "base/account.h"
#include "bed/item_number.h"
#include "shop/piece_choice.h"

namespace ordinatio::inline shop {
MaybeFault judge_design(const Design& design) {
  std::vector<PieceCell> cells{{"material", design.material}};
  for (const KeptClear& thing : design.kept_clear) cells.push_back({"keep_clear", thing.name});
  auto found = judge_glass(cells);
  if (!found || found->is_question) return std::nullopt;
  found->fault.where = "design " + design.name + ", " + found->column;
  return std::move(found->fault);
}

std::map<std::string, Fault> pieces_not_engraved(Workroom& workroom) {
  Account unsaid;  // how they were read is the day's news
  const Result<std::optional<Blanks>> pieces = read_pieces(workroom, {}, unsaid);
  std::map<std::string, Fault> faults;
  if (!pieces.ok() || !*pieces) return faults;
  for (const HeldItem& held : (*pieces)->not_engraved) faults.emplace(held.id, held.fault);
  return faults;
}

MaybeFault check_lying(const std::map<std::string, Fault>& not_engraved, const std::string& piece,
                       const std::string& item) {
  const auto found = not_engraved.find(piece);
  if (piece.empty() || found == not_engraved.end()) return std::nullopt;
  Fault fault = found->second;
  fault.where = "blank " + piece + " of item " + item + ", " + fault.where;
  fault.mend = "Take it off the bed: ordinatio hold " + with_check(item) + " --reason glass. " + fault.mend;
  return fault;
}

}  // namespace ordinatio::inline shop
