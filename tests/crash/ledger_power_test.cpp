// The power fails while the ledger is made and written, at every call of SQLite to its disk.
#include <catch2/catch.hpp>
#include <iostream>

#include "connection.h"
#include "ledger_week.h"
#include "lossy_vfs.h"
#include "scratch.h"

using namespace ordinatio;
using namespace ordinatio::crash;
namespace fs = std::filesystem;

namespace {

using Dump = std::vector<std::string>;

LedgerOptions options_for(const fs::path& ledger_file) {
  LedgerOptions options;
  options.file = ledger_file;
  options.now = "2026-11-25T08:00:00Z";
  return options;
}

void require_step(const fs::path& ledger_file, std::size_t step) {
  const MaybeFault fault = take_step(ledger_file, step, "");
  INFO(ledger_week()[step].name << ": " << (fault ? describe(*fault) : ""));
  REQUIRE_FALSE(fault);
}

std::vector<std::string> contradictions_in(const fs::path& ledger_file) {
  const auto ledger = Ledger::open(options_for(ledger_file), Ledger::Access::read);
  if (!ledger) return {describe(ledger.fault())};
  return (*ledger)->contradictions();
}

/// The ledger as it is after a restart: as before the step or as after it; and after it when the step is done again.
void judge(const fs::path& ledger_file, std::size_t step, const Dump& before, const Dump& after, bool done) {
  CHECK(contradictions_in(ledger_file).empty());
  const Dump found = dump_ledger(ledger_file);
  CHECK(((found == before && !done) || found == after));
  if (found == before) require_step(ledger_file, step);
  CHECK(dump_ledger(ledger_file) == after);
}

constexpr std::size_t cuts_after = 5;  // what a step left unsynced shows itself in half of the cuts, at least

std::size_t sector_of(std::size_t cut) { return cut % 2 == 0 ? 512 : 4096; }

/// Cuts the power at every call of the step, and when it has ended; gives how often.
std::size_t cut_step(std::size_t step, const fs::path& model, const Dump& before, const Dump& after) {
  std::size_t cuts = 0;
  for (std::size_t ended = 0; ended < cuts_after; ++cuts) {
    const Scratch scratch;
    scratch.become(model);
    const fs::path ledger_file = scratch.folder() / "ledger.db";
    const Loss loss{1'000 * step + cuts, sector_of(step + cuts)};
    bool done = false;
    {
      LossyVfs vfs("lossy");
      vfs.cut_at(cuts + 1, loss);
      done = !take_step(ledger_file, step, vfs.name());
      if (!vfs.was_cut()) ++ended;
      vfs.cut_now(loss);
    }
    INFO(ledger_week()[step].name << ", call " << cuts + 1);
    judge(ledger_file, step, before, after, done);
  }
  return cuts;
}

/// The same while the ledger is made: it is there, and empty, or it is not.
std::size_t cut_making() {
  for (std::size_t call = 1;; ++call) {
    const Scratch scratch;
    LedgerOptions options = options_for(scratch.folder() / "ledger.db");
    {
      LossyVfs vfs("lossy");
      vfs.cut_at(call, {call, sector_of(call)});
      options.vfs = vfs.name();
      const bool made = Ledger::open(options, Ledger::Access::write).ok();
      if (!vfs.was_cut()) return call - 1;
      CHECK(fs::exists(options.file) >= made);
    }
    INFO("call " << call);
    options.vfs.clear();
    CHECK(Ledger::open(options, Ledger::Access::write).ok());
    CHECK(contradictions_in(options.file).empty());
  }
}

}  // namespace

TEST_CASE("the power fails at any moment of the ledger's week: what was booked stands, and the week goes on") {
  std::size_t cuts = cut_making();
  const Scratch model;
  const fs::path ledger_file = model.folder() / "ledger.db";
  REQUIRE(Ledger::open(options_for(ledger_file), Ledger::Access::write));
  for (std::size_t step = 0; step < ledger_week().size(); ++step) {
    const Scratch next;
    next.become(model.folder());
    require_step(next.folder() / "ledger.db", step);
    const Dump before = dump_ledger(ledger_file), after = dump_ledger(next.folder() / "ledger.db");
    REQUIRE(before != after);
    cuts += cut_step(step, model.folder(), before, after);
    model.become(next.folder());
  }
  CHECK(cuts > 500);
  std::cout << "power cuts in the ledger's week: " << cuts << "\n";
}
