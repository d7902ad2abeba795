#include "kill_points.h"

#include <fcntl.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <fstream>
#include <set>

#include "base/base.h"
#include "connection.h"
#include "scratch.h"
#include "traced_run.h"

using namespace ordinatio;
using namespace ordinatio::crash;
namespace fs = std::filesystem;

namespace {

std::vector<std::string> names_of(const std::vector<DiskCall>& calls) {
  std::vector<std::string> names;
  for (const DiskCall& call : calls) names.emplace_back(call.name);
  return names;
}

KillRun run_to_the_end(const std::function<int()>& command) { return run_until(no_call, Fate::killed, command); }

/// A ledger of two accounts whose sum is always 100.
void make_accounts(const fs::path& ledger_file) {
  Connection(ledger_file)
      .run(
          "CREATE TABLE account(name TEXT PRIMARY KEY, amount INT);"
          "INSERT INTO account VALUES('till', 100), ('bank', 0)");
}

int move_money(const fs::path& ledger_file, const std::string& journal) {
  Connection connection(ledger_file);
  connection.run("PRAGMA journal_mode = " + journal + "; PRAGMA synchronous = EXTRA; PRAGMA cache_size = 1");
  connection.run(
      "BEGIN IMMEDIATE; UPDATE account SET amount = amount - 30 WHERE name = 'till';"
      "UPDATE account SET amount = amount + 30 WHERE name = 'bank';"
      "CREATE TABLE note(words TEXT); INSERT INTO note VALUES(hex(zeroblob(9000))); COMMIT");
  return 0;
}

/// What is wrong with the ledger after a kill: it is not sound, or is neither as before nor as after.
std::string harm(const fs::path& ledger_file) {
  try {
    const std::vector<std::string> lines = dump_ledger(ledger_file);
    Connection connection(ledger_file);
    const std::string amounts = connection.rows("SELECT group_concat(amount, ' ') FROM account ORDER BY name").front();
    const bool noted = connection.rows("SELECT count(*) FROM sqlite_schema WHERE name = 'note'").front() == "1";
    if (amounts == (noted ? "70 30" : "100 0")) return {};
    return "the amounts are " + amounts + (noted ? " with a note" : " without a note");
  } catch (const std::runtime_error& error) {
    return error.what();
  }
}

/// Kills the transfer at each of its calls, in both ways; gives what went wrong, and the number of kills.
struct Kills {
  std::size_t count = 0;
  std::vector<std::string> harms;
};
Kills kill_transfer_everywhere(const std::string& journal) {
  const Scratch model, scratch;
  make_accounts(model.folder() / "ledger");
  const fs::path ledger_file = scratch.folder() / "ledger";
  const auto transfer = [&] { return move_money(ledger_file, journal); };
  scratch.become(model.folder());
  const std::size_t calls = run_to_the_end(transfer).calls.size();
  Kills kills;
  for (const Fate fate : {Fate::killed, Fate::torn}) {
    for (std::size_t call = 1; call <= calls; ++call) {
      scratch.become(model.folder());
      if (run_until(call, fate, transfer).killed) ++kills.count;
      if (const std::string found = harm(ledger_file); !found.empty()) kills.harms.push_back(found);
    }
  }
  CHECK(kills.count == 2 * calls);
  return kills;
}

}  // namespace

TEST_CASE("a run that is not killed gives its calls and its exit code") {
  const Scratch scratch;
  const fs::path path = scratch.folder() / "sheet.svg";
  const KillRun run = run_to_the_end([&] { return write_file(path, "<svg/>") ? 1 : 7; });
  CHECK_FALSE(run.killed);
  CHECK(run.exit_code == 7);
  CHECK(names_of(run.calls) == std::vector<std::string>{"openat", "write", "fsync", "renameat2", "fsync"});
  CHECK(run.calls[1].bytes == 6);
  CHECK(describe(run.calls[3]) == "renameat2 " + path.string());
  CHECK(*read_file(path) == "<svg/>");
}

TEST_CASE("what is only read, or written to a pipe, is no call that can change the disk") {
  const KillRun run = run_to_the_end([] {
    int ends[2] = {};
    if (pipe(ends) != 0) return 1;
    return write(ends[1], "word", 4) == 4 && read_file("/proc/self/stat").ok() ? 0 : 2;
  });
  CHECK(run.exit_code == 0);
  CHECK(names_of(run.calls).empty());
}

