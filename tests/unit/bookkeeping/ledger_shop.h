// A tiny workshop that keeps a ledger, in a folder that goes again.
#pragma once

#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "check/check.h"
#include "manifest/manifest.h"
#include "shop/day.h"
#include "shop/ledger_access.h"
#include "shop/proof.h"
#include "shop/remake.h"
#include "shop/stands.h"

namespace ordinatio {

/// Slates of 60 × 40 mm, measured; design "slate" as it is, "asked" wants the customer's yes, "stand" bears a number.
class LedgerShop {
 public:
  explicit LedgerShop(bool measured = true) {
    namespace fs = std::filesystem;
    fs::remove_all(folder_);
    for (const char* part : {"templates", "fonts"}) fs::create_directories(folder_ / part);
    const std::string slate =
        "[blank]\nwidth = 60\nheight = 40\n[clear]\nmargin = 3\n[text]\ncap_height = { min = 2, max = 12 }\n";
    write("templates/slate.toml", slate);
    write("templates/asked.toml", "approval = true\n" + slate);
    write("templates/stand.toml",
          "[blank]\nwidth = 60\nheight = 30\n[clear]\nmargin = 3\n[[text]]\nnumber = \"serial\"\nbefore = \"No. \"\n"
          "font = \"sans\"\nbox = [5, 5, 50, 20]\ncap_height = { min = 2, max = 6 }\n");
    write(
        "shop.toml",
        "[shop]\ndesign = \"slate\"\nstand_design = \"stand\"\n[machine]\nwidth = 200\nheight = 160\n[jig]\nedge = 10\n"
        "[ledger]\nfile = \"workshop.ledger\"\n" +
            std::string(measured ? "[blanks]\nfile = \"blanks.csv\"\n" : ""));
    auto read = read_shop(folder_);
    if (!read) FAIL(describe(read.fault()));
    shop_ = *std::move(read);
  }
  ~LedgerShop() { std::filesystem::remove_all(folder_); }
  LedgerShop(const LedgerShop&) = delete;
  LedgerShop& operator=(const LedgerShop&) = delete;

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }
  [[nodiscard]] std::filesystem::path ledger_file() const { return folder_ / "workshop.ledger"; }
  [[nodiscard]] const Shop& shop() const { return shop_; }
  /// A minute later at each call.
  [[nodiscard]] LedgerCall call(const std::string& cause) const {
    ++minutes_;
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return {"2026-11-" + two(10 + minutes_ / 1440) + "T" + two(minutes_ / 60 % 24) + ":" + two(minutes_ % 60) + ":00Z",
            cause,
            false,
            0,
            "",
            {}};
  }
  /// A blanks' file of so many whole slates: S-1, S-2, …
  void measure(int count) const {
    std::string rows = "id,width,height\n";
    for (int n = 1; n <= count; ++n) rows += "S-" + std::to_string(n) + ",,\n";
    write("blanks.csv", rows);
  }

