// What a command had to say, kept in the book until the person has heard it; and what a sheet's files show.
#include "book_by_hand.h"
#include "ledger/schema.h"

using namespace ordinatio;
using Catch::Contains;

TEST_CASE("an account is kept with its entry until it is heard, and never deleted") {
  BookByHand book;
  REQUIRE_FALSE(book.open());
  book->begin(EntryKind::intake, "intake monday.csv");
  CHECK_FALSE(book->keep_account("nothing has changed, so there is nothing to keep"));
  book.add_order("1042", 1);
  const auto entry = book->keep_account("{\"told\": []}");
  REQUIRE(entry);
  book->commit();
  REQUIRE(book->unheard().size() == 1);
  CHECK(book->unheard()[0].asked == "intake monday.csv");
  book->change_account(*entry, "{\"told\": [\"more\"]}");
  CHECK_THAT(book->unheard()[0].account, Contains("more"));
  book->mark_heard({*entry});
  CHECK(book->unheard().empty());
  CHECK_THROWS_WITH(book.sql("DELETE FROM account"), Contains("nothing is deleted"));
}

TEST_CASE("an account that nobody is to hear is not kept") {
  BookByHand book;
  REQUIRE_FALSE(book.open());
  book->begin(EntryKind::intake);
  book.add_order("1042", 1);
  CHECK_FALSE(book->keep_account("{}"));
  book->commit();
  CHECK(book->unheard().empty());
}

TEST_CASE("what nobody had heard of stays so when an older book is brought up to date") {
  BookByHand book;
  {
    Database old(book.file(), Database::Access::create, "");
    old.script("BEGIN");
    take_steps(old, 0, 2);
    old.script(
        "INSERT INTO entry VALUES (1, '2026-03-01T08:00:00Z', 'remake', 'remake 7-1', NULL);"
        "INSERT INTO unacknowledged VALUES (1); COMMIT");
  }
  REQUIRE_FALSE(book.open());
  REQUIRE(book->unheard().size() == 1);
  CHECK(book->unheard()[0].asked == "remake 7-1");
}

TEST_CASE(
    "a sheet's files are outdated when something comes off it, until they are drawn anew, and when it comes back") {
  BookByHand book;
  REQUIRE_FALSE(book.open());
  book.in(EntryKind::day, [&](Ledger&) {
    book.add_order("1042", 3);
    REQUIRE_FALSE(book.lay({"1042-1", "1042-2", "1042-3"}));
  });
  CHECK(book->outdated_sheets().empty());
  book.in(EntryKind::engraving, [&](Ledger& ledger) { ledger.mark_engraved(book.placement("1042-1")); });
  CHECK(book->outdated_sheets().empty());
  book.in(EntryKind::correction, [&](Ledger& ledger) {
    ledger.withdraw(book.placement("1042-2"), "it is held", BlankFate::free);
    ledger.set_state(book.item("1042-2"), ItemState::held, "it is held", HeldBy::person);
  });
  REQUIRE(book->outdated_sheets().size() == 1);
  const LedgerSheet sheet = book->outdated_sheets()[0];
  book.in(EntryKind::renewal, [&](Ledger& ledger) {
    ledger.plan_files(sheet, {{{"sheet-001.svg", "other"}}, {"sheet-001.svg"}, "earlier-001", "written anew"});
    ledger.mark_drawn(sheet);
  });
  CHECK(book->outdated_sheets().empty());
  CHECK(book->sheet(1)->files ==
        std::map<std::string, std::string>{{"earlier-001/sheet-001.svg", "sum"}, {"sheet-001.svg", "other"}});
  CHECK(book->sheet_with_file("sum")->number == 1);
  book.in(EntryKind::undo, [&](Ledger& ledger) { REQUIRE(ledger.undo(book.item("1042-2"))); });
  CHECK(book->outdated_sheets().size() == 1);
  book.in(EntryKind::renewal, [&](Ledger& ledger) { ledger.mark_stale(sheet, "the font has changed"); });
  CHECK(book->outdated_sheets()[0].stale == "the font has changed");
  // What could not be written anew is tried again when the sheet changes.
  book.in(EntryKind::correction, [&](Ledger& ledger) {
    ledger.withdraw(book.placement("1042-3"), "it is held", BlankFate::free);
    ledger.set_state(book.item("1042-3"), ItemState::held, "it is held", HeldBy::person);
  });
  CHECK(book->outdated_sheets()[0].stale.empty());
  CHECK(book->contradictions().empty());
}
