// What a command had to say, kept in the ledger until the person has heard it; and what a sheet's files show.
#include "ledger/schema.h"
#include "ledger_by_hand.h"

namespace ordinatio::accounts_test {
using Catch::Contains;

TEST_CASE("an account is kept with its entry until it is heard, and never deleted") {
  LedgerByHand kept;
  REQUIRE_FALSE(kept.open());
  kept->begin(EntryKind::intake, "intake monday.csv");
  CHECK_FALSE(kept->keep_account("nothing has changed, so there is nothing to keep"));
  kept.add_order("1042", 1);
  const auto entry = kept->keep_account("{\"told\": []}");
  REQUIRE(entry);
  kept->commit();
  REQUIRE(kept->unheard().size() == 1);
  CHECK(kept->unheard()[0].asked == "intake monday.csv");
  kept->change_account(*entry, "{\"told\": [\"more\"]}");
  CHECK_THAT(kept->unheard()[0].account, Contains("more"));
  kept->mark_heard({*entry});
  CHECK(kept->unheard().empty());
  CHECK_THROWS_WITH(kept.sql("DELETE FROM account"), Contains("nothing is deleted"));
}

TEST_CASE("an account that nobody is to hear is not kept") {
  LedgerByHand kept;
  REQUIRE_FALSE(kept.open());
  kept->begin(EntryKind::intake);
  kept.add_order("1042", 1);
  CHECK_FALSE(kept->keep_account("{}"));
  kept->commit();
  CHECK(kept->unheard().empty());
}

TEST_CASE("what nobody had heard of stays so when an older ledger is brought up to date") {
  LedgerByHand kept;
  {
    Database old(kept.file(), Database::Access::create, "");
    old.script("BEGIN");
    take_steps(old, 0, 2);
    old.script(
        "INSERT INTO entry VALUES (1, '2026-03-01T08:00:00Z', 'remake', 'remake 7-1', NULL);"
        "INSERT INTO unacknowledged VALUES (1); COMMIT");
  }
  REQUIRE_FALSE(kept.open());
  REQUIRE(kept->unheard().size() == 1);
  CHECK(kept->unheard()[0].asked == "remake 7-1");
}

TEST_CASE(
    "a sheet's files are outdated when something comes off it, until they are drawn anew, and when it comes back") {
  LedgerByHand kept;
  REQUIRE_FALSE(kept.open());
  kept.in(EntryKind::day, [&](Ledger&) {
    kept.add_order("1042", 3);
    REQUIRE_FALSE(kept.lay({"1042-1", "1042-2", "1042-3"}));
  });
  CHECK(kept->outdated_sheets().empty());
  kept.in(EntryKind::engraving, [&](Ledger& ledger) { ledger.mark_engraved(kept.placement("1042-1")); });
  CHECK(kept->outdated_sheets().empty());
  kept.in(EntryKind::correction, [&](Ledger& ledger) {
    ledger.withdraw(kept.placement("1042-2"), "it is held", BlankFate::free);
    ledger.set_state(kept.item("1042-2"), ItemState::held, "it is held", HeldBy::person);
  });
  REQUIRE(kept->outdated_sheets().size() == 1);
  const LedgerSheet sheet = kept->outdated_sheets()[0];
  kept.in(EntryKind::renewal, [&](Ledger& ledger) {
    ledger.plan_files(sheet, {{{"sheet-001.svg", "other"}}, {"sheet-001.svg"}, "earlier-001", "written anew"});
    ledger.mark_drawn(sheet);
  });
  CHECK(kept->outdated_sheets().empty());
  CHECK(kept->sheet(1)->files ==
        std::map<std::string, std::string>{{"earlier-001/sheet-001.svg", "sum"}, {"sheet-001.svg", "other"}});
  CHECK(kept->sheet_with_file("sum")->number == 1);
  kept.in(EntryKind::undo, [&](Ledger& ledger) { REQUIRE(ledger.undo(kept.item("1042-2")).ok()); });
  CHECK(kept->outdated_sheets().size() == 1);
  kept.in(EntryKind::renewal, [&](Ledger& ledger) { ledger.mark_stale(sheet, "the font has changed"); });
  CHECK(kept->outdated_sheets()[0].stale == "the font has changed");
  // What could not be written anew is tried again when the sheet changes.
  kept.in(EntryKind::correction, [&](Ledger& ledger) {
    ledger.withdraw(kept.placement("1042-3"), "it is held", BlankFate::free);
    ledger.set_state(kept.item("1042-3"), ItemState::held, "it is held", HeldBy::person);
  });
  CHECK(kept->outdated_sheets()[0].stale.empty());
  CHECK(kept->contradictions().empty());
}

}  // namespace ordinatio::accounts_test
