#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// One machine with one scan pitch, and all the work on it.
struct TimedSetting {
  std::string machine;
  double pitch = 0;  // mm
  std::size_t beds = 0;
  double seconds = 0, a_bed = 0;  // s, of all; of a bed on average
  double plaques_an_hour = 0, days = 0;
  std::string done;      // ISO 8601: the last of these days; empty: no first one is known
  bool is_whole = true;  // false: some operation has no speed, and these figures are of the others alone
};

struct TimeOptions {
  /// Names of the ledger, or manifests; empty: what waits, as the day would lay it, and with a ledger what lies on beds.
  std::vector<std::string> sheets;
  std::filesystem::path orders, blanks;  // as the day takes them
  std::string date;                      // for designs with a date mark
  std::vector<std::string> machines;     // empty: each sheet's own, the first for what waits
  std::vector<double> pitches;           // mm; empty: the machine's own
  double hours = 8;                      // a day, in which the machine runs
  std::string from;                      // ISO 8601, the first of these days; empty: no day is told
  /// What each of `sheets` took, s: the machine's factor is fitted to it.
  std::vector<double> took;
  bool keep = false;     // writes that factor into shop.toml
  unsigned workers = 0;  // 0: all cores
  LedgerCall call{};
  std::function<void(const std::vector<TimedSetting>& settings)> shown = {};  // sees them as figures
};
/// Machines and pitches side by side: how long beds and all that waits take. Nothing is booked, and no sheet written.
Result<Account> run_time(const Shop& shop, const TimeOptions& options, const Progress& progress = {});

}  // namespace ordinatio::inline shop
