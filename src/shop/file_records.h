// A workshop that keeps no ledger: what its files say is all that is known. Of this folder alone.
#pragma once

#include "shop/records.h"

namespace ordinatio {

class FileRecords : public Records {
 public:
  using Records::Records;

  MaybeFault take_in(Workroom& workroom, std::optional<ShopExport> given, const std::vector<std::string>& wanted,
                     Account& account) override;
  Result<std::optional<FreePieces>> pieces(Workroom& workroom, const std::filesystem::path& file,
                                           Account& account) override;
  std::vector<Order> orders_to_prove(const Workroom& workroom, bool measured, Account& account) override;
  MaybeFault note_proof(const Design&, const ProvedItem&) override { return std::nullopt; }
  MaybeFault nothing_to_prove(Account& account) override;

 private:
  std::filesystem::path file_;  // of the orders
  std::vector<Order> orders_;
};

}  // namespace ordinatio
