#include "lossy_vfs.h"

#include <catch2/catch.hpp>
#include <iostream>

#include "connection.h"
#include "scratch.h"

using namespace ordinatio::crash;
namespace fs = std::filesystem;

namespace {

constexpr std::size_t sectors[] = {512, 4096};

/// One day at the workshop's ledger: new rows, old ones rewritten, some deleted, and the day's number.
std::string day(int number) {
  const std::string n = std::to_string(number);
  return "INSERT INTO item SELECT " + n +
         " * 100 + column1, hex(zeroblob(200 + 37 * column1))"
         " FROM (VALUES (1), (2), (3), (4), (5), (6), (7));"
         "UPDATE item SET words = words || '" +
         n + "' WHERE id % 3 = " + n +
         " % 3;"
         "DELETE FROM item WHERE id % 7 = " +
         n +
         " % 7;"
         "INSERT INTO day VALUES(" +
         n + ")";
}

const std::vector<std::string>& commits() {
  static const std::vector<std::string> all{
      "CREATE TABLE item(id INTEGER PRIMARY KEY, words TEXT); CREATE TABLE day(number INT)",
      day(1),
      day(2),
      day(3),
      day(4),
      day(5),
      day(6)};
  return all;
}

/// Writes the first `count` commits until the power fails; gives how many of them returned.
std::size_t write_ledger(const fs::path& ledger_file, const char* vfs, const std::string& synchronous,
                         std::size_t count) {
  std::size_t returned = 0;
  try {
    Connection connection(ledger_file, vfs);
    connection.run("PRAGMA synchronous = " + synchronous + "; PRAGMA cache_size = 4");
    for (; returned < count; ++returned) connection.run("BEGIN IMMEDIATE;" + commits()[returned] + "; COMMIT");
  } catch (const std::runtime_error&) {  // the power is off
  }
  return returned;
}

/// The ledger after no commit, after one, and so on; made without a cut.
std::vector<std::vector<std::string>> ledgers_by_commits() {
  std::vector<std::vector<std::string>> ledgers;
  for (std::size_t count = 0; count <= commits().size(); ++count) {
    const Scratch scratch;
    write_ledger(scratch.folder() / "ledger", nullptr, "OFF", count);
    ledgers.push_back(dump_ledger(scratch.folder() / "ledger"));
  }
  return ledgers;
}

struct Tally {
  std::size_t cuts = 0, unsound = 0, untrue = 0;
  std::string first;  // what went wrong first, and how to have it again
};

/// Opens the ledger as after a restart. It may hold what returned, and the commit that was under way.
void judge(Tally& tally, const fs::path& ledger_file, std::size_t returned, const std::string& how) {
  static const auto ledgers = ledgers_by_commits();
  std::string wrong;
  try {
    const std::vector<std::string> found = fs::exists(ledger_file) ? dump_ledger(ledger_file) : ledgers.front();
    if (found == ledgers[returned] || (returned < commits().size() && found == ledgers[returned + 1])) return;
    wrong = "it is not as after " + std::to_string(returned) + " or one more";
    ++tally.untrue;
  } catch (const std::runtime_error& error) {
    wrong = error.what();
    ++tally.unsound;
  }
  if (tally.first.empty()) tally.first = how + ": " + wrong;
}

/// Cuts the power at every call in turn.
Tally cut_everywhere(const std::string& synchronous, std::uint64_t seeds) {
  Tally tally;
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    for (const std::size_t sector : sectors) {
      for (std::size_t call = 1;; ++call) {
        const Scratch scratch;
        const fs::path ledger_file = scratch.folder() / "ledger";
        LossyVfs vfs("lossy");
        vfs.cut_at(call, {seed * 1'000'000 + call, sector});
        const std::size_t returned = write_ledger(ledger_file, vfs.name(), synchronous, commits().size());
        if (!vfs.was_cut()) break;
        ++tally.cuts;
        judge(tally, ledger_file, returned,
              "call " + std::to_string(call) + ", seed " + std::to_string(seed) + ", sector " + std::to_string(sector));
      }
    }
  }
  return tally;
}

}  // namespace

TEST_CASE("with synchronous=EXTRA no power cut harms the ledger or loses a commit that returned") {
  const Tally tally = cut_everywhere("EXTRA", 1);
  INFO(tally.first);
  CHECK(tally.unsound == 0);
  CHECK(tally.untrue == 0);
  CHECK(tally.cuts > 500);
  std::cout << "power cuts at synchronous=EXTRA: " << tally.cuts << "\n";
}

TEST_CASE("with synchronous=FULL no power cut harms the ledger, but one may take back a commit that returned") {
  const Tally tally = cut_everywhere("FULL", 1);
  INFO(tally.first);
  CHECK(tally.unsound == 0);
  CHECK(tally.untrue > 0);  // the journal's name came back, and the commit was rolled back
}

TEST_CASE("with synchronous=OFF power cuts harm the ledger and lose commits") {
  const Tally tally = cut_everywhere("OFF", 1);
  CHECK(tally.unsound > 0);
  CHECK(tally.untrue > 0);
}

TEST_CASE("without a cut the lossy VFS leaves what the default one leaves") {
  const Scratch scratch;
  LossyVfs vfs("lossy");
  CHECK(write_ledger(scratch.folder() / "ledger", vfs.name(), "EXTRA", commits().size()) == commits().size());
  CHECK_FALSE(vfs.was_cut());
  CHECK(vfs.calls() > 60);
  write_ledger(scratch.folder() / "other", nullptr, "EXTRA", commits().size());
  CHECK(dump_ledger(scratch.folder() / "ledger") == dump_ledger(scratch.folder() / "other"));
}

TEST_CASE("after the cut every statement fails") {
  const Scratch scratch;
  const fs::path ledger_file = scratch.folder() / "ledger";
  LossyVfs vfs("lossy");
  Connection connection(ledger_file, vfs.name());
  connection.run(commits().front());
  vfs.cut_at(vfs.calls() + 1, {1, 512});
  CHECK_THROWS_WITH(connection.run(day(1)), "disk I/O error");
  CHECK_THROWS(connection.run(day(1)));
  CHECK_THROWS(connection.rows("SELECT * FROM item"));
  CHECK_THROWS(Connection(ledger_file, vfs.name()).rows("SELECT * FROM item"));
}
