#include "paper/run_sheet.h"

#include <algorithm>
#include <array>
#include <chrono>

#include "base/phrase.h"
#include "bed/item_number.h"
#include "bookkeeping/bookkeeping.h"
#include "intake/held_rows.h"
#include "intake/intake_row.h"
#include "shop/bookings.h"
#include "shop/loading.h"
#include "shop/renewal.h"
#include "shop/transaction.h"
#include "shop/trial.h"

namespace ordinatio::inline bookkeeping {
namespace {

/// "Wednesday, 25 November 2026". Faults: no day of the calendar as ISO 8601 writes it.
Result<std::string> day_in_words(const std::string& iso) {
  constexpr std::array days{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
  constexpr std::array months{"January", "February", "March",     "April",   "May",      "June",
                              "July",    "August",   "September", "October", "November", "December"};
  const auto part = [&iso](std::size_t at, std::size_t length) -> std::optional<double> {
    const std::string_view digits = std::string_view(iso).substr(at, length);
    if (!std::ranges::all_of(digits, [](char c) { return c >= '0' && c <= '9'; })) return std::nullopt;
    return parse_number(digits);
  };
  const bool has_form = iso.size() == 10 && iso[4] == '-' && iso[7] == '-';
  const auto year = has_form ? part(0, 4) : std::nullopt, month = has_form ? part(5, 2) : std::nullopt,
             day = has_form ? part(8, 2) : std::nullopt;
  if (year && month && day) {
    const std::chrono::year_month_day date{std::chrono::year(static_cast<int>(*year)),
                                           std::chrono::month(static_cast<unsigned>(*month)),
                                           std::chrono::day(static_cast<unsigned>(*day))};
    if (date.ok()) {
      const std::chrono::weekday weekday{std::chrono::sys_days(date)};
      return std::string(days[weekday.c_encoding()]) + ", " + std::to_string(static_cast<unsigned>(date.day())) + " " +
             months[static_cast<unsigned>(date.month()) - 1] + " " + std::to_string(static_cast<int>(date.year()));
    }
  }
  return Fault{"\"" + iso + "\" is no date", "--date", "", "Write it as year-month-day, such as 2026-11-25"};
}

class DayAtAGlance {
 public:
  DayAtAGlance(const Shop& shop, Ledger& ledger, std::filesystem::path page_folder)
      : shop_(shop), ledger_(ledger), bench_(shop), workroom_(shop), page_folder_(std::move(page_folder)) {}

  RunSheet gather(const std::string& date, const std::string& day) {
    run_.shop_name = shop_.name, run_.date = date, run_.day = day;
    sort_items();
    for (const LedgerSheet& sheet : ledger_.sheets()) add_bed(sheet);
    add_rows();
    add_questions();
    for (const StateCount& count : ledger_.items_by_state())
      run_.counts.push_back({count.what, std::to_string(count.count)});
    run_.parts = {
        {"Questions", "An export says what only you can decide.", std::move(questions_), true},
        {"Held", "They hold nothing else up.", std::move(held_), true},
        {"Rows that are no order", "A later export brings them mended, or you let them go.", std::move(rows_), true},
        {"To be shown to the customer", "Nothing of these is engraved before the customer has said yes.",
         std::move(to_prove_)},
        {"Waiting for the customer’s yes", "", std::move(to_approve_)},
        {"To be packed", "", std::move(to_pack_)}};
    say_what_is_next();
    return std::move(run_);
  }

 private:
  [[nodiscard]] RunEntry entry_of(const LedgerItem& item, const std::string& about) const {
    return {with_check(item.number), meaning_of(item.words, workroom_.cleaning()), about, ""};
  }
  void sort_items() {
    for (const LedgerItem& item : ledger_.waiting_items()) {
      const bool is_new = item.state == ItemState::received || item.state == ItemState::ready;
      if (item.state == ItemState::held) {
        held_.push_back(entry_of(item, item.reason));
        held_.back().mend = mend_of(item);
      } else if (is_new && needs_yes(bench_, item)) {
        to_prove_.push_back(entry_of(item, ""));
      } else if (item.state == ItemState::proofed && needs_yes(bench_, item)) {
        to_approve_.push_back(entry_of(item, ""));
      } else {
        ++ready_;
      }
    }
    for (const LedgerItem& item : ledger_.items_in(ItemState::engraved)) to_pack_.push_back(entry_of(item, ""));
  }

  static std::string mend_of(const LedgerItem& item) {
    const std::string number = with_check(item.number);
    if (item.held_by == HeldBy::person) return "ordinatio release " + number;
    if (item.held_by == HeldBy::question) return "answer its question";
    return "ordinatio correct " + number + " --text \"…\"";
  }

  void add_bed(const LedgerSheet& sheet) {
    const std::size_t left = still_on(ledger_, sheet).size();
    if (left == 0 && sheet.stale.empty()) return;
    RunBed bed;
    bed.name = sheet.name;
    bed.facts = std::string(name_of(sheet.kind)) + " · " + counted(left, "piece") + " still to be engraved" +
                (sheet.written ? "" : " · its files are on their way");
    if (!sheet.stale.empty()) bed.stale = stale_text(ledger_, sheet);
    Result<Sheet> drawn = sheet_to_load(workroom_, ledger_, sheet);
    if (drawn.ok()) {
      bed.sheet = *std::move(drawn);
    } else {
      bed.cannot = describe(drawn.fault());
    }
    add_files(sheet, bed);
    run_.beds.push_back(std::move(bed));
  }

  /// By how they are reached from the page: a stick or another folder may hold both.
  void add_files(const LedgerSheet& sheet, RunBed& bed) const {
    const auto add = [&](const std::filesystem::path& file) {
      std::error_code error;
      if (!std::filesystem::is_regular_file(file, error)) return;
      const auto from_page = std::filesystem::absolute(file).lexically_normal().lexically_relative(
          std::filesystem::absolute(page_folder_).lexically_normal());
      if (!from_page.empty()) bed.files.push_back({file.filename().string(), from_page.generic_string()});
    };
    add(page_folder_ / "loading" / loading_file_name(sheet.name));
    for (const auto& [name, checksum] : sheet.files) {
      if (!is_aside(name)) add(folder_on_disk(shop_, sheet) / name);
    }
  }

  void add_rows() {
    for (const LedgerHeldRow& row : ledger_.open_rows())
      rows_.push_back({row_name(row.id), as_it_came(row), reason_of(row), row.mend});
  }

  void add_questions() {
    for (const LedgerQuestion& question : ledger_.open_questions()) {
      const bool is_edit = question.kind == LedgerQuestion::Kind::edit;
      std::string words;
      for (const LedgerItem& item : ledger_.items_of_line(question.line)) {
        if (words.empty()) words = meaning_of(item.words, workroom_.cleaning());
      }
      questions_.push_back({"question " + std::to_string(question.id), words, question.asks + "?",
                            "ordinatio answer " + std::to_string(question.id) +
                                (is_edit ? " take (or new, or keep)" : " take (or keep)")});
    }
  }

  /// The machine runs while the rest is seen to.
  void say_what_is_next() {
    const auto add = [this](bool is_due, const std::string& text, const std::string& command) {
      if (is_due) run_.next.push_back({text, command});
    };
    const auto part = [this](std::size_t index) { return run_.parts[index].entries.size(); };
    for (const RunBed& bed : run_.beds)
      add(!bed.stale.empty(), "Do not run the files of " + bed.name + " as they are.", "");
    const auto bed = std::ranges::find_if(run_.beds, [](const RunBed& one) { return one.stale.empty(); });
    add(bed != run_.beds.end(), bed == run_.beds.end() ? "" : "Load " + bed->name + " and set the machine going.",
        bed == run_.beds.end() ? "" : "ordinatio loading " + bed->name);
    add(part(0) > 0, "Answer " + counted(part(0), "question") + ".", "ordinatio answer NUMBER take");
    add(part(1) > 0, "Mend " + counted(part(1), "item") + " that " + (part(1) == 1 ? "is" : "are") + " held.", "");
    add(part(2) > 0, "See to " + counted(part(2), "row") + " that " + (part(2) == 1 ? "is" : "are") + " no order.", "");
    add(part(3) > 0, "Make proofs of " + counted(part(3), "item") + " for the customers.", "ordinatio proof --png");
    add(part(4) > 0, "Ask for the yes to " + counted(part(4), "item") + ".", "ordinatio approve ITEM");
    add(ready_ > 0, "Lay " + counted(ready_, "item") + " on sheets.", "ordinatio day");
    add(part(5) > 0, "Pack " + counted(part(5), "item") + ".", "ordinatio packed ITEM");
  }

  const Shop& shop_;
  Ledger& ledger_;
  TrialBench bench_;
  Workroom workroom_;
  std::filesystem::path page_folder_;
  RunSheet run_;
  std::vector<RunEntry> questions_, held_, rows_, to_prove_, to_approve_, to_pack_;
  std::size_t ready_ = 0;
};

}  // namespace

Result<Account> run_run_sheet(const Shop& shop, const RunSheetOptions& options) {
  constexpr std::size_t iso_day = 10;  // "2026-11-25"
  const std::string date = options.date.empty() ? options.call.now.substr(0, iso_day) : options.date;
  const Result<std::string> day = day_in_words(date);
  if (!day.ok()) return day.fault();
  return from_ledger(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const RunSheet run = DayAtAGlance(shop, ledger, options.out).gather(date, *day);
    if (auto fault = make_folder(options.out)) return fault;
    const std::filesystem::path file = options.out / "run-sheet.html";
    if (auto fault = write_file(file, write_run_sheet(run))) return fault;
    account.files = {file};
    account.told.push_back("The run sheet of " + date + ": " + counted(run.beds.size(), "bed") + " to engrave");
    return std::nullopt;
  });
}

}  // namespace ordinatio::inline bookkeeping
