#include <algorithm>

#include "shop/ledger_records.h"

namespace ordinatio::inline shop {
namespace {

/// Stands that are to spare go to the items that were engraved first; gives the items that still lack one.
std::vector<std::int64_t> give_spare_stands(Ledger& ledger, Account& account) {
  const std::vector<LedgerItem> lacking = ledger.engraved_without_stand();
  const std::vector<LedgerStand> spare = ledger.spare_stands();
  const std::size_t given = std::min(lacking.size(), spare.size());
  for (std::size_t i = 0; i < given; ++i) ledger.give_stand(spare[i], lacking[i].id);
  if (given > 0) account.told.push_back("Stands that were to spare and have an item now: " + std::to_string(given));
  std::vector<std::int64_t> left;
  for (std::size_t i = given; i < lacking.size(); ++i) left.push_back(lacking[i].id);
  return left;
}

}  // namespace

Result<std::optional<WantedStands>> LedgerRecords::stands_wanted(const StandOptions& options, Account& account) {
  std::vector<std::int64_t> lacking = give_spare_stands(ledger_, account);
  if (!options.count && lacking.empty()) {
    account.told.emplace_back("Every item that is engraved has its stand");
    return std::optional<WantedStands>();
  }
  const int count = options.count.value_or(static_cast<int>(lacking.size()));
  return std::optional(WantedStands{count, std::move(lacking)});
}

std::optional<int> LedgerRecords::next_serial() { return static_cast<int>(ledger_.next_serial()); }

MaybeFault LedgerRecords::check_serials(int first, int last) {
  const auto given = ledger_.serial_given(first, last);
  if (!given) return std::nullopt;
  return Fault{"a stand with number " + std::to_string(*given) + " is there already", "--first-number", "",
               "Leave it out: the ledger counts on from " + std::to_string(ledger_.next_serial())};
}

void LedgerRecords::tell_stands(const WantedStands& wanted, Account& account) {
  const std::size_t given = std::min(wanted.items.size(), static_cast<std::size_t>(wanted.count));
  account.told.push_back("Stands: " + std::to_string(wanted.count) + ", of which " + std::to_string(given) +
                         " for items that lacked one");
}

}  // namespace ordinatio::inline shop
