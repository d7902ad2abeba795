#include "shop/machine_time.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/phrase.h"
#include "bed/item_number.h"
#include "machine/sheet_order.h"
#include "machine/spell.h"
#include "shop/bookings.h"
#include "shop/day.h"
#include "shop/loading.h"
#include "shop/sheet_time.h"
#include "workshop/toml_edit.h"

namespace ordinatio::inline shop {
namespace {

constexpr std::size_t settings_limit = 40;                  // machines times pitches: more are no table
constexpr double least_pitch = 0.01, most_pitch = 5;        // mm, as in shop.toml
constexpr double least_factor = 0.1, most_factor = 10;      // as in shop.toml
constexpr double seconds_an_hour = 3600, hours_a_day = 24;  // exact
constexpr double least_hours = 0.1;                     // a day; less is no working day, and days then end in no date
constexpr double longest_bed = 1000 * seconds_an_hour;  // that may be said to have been timed
constexpr double largest_shown = 1e6;                   // of rates and shares: more says no more
constexpr std::size_t sheets_one_by_one = 12;           // more are told in sum

std::string plain_decimal(double value, int decimals) {
  std::string text;
  append_number(text, value, decimals);
  return text;
}

/// One line of the table.
struct ComparedSetting {
  std::string machine;  // its name; empty: the only one, or each sheet's own
  Motion motion;
};

Fault no_speeds(const Shop& shop, const std::string& machine) {
  return {machine.empty() ? "no speed of the machine is told" : "no speed of the machine \"" + machine + "\" is told",
          (shop.folder / "shop.toml").string(), "without speeds there is no time",
          "Write scan_speed, scan_pitch, travel_speed and acceleration: ordinatio help hours"};
}

Result<Motion> motion_named(const Shop& shop, const std::string& machine) {
  if (const Motion* motion = motion_for(shop, machine)) return *motion;
  return no_speeds(shop, machine);
}

MaybeFault check_comparison(const Shop& shop, const TimeOptions& options) {
  for (const double pitch : options.pitches) {
    if (pitch >= least_pitch && pitch <= most_pitch) continue;
    return Fault{"a scan pitch must be from 0.01 mm to 5 mm", "--pitch", "", "Write, for example: --pitch 0.08,0.1"};
  }
  if (!(options.hours >= least_hours && options.hours <= hours_a_day)) {
    return Fault{"the hours of a day must be from 0.1 to 24", "--hours", "",
                 "Write for how many the machine runs, such as 5 or 7.5"};
  }
  if (!options.from.empty() && !day_after(options.from, 0)) {
    return Fault{"\"" + options.from + "\" is no date", "--from", "the work begins on a day of the calendar",
                 "Write it as year-month-day, such as 2026-11-25"};
  }
  if (std::max<std::size_t>(1, options.machines.size()) * std::max<std::size_t>(1, options.pitches.size()) >
      settings_limit) {
    return Fault{"these are too many settings for a table", "--machine, --pitch",
                 std::to_string(settings_limit) + " are allowed", "Name fewer"};
  }
  for (const std::string& machine : options.machines) {
    Shop other = shop;
    if (auto fault = choose_machine(other, machine)) return fault;
    if (motion_for(shop, machine) == nullptr) return no_speeds(shop, machine);
  }
  return std::nullopt;
}

// ---- sheets ----

/// Faults: there is no such sheet; it cannot be drawn.
Result<Sheet> sheet_to_time(Workroom& workroom, Ledger* ledger, const std::string& named) {
  if (ledger == nullptr) return sheet_of_manifest(workroom, named);
  const Result<std::optional<LedgerSheet>> known = sheet_to_align(*ledger, named);
  if (!known.ok()) return known.fault();
  return *known ? sheet_to_load(workroom, *ledger, **known) : sheet_of_manifest(workroom, named);
}

MaybeFault add_named(const Shop& shop, const TimeOptions& options, Ledger* ledger, std::vector<Sheet>& sheets) {
  Workroom workroom(shop);
  for (const std::string& named : options.sheets) {
    Result<Sheet> sheet = sheet_to_time(workroom, ledger, named);
    if (!sheet.ok()) return sheet.fault();
    sheets.push_back(*std::move(sheet));
  }
  return std::nullopt;
}

/// What lies on beds and is not engraved yet. A sheet that cannot be drawn is told, and holds no other up.
void add_laid(const Shop& shop, Ledger& ledger, std::vector<Sheet>& sheets, Account& account) {
  Workroom workroom(shop);
  for (const LedgerSheet& known : ledger.sheets()) {
    if (!is_to_load(ledger, known)) continue;
    Result<Sheet> sheet = sheet_to_load(workroom, ledger, known);
    if (sheet.ok()) {
      sheets.push_back(*std::move(sheet));
    } else {
      account.held.push_back({known.name, sheet.fault()});
    }
  }
}

/// As they are written.
std::vector<Sheet> in_order_of_work(std::vector<Sheet> sheets) {
  for (Sheet& sheet : sheets) order_work(sheet);
  return sheets;
}

/// Sheets that are there already.
Result<std::vector<Sheet>> laid_sheets(const Shop& shop, const TimeOptions& options, Account& account) {
  std::vector<Sheet> sheets;
  if (!has_ledger(shop)) {
    if (auto fault = add_named(shop, options, nullptr, sheets)) return *std::move(fault);
    return in_order_of_work(std::move(sheets));
  }
  const Result<Account> read = from_ledger(shop, options.call, [&](Ledger& ledger, Account&) -> MaybeFault {
    if (!options.sheets.empty()) return add_named(shop, options, &ledger, sheets);
    if (options.orders.empty()) add_laid(shop, ledger, sheets, account);
    return std::nullopt;
  });
  if (!read.ok()) return read.fault();
  return in_order_of_work(std::move(sheets));
}

/// What waits, on that machine's beds.
Result<std::vector<Sheet>> waiting_sheets(const Shop& shop, const std::string& machine, const TimeOptions& options,
                                          const Progress& progress, Account& account) {
  Shop on_it = shop;
  if (!machine.empty()) {
    if (auto fault = choose_machine(on_it, machine)) return *std::move(fault);
  }
  DayOptions day;
  day.orders = options.orders, day.blanks = options.blanks, day.date = options.date, day.workers = options.workers;
  day.call = options.call;
  std::vector<Sheet> sheets;
  const Result<Account> seen = day_to_see(on_it, day, sheets, progress);
  if (!seen.ok()) return seen.fault();
  std::ranges::sort(sheets, {}, &Sheet::number);  // they come as beds are full
  if (!seen->held.empty()) {
    account.notes.push_back(counted(seen->held.size(), "held item") + (machine.empty() ? "" : " with " + machine) +
                            " in no sum; ordinatio day says why they are held");
  }
  return in_order_of_work(std::move(sheets));
}

// ---- the table ----

constexpr std::array<std::string_view, 7> headings{"machine",         "pitch",  "beds", "a bed",
                                                   "plaques an hour", "in all", "days"};
using TableRow = std::vector<std::string>;

struct TimedWork {
  double seconds = 0;
  std::size_t beds = 0, items = 0;
  bool is_whole = true;
};

std::vector<SheetTime> times_of(const std::vector<const Sheet*>& sheets, const std::vector<Motion>& motions,
                                unsigned workers) {
  std::vector<SheetTime> times(sheets.size());
  for_each_parallel(sheets.size(), workers == 0 ? core_count() : workers,
                    [&](std::size_t i, unsigned) { times[i] = time_of(*sheets[i], motions[i]); });
  return times;
}

TimedSetting timed(const ComparedSetting& setting, const TimedWork& load, const TimeOptions& options) {
  const double hours = load.seconds / seconds_an_hour;
  const auto per = [](double sum, double parts) { return parts > 0 ? std::min(sum / parts, largest_shown) : 0; };
  // A minute over is no further day.
  const double days = std::ceil(std::max(0.0, hours - 1.0 / 60) / options.hours);
  constexpr double past_all_days = 1e7;  // the year 9999 is nearer
  const int last = static_cast<int>(std::clamp(days, 1.0, past_all_days)) - 1;
  return {setting.machine.empty() ? "each its own" : setting.machine,
          setting.motion.scan_pitch,
          load.beds,
          load.seconds,
          load.seconds / std::max(1.0, static_cast<double>(load.beds)),
          per(static_cast<double>(load.items), hours),
          days,
          options.from.empty() ? "" : day_after(options.from, last).value_or("after the year 9999"),
          load.is_whole};
}

TableRow row_of(const TimedSetting& one) {
  if (!one.is_whole) {  // it would look the fastest of all
    TableRow row{one.machine, plain_decimal(one.pitch, 3) + " mm", std::to_string(one.beds)};
    row.resize(headings.size() + (one.done.empty() ? 0 : 1), "not known");
    return row;
  }
  TableRow row{one.machine,
               plain_decimal(one.pitch, 3) + " mm",
               std::to_string(one.beds),
               time_text(one.a_bed),
               plain_decimal(one.plaques_an_hour, 1),
               time_text(one.seconds),
               plain_decimal(one.days, 0)};
  if (!one.done.empty()) row.push_back(one.done);
  return row;
}

std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
}

/// Two blanks between columns, words to the left.
void tell_table(std::vector<TableRow> rows, const TimeOptions& options, Account& account) {
  TableRow head(headings.begin(), headings.end());
  head.back() = "days of " + plain_decimal(options.hours, 2) + " h";
  if (!options.from.empty()) head.emplace_back("done on");
  rows.insert(rows.begin(), head);
  std::vector<std::size_t> widths(head.size(), 0);
  for (const TableRow& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns_of(row[i]));
  }
  for (const TableRow& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      line += row[i];
      if (i + 1 < row.size()) line += std::string(widths[i] - columns_of(row[i]) + 2, ' ');
    }
    account.told.push_back(std::move(line));
  }
}