TEST_CASE("a kill comes before its call, and a torn write leaves the first half") {
  const Scratch scratch;
  const fs::path path = scratch.folder() / "sheet.svg", part = scratch.folder() / "sheet.svg.part";
  const auto command = [&] { return write_file(path, "<svg/>") ? 1 : 0; };
  const auto left_after = [&](std::size_t call, Fate fate) {
    fs::remove(path);
    fs::remove(part);
    const KillRun run = run_until(call, fate, command);
    CHECK(run.killed);
    CHECK(run.calls.size() == call);
    return image_of(scratch.folder());
  };
  CHECK(left_after(1, Fate::killed).empty());
  CHECK(left_after(2, Fate::killed) == FolderImage{{"sheet.svg.part", ""}});
  CHECK(left_after(2, Fate::torn) == FolderImage{{"sheet.svg.part", "<sv"}});
  CHECK(left_after(4, Fate::killed) == FolderImage{{"sheet.svg.part", "<svg/>"}});
  CHECK(left_after(4, Fate::torn) == FolderImage{{"sheet.svg.part", "<svg/>"}});
  CHECK(left_after(5, Fate::killed) == FolderImage{{"sheet.svg", "<svg/>"}});
  CHECK_FALSE(run_until(6, Fate::killed, command).killed);
}

TEST_CASE("a full disk takes half of the write that fills it and nothing more, until something is deleted") {
  const Scratch scratch;
  const fs::path path = scratch.folder() / "sheet.svg";
  std::ofstream(path) << "old";
  std::string why;
  for (std::size_t call = 1; call <= 2; ++call) {
    const KillRun run = run_until(call, Fate::disk_full, [&] {
      const MaybeFault fault = write_file(path, "<svg/>");
      return fault && fault->why == "No space left on device" && !fault->mend.empty() ? 5 : 0;
    });
    CHECK(run.exit_code == 5);
    CHECK(image_of(scratch.folder()) == FolderImage{{"sheet.svg", "old"}});
  }
}

TEST_CASE("a call that fails fails once, with an input/output error") {
  const Scratch scratch;
  const fs::path path = scratch.folder() / "sheet.svg";
  for (std::size_t call = 1; call <= 4; ++call) {
    const KillRun run = run_until(call, Fate::failed, [&] {
      const MaybeFault fault = write_file(path, "<svg/>");
      return fault && fault->why == "Input/output error" ? 5 : 0;
    });
    CHECK(run.exit_code == 5);
    CHECK(image_of(scratch.folder()).empty());
  }
}

TEST_CASE("a stop leaves what a kill or a power cut there leaves, and the command goes on") {
  const Scratch model, scratch;
  const fs::path folder = scratch.folder();
  std::ofstream(model.folder() / "sheet.svg") << "old";
  const auto command = [&] {
    if (write_file(folder / "sheet.svg", "<svg/>") || make_folder(folder / "a")) return 1;
    std::ofstream(folder / "a" / "notes") << "one line\n";
    fs::rename(folder / "a" / "notes", folder / "notes");
    fs::remove(folder / "sheet.svg");
    return 0;
  };
  scratch.become(model.folder());
  const std::size_t calls = run_to_the_end(command).calls.size();

  for (const Fate fate : {Fate::killed, Fate::torn, Fate::power_cut}) {
    std::vector<Stop> stops;
    const std::size_t last = fate == Fate::power_cut ? calls + 1 : calls;
    for (std::size_t call = 1; call <= last; ++call) stops.push_back({call, fate, {call, 4}});
    std::vector<FolderImage> left;
    const auto look = [&](const Stop&) {
      left.push_back(image_of(folder));
      fs::remove(folder / "sheet.svg");  // what is done here is done to a copy
    };
    scratch.become(model.folder());
    const KillRun run = stop_at_each(folder, stops, look, command);
    CHECK(run.exit_code == 0);
    CHECK(run.calls.size() == calls);
    CHECK(image_of(folder) == FolderImage{{"a/", ""}, {"notes", "one line\n"}});
    REQUIRE(left.size() == stops.size());
    for (const Stop& stop : stops) {
      scratch.become(model.folder());
      fate == Fate::power_cut ? cut_power_at(stop.call, stop.loss, command) : run_until(stop.call, fate, command);
      INFO(name_of(fate) << " at " << stop.call);
      CHECK(difference(image_of(folder), left[stop.call - 1]) == "");
    }
  }
}

TEST_CASE("a transaction stopped at any of its calls has, for who looks then, happened or not") {
  const Scratch scratch;
  const fs::path ledger_file = scratch.folder() / "ledger";
  make_accounts(ledger_file);
  const auto transfer = [&] { return move_money(ledger_file, "DELETE"); };
  const std::size_t calls = run_to_the_end(transfer).calls.size();
  std::vector<Stop> stops;
  for (std::size_t call = 1; call <= calls; ++call) {
    stops.push_back({call, Fate::killed});
    stops.push_back({call, Fate::torn});
  }
  fs::remove(ledger_file);
  make_accounts(ledger_file);
  std::size_t looks = 0;
  const auto look = [&](const Stop& stop) {
    INFO(name_of(stop.fate) << " at " << stop.call);
    CHECK(harm(ledger_file) == "");
    ++looks;
  };
  stop_at_each(scratch.folder(), stops, look, transfer);
  CHECK(looks > 40);
}

TEST_CASE("a command that makes fewer calls than it was to be stopped at is no silence") {
  const Scratch scratch;
  const auto look = [](const Stop&) {};
  CHECK_THROWS_WITH(stop_at_each(scratch.folder(), {{2}}, look, [] { return 0; }),
                    "the command makes fewer calls than it was to be stopped at");
}

