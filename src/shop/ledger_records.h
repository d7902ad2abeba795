// A command's work in the ledger, in the transaction that is open.
#pragma once

#include "shop/records.h"

namespace ordinatio::inline shop {

class LedgerRecords : public Records {
 public:
  LedgerRecords(const Shop& shop, Ledger& ledger, Delivery& delivery) : Records(shop, delivery), ledger_(ledger) {}

  // ledger_orders.cpp
  MaybeFault take_in(Workroom& workroom, std::optional<ShopExport> given, const std::vector<std::string>& wanted,
                     Account& account) override;
  void note_unread(Account& account) override;
  Result<std::optional<FreePieces>> pieces(Workroom& workroom, const std::filesystem::path& file,
                                           Account& account) override;
  std::vector<Order> orders_to_prove(const Workroom& workroom, bool measured, Account& account) override;
  std::optional<std::vector<Order>> orders_to_lay(const Workroom& workroom, bool measured, Account& account) override;
  void hold_orders(const std::vector<HeldItem>& held, Account& account) override;
  bool may_be_laid(const std::string& number, const Design& design, const Artwork& artwork, Account& account) override;
  void note_held(const std::string& item, const Fault& fault) override;
  std::int64_t id_of(const std::string& item) override;
  MaybeFault note_proof(const Design& design, const ProvedItem& proved) override;
  MaybeFault nothing_to_prove(Account& account) override;

  // ledger_stands.cpp
  Result<std::optional<WantedStands>> stands_wanted(const StandOptions& options, Account& account) override;
  std::optional<int> next_serial() override;
  MaybeFault check_serials(int first, int last) override;
  void tell_stands(const WantedStands& wanted, Account& account) override;

  // ledger_remake.cpp
  Result<std::optional<ToRemake>> to_remake(Workroom& workroom, const RemakeOptions& options,
                                            Account& account) override;
  Result<SheetItem> on_piece(Workroom& workroom, const ToRemake& wanted, const RemakeOptions& options, SheetItem again,
                             Account& account) override;
  std::string remake_name(const std::string& item, int number) override;

  // ledger_align.cpp
  Result<Manifest> manifest_to_align(const AlignOptions& options) override;
  Result<Sheet> redraw(Workroom& workroom, const Manifest& manifest, const std::string& name,
                       Account& account) override;
  MaybeFault open_aligned(const std::filesystem::path& named, const std::string& name) override;
  MaybeFault book_aligned(const std::string& name, Account& account) override;

  // ledger_sheets.cpp
  int next_sheet_number() override;
  MaybeFault open_outbox(const std::filesystem::path& named, const std::string& usual,
                         const std::string& stem) override;
  MaybeFault book_sheets(std::vector<NewSheet> sheets, Account& account) override;

 private:
  Ledger& ledger_;
  std::string folder_;  // of the sheets, as the ledger writes it down
  std::vector<LedgerItem> to_lay_;
  LedgerSheet aligned_;  // the sheet that is laid to its marks
  bool is_copy_ = false;
};

}  // namespace ordinatio::inline shop
