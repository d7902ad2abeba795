// What the machine or a wrong ledger does to a command: it says what, where, why and the mend, and has changed nothing.
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <fstream>
#include <iostream>

#include "base/account.h"
#include "base/local_time.h"
#include "command_kills.h"
#include "connection.h"
#include "ledger/ledger.h"
#include "shop/day.h"

using namespace ordinatio;
using namespace ordinatio::crash;
namespace fs = std::filesystem;
using Catch::Matchers::Contains;

namespace {

bool is_complete(const Fault& fault) {
  return !fault.what.empty() && !fault.where.empty() && !fault.why.empty() && !fault.mend.empty();
}

/// The week's commands by their places.
const std::vector<Command>& week() {
  static const std::vector<Command> commands = week_of(Pieces::nominal);
  return commands;
}
std::size_t place_of(const std::string& name) {
  for (std::size_t place = 0; place < week().size(); ++place) {
    if (week()[place].name == name) return place;
  }
  throw std::logic_error("no command of the week is called " + name);
}

/// A workshop as the week's first command of that name finds it.
void make_workshop_before(const Scratch& workshop, const std::string& name) {
  make_workshop(workshop.folder(), Pieces::nominal);
  for (std::size_t place = 0; place < place_of(name); ++place) {
    const auto account = run_command(week()[place], workshop.folder());
    INFO(week()[place].name);
    REQUIRE(account.ok());
  }
}

/// All but who held the lock last.
FolderImage image_without_lock(const fs::path& folder) {
  FolderImage image = image_of(folder);
  image.erase(ledger_name + std::string(".lock"));
  return image;
}

/// Files on their way are no change: the next command clears them away, or brings them to their place.
FolderImage without_files_on_their_way(FolderImage image) {
  std::erase_if(image, [](const auto& file) { return file.first.find(".unfinished-") != std::string::npos; });
  return image;
}
FolderImage files_in_their_place(const fs::path& folder) {
  FolderImage image = without_files_on_their_way(image_without_lock(folder));
  std::erase_if(image, [](const auto& file) { return file.first.ends_with("/"); });
  return image;
}

// ---- a call that fails ----

constexpr int done = 0, said_all = 2, said_too_little = 3;

int said(const Result<Account>& account) {
  if (account.ok()) return done;
  if (is_complete(account.fault())) return said_all;
  std::cerr << describe(account.fault()) << "\n";
  return said_too_little;
}

struct Tally {
  std::size_t calls = 0, faults = 0, unchanged = 0;
};

/// Lets the command fail at each of its calls in turn. Run again, it does its work.
Tally fail_everywhere(const std::string& name, Fate fate) {
  const Scratch before, place;
  make_workshop_before(before, name);
  const Command& command = week()[place_of(name)];
  const Outcome expected = outcome_of(CommandKills(command, before.folder()).after().folder());
  SharedFlag heard;  // what fails after that has the account told again, and is no fault of the work
  Tally tally;
  for (bool is_over = false; !is_over; ++tally.calls) {
    place.become(before.folder());
    const FolderImage image = files_in_their_place(place.folder());
    const std::size_t call = tally.calls + 1;
    heard.lower();
    const auto raise = [&] { heard.raise(); };
    const KillRun run = run_until(call, fate, [&] { return said(run_command(command, place.folder(), raise)); });
    is_over = run.calls.size() < call;
    INFO(name << ", " << name_of(fate) << " at " << call << ", "
              << (is_over ? "its end" : describe(run.calls[call - 1])));
    CHECK(run.exit_code != said_too_little);
    const bool is_fault = run.exit_code != done && !heard.is_up();
    if (is_fault) ++tally.faults;
    if (is_fault && image == files_in_their_place(place.folder())) ++tally.unchanged;
    if (run.exit_code != done) REQUIRE(run_command(command, place.folder()).ok());
    Outcome found = outcome_of(place.folder());
    found.files = without_files_on_their_way(std::move(found.files));
    CHECK(difference(expected, found) == "");
  }
  std::cout << name << ", " << name_of(fate) << ": " << tally.calls - 1 << " calls, " << tally.faults
            << " faults, after " << tally.unchanged << " of them every byte as before\n";
  return tally;
}

// ---- a ledger or a folder that cannot be used ----

/// Commands of every kind: that take orders in, change an item, make sheets, and read.
std::vector<std::pair<std::string, Result<Account>>> try_all(const fs::path& folder, const std::string& now) {
  const Shop shop = *read_shop(folder);
  LedgerCall call;
  call.now = now;
  call.cause = "tried";
  call.wait = 0;
  std::vector<std::pair<std::string, Result<Account>>> tried;
  tried.emplace_back("intake", run_intake(shop, {call, folder / "tuesday.csv", "", false}));
  tried.emplace_back("hold", run_correction(shop, {call, "1042-1", CorrectionOptions::What::hold, "asked"}));
  DayOptions day;
  day.call = call;
  tried.emplace_back("day", run_day(shop, day));
  tried.emplace_back("list", run_list(shop, {call, "", {}}));
  tried.emplace_back("check", run_check(shop, call));
  return tried;
}

constexpr std::size_t writing = 3, all_commands = 5;  // those that write come first
constexpr const char* later = "2026-11-25T18:00:00Z";

/// Every command gives a whole Fault whose words `why` is among, and no byte changes.
void require_refused(const fs::path& folder, const std::string& why, std::size_t commands = all_commands,
                     const std::string& now = later) {
  const FolderImage before = image_without_lock(folder);
  const auto tried = try_all(folder, now);
  for (std::size_t i = 0; i < commands; ++i) {
    const auto& [name, account] = tried[i];
    INFO(name);
    REQUIRE_FALSE(account.ok());
    CHECK(is_complete(account.fault()));
    CHECK_THAT(describe(account.fault()), Contains(why));
  }
  CHECK(difference(before, image_without_lock(folder)) == "");
}

/// A workshop with a ledger in use.
struct Used {
  Used() { make_workshop_before(workshop, "day"); }
  [[nodiscard]] fs::path folder() const { return workshop.folder(); }
  [[nodiscard]] fs::path ledger_file() const { return workshop.folder() / ledger_name; }
  Scratch workshop;
};

/// Another process, which does something to the ledger and stays until this object goes. It is ready when `work` calls what
/// it is given.
class Other {
 public:
  using Stay = std::function<void()>;
  explicit Other(const std::function<void(const Stay& stay)>& work) {
    int ready[2] = {};
    REQUIRE(pipe(ready) == 0);
    child_ = fork();
    if (child_ == 0) be_the_other(work, ready[1]);
    close(ready[1]);
    char byte = 0;
    const bool is_ready = read(ready[0], &byte, 1) == 1;
    close(ready[0]);
    REQUIRE(is_ready);
  }
  ~Other() {
    kill(child_, SIGKILL);
    waitpid(child_, nullptr, 0);
  }
  Other(const Other&) = delete;
  Other& operator=(const Other&) = delete;
  [[nodiscard]] std::string process() const { return std::to_string(child_); }