class TimeTable {
 public:
  TimeTable(const Shop& shop, const TimeOptions& options, const Progress& progress, Account& account)
      : shop_(shop), options_(options), progress_(progress), account_(account) {}

  MaybeFault tell() {
    Result<std::vector<Sheet>> laid = laid_sheets(shop_, options_, account_);
    if (!laid.ok()) return laid.fault();
    laid_ = *std::move(laid);
    std::vector<std::string> machines = options_.machines;
    if (machines.empty()) machines.emplace_back();
    for (const std::string& machine : machines) {
      if (auto fault = add_machine(machine)) return fault;
    }
    for (const std::string& words : untold_) account_.notes.push_back(words);
    std::vector<TableRow> rows;
    for (const TimedSetting& one : settings_) rows.push_back(row_of(one));
    tell_table(std::move(rows), options_, account_);
    if (options_.shown) options_.shown(settings_);
    return std::nullopt;
  }

 private:
  MaybeFault add_machine(const std::string& machine) {
    std::vector<Sheet> waiting;
    if (options_.sheets.empty()) {
      Result<std::vector<Sheet>> sheets = waiting_sheets(shop_, machine, options_, progress_, account_);
      if (!sheets.ok()) return sheets.fault();
      waiting = *std::move(sheets);
    }
    std::vector<const Sheet*> sheets;
    for (const Sheet& sheet : laid_) sheets.push_back(&sheet);
    for (const Sheet& sheet : waiting) sheets.push_back(&sheet);
    std::vector<Motion> motions;
    for (const Sheet* sheet : sheets) {
      const auto motion = motion_named(shop_, machine.empty() ? sheet->frame.plan.machine.name : machine);
      if (!motion.ok()) return motion.fault();
      motions.push_back(*motion);
    }
    const auto usual = motion_named(shop_, machine);
    if (!usual.ok()) return usual.fault();
    const std::string name = machine.empty() ? common_name(sheets) : machine;
    if (options_.pitches.empty()) add_setting({name, *usual}, sheets, motions);
    for (const double pitch : options_.pitches) {
      ComparedSetting setting{name, *usual};
      setting.motion.scan_pitch = pitch;
      for (Motion& motion : motions) motion.scan_pitch = pitch;
      add_setting(setting, sheets, motions);
    }
    return std::nullopt;
  }

