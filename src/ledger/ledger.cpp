#include <unistd.h>

#include <charconv>
#include <chrono>

#include "base/local_time.h"
#include "ledger/database.h"
#include "ledger/holder.h"
#include "ledger/ledger.h"
#include "ledger/schema.h"

namespace ordinatio::inline ledger {
namespace fs = std::filesystem;
namespace {

const int newest = static_cast<int>(ledger_steps().size());

/// Seconds since 1970 of "2026-11-25T08:00:00Z"; nothing where it is none.
std::optional<std::int64_t> seconds_of(std::string_view at) {
  if (at.size() != 20 || at[4] != '-' || at[7] != '-' || at[10] != 'T' || at[13] != ':' || at[16] != ':' ||
      at[19] != 'Z') {
    return std::nullopt;
  }
  const auto part = [at](std::size_t from, std::size_t length) {
    int value = -1;
    const char* end = at.data() + from + length;
    return std::from_chars(at.data() + from, end, value).ptr == end ? value : -1;
  };
  using namespace std::chrono;
  const int month_number = part(5, 2), day_number = part(8, 2);
  const int hour = part(11, 2), minute = part(14, 2), second = part(17, 2);
  const year_month_day date{year(part(0, 4)), month(static_cast<unsigned>(std::max(month_number, 0))),
                            day(static_cast<unsigned>(std::max(day_number, 0)))};
  if (part(0, 4) < 0 || !date.ok() || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 60) {
    return std::nullopt;
  }
  return std::int64_t{sys_days(date).time_since_epoch().count()} * 86'400 + std::int64_t{hour} * 3'600 +
         std::int64_t{minute} * 60 + second;
}

void set_pragmas(Database& database) {
  // One user, few writes, files that are copied to sticks: a rollback journal, and nothing taken for written that is not.
  database.script("PRAGMA journal_mode = DELETE");
  database.script("PRAGMA synchronous = EXTRA");
  database.script("PRAGMA foreign_keys = ON");
  database.script(
      "PRAGMA cache_size = -65536");  // 64 MiB: a ledger of 100,000 orders is looked through without thrashing
}

/// A database on its way to its place. What an earlier run left of it goes first, and what is left of it when this one
/// fails goes too: a disk may be full of it.
class Unfinished {
 public:
  explicit Unfinished(const std::string& file) : file_(file) { remove(); }
  ~Unfinished() { remove(); }
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;
  [[nodiscard]] const fs::path& file() const { return file_; }

