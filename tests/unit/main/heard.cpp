// What a command has to say reaches the person, or the command says that it did not and can be asked again.
#include <sys/stat.h>

#include <nlohmann/json.hpp>

#include "workshop.h"

namespace ordinatio::heard_test {
using Catch::Contains;

namespace {

const std::string full = "sh -c 'exec \"$@\" >/dev/full' sh";
const std::string closed = "sh -c 'exec \"$@\" >&-' sh";

/// Stdout is a pipe whose reader has gone; descriptor 9 is left to children.
class BrokenPipe {
 public:
  BrokenPipe() {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    REQUIRE(::dup2(ends[1], 9) == 9);
    ::close(ends[0]);
    ::close(ends[1]);
  }
  ~BrokenPipe() { ::close(9); }
  BrokenPipe(const BrokenPipe&) = delete;
  BrokenPipe& operator=(const BrokenPipe&) = delete;
  std::string wrapper = "sh -c 'exec \"$@\" >&9' sh";
};

void keep_a_ledger(const Workshop& workshop) {
  workshop.edit("shop.toml", "# [ledger] ", "[ledger] ");
  workshop.edit("shop.toml", "# file = \"workshop.ledger\"", "file = \"workshop.ledger\"");
  fs::remove(workshop.shop() / "orders.csv");
  workshop.write("monday.csv", "Order,Text,Quantity\n1042,Ada,2\n1043,Bert \U0001F41D,1\n1044,Cleo,1\n");
  workshop.write("tuesday.csv", "Order,Text,Quantity\n1042,Adah,2\n1043,Bert \U0001F41D,1\n1044,Cleo,1\n");
}

/// A command of the ledger, each a minute after the one before it.
class Clock {
 public:
  std::string stamped(const std::string& command) {
    ++minutes_;
    return command + " --json --now 2026-11-25T08:" + std::to_string(10 + minutes_) + ":00Z";
  }