  /// That all are made for; the first machine's, where nothing is there.
  [[nodiscard]] std::string common_name(const std::vector<const Sheet*>& sheets) const {
    const std::string first =
        sheets.empty() ? shop_.machines.front().bed.name : sheets.front()->frame.plan.machine.name;
    const bool alike =
        std::ranges::all_of(sheets, [&](const Sheet* sheet) { return sheet->frame.plan.machine.name == first; });
    return !alike ? "" : first.empty() ? "the machine" : first;
  }

  void add_setting(const ComparedSetting& setting, const std::vector<const Sheet*>& sheets,
                   const std::vector<Motion>& motions) {
    const std::vector<SheetTime> times = times_of(sheets, motions, options_.workers);
    const bool first = settings_.empty();
    TimedWork load{0, sheets.size(), 0};
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      load.seconds += times[i].seconds, load.items += sheets[i]->items.size();
      // Registration marks take a minute of a bed.
      const auto is_mark = [](const Untold& untold) { return untold.operation == Operation::mark; };
      load.is_whole = load.is_whole && std::ranges::all_of(times[i].untold, is_mark);
      for (std::string& words : untold_words(times[i])) untold_.insert(std::move(words));
      if (first && sheets.size() <= sheets_one_by_one) tell_sheet(*sheets[i], times[i], sheets.size() == 1);
    }
    settings_.push_back(timed(setting, load, options_));
  }

  void tell_sheet(const Sheet& sheet, const SheetTime& time, bool with_items) {
    account_.told.push_back(sheet.name + ": " + time_words(time));
    if (time.scan_lines > 0) {
      std::string text = "  engraved";
      for (const Grouping grouping : all_groupings) {
        text += (grouping == Grouping::pieces ? " " : ", ") + std::string(name_of(grouping)) + " " +
                time_text(time.groupings[static_cast<std::size_t>(grouping)]);
      }
      account_.told.push_back(text + "; " + counted(time.scan_lines, "scan line"));
    }
    if (!with_items) return;
    for (const ItemTime& item : time.items)
      account_.told.push_back("  " + with_check(item.item) + " " + time_text(item.seconds));
  }

  const Shop& shop_;
  const TimeOptions& options_;
  const Progress& progress_;
  Account& account_;
  std::vector<Sheet> laid_;
  std::vector<TimedSetting> settings_;
  std::set<std::string> untold_;
};

