#include "command.h"

#include <unistd.h>

#include <algorithm>
#include <ctime>
#include <iostream>

#include "base/account.h"
#include "base/harmless.h"
#include "base/phrase.h"
#include "printing.h"

namespace ordinatio {
namespace {

std::string two_digits(int value) { return zero_padded(std::to_string(value), 2); }

bool ask(const std::string& question) {
  std::cerr << harmless(question, true) << " [y/N] " << std::flush;
  std::string answer;
  std::getline(std::cin, answer);
  return answer == "y" || answer == "Y" || answer == "yes";
}

}  // namespace

std::string clock_now() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  ::gmtime_r(&now, &parts);
  return std::to_string(parts.tm_year + 1900) + '-' + two_digits(parts.tm_mon + 1) + '-' + two_digits(parts.tm_mday) +
         'T' + two_digits(parts.tm_hour) + ':' + two_digits(parts.tm_min) + ':' + two_digits(parts.tm_sec) + 'Z';
}

int report_fault(const Fault& fault) {
  std::cerr << "ordinatio: " << describe(fault) << '\n';
  return fault.cause == Fault::Cause::machine ? failed : bad_input;
}

namespace {

/// What was done all the same, for the person who may not have it otherwise.
void tell_unprinted(const Account& account, std::string_view kind, const std::string& why) {
  const bool is_booked = !account.entries.empty();
  std::cerr << "ordinatio: stdout: the account could not be printed: " << why << ". "
            << (is_booked ? "The work is done and stands in the ledger" : "The work is done, and nothing of it is lost")
            << ". Give the same command again with a stdout that takes it: "
            << (is_booked ? "it is not done twice, and the account is this one:\n" : "the account is this one:\n")
            << account_as_text(account, kind, false) << std::flush;
}

/// The person has it: the same command is another one from now on.
int acknowledged(const Account& account, const Common& common, int code) {
  if (account.entries.empty()) return code;
  const Result<Shop> shop = read_shop(common.shop);
  const MaybeFault fault = shop.ok() ? acknowledge(*shop, ledger_call(common), account) : MaybeFault(shop.fault());
  if (!fault) return code;
  std::cerr << "ordinatio: the ledger does not know yet that you have read this: " << describe(*fault)
            << " The work is done; the next command tells of it again.\n";
  return failed;
}

}  // namespace

int report(const Result<Account>& account, const Common& common, std::string_view kind) {
  if (!account.ok()) return report_fault(account.fault());
  const auto unprinted =
      print(common.json ? account_as_json(*account) : account_as_text(*account, kind, is_lively(STDOUT_FILENO)));
  if (unprinted) {
    tell_unprinted(*account, kind, *unprinted);
    return failed;
  }
  const bool is_plain = account->held.empty() && account->warnings.empty();
  return acknowledged(*account, common, is_plain ? done : done_with_remarks);
}

int print_page(std::string_view text) {
  const auto unprinted = print(text);
  if (!unprinted) return done;
  std::cerr << "ordinatio: stdout: this could not be printed: " << *unprinted << ".\n";
  return failed;
}

CLI::Validator plain_words() {
  return {[](const std::string& text) {
            return steers(text) ? std::string("holds a line end or a control character") : std::string();
          },
          ""};
}

void add_clock_options(CLI::App* command, Common& common) {
  command
      ->add_option("--now", common.now,
                   "the time to write into the ledger, such as 2026-11-25T08:00:00Z (default: now)")
      ->type_name("TIME");
  command->add_flag("--clock-is-right", common.clock_is_right, "although the ledger knows a later time");
  command->add_flag("--yes", common.yes, "ask nothing");
}

void add_ledger_options(CLI::App* command, Common& common) {
  command->add_option("--shop", common.shop, "the workshop's folder, with shop.toml (default: this folder)")
      ->type_name("FOLDER");
  command->add_flag("--json", common.json, "the account as data on stdout");
  add_clock_options(command, common);
}

void add_common(CLI::App* command, Common& common, const char* out_default) {
  command->add_option("--shop", common.shop, "the workshop's folder, with shop.toml (default: this folder)")
      ->type_name("FOLDER");
  command->add_option("--out", common.out, std::string("where the files go (default: ") + out_default + ")")
      ->type_name("FOLDER");
  command->add_flag("--json", common.json, "the account as data on stdout");
}

void add_samples_option(CLI::App* command, Common& common) {
  command->add_flag("--samples", common.samples,
                    "with a ledger: take the invented orders of a new workshop in, to practise");
}

LedgerCall ledger_call(const Common& common) {
  LedgerCall call;
  call.now = common.now.empty() ? clock_now() : common.now;
  call.cause = common.cause;
  call.clock_is_right = common.clock_is_right;
  call.samples = common.samples;
  call.to_be_heard = true;
  if (!common.yes && ::isatty(STDIN_FILENO) == 1 && ::isatty(STDERR_FILENO) == 1) call.confirm = ask;
  return call;
}

std::string lines_of(std::string text) {
  for (std::size_t at = 0; (at = text.find("\\n", at)) != std::string::npos; ++at) text.replace(at, 2, "\n");
  return text;
}

std::string cause_of(int argc, char** argv) {
  constexpr std::string_view with_value[] = {"--shop", "--out", "--now"};
  constexpr std::string_view flags[] = {"--json", "--yes", "--clock-is-right"};
  std::string cause;
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    if (std::ranges::find(with_value, word.substr(0, word.find('='))) != std::end(with_value)) {
      if (word.find('=') == std::string_view::npos) ++i;
      continue;
    }
    if (std::ranges::find(flags, word) != std::end(flags)) continue;
    const std::string quote = word.find_first_of(" \n") == std::string_view::npos ? "" : "\"";
    cause += (cause.empty() ? "" : " ") + quote + std::string(word) + quote;
  }
  std::ranges::replace(cause, '\n', ' ');
  return cause;
}

}  // namespace ordinatio