 private:
  [[noreturn]] static void be_the_other(const std::function<void(const Stay& stay)>& work, int ready) {
    try {
      work([ready] {
        if (::write(ready, "r", 1) == 1) pause();
      });
    } catch (...) {  // then it is never ready
    }
    _exit(1);
  }
  pid_t child_;
};

void cut_off(const fs::path& file, std::uintmax_t length) { fs::resize_file(file, length); }

void put(const fs::path& file, const std::string& bytes) { std::ofstream(file, std::ios::binary) << bytes; }

}  // namespace

TEST_CASE("a disk that is full at any moment costs a message and nothing else", "[failures]") {
  const Tally making = fail_everywhere("intake", Fate::disk_full), one = fail_everywhere("correct", Fate::disk_full),
              sheets = fail_everywhere("day", Fate::disk_full);
  CHECK(one.faults > 20);
  CHECK(one.unchanged == one.faults);  // one transaction
  CHECK(making.faults > 90);
  CHECK(sheets.faults > 90);
}

TEST_CASE("a call that fails at any moment costs a message and nothing else", "[failures]") {
  for (const char* name : {"intake", "correct", "day"}) CHECK(fail_everywhere(name, Fate::failed).faults > 20);
}

TEST_CASE("a workshop on a disk that cannot be written is told so, and can be read", "[failures]") {
  const Used used;
  const FolderImage before = image_of(used.folder());
  const KillRun run = run_until(1, Fate::read_only, [&] {
    const auto tried = try_all(used.folder(), later);
    for (std::size_t i = 0; i < writing; ++i) {
      if (tried[i].second.ok() || said(tried[i].second) != said_all) return 10 + static_cast<int>(i);
      if (describe(tried[i].second.fault()).find("Read-only file system") == std::string::npos) return 20;
    }
    for (std::size_t i = writing; i < all_commands; ++i) {
      if (!tried[i].second.ok()) return said(tried[i].second) == said_all ? 30 : 31;
    }
    return 0;
  });
  CHECK(run.exit_code == 0);
  CHECK(difference(before, image_of(used.folder())) == "");
}