TEST_CASE("a command that crashes or throws is no kill") {
  CHECK_THROWS_WITH(run_to_the_end([] { return std::raise(SIGUSR1); }), "the command ended by signal 10");
  CHECK_THROWS_WITH(run_to_the_end([]() -> int { throw std::runtime_error("by design, in a test"); }),
                    "the command threw");
}

TEST_CASE("a transaction killed at any of its calls has happened or has not") {
  const Kills kills = kill_transfer_everywhere("DELETE");
  CHECK(kills.harms == std::vector<std::string>{});
  CHECK(kills.count > 40);
}

TEST_CASE("kills find what a transaction without a journal leaves behind") {
  CHECK_FALSE(kill_transfer_everywhere("OFF").harms.empty());
}

TEST_CASE("on a disk that cannot be written, files can be read and nothing else") {
  const Scratch scratch;
  const fs::path path = scratch.folder() / "sheet.svg";
  std::ofstream(path) << "old";
  const KillRun run = run_until(1, Fate::read_only, [&] {
    const MaybeFault fault = write_file(path, "<svg/>");
    const bool refused = fault && fault->why == "Read-only file system" && !fault->mend.empty();
    return refused && *read_file(path) == "old" && ::open(path.c_str(), O_RDWR) < 0 ? 5 : 0;
  });
  CHECK(run.exit_code == 5);
  CHECK(image_of(scratch.folder()) == FolderImage{{"sheet.svg", "old"}});
}

TEST_CASE("a file written whole is old or new after a power cut, and new once that was said") {
  const Scratch scratch;
  const fs::path path = scratch.folder() / "sheet.svg";
  std::set<std::string> left;
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    for (std::size_t call = 1; call <= 6; ++call) {
      fs::remove(scratch.folder() / "sheet.svg.part");
      std::ofstream(path) << "old";
      const KillRun run = cut_power_at(call, {seed, 512}, [&] { return write_file(path, "<svg/>") ? 1 : 0; });
      CHECK(run.killed == (call < 6));
      const std::string bytes = *read_file(path);
      CHECK((bytes == "<svg/>" || (call < 6 && bytes == "old")));
      left.insert(bytes);
    }
  }
  CHECK(left.size() == 2);
}

TEST_CASE("a power cut finds what was renamed before it was synced") {
  const Scratch scratch;
  const fs::path path = scratch.folder() / "sheet.svg", part = scratch.folder() / "part";
  std::set<std::string> left;
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    std::ofstream(path) << "old";
    cut_power_at(no_call, {seed, 512}, [&] {
      std::ofstream(part) << "<svg/>";
      fs::rename(part, path);
      return 0;
    });
    left.insert(*read_file(path));
  }
  CHECK(left.contains(""));
  CHECK(left.contains("old"));
  CHECK(left.contains("<svg/>"));
}

TEST_CASE("a transaction whose power is cut at any of its calls has happened or has not") {
  const Scratch model, scratch;
  make_accounts(model.folder() / "ledger");
  const fs::path ledger_file = scratch.folder() / "ledger";
  for (const std::size_t sector : {std::size_t{512}, std::size_t{4096}}) {
    bool ended = false;
    for (std::size_t call = 1; !ended; ++call) {
      scratch.become(model.folder());
      ended = !cut_power_at(call, {call, sector}, [&] { return move_money(ledger_file, "DELETE"); }).killed;
      INFO("call " << call << ", sector " << sector);
      CHECK(harm(ledger_file).empty());
      if (ended) CHECK(Connection(ledger_file).rows("SELECT count(*) FROM note").front() == "1");
    }
  }
}

TEST_CASE("every call that changes the disk is caught: the kernel sees no other") {
  const Scratch scratch;
  const fs::path folder = scratch.folder();
  make_accounts(folder / "ledger");
  const TracedRun run = run_traced([&] {
    move_money(folder / "ledger", "DELETE");
    REQUIRE_FALSE(write_file(folder / "sheet.svg", "<svg/>"));
    REQUIRE_FALSE(make_folder(folder / "a" / "b"));
    std::ofstream(folder / "a" / "notes") << "one line\n";
    fs::rename(folder / "a", folder / "c");
    fs::copy_file(folder / "sheet.svg", folder / "copy.svg");
    fs::create_hard_link(folder / "sheet.svg", folder / "link.svg");
    fs::resize_file(folder / "link.svg", 2);
    fs::permissions(folder / "copy.svg", fs::perms::owner_read);
    fs::last_write_time(folder / "link.svg", fs::file_time_type{});
    fs::remove(folder / "copy.svg");
    fs::remove_all(folder / "c");
    return 0;
  });
  if (!run.permitted) {
    WARN("this system lets no process trace another: the list of calls was not held against the kernel's");
    return;
  }
  CHECK(run.seen.size() > 40);
  CHECK(run.caught == run.seen);
}
