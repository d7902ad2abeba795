// Items set for their proofs, from files or from the book. Of this folder alone.
#pragma once

#include "base/account.h"
#include "shop/outbox.h"
#include "shop/piece_choice.h"
#include "shop/proof.h"

namespace ordinatio {

/// An item that is to be shown.
struct ProvedItem {
  const Order* order = nullptr;
  std::string id;
  SetOrder set;
  MaybeFault no_bed = {};  // why no sheet can take it, until that is mended; a proof needs no bed
};

/// On the pieces that a day's work would give them: all orders have a say in that.
std::vector<ProvedItem> prove_on_pieces(const Workroom& workroom, Composer& composer, const std::vector<Order>& orders,
                                        PieceChoice& choice, const ProofOptions& options, Account& account);
/// On nominal pieces.
std::vector<ProvedItem> prove_nominal(const Workroom& workroom, Composer& composer, const std::vector<Order>& orders,
                                      const ProofOptions& options);
void account_for(Account& account, const ProvedItem& item);
/// Writes the pages and reads them back.
MaybeFault deliver_proofs(const Workroom& workroom, const std::vector<ProvedItem>& items, const ProofOptions& options,
                          Account& account, const Progress& progress);

/// Proofs of what waits in the book; what was shown is written down, for the customer's yes.
Result<Account> proof_from_book(const Shop& shop, const ProofOptions& options, const Progress& progress);

}  // namespace ordinatio
