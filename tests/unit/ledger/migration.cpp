// A book of an older version.
#include "book_by_hand.h"
#include "book_version_2.h"
#include "ledger/schema.h"

using namespace ordinatio;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

/// As the program made it before there were stands.
void make_version_1(const BookByHand& book) {
  Database old(book.file(), Database::Access::create, "");
  old.script("BEGIN");
  take_steps(old, 0, 1);
  old.script(R"sql(
INSERT INTO entry VALUES (1, '2026-03-01T08:00:00Z', 'intake', 'ordinatio intake spring.csv', NULL);
INSERT INTO line VALUES (1, '7', 0, 'key', 1, 'version');
INSERT INTO line_version VALUES (1, 'version', 'key', 1);
INSERT INTO item (id, number, line, order_number, ordinal, exported, words, design, wish, note, source, state)
  VALUES (1, '7-1', 1, '7', 1, 'Zoë', 'Zoë', '', '', 'a gift', 'spring.csv:2', 'engraved');
INSERT INTO change VALUES (1, 1, 'item', 1, '~new', NULL, 'spring.csv:2'), (2, 1, 'item', 1, 'state', 'received', 'engraved');
INSERT INTO blank VALUES ('S-1', 'slate', 150.25, 100, 'digest', 'used', '', 1);
INSERT INTO sheet VALUES (1, 'sheet-001', 'day', NULL, '2026-03-01', 'out', 'written');
INSERT INTO sheet_file VALUES (1, 'sheet-001.svg', 'sum');
INSERT INTO placement VALUES (1, 1, 4, 1, 'S-1', 'hash', 'engraved', '');
COMMIT)sql");
}

}  // namespace

TEST_CASE("a book of version 1 is brought up to date with its rows, and stays as it was in a backup beside it") {
  BookByHand book;
  make_version_1(book);
  REQUIRE(book.ask("PRAGMA user_version") == "1");
  REQUIRE_FALSE(book.open("2026-11-25T08:00:00Z", false, GENERATE(Ledger::Access::write, Ledger::Access::read)));
  CHECK(book.ask("PRAGMA user_version") == std::to_string(ledger_steps().size()));
  CHECK(book->contradictions().empty());
  const LedgerItem item = book.item("7-1");
  CHECK(item.words == "Zoë");
  CHECK(item.note == "a gift");
  CHECK(item.state == ItemState::engraved);
  CHECK(book.placement("7-1").pocket == 4);
  CHECK(book->blank("S-1")->width == 150.25);
  CHECK(book->story_of_item(item).at(0).cause == "ordinatio intake spring.csv");
  CHECK(book->engraved_without_stand().size() == 1);
  CHECK_THROWS_WITH(book.sql("DELETE FROM item"), Contains("nothing is deleted"));

  Database backup(book.folder() / "workshop-version-1.ledger", Database::Access::write, "");
  CHECK(backup.number("PRAGMA user_version") == 1);
  CHECK(backup.number("PRAGMA application_id") == ledger_application);
  CHECK(backup.text("SELECT words FROM item") == "Zoë");
  CHECK_FALSE(backup.number("SELECT 1 FROM sqlite_master WHERE name = 'stand'"));
}

TEST_CASE("a book of version 2 keeps its items, its question and its story, and takes rows that are held") {
  BookByHand book;
  {
    Database old(book.file(), Database::Access::create, "");
    take_steps(old, 0, 2);
    old.script(rows_of_version_2);
  }
  REQUIRE_FALSE(book.open("2026-11-25T08:00:00Z", false, GENERATE(Ledger::Access::write, Ledger::Access::read)));
  CHECK(book.ask("PRAGMA user_version") == std::to_string(ledger_steps().size()));
  CHECK(book->contradictions().empty());
  CHECK(book.item("2101-1").state == ItemState::engraved);
  CHECK(book.item("2101-1").note == "for the shed");
  CHECK(book.item("2101-1").customer.empty());
  CHECK(book->lines_of("2102").size() == 1);
  CHECK(book->open_questions().size() == 1);
  CHECK(book->open_rows().empty());
  CHECK(book.ask("SELECT count(*) FROM change") == "18");
  CHECK(book->story_of_item(book.item("2101-1")).size() == 3);
  CHECK_THROWS_WITH(book.sql("DELETE FROM change"), Contains("nothing is deleted"));
  CHECK_THROWS_WITH(book.sql("UPDATE change SET after = ''"), Contains("what happened is not changed"));
  book.sql(
      "INSERT INTO held_row (row, occurrence, file, place, reason) VALUES ('7,,1', 1, 'orders.csv', 2, 'no text')");
  CHECK_THROWS_WITH(book.sql("DELETE FROM held_row"), Contains("nothing is deleted"));
  CHECK(fs::exists(book.folder() / "workshop-version-2.ledger"));
}

TEST_CASE("a change of version that fails changes nothing, and succeeds when its cause is gone") {
  BookByHand book;
  make_version_1(book);
  book.sql("CREATE TABLE stand_serial (x)");  // in the way of an index: the step fails half way
  const auto before = read_file(book.file());
  REQUIRE(before.ok());
  CHECK_THROWS_WITH((void)book.open(), Contains("stand_serial"));
  CHECK(*read_file(book.file()) == *before);
  CHECK(book.ask("PRAGMA user_version") == "1");
  CHECK_FALSE(book.ask("SELECT name FROM sqlite_master WHERE name = 'stand'"));
  book.sql("DROP TABLE stand_serial");
  REQUIRE_FALSE(book.open());
  CHECK(book.item("7-1").words == "Zoë");
  CHECK(book->contradictions().empty());
}