  // ---- commands; what a person would type ----
  Result<Account> intake(const std::string& rows, const std::string& name = "export.csv",
                         const std::string& channel = "", bool dry = false) const {
    write(name, rows);
    return run_intake(shop_, {call("intake " + name), folder_ / name, channel, dry});
  }
  /// As on the command line: what was said is known, and the same command is another one.
  Result<Account> heard(Result<Account> account, const LedgerCall& by) const {
    if (!account) return account;
    if (auto fault = acknowledge(shop_, by, *account)) return *std::move(fault);
    return account;
  }
  /// As the command line calls, where the account may be lost on its way to the person.
  [[nodiscard]] LedgerCall call_to_be_heard(const std::string& cause) const {
    LedgerCall by = call(cause);
    by.to_be_heard = true;
    return by;
  }
  Result<Account> answer(std::int64_t question, AnswerOptions::Answer answer) const {
    return run_answer(shop_, {call("answer"), question, answer});
  }
  Result<Account> correct(CorrectionOptions::What what, const std::string& item, const std::string& value = "") const {
    return run_correction(shop_, {call("correct " + item), item, what, value});
  }
  Result<Account> words(const std::string& item, const std::string& text) const {
    return correct(CorrectionOptions::What::words, item, text);
  }
  Result<Account> approve(const std::string& item) const { return run_approve(shop_, {call("approve"), {item}}); }
  Result<Account> pack(const std::string& item) const { return run_pack(shop_, {call("pack"), {item}}); }
  Result<Account> undo(const std::string& subject) const {
    return heard(run_undo(shop_, {call("undo"), subject}), call("undo"));
  }
  Result<Account> engraved(const std::string& sheet, const std::string& pockets = "") const {
    return run_engraved(shop_, {call("engraved " + sheet), {sheet}, pockets});
  }
  Result<Account> spoil(const std::string& item, const std::string& blank = "") const {
    return run_spoil(shop_, {call("spoil"), item, blank, "it broke"});
  }
  Result<Account> resume(const std::string& sheet, const std::string& done, const std::string& spoiled = "") const {
    return run_resume(shop_, {call("resume"), sheet, done, spoiled, "the power failed", {}});
  }
  /// SVG and manifest alone: the others are tested where they are written.
  Result<Account> day() const {
    DayOptions options;
    options.dxf = options.pdf = false;
    options.date = "2026-11-25", options.workers = 1, options.call = call("day");
    return run_day(shop_, options);
  }
  Result<Account> proof(const std::vector<std::string>& items = {}) const {
    return run_proof(shop_, {{}, folder_ / "proofs", {}, items, "2026-11-25", call("proof")});
  }
  Result<Account> remake(RemakeOptions options) const {
    options.call = call("remake");
    return heard(run_remake(shop_, options), options.call);
  }
  Result<Account> remake(const std::string& item) const {
    RemakeOptions options;
    options.item = item;
    return remake(options);
  }
  Result<Account> stands(std::optional<int> count = {}, std::optional<int> first = {}) const {
    StandOptions options;
    options.count = count, options.first_number = first, options.date = "2026-11-25", options.batch = "first lot";
    options.call = call("stands");
    return heard(run_stands(shop_, options), options.call);
  }
  Result<Account> check() const { return run_check(shop_, call("check")); }
  Result<Account> history(const std::string& subject) const { return run_history(shop_, {call("history"), subject}); }
  Result<Account> list(const std::string& state = "", const std::filesystem::path& csv = {}) const {
    return run_list(shop_, {call("list"), state, csv});
  }

  // ---- what is in the ledger ----
  [[nodiscard]] std::unique_ptr<Ledger> read_ledger() const {
    auto ledger = Ledger::open({ledger_file(), "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::read);
    if (!ledger) FAIL(describe(ledger.fault()));
    return *std::move(ledger);
  }
  [[nodiscard]] LedgerItem item(const std::string& number) const { return *read_ledger()->item_numbered(number); }
  [[nodiscard]] std::string state(const std::string& number) const {
    return std::string(name_of(read_ledger()->item_numbered(number)->state));
  }
  [[nodiscard]] std::optional<LedgerPlacement> placement(const std::string& number) const {
    const auto ledger = read_ledger();
    return ledger->placement_of(ledger->item_numbered(number)->id);
  }
  [[nodiscard]] std::string blank_state(const std::string& id) const {
    return std::string(name_of(read_ledger()->blank(id)->state));
  }
  [[nodiscard]] Manifest manifest(const std::string& sheet) const {
    const auto file = folder_ / "out/sheets" / (sheet + ".json");
    const auto bytes = read_file(file);
    if (!bytes) FAIL(describe(bytes.fault()));
    auto manifest = read_manifest(*bytes, file.string());
    if (!manifest) FAIL(describe(manifest.fault()));
    return *std::move(manifest);
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / ("ordinatio-ledger-shop-" + std::to_string(::getpid()));
  Shop shop_;
  mutable int minutes_ = 0;
};

/// The account of what must be done, or the test fails with the reason.
inline Account done(Result<Account> account) {
  if (!account) FAIL(describe(account.fault()));
  return *std::move(account);
}
/// What a command refused with.
inline Fault refused(const Result<Account>& account) {
  REQUIRE_FALSE(account);
  return account.fault();
}
inline std::string all_of_it(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

}  // namespace ordinatio
