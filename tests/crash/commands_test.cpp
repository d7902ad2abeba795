// Every command that writes, killed and out of power at every moment of its work, and run again.
#include <sched.h>

#include <catch2/catch.hpp>
#include <iostream>
#include <set>

#include "command_kills.h"
#include "traced_run.h"

using namespace ordinatio;
using namespace ordinatio::crash;

namespace {

/// No threads then: calls come in one order, and forks are safe.
void use_one_core() {
  cpu_set_t one;
  CPU_ZERO(&one);
  CPU_SET(static_cast<std::size_t>(sched_getcpu()), &one);
  REQUIRE(sched_setaffinity(0, sizeof one, &one) == 0);
  REQUIRE(core_count() == 1);
}

/// The commands of a week that are struck, by their places in it; the others are run as they are.
using Choice = std::function<bool(std::size_t place, const Command& command)>;

enum class Blow { kills, power_cuts };

void strike_week(Pieces pieces, Blow blow, const Choice& is_struck) {
  use_one_core();
  const Scratch workshop;
  make_workshop(workshop.folder(), pieces);
  std::size_t place = 0;
  for (const Command& command : week_of(pieces)) {
    CommandKills kills(command, workshop.folder());
    ++place;
    if (is_struck(place - 1, command)) {
      Strikes strikes;
      blow == Blow::kills ? kills.kill_everywhere(1 + place % 2, strikes) : kills.cut_everywhere(strikes);
      for (const std::string& harm : strikes.harms) FAIL_CHECK(harm);
      std::cout << command.name << ": " << kills.calls() << " calls, " << strikes.killed << " killed, " << strikes.torn
                << " torn, " << strikes.killed_twice << " killed again, " << strikes.power_cuts << " power cuts\n";
    }
    workshop.become(kills.after().folder());
  }
}

bool is_any(std::size_t, const Command&) { return true; }

}  // namespace

TEST_CASE("a command that is killed anywhere can be run again: bookings, the first day, a move", "[kills-1]") {
  strike_week(Pieces::nominal, Blow::kills, [](std::size_t place, const Command&) { return place < 15; });
}

TEST_CASE("a command that is killed anywhere can be run again: remakes, the next day, stands", "[kills-2]") {
  strike_week(Pieces::nominal, Blow::kills, [](std::size_t place, const Command&) { return place >= 15; });
}

TEST_CASE("a command that is killed anywhere can be run again: pieces that are measured", "[kills-3]") {
  static const std::set<std::string> with_pieces{"pin", "day", "move", "spoil"};
  strike_week(Pieces::measured, Blow::kills,
              [](std::size_t, const Command& command) { return with_pieces.contains(command.name); });
}

TEST_CASE("a power cut at any moment of a command takes back nothing that it had said was done", "[power]") {
  strike_week(Pieces::nominal, Blow::power_cuts, is_any);
}

TEST_CASE("every call of the week's commands that changes the disk is one at which they are killed", "[kills-1]") {
  use_one_core();
  const Scratch workshop;
  make_workshop(workshop.folder(), Pieces::measured);
  for (const Command& command : week_of(Pieces::measured)) {
    INFO(command.name);
    const TracedRun run = run_traced([&] { return run_command(command, workshop.folder()).ok() ? 0 : 1; });
    if (!run.permitted) {
      WARN("this system lets no process trace another: the calls were not held against the kernel's");
      return;
    }
    CHECK(run.caught == run.seen);
  }
}
