// A workshop that keeps no ledger: what its files say is all that is known. Of this folder alone.
#pragma once

#include "shop/records.h"

namespace ordinatio::inline shop {

class FileRecords : public Records {
 public:
  using Records::Records;

  MaybeFault take_in(Workroom& workroom, std::optional<ShopExport> given, const std::vector<std::string>& wanted,
                     Account& account) override;
  void note_unread(Account&) override {}
  Result<std::optional<FreePieces>> pieces(Workroom& workroom, const std::filesystem::path& file,
                                           Account& account) override;
  std::vector<Order> orders_to_prove(const Workroom& workroom, bool measured, Account& account) override;
  std::optional<std::vector<Order>> orders_to_lay(const Workroom& workroom, bool measured, Account& account) override {
    return orders_to_prove(workroom, measured, account);
  }
  void hold_orders(const std::vector<HeldItem>& held, Account& account) override;
  bool may_be_laid(const std::string&, const Design&, const Artwork&, Account&) override { return true; }
  void note_held(const std::string&, const Fault&) override {}
  std::int64_t id_of(const std::string&) override { return 0; }
  MaybeFault note_proof(const Design&, const ProvedItem&) override { return std::nullopt; }
  MaybeFault nothing_to_prove(Account& account) override;

  Result<std::optional<WantedStands>> stands_wanted(const StandOptions& options, Account& account) override;
  std::optional<int> next_serial() override { return std::nullopt; }
  MaybeFault check_serials(int, int) override { return std::nullopt; }
  void tell_stands(const WantedStands&, Account&) override {}

  Result<std::optional<ToRemake>> to_remake(Workroom& workroom, const RemakeOptions& options,
                                            Account& account) override;
  Result<SheetItem> on_piece(Workroom&, const ToRemake&, const RemakeOptions&, SheetItem again, Account&) override {
    return again;
  }
  std::string remake_name(const std::string& item, int number) override;

  Result<Manifest> manifest_to_align(const AlignOptions& options) override;
  Result<Sheet> redraw(Workroom& workroom, const Manifest& manifest, const std::string& name,
                       Account& account) override;
  MaybeFault open_aligned(const std::filesystem::path& named, const std::string& name) override;
  MaybeFault book_aligned(const std::string& name, Account& account) override;

  int next_sheet_number() override { return 1; }
  MaybeFault open_outbox(const std::filesystem::path& named, const std::string& usual,
                         const std::string& stem) override;
  MaybeFault book_sheets(std::vector<NewSheet> sheets, Account& account) override;

 private:
  std::filesystem::path file_;  // of the orders
  std::vector<Order> orders_;
};

}  // namespace ordinatio::inline shop
