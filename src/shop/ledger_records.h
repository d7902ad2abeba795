// A command's work in the ledger, in the transaction that is open.
#pragma once

#include "shop/records.h"

namespace ordinatio {

class LedgerRecords : public Records {
 public:
  LedgerRecords(const Shop& shop, Ledger& ledger, Delivery& delivery) : Records(shop, delivery), ledger_(ledger) {}

  // ledger_orders.cpp
  MaybeFault take_in(Workroom& workroom, std::optional<ShopExport> given, const std::vector<std::string>& wanted,
                     Account& account) override;
  Result<std::optional<FreePieces>> pieces(Workroom& workroom, const std::filesystem::path& file,
                                           Account& account) override;
  std::vector<Order> orders_to_prove(const Workroom& workroom, bool measured, Account& account) override;
  MaybeFault note_proof(const Design& design, const ProvedItem& proved) override;
  MaybeFault nothing_to_prove(Account& account) override;

 private:
  Ledger& ledger_;
};

}  // namespace ordinatio
