#include "shop/records.h"

#include "shop/file_records.h"
#include "shop/ledger_records.h"
#include "shop/samples.h"

namespace ordinatio::inline shop {

Result<std::optional<ShopExport>> export_named(const Shop& shop, const std::filesystem::path& named,
                                               const std::string& channel, const LedgerCall& call) {
  const bool keeps_ledger = !shop.ledger.empty();
  if (named.empty() && keeps_ledger) return std::optional<ShopExport>();
  const std::filesystem::path file = named.empty() ? shop.folder / "orders.csv" : named;
  Result<Orders> orders = read_orders(file, shop.orders, keeps_ledger ? Repeats::are_lines : Repeats::settled);
  if (!orders.ok()) return orders.fault();
  if (keeps_ledger) {
    if (auto fault = refuse_samples(*orders, file.filename().string(), call)) return *std::move(fault);
  }
  return std::optional(ShopExport{file, channel, *std::move(orders)});
}

Result<Account> on_record(const Shop& shop, const LedgerCall& call, EntryKind kind, const RecordWork& work,
                          const std::string& input) {
  if (shop.ledger.empty()) return on_files(shop, work);
  const SheetWork with_records = [&](Ledger& ledger, Account& account, Delivery& delivery) {
    LedgerRecords records(shop, ledger, delivery);
    return work(records, account);
  };
  return in_ledger(shop, call, kind, with_records, input);
}

Result<Account> on_files(const Shop& shop, const RecordWork& work) {
  Account account;
  Delivery delivery;
  FileRecords records(shop, delivery);
  if (auto fault = work(records, account)) return *std::move(fault);
  if (!delivery.outbox) return account;
  const auto files = delivery.outbox->deliver();
  if (!files.ok()) return files.fault();
  return account;
}

Result<Account> to_see_on_record(const Shop& shop, const LedgerCall& call, EntryKind kind, const RecordWork& work) {
  return to_see(shop, call, kind, [&](Ledger& ledger, Account& account) {
    Delivery none;
    LedgerRecords records(shop, ledger, none);
    return work(records, account);
  });
}

}  // namespace ordinatio::inline shop
