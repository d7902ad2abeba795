// A ledger of an older version.
#include "ledger/schema.h"
#include "ledger_by_hand.h"
#include "ledger_version_2.h"
#include "ledger_version_4.h"

namespace ordinatio::migration_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

/// As the program made it before there were stands.
void make_version_1(const LedgerByHand& kept) {
  Database old(kept.file(), Database::Access::create, "");
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

TEST_CASE("a ledger of version 1 is brought up to date with its rows, and stays as it was in a backup beside it") {
  LedgerByHand kept;
  make_version_1(kept);
  REQUIRE(kept.ask("PRAGMA user_version") == "1");
  REQUIRE_FALSE(kept.open("2026-11-25T08:00:00Z", false, GENERATE(Ledger::Access::write, Ledger::Access::read)));
  CHECK(kept.ask("PRAGMA user_version") == std::to_string(ledger_steps().size()));
  CHECK(kept->contradictions().empty());
  const LedgerItem item = kept.item("7-1");
  CHECK(item.words == "Zoë");
  CHECK(item.note == "a gift");
  CHECK(item.state == ItemState::engraved);
  CHECK(kept.placement("7-1").pocket == 4);
  CHECK(kept->blank("S-1")->width == 150.25);
  CHECK(kept->story_of_item(item).at(0).cause == "ordinatio intake spring.csv");
  CHECK(kept->engraved_without_stand().size() == 1);
  CHECK_THROWS_WITH(kept.sql("DELETE FROM item"), Contains("nothing is deleted"));

  Database backup(kept.folder() / "workshop-version-1.ledger", Database::Access::write, "");
  CHECK(backup.number("PRAGMA user_version") == 1);
  CHECK(backup.number("PRAGMA application_id") == ledger_application);
  CHECK(backup.text("SELECT words FROM item") == "Zoë");
  CHECK_FALSE(backup.number("SELECT 1 FROM sqlite_master WHERE name = 'stand'"));
}

TEST_CASE("a ledger of version 2 keeps its items, its question and its story, and takes rows that are held") {
  LedgerByHand kept;
  {
    Database old(kept.file(), Database::Access::create, "");
    take_steps(old, 0, 2);
    old.script(rows_of_version_2);
  }
  REQUIRE_FALSE(kept.open("2026-11-25T08:00:00Z", false, GENERATE(Ledger::Access::write, Ledger::Access::read)));
  CHECK(kept.ask("PRAGMA user_version") == std::to_string(ledger_steps().size()));
  CHECK(kept->contradictions().empty());
  CHECK(kept.item("2101-1").state == ItemState::engraved);
  CHECK(kept.item("2101-1").note == "for the shed");
  CHECK(kept.item("2101-1").customer.empty());
  CHECK(kept->lines_of("2102").size() == 1);
  CHECK(kept->open_questions().size() == 1);
  CHECK(kept->open_rows().empty());
  CHECK(kept.ask("SELECT count(*) FROM change") == "18");
  CHECK(kept->story_of_item(kept.item("2101-1")).size() == 3);
  CHECK_THROWS_WITH(kept.sql("DELETE FROM change"), Contains("nothing is deleted"));
  CHECK_THROWS_WITH(kept.sql("UPDATE change SET after = ''"), Contains("what happened is not changed"));
  kept.sql(
      "INSERT INTO held_row (row, occurrence, file, place, reason) VALUES ('7,,1', 1, 'orders.csv', 2, 'no text')");
  CHECK_THROWS_WITH(kept.sql("DELETE FROM held_row"), Contains("nothing is deleted"));
  CHECK(fs::exists(kept.folder() / "workshop-version-2.ledger"));
}

TEST_CASE("a ledger of version 4 keeps its items and corrections, and no item of it has a setting of its own") {
  LedgerByHand kept;
  {
    Database old(kept.file(), Database::Access::create, "");
    take_steps(old, 0, 4);
    old.script(rows_of_version_4);
  }
  REQUIRE_FALSE(kept.open("2026-11-25T08:00:00Z", false, GENERATE(Ledger::Access::write, Ledger::Access::read)));
  CHECK(kept.ask("PRAGMA user_version") == std::to_string(ledger_steps().size()));
  CHECK(kept->contradictions().empty());
  for (const LedgerItem& item : kept->items_in(std::nullopt)) CHECK(item.setting.empty());
  CHECK(kept.item("2202-2").words == "Ada Wren / 1931");
  CHECK(kept.item("2202-2").state == ItemState::on_sheet);
  CHECK(kept.ask("SELECT count(*) FROM change") == "17");
  CHECK(kept->story_of_item(kept.item("2202-2")).size() == 3);
  CHECK(fs::exists(kept.folder() / "workshop-version-4.ledger"));
  CHECK_THROWS_WITH(kept.sql("DELETE FROM item"), Contains("nothing is deleted"));
  REQUIRE_FALSE(kept.open());
  kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_setting(kept.item("2202-1"), "size 5"); });
  CHECK(kept.item("2202-1").setting == "size 5");
  CHECK(kept->contradictions().empty());
  const std::string long_setting = "UPDATE item SET setting = '" + std::string(1001, 'x') + "'";
  CHECK_THROWS_WITH(kept.sql(long_setting), Contains("CHECK constraint failed"));
}

TEST_CASE("a change of version that fails changes nothing, and succeeds when its cause is gone") {
  LedgerByHand kept;
  make_version_1(kept);
  kept.sql("CREATE TABLE stand_serial (x)");  // in the way of an index: the step fails half way
  const auto before = read_file(kept.file());
  REQUIRE(before.ok());
  CHECK_THROWS_WITH((void)kept.open(), Contains("stand_serial"));
  CHECK(*read_file(kept.file()) == *before);
  CHECK(kept.ask("PRAGMA user_version") == "1");
  CHECK_FALSE(kept.ask("SELECT name FROM sqlite_master WHERE name = 'stand'"));
  kept.sql("DROP TABLE stand_serial");
  REQUIRE_FALSE(kept.open());
  CHECK(kept.item("7-1").words == "Zoë");
  CHECK(kept->contradictions().empty());
}

}  // namespace ordinatio::migration_test
