// What the commands of the command line share: where the workshop is, how an account is given, exit codes.
#pragma once

#include <CLI/CLI.hpp>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "report.h"
#include "shop/ledger_access.h"

namespace ordinatio {

enum ExitCode { done = 0, done_with_remarks = 1, bad_input = 2, failed = 3 };

/// What every command takes.
struct Common {
  std::filesystem::path shop = ".";
  std::filesystem::path out;
  bool json = false;
  // Of commands that write into the ledger.
  std::string now;  // empty: the clock's
  bool clock_is_right = false, yes = false, samples = false;
  std::string cause;  // the command as it was typed, less where the workshop is and how it is to be told
};

/// "2026-11-25T08:00:00Z". The one place where the clock is asked.
std::string clock_now();

int report_fault(const Fault& fault);
/// Prints the account and writes down that the person has it; kind as account_as_text takes it. One that cannot be printed
/// is `failed`, and told on stderr.
int report(const Result<Account>& account, const Common& common, std::string_view kind);

/// Prints what is no account, such as the help.
int print_page(std::string_view text);

void add_common(CLI::App* command, Common& common, const char* out_default);
/// For commands that only read or write the ledger: no --out.
void add_ledger_options(CLI::App* command, Common& common);
/// For options that become part of an order's number.
CLI::Validator plain_words();
/// For commands that work with files alone too: --now and what goes with it.
void add_clock_options(CLI::App* command, Common& common);

/// For commands that take orders into the ledger.
void add_samples_option(CLI::App* command, Common& common);

/// When and why, for the ledger. A person at a terminal is asked where an item's number came without its check character.
LedgerCall ledger_call(const Common& common);

/// Words of the command line: \n in them begins a new line, as a line end does.
std::string lines_of(std::string text);

/// Reads the workshop and runs the work in it. work: const Shop& → Result<Account>.
template <class Work>
int run_in_shop(const Common& common, std::string_view kind, Work&& work) {
  const Result<Shop> shop = read_shop(common.shop);
  if (!shop.ok()) return report_fault(shop.fault());
  return report(work(*shop), common, kind);
}

/// The words of the command line that say what was asked for.
std::string cause_of(int argc, char** argv);

}  // namespace ordinatio