// ---- timed beds ----

std::string percent_text(double share) { return plain_decimal(100 * share, 1) + " %"; }

/// The machine's table of shop.toml, as it is edited.
std::string table_for(const Shop& shop, const std::string& machine) {
  if (shop.machines.size() == 1 && shop.machines.front().bed.name.empty()) return "machine";
  const auto at = std::ranges::find(shop.machines, machine, [](const ShopMachine& known) { return known.bed.name; });
  const std::size_t place = at == shop.machines.end() ? 0 : static_cast<std::size_t>(at - shop.machines.begin());
  return shop.several_machines ? "machines[" + std::to_string(place) + "]" : "machine";
}

MaybeFault check_timed(const TimeOptions& options) {
  for (const double seconds : options.took) {
    if (seconds > 0 && seconds <= longest_bed) continue;
    return Fault{"a bed takes more than no time, and 1000 hours at the most", "--took", "",
                 "Write, for example: --took 1h35m"};
  }
  if (options.sheets.size() == options.took.size() && options.machines.size() <= 1 && options.pitches.empty())
    return std::nullopt;
  return Fault{"a factor is fitted to beds as they were run", "--took",
               options.sheets.size() != options.took.size() ? counted(options.sheets.size(), "sheet") + " and " +
                                                                  counted(options.took.size(), "time") + " are given"
                                                            : "they were run on one machine, with its own pitch",
               "Name each sheet and what it took: ordinatio time sheet-001 --took 1h35m"};
}