TEST_CASE("while a command holds the ledger, others are told which, and can read", "[failures]") {
  const Used used;
  const Other other([&](const Other::Stay& stay) {
    LedgerOptions options;
    options.file = used.ledger_file();
    options.now = later;
    options.cause = "ordinatio day orders.csv";
    const auto ledger = Ledger::open(options, Ledger::Access::write);
    if (ledger.ok()) stay();
  });
  const std::string who = "process " + other.process() + " since " + local_time(later) + ": ordinatio day orders.csv";
  require_refused(used.folder(), "it is held by " + who, writing);
  for (const auto& [name, account] : try_all(used.folder(), later)) {
    INFO(name);
    if (name == "list" || name == "check") CHECK(account.ok());
  }
}

TEST_CASE("while another program writes into the ledger, a command waits and then says so", "[failures]") {
  const Used used;
  const Other other([&](const Other::Stay& stay) {
    Connection connection(used.ledger_file());
    connection.run("BEGIN EXCLUSIVE");
    stay();
  });
  const FolderImage before = image_without_lock(used.folder());
  const auto account = run_command(week()[place_of("hold")], used.folder());
  REQUIRE_FALSE(account.ok());
  CHECK(is_complete(account.fault()));
  CHECK_THAT(describe(account.fault()), Contains("another program holds the ledger") && Contains("is locked"));
  CHECK(difference(before, image_without_lock(used.folder())) == "");
}

TEST_CASE("a ledger that is cut off is refused by every command, and not made anew", "[failures]") {
  const Used used;
  const auto whole = fs::file_size(used.ledger_file());
  for (const std::uintmax_t length : {whole - 1, whole - 4096, whole / 2, std::uintmax_t{4096}, std::uintmax_t{700}}) {
    INFO(length << " of " << whole << " bytes");
    cut_off(used.ledger_file(), length);
    require_refused(used.folder(), "the ledger is");  // cut off, or damaged, as SQLite finds it before
  }
  cut_off(used.ledger_file(), 0);
  require_refused(used.folder(), "the ledger is cut off");
}

TEST_CASE("what is no ledger is refused by every command", "[failures]") {
  const Used used;
  put(used.ledger_file(), std::string(9000, 'x'));
  require_refused(used.folder(), "file is not a database");
  fs::remove(used.ledger_file());
  Connection(used.ledger_file()).run("CREATE TABLE recipe(words TEXT)");
  require_refused(used.folder(), "it is a database of another program");
}

TEST_CASE("a ledger of a newer version is refused by every command", "[failures]") {
  const Used used;
  Connection(used.ledger_file()).run("PRAGMA user_version = 99");
  require_refused(used.folder(), "the ledger is of a newer version");
}

TEST_CASE("when the clock has gone back nothing is written", "[failures]") {
  const Used used;
  require_refused(used.folder(), "the clock has gone back", writing, "2026-11-24T18:00:00Z");
}
