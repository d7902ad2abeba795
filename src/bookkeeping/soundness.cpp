#include <algorithm>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "shop/bookings.h"
#include "shop/renewal.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

/// The sheet files of a folder that the ledger does not know.
void look_for_strays(Ledger& ledger, const Shop& shop, Account& account) {
  std::map<std::filesystem::path, std::vector<std::string>> known;
  for (const LedgerSheet& sheet : ledger.sheets()) {
    for (const auto& [name, checksum] : sheet.files) known[folder_on_disk(shop, sheet)].push_back(name);
  }
  for (auto& [folder, names] : known) {
    std::ranges::sort(names);
    std::error_code ignored;
    for (const auto& entry : std::filesystem::directory_iterator(folder, ignored)) {
      const std::string name = entry.path().filename().string();
      const bool is_sheet =
          std::ranges::any_of(std::initializer_list<std::string_view>{"sheet-", "remake-", "rest-", "stands-"},
                              [&](std::string_view stem) { return name.starts_with(stem); });
      if (!is_sheet || !entry.is_regular_file() || std::ranges::binary_search(names, name)) continue;
      account.held.push_back(
          {name,
           {"the ledger does not know this sheet", entry.path().string(), "", "Do not engrave it; move it away"}});
    }
  }
}

/// Faults: the system failed, so that nobody knows how the files are.
MaybeFault check_files(Ledger& ledger, const Shop& shop, Account& account) {
  for (const LedgerSheet& sheet : ledger.sheets()) {
    const auto placements = ledger.placements_on(sheet.number);
    const bool is_void = !placements.empty() && std::ranges::all_of(placements, [](const LedgerPlacement& one) {
      return one.state == LedgerPlacement::State::withdrawn;
    });
    if (!sheet.written) {
      account.held.push_back({sheet.name,
                              {"a command was interrupted before the sheet was in its place", "", "",
                               "The next command that writes into the ledger finishes it"}});
      continue;
    }
    for (const auto& [name, checksum] : sheet.files) {
      const auto file = folder_on_disk(shop, sheet) / name;
      const Result<std::string> bytes = read_file(file);
      if (bytes.ok() && sha256_hex(*bytes) == checksum) continue;
      if (!bytes.ok() && bytes.fault().cause == Fault::Cause::machine) return bytes.fault();
      if (!bytes.ok() && (is_void || is_aside(name))) continue;  // nothing of it is to be engraved any more
      account.held.push_back({sheet.name,
                              {bytes.ok() ? "the file is not what was written" : "the file is gone", file.string(),
                               bytes.ok() ? "its checksum differs from the ledger's" : "", "Put it back from a copy"}});
    }
  }
  return std::nullopt;
}

}  // namespace

Result<Account> run_check(const Shop& shop, const LedgerCall& call) {
  return from_ledger(shop, call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    for (const std::string& what : ledger.contradictions()) {
      account.held.push_back(
          {"ledger", {what, "", "", "Keep the file as it is, and put the last backup in its place"}});
    }
    if (auto fault = check_files(ledger, shop, account)) return fault;
    for (const LedgerSheet& sheet : ledger.outdated_sheets()) {
      account.held.push_back({sheet.name, {stale_text(ledger, sheet), "", "", "Do not run its files as they are"}});
    }
    look_for_strays(ledger, shop, account);
    std::string counts;
    for (const StateCount& state : ledger.items_by_state()) {
      counts += (counts.empty() ? "" : ", ") + std::to_string(state.count) + " " + state.what;
    }
    account.told.push_back("Items: " + (counts.empty() ? "none" : counts));
    account.told.push_back(account.held.empty() ? "The ledger is sound, and every sheet's files are what was written"
                                                : "The ledger has " + std::to_string(account.held.size()) + " faults");
    return std::nullopt;
  });
}

}  // namespace ordinatio::inline bookkeeping