/// How far a time may be off that was read to the minute, as a share of all of them.
double reading_error(const std::vector<double>& took) {
  constexpr double half_a_minute = 30;
  double all = 0;
  for (const double seconds : took) all += seconds;
  return half_a_minute * std::sqrt(static_cast<double>(took.size())) / all;
}

MaybeFault fit_timed(const Shop& shop, const TimeOptions& options, Account& account) {
  if (auto fault = check_timed(options)) return fault;
  Result<std::vector<Sheet>> sheets = laid_sheets(shop, options, account);
  if (!sheets.ok()) return sheets.fault();
  const std::string machine =
      options.machines.empty() ? sheets->front().frame.plan.machine.name : options.machines.front();
  const auto motion = motion_named(shop, machine);
  if (!motion.ok()) return motion.fault();
  std::vector<TimedBed> beds;
  for (std::size_t i = 0; i < sheets->size(); ++i) {
    const Sheet& sheet = (*sheets)[i];
    if (options.machines.empty() && sheet.frame.plan.machine.name != machine) {
      return Fault{"these sheets were made for two machines", "--took", "each has a factor of its own",
                   "Name those of one machine"};
    }
    const SheetTime time = time_of(sheet, *motion);
    if (time.seconds == 0) return Fault{"nothing of " + sheet.name + " has a time", sheet.name, "", ""};
    beds.push_back({time.seconds, options.took[i]});
    const double off = options.took[i] / time.seconds - 1;
    account.told.push_back(sheet.name + ": estimated " + time_text(time.seconds) + ", took " +
                           time_text(options.took[i]) + ": " + percent_text(std::min(std::abs(off), largest_shown)) +
                           (off < 0 ? " shorter" : " longer"));
    for (const std::string& words : untold_words(time)) account.notes.push_back(sheet.name + ": " + words);
  }
  const Fit fit = fit_factor(beds);
  const double factor = motion->factor * fit.factor;
  if (!(factor >= least_factor && factor <= most_factor)) {
    return Fault{"the machine's speeds are not those that the beds were run with", "--took",
                 "a factor of " + plain_decimal(factor, 3) + " would be needed, 0.1 to 10 is allowed",
                 "Write the speeds as they were set into shop.toml"};
  }
  const std::string value = plain_decimal(factor, 3), table = table_for(shop, machine);
  account.told.push_back("factor = " + value + ", give or take " + percent_text(reading_error(options.took)) +
                         " for times read to the minute" +
                         (beds.size() == 1 ? "; one bed does not say how far off the next will be"
                                           : "; after it these beds are off by " + percent_text(fit.error)));
  if (!options.keep) {
    account.told.push_back("For shop.toml, in " + (shop.several_machines ? "[[machines]] " + machine : "[machine]") +
                           ": factor = " + value + "   (or the same command with --keep)");
    return std::nullopt;
  }
  const TomlEdit edit{table, "factor", value};
  if (auto fault = edit_toml(shop.folder / "shop.toml", std::span(&edit, 1))) return fault;
  account.told.push_back("shop.toml has factor = " + value + " now");
  return std::nullopt;
}

}  // namespace

Result<Account> run_time(const Shop& shop, const TimeOptions& options, const Progress& progress) {
  Account account;
  if (auto fault = check_comparison(shop, options)) return *std::move(fault);
  if (options.keep && options.took.empty()) {
    return Fault{"there is no factor to keep", "--keep", "it is fitted to beds that were timed",
                 "Say what each sheet took: ordinatio time sheet-001 --took 1h35m --keep"};
  }
  if (auto fault =
          options.took.empty() ? TimeTable(shop, options, progress, account).tell() : fit_timed(shop, options, account))
    return *std::move(fault);
  return account;
}

}  // namespace ordinatio::inline shop