 private:
  void remove() const {
    std::error_code ignored;
    fs::remove(file_, ignored);
    fs::remove(file_.string() + "-journal", ignored);
  }
  fs::path file_;
};

/// Made aside and moved to its place: a ledger that is cut off is never taken for a new one.
MaybeFault make_ledger(const LedgerOptions& options) {
  const Unfinished unfinished(options.file.string() + ".new");
  {
    Database database(unfinished.file(), Database::Access::create, options.vfs);
    set_pragmas(database);
    database.script("BEGIN IMMEDIATE");
    take_steps(database, 0, newest);
    database.script("COMMIT");
  }
  return move_whole(unfinished.file(), options.file);
}

/// How far the database has come, or why it is none of ours.
Result<int> version_of(Database& database) {
  const auto pages = *database.number("PRAGMA page_count"), page_size = *database.number("PRAGMA page_size");
  std::error_code error;
  const auto size = fs::file_size(database.file(), error);
  const std::string restore = "Keep this file aside and put the last backup in its place";
  if (size == 0 || size < static_cast<std::uintmax_t>(pages * page_size)) {
    return Fault{"the ledger is cut off", database.file().string(),
                 size == 0 ? "it is empty"
                           : "it has " + std::to_string(size) + " of " + std::to_string(pages * page_size) + " bytes",
                 restore};
  }
  const auto application = database.number("PRAGMA application_id"), version = database.number("PRAGMA user_version");
  if (application != ledger_application) {
    return Fault{"this is no ledger", database.file().string(), "it is a database of another program",
                 "Name the ledger's file in shop.toml under [ledger]"};
  }
  if (*version > newest) {
    return Fault{"the ledger is of a newer version", database.file().string(),
                 "it has version " + std::to_string(*version) + ", and this program knows " + std::to_string(newest),
                 "Use the newer program; nothing was changed"};
  }
  return static_cast<int>(*version);
}

MaybeFault copy_to(Database& database, const fs::path& to) {
  const Unfinished unfinished(to.string() + ".part");
  database.run("VACUUM INTO ?", unfinished.file().string());
  return move_whole(unfinished.file(), to);
}

/// Brings an older ledger up to date; what it was stays beside it.
MaybeFault bring_up_to_date(Database& database, int version) {
  fs::path backup = database.file();
  backup.replace_extension();
  backup += "-version-" + std::to_string(version) + database.file().extension().string();
  // A backup that is there was made by a run that ended before its change was done: it is the same ledger.
  if (std::error_code error; !fs::exists(backup, error)) {
    if (auto fault = copy_to(database, backup)) return fault;
  }
  database.script("BEGIN IMMEDIATE");
  take_steps(database, version, newest);
  database.script("COMMIT");
  return std::nullopt;
}

/// The clock may be set right by a little; more than that would turn the story round.
MaybeFault check_clock(Database& database, const LedgerOptions& options) {
  const auto now = seconds_of(options.now);
  if (!now) {
    return Fault{"\"" + options.now + "\" is no time", "--now", "", "Write it as 2026-11-25T08:00:00Z"};
  }
  const auto last = database.text("SELECT at FROM entry ORDER BY id DESC LIMIT 1");
  if (!last || options.clock_is_right || seconds_of(*last).value_or(0) - *now <= clock_slack) return std::nullopt;
  return Fault{"the clock has gone back", options.file.string(),
               "it says " + local_time(options.now) + ", and the last entry is of " + local_time(*last),
               "Set the clock right, or give --clock-is-right where the last entry's time was wrong"};
}

}  // namespace

Ledger::Ledger(LedgerOptions options, std::unique_ptr<Holder> holder, std::unique_ptr<Database> database)
    : options_(std::move(options)), holder_(std::move(holder)), database_(std::move(database)) {}
Ledger::~Ledger() = default;

Result<std::unique_ptr<Ledger>> Ledger::open(const LedgerOptions& options, Access access) {
  using Opened = Result<std::unique_ptr<Ledger>>;
  return guarded([&]() -> Opened {
    if (options.file.empty()) {
      auto passing = std::make_unique<Database>(options.file, Database::Access::create, options.vfs);
      take_steps(*passing, 0, newest);
      return Opened(std::unique_ptr<Ledger>(new Ledger(options, nullptr, std::move(passing))));
    }
    std::error_code error;
    const bool is_there = fs::exists(options.file, error);
    if (!is_there && access == Access::read) {
      return Fault{"there is no ledger yet", options.file.string(), "", "Take orders in: ordinatio intake ORDERS"};
    }
    std::unique_ptr<Holder> holder;
    const auto hold = [&]() -> MaybeFault {
      if (holder) return std::nullopt;
      Result<Holder> taken = Holder::take(
          options.file, "process " + std::to_string(::getpid()) + " since " + options.now + ": " + options.cause,
          options.wait);
      if (!taken.ok()) return taken.fault();
      holder = std::make_unique<Holder>(*std::move(taken));
      return std::nullopt;
    };
    if (access == Access::write) {
      if (auto fault = hold()) return *std::move(fault);
      if (!fs::exists(options.file, error)) {
        if (auto fault = make_ledger(options)) return *std::move(fault);
      }
    }
    // A reader too may have to roll back what a killed command left.
    auto database = std::make_unique<Database>(options.file, Database::Access::write, options.vfs);
    const Result<int> version = version_of(*database);
    if (!version.ok()) return version.fault();
    set_pragmas(*database);
    if (*version < newest) {
      if (auto fault = hold()) return *std::move(fault);
      if (auto fault = bring_up_to_date(*database, *version)) return *std::move(fault);
    }
    if (access == Access::write) {
      if (auto fault = check_clock(*database, options)) return *std::move(fault);
    }
    return Opened(std::unique_ptr<Ledger>(new Ledger(options, std::move(holder), std::move(database))));
  });
}

void Ledger::begin(EntryKind kind, std::string asked) {
  database_->script("BEGIN IMMEDIATE");
  asked_ = std::move(asked);
  kind_ = kind;
  entry_ = 0;
  undoes_.reset();
}

void Ledger::commit() {
  database_->script("COMMIT");
  entry_ = 0;
}

void Ledger::roll_back() {
  if (database_->in_transaction()) database_->script("ROLLBACK");
  entry_ = 0;
}

}  // namespace ordinatio::inline ledger
