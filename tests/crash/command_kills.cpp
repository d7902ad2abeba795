#include "command_kills.h"

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

#include "base/account.h"
#include "connection.h"

namespace ordinatio::crash {
namespace fs = std::filesystem;
namespace {

constexpr int faulted = 2;

/// Files that are not the command's work: the ledger is compared by what it says, the lock says who held it last.
bool is_aside(const std::string& name) { return name == ledger_name || name == ledger_name + std::string(".lock"); }
/// Files on their way: in a hidden folder, or parts of a file.
bool is_on_its_way(const std::string& name) {
  return name.find(".unfinished-") != name.npos || name.ends_with(".part") || name.starts_with(ledger_name);
}

/// The account as lines; a run that was cut off may be told of besides.
std::vector<std::string> said(const Account& account) {
  std::vector<std::string> lines;
  for (const std::string& line : account.told) {
    if (!line.starts_with("This was done by a run that was cut off")) lines.push_back("told: " + line);
  }
  for (const HeldItem& held : account.held) lines.push_back("held: " + held.id + " " + describe(held.fault));
  for (const std::string& line : account.warnings) lines.push_back("warning: " + line);
  for (const std::string& line : account.notes) lines.push_back("note: " + line);
  for (const fs::path& file : account.files) lines.push_back("file: " + file.filename().string());
  lines.push_back("sheets: " + std::to_string(account.sheets) + ", items: " + std::to_string(account.items_set) +
                  ", smallest: " + account.smallest_item);
  return lines;
}

std::string difference_of_accounts(const std::vector<std::string>& expected, const std::vector<std::string>& found) {
  if (expected == found) return "";
  std::string text = "its account is another one.\n";
  for (const std::string& line : expected) text += "expected " + line + "\n";
  for (const std::string& line : found) text += "found    " + line + "\n";
  return text;
}

FolderImage without(FolderImage files, bool (*unwanted)(const std::string&)) {
  std::erase_if(files, [unwanted](const auto& file) { return unwanted(file.first); });
  return files;
}

std::string difference_of_ledgers(const std::vector<std::string>& expected, const std::vector<std::string>& found) {
  std::string text;
  std::vector<std::string> lacking, too_many;
  auto a = expected, b = found;
  std::ranges::sort(a);
  std::ranges::sort(b);
  std::ranges::set_difference(a, b, std::back_inserter(lacking));
  std::ranges::set_difference(b, a, std::back_inserter(too_many));
  for (const std::string& line : lacking) text += "the ledger lacks " + line + "\n";
  for (const std::string& line : too_many) text += "the ledger should not say " + line + "\n";
  return text;
}

}  // namespace

Outcome outcome_of(const fs::path& folder) {
  const bool has_ledger = fs::exists(folder / ledger_name);
  Outcome outcome{has_ledger ? dump_ledger(folder / ledger_name) : std::vector<std::string>{"no ledger"}, {}};
  outcome.files = without(image_of(folder), is_aside);
  return outcome;
}

std::string difference(const Outcome& expected, const Outcome& found) {
  return difference_of_ledgers(expected.ledger, found.ledger) + difference(expected.files, found.files);
}

Thrift thrift_for(const Command& command, std::size_t calls) {
  const char* strikes = std::getenv("ORDINATIO_STRIKES");
  if (strikes != nullptr && std::string_view(strikes) == "all") return {};
  if (command.draws || calls > 150) return {3, 3, 5, 6};
  return {2, 1, 3, 3};
}

CommandKills::CommandKills(const Command& command, const fs::path& before) : command_(command), before_(before) {
  place_.become(before_);
  files_before_ = image_of(place_.folder());
  const Result<Account> account = run_command(command_, place_.folder());
  if (!account.ok()) throw std::runtime_error(command_.name + ": " + describe(account.fault()));
  expected_ = outcome_of(place_.folder());
  expected_account_ = said(*account);
  after_.become(place_.folder());
}

void CommandKills::count_calls() {
  begin_anew();
  calls_ = run_until(no_call, Fate::killed, [this] { return run(); }).calls;
  thrift_ = thrift_for(command_, calls_.size());
}

int CommandKills::run() {
  return run_command(command_, place_.folder(), [this] { heard_.raise(); }).ok() ? 0 : faulted;
}

void CommandKills::begin_anew() {
  place_.become(before_);
  heard_.lower();
}

void CommandKills::kill_everywhere(std::size_t first, Strikes& strikes) {
  count_calls();
  std::vector<Stop> stops;
  std::size_t writes = 0;
  for (std::size_t call = std::min(first, thrift_.kill_every); call <= calls_.size(); call += thrift_.kill_every) {
    stops.push_back({call, Fate::killed});
    const bool writes_bytes = calls_[call - 1].bytes > 1;
    if (writes_bytes && ++writes % thrift_.torn_every == 0) stops.push_back({call, Fate::torn});
  }
  stop_at(stops, strikes);
}

void CommandKills::cut_everywhere(Strikes& strikes) {
  count_calls();
  std::vector<Stop> stops;
  const std::size_t end = calls_.size() + 1;
  const auto cut_at = [](std::size_t call) {
    return Stop{call, Fate::power_cut, {call, call % 2 == 0 ? std::size_t{512} : std::size_t{4096}}};
  };
  for (std::size_t call = 1; call < end; call += thrift_.cut_every) stops.push_back(cut_at(call));
  stops.push_back(cut_at(end));
  stop_at(stops, strikes);
}

void CommandKills::stop_at(const std::vector<Stop>& stops, Strikes& strikes) {
  begin_anew();
  const auto look = [&](const Stop& stop) {
    const bool was_up = heard_.is_up();  // another run raises it, too
    stop.fate == Fate::power_cut ? look_after_cut(stop, strikes) : look_after_kill(stop, strikes);
    if (!was_up) heard_.lower();
  };
  if (stop_at_each(place_.folder(), stops, look, [this] { return run(); }).exit_code == 0) return;
  strikes.harms.push_back(command_.name + ": stopped on its way, it did not come to its end");
}

void CommandKills::look_after_kill(const Stop& stop, Strikes& strikes) {
  const std::size_t call = stop.call;
  std::string where =
      command_.name + ", " + name_of(stop.fate) + " at " + std::to_string(call) + ", " + describe(calls_[call - 1]);
  ++(stop.fate == Fate::torn ? strikes.torn : strikes.killed);
  look_at_halves(where, strikes);
  if (strikes.killed % thrift_.again_every == 0 && !was_heard()) {
    const std::size_t second = 1 + call * 7'919 % calls_.size();  // spread over the whole run
    if (run_until(second, Fate::killed, [this] { return run(); }).killed) {
      ++strikes.killed_twice;
      where += ", and again at " + std::to_string(second);
      look_at_halves(where, strikes);
    }
  }
  run_again(where, strikes);
}

void CommandKills::look_after_cut(const Stop& stop, Strikes& strikes) {
  ++strikes.power_cuts;
  const bool at_end = stop.call > calls_.size();
  const std::string where = command_.name + ", power cut at " + std::to_string(stop.call) + ", " +
                            (at_end ? "its end" : describe(calls_[stop.call - 1]));
  look_at_halves(where, strikes);
  if (!at_end) return run_again(where, strikes);
  Outcome found = outcome_of(place_.folder()), expected = expected_;
  found.files = without(std::move(found.files), is_on_its_way);
  const std::string wrong = difference(expected, found);
  if (!wrong.empty()) strikes.harms.push_back(where + ": it had said that it was done, and\n" + wrong);
}

/// Files appear whole or not at all: each that is in its place is as it was before, or as it will be.
void CommandKills::look_at_halves(const std::string& where, Strikes& strikes) const {
  for (const auto& [name, bytes] : without(image_of(place_.folder()), is_on_its_way)) {
    const auto before = files_before_.find(name);
    const auto after = expected_.files.find(name);
    const bool is_whole = (before != files_before_.end() && before->second == bytes) ||
                          (after != expected_.files.end() && after->second == bytes);
    if (!is_whole) strikes.harms.push_back(where + ": " + name + " is neither as before nor as after");
  }
}

/// Done, heard and acknowledged: run again, it would be another one.
bool CommandKills::was_heard() const {
  if (!heard_.is_up()) return false;
  const Scratch copy;  // looking into the ledger may roll back what is for the next run to roll back
  copy.become(place_.folder());
  return difference(expected_, outcome_of(copy.folder())).empty();
}

void CommandKills::run_again(const std::string& where, Strikes& strikes) {
  if (was_heard()) return;
  const Result<Account> account = run_command(command_, place_.folder());
  std::string wrong = difference(expected_, outcome_of(place_.folder()));
  if (account.ok()) wrong += difference_of_accounts(expected_account_, said(*account));
  if (wrong.empty()) return;
  strikes.harms.push_back(where + ": run again, " + (account.ok() ? "" : "it says: " + describe(account.fault())) +
                          "\n" + wrong);
}

}  // namespace ordinatio::crash