 private:
  int minutes_ = 0;
};

/// The account less the line that the run was cut off.
nlohmann::json account_in(const Run& run) {
  CAPTURE(run.err);
  nlohmann::json account = nlohmann::json::parse(run.out);
  if (!account.contains("told")) return account;
  auto& told = account["told"];
  if (!told.empty() && told[0].get<std::string>().starts_with("This was done by a run that was cut off")) told.erase(0);
  if (told.empty()) account.erase("told");
  return account;
}

const std::vector<std::string> week{
    "intake monday.csv",
    "correct 1042-1 --text Ida",
    "hold 1042-2 --reason 'they are asked'",
    "release 1042-2",
    "first 1042-2",
    "proof --date 2026-11-25",
    "day --date 2026-11-25 --no-pdf",
    "align 1 --measured 1:8,8 2:592,8",
    "engraved 1 --pockets 1",
    "spoil 1042-1 --reason 'it slipped'",
    "undo 1042-1",
    "resume 1 --done 3",
    "remake 1042-2 --reason 'the lens was dirty'",
    "intake tuesday.csv",
    "answer 1 take",
    "day --date 2026-11-26 --no-pdf",
    "engraved 2",
    "stands --date 2026-11-26",
    "packed --order 1044",
    "backup copy.ledger",
};

}  // namespace

TEST_CASE("what stdout does not take is no success: a full disk, a closed stdout, a reader that has gone") {
  const Workshop workshop;
  keep_a_ledger(workshop);
  const BrokenPipe broken;
  REQUIRE(workshop.run("intake monday.csv").code != 3);
  for (const std::string& stdout_taken : {full, closed, broken.wrapper}) {
    for (const std::string command : {"--help", "day --help", "list", "list --json", "stock", "check",
                                      "specimen --font serif", "jig", "new ../another"}) {
      CAPTURE(stdout_taken, command);
      const Run run = workshop.run(command, stdout_taken);
      CHECK(run.code == 3);
      CHECK_THAT(run.err, Contains("stdout: "));
      fs::remove_all(workshop.shop() / "../another");
    }
  }
}

TEST_CASE("a closed stdout is no file's number: no account is written into the workshop's files") {
  const Workshop workshop;
  keep_a_ledger(workshop);
  REQUIRE(workshop.run("intake monday.csv", closed).code == 3);
  for (const auto& [name, bytes] : workshop.files()) {
    CAPTURE(name);
    CHECK(bytes.find("monday.csv: 4 new items of 3 new orders\n") == std::string::npos);
  }
  CHECK(workshop.run("check").code == 0);
}

TEST_CASE("a remake whose account was not printed is not done twice") {
  const Workshop workshop;
  keep_a_ledger(workshop);
  Clock clock;
  for (const std::string command : {"intake monday.csv", "day --no-pdf", "engraved 1"}) {
    REQUIRE(workshop.run(clock.stamped(command)).code < 2);
  }
  const Run lost = workshop.run(clock.stamped("remake 1042-1"), full);
  CHECK(lost.code == 3);
  CHECK_THAT(lost.err, Contains("stands in the ledger") && Contains("it is not done twice") &&
                           Contains("of sheet-001 is written off"));
  const Run again = workshop.run(clock.stamped("remake 1042-1"));
  CHECK(again.code == 0);
  CHECK_THAT(again.out, Contains("This was done by a run that was cut off") && Contains("remake-002.svg"));
  CHECK_FALSE(fs::exists(workshop.shop() / "out/sheets/remake-003.svg"));
  // Heard now: the same words are another remake.
  REQUIRE(workshop.run(clock.stamped("remake 1042-1")).code == 0);
  CHECK(fs::exists(workshop.shop() / "out/sheets/remake-003.svg"));
}

TEST_CASE("each command whose account was lost gives it when it is run again, as if nothing had happened") {
  const Workshop unlucky, lucky;
  keep_a_ledger(unlucky);
  keep_a_ledger(lucky);
  Clock clock;
  for (const std::string& words : week) {
    CAPTURE(words);
    const std::string command = clock.stamped(words);
    const Run expected = lucky.run(command);
    CAPTURE(expected.err);
    REQUIRE(expected.code < 2);
    CHECK(unlucky.run(command, full).code == 3);
    const Run again = unlucky.run(command);
    CHECK(again.code == expected.code);
    CHECK(account_in(again) == account_in(expected));
  }
  CHECK(unlucky.run("list --state packed").out == lucky.run("list --state packed").out);
  CHECK(unlucky.run("list").out == lucky.run("list").out);
  CHECK(unlucky.run("check").code == lucky.run("check").code);
}

TEST_CASE("another command than the one that was cut off tells what that one did, once") {
  const Workshop workshop;
  keep_a_ledger(workshop);
  Clock clock;
  REQUIRE(workshop.run(clock.stamped("intake monday.csv")).code < 2);
  REQUIRE(workshop.run(clock.stamped("day --no-pdf"), full).code == 3);
  CHECK(workshop.run(clock.stamped("hold 1042-9 --reason no")).code ==
        2);  // it says nothing of it, so it stays unheard
  const Run next = workshop.run(clock.stamped("engraved 1"));
  CHECK(next.code == 1);
  CHECK_THAT(next.out, Contains("was cut off before its account was read") && Contains("HONEYBEE"));
  CHECK_THAT(workshop.run(clock.stamped("packed --order 1042")).out, !Contains("cut off"));
}

TEST_CASE("an export that has changed since its intake was cut off is taken in") {
  const Workshop workshop;
  keep_a_ledger(workshop);
  Clock clock;
  REQUIRE(workshop.run(clock.stamped("intake monday.csv"), full).code == 3);
  workshop.write("monday.csv", workshop.read("monday.csv") + "1050,Dora,1\n");
  const Run next = workshop.run(clock.stamped("intake monday.csv"));
  CHECK_THAT(next.out, Contains("1 new item of 1 new order") && Contains("was cut off before its account was read"));
}

TEST_CASE("a list takes the place of a file and of nothing else") {
  const Workshop workshop;
  keep_a_ledger(workshop);
  REQUIRE(workshop.run("intake monday.csv").code < 2);
  CHECK(workshop.run("list --csv list.csv").code == 0);
  CHECK(workshop.run("list --csv list.csv").code == 0);
  fs::create_symlink(workshop.shop() / "list.csv", workshop.shop() / "link.csv");
  // Never a device here: a program that takes its place takes it from the whole machine.
  REQUIRE(::mkfifo((workshop.shop() / "pipe").c_str(), 0600) == 0);
  fs::create_directories(workshop.shop() / "out");
  for (const std::string place : {"pipe", "out", "link.csv"}) {
    const Run run = workshop.run("list --csv " + place);
    CAPTURE(place);
    CHECK(run.code == 2);
    CHECK_THAT(run.err, Contains("it is no regular file"));
  }
}

TEST_CASE("what a killed backup left is cleared by the next one, and the same backup again is the same") {
  const Workshop workshop;
  keep_a_ledger(workshop);
  REQUIRE(workshop.run("intake monday.csv").code < 2);
  const fs::path part = workshop.shop() / ".unfinished-backup-workshop.ledger";
  workshop.write(part.filename().string(), "half a ledger");
  REQUIRE(workshop.run("backup one.ledger").code == 0);
  CHECK_FALSE(fs::exists(part));
  CHECK(workshop.run("backup one.ledger").code == 0);
  REQUIRE(workshop.run("hold 1042-1 --reason no").code == 0);
  const Run other = workshop.run("backup one.ledger");
  CHECK(other.code == 2);
  CHECK_THAT(other.err, Contains("a backup does not take another's place"));
}

TEST_CASE("a limit on files is a message, and too few of them is the system's trouble") {
  const Workshop workshop;
  const Run large = workshop.run("day orders.csv", "sh -c 'ulimit -f 4; exec \"$@\"' sh");
  CHECK(large.code == 3);
  CHECK_THAT(large.err, Contains("File too large") && Contains("ulimit -f"));
  // Fewer than these and the program would not find its libraries.
  const std::string few = "sh -c 'exec 3>&-; ulimit -n 4; exec \"$@\"' sh";
  const Run logo = workshop.run("stands --count 1 --date 2026-11-25 --design stand-logo", few);
  CHECK(logo.code == 3);
  CHECK_THAT(logo.err, Contains("Too many open files") && !Contains("mistake of the program"));
  keep_a_ledger(workshop);
  REQUIRE(workshop.run("intake monday.csv").code < 2);
  REQUIRE(workshop.run("day --no-pdf").code < 2);
  const Run check = workshop.run("check", few);
  CHECK(check.code == 3);
  CHECK_THAT(check.err, Contains("Too many open files"));
  CHECK_THAT(check.out, !Contains("the file is gone"));
}

}  // namespace ordinatio::heard_test
