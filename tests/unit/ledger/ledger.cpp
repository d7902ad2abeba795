// The ledger as a file: made, opened again, its times, and what a person sees when it cannot be opened.
#include <sys/stat.h>

#include "ledger_by_hand.h"

namespace ordinatio::ledger_test {
using Catch::Contains;
namespace fs = std::filesystem;

TEST_CASE("a ledger is made by the first command that writes, and not by one that reads") {
  LedgerByHand kept;
  const auto fault = kept.open("2026-11-25T08:00:00Z", false, Ledger::Access::read);
  REQUIRE(fault);
  CHECK(fault->what == "there is no ledger yet");
  CHECK(fs::is_empty(kept.folder()));
  REQUIRE_FALSE(kept.open());
  CHECK(fs::exists(kept.file()));
  CHECK(kept->contradictions().empty());
  CHECK_FALSE(fs::exists(kept.file().string() + ".new"));
}

TEST_CASE("what was committed is there when the ledger is opened again, and what was not is gone") {
  LedgerByHand kept;
  fill(kept);
  kept->begin(EntryKind::intake);
  kept.add_order("1044", 2);
  REQUIRE_FALSE(kept.open("2026-11-25T09:00:00Z"));
  CHECK(kept->items_in({}).size() == 5);
  CHECK_FALSE(kept->item_numbered("1044-1"));
  kept->begin(EntryKind::intake);
  kept.add_order("1044", 2);
  kept->roll_back();
  CHECK(kept->items_of_order("1044").empty());
  CHECK(kept->contradictions().empty());
  const LedgerItem item = kept.item("1042-3");
  CHECK(item.pinned == "S-3");
  CHECK(item.words == "Rose Cottage");
  CHECK(kept->sheet_named("sheet-001")->files == std::map<std::string, std::string>{{"sheet-001.svg", "sum"}});
  CHECK(kept->sheets().size() == 2);
  CHECK(kept->planned_sheets().empty());
}

TEST_CASE("a transaction that changes nothing writes no entry") {
  LedgerByHand kept;
  fill(kept);
  const auto entries = kept.ask("SELECT count(*) FROM entry");
  kept.in(EntryKind::correction, [&](Ledger& ledger) {
    ledger.set_words(kept.item("1042-3"), "Rose Cottage");
    ledger.set_first(kept.item("1042-3"), false);
  });
  CHECK(kept.ask("SELECT count(*) FROM entry") == entries);
}

TEST_CASE("a clock that is put right by a little is taken, and times do not go down") {
  struct Case {
    std::string now;
    bool is_right;
    std::string at;  // of the entry; empty: refused
  };
  const Case cases[] = {{"2026-11-25T08:00:01Z", false, "2026-11-25T08:00:01Z"},
                        {"2026-11-25T08:00:00Z", false, "2026-11-25T08:00:00Z"},
                        {"2026-11-25T07:59:59Z", false, "2026-11-25T08:00:00Z"},
                        {"2026-11-25T07:50:00Z", false, "2026-11-25T08:00:00Z"},
                        {"2026-11-25T07:49:59Z", false, ""},
                        {"2025-11-25T08:00:00Z", false, ""},
                        {"2025-11-25T08:00:00Z", true, "2025-11-25T08:00:00Z"},
                        {"2026-02-30T08:00:00Z", false, ""},
                        {"2026-11-25 08:00:00Z", false, ""},
                        {"2026-11-25T24:00:00Z", true, ""},
                        {"", false, ""}};
  for (const Case& c : cases) {
    INFO(c.now);
    LedgerByHand kept;
    fill(kept);
    const auto fault = kept.open(c.now, c.is_right);
    CHECK(fault.has_value() == c.at.empty());
    if (fault) continue;
    kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_words(kept.item("1043-1"), "Ivy Lodge"); });
    const StoryLine last = kept->story_of_item(kept.item("1043-1")).back();
    CHECK(last.at == c.at);
    CHECK(last.cause == "cause of " + c.now);
  }
}

TEST_CASE("once a wrong time was put right, the clock is held against the right one") {
  LedgerByHand kept;
  REQUIRE_FALSE(kept.open("2062-11-25T08:00:00Z"));
  kept.in(EntryKind::intake, [&](Ledger&) { kept.add_order("1042", 1); });
  CHECK(kept.open("2026-11-25T08:00:00Z")->what == "the clock has gone back");
  REQUIRE_FALSE(kept.open("2026-11-25T08:00:00Z", true));
  kept.in(EntryKind::intake, [&](Ledger&) { kept.add_order("1043", 1); });
  CHECK_FALSE(kept.open("2026-11-25T08:00:01Z"));
}

TEST_CASE("nothing can be deleted, and what happened cannot be written anew, by whatever program") {
  LedgerByHand kept;
  fill(kept);
  kept.in(EntryKind::intake, [&](Ledger& ledger) {
    ledger.note_export("checksum", "orders.csv");
    ledger.ask({0, 1, LedgerQuestion::Kind::edit, "v", "{}", "is it", LedgerQuestion::State::open});
  });
  kept.close();
  for (const char* table : {"entry", "change", "export", "line", "line_version", "item", "blank", "sheet", "sheet_file",
                            "placement", "question", "stand"}) {
    INFO(table);
    const std::string count = "SELECT count(*) FROM " + std::string(table);
    const auto before = kept.ask(count);
    REQUIRE(before != "0");
    CHECK_THROWS_WITH(kept.sql("DELETE FROM " + std::string(table)), Contains("nothing is deleted"));
    CHECK(kept.ask(count) == before);
  }
  for (const char* update :
       {"UPDATE entry SET at = ''", "UPDATE change SET after = ''", "UPDATE export SET name = ''"}) {
    CHECK_THROWS_WITH(kept.sql(update), Contains("what happened is not changed"));
  }
}

TEST_CASE("states that no item and no blank can have are refused by the file itself") {
  LedgerByHand kept;
  fill(kept);
  for (const char* update :
       {"UPDATE item SET state = 'melted'", "UPDATE item SET state = 'held'", "UPDATE item SET held_by = 'person'",
        "UPDATE item SET state = 'held', held_by = 'person', reason = ''", "UPDATE item SET state = 'approved'",
        "UPDATE blank SET state = 'reserved', item = NULL", "UPDATE blank SET state = 'free', item = 1",
        "UPDATE blank SET state = 'spoiled', reason = ''", "UPDATE placement SET state = 'spoiled', reason = ''",
        "UPDATE placement SET state = 'on sheet', item = 1", "UPDATE placement SET state = 'on sheet', blank = 'S-1'",
        "UPDATE stand SET serial = 41", "UPDATE stand SET item = 1"}) {
    INFO(update);
    CHECK_THROWS_AS(kept.sql(update), std::logic_error);
  }
  CHECK(kept->contradictions().empty());
}

TEST_CASE("one command at a time holds the ledger, and who holds it is told") {
  LedgerByHand kept;
  fill(kept);
  const auto second =
      Ledger::open({kept.file(), "2026-11-25T08:00:00Z", "a second one", 0, false, ""}, Ledger::Access::write);
  REQUIRE_FALSE(second.ok());
  CHECK(second.fault().what == "the ledger is in use");
  CHECK_THAT(second.fault().why, Contains("cause of 2026-11-25T08:00:00Z"));
  const auto reader = Ledger::open({kept.file(), "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::read);
  CHECK(reader.ok());
  kept.close();
  CHECK(Ledger::open({kept.file(), "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::write).ok());
}

TEST_CASE("a backup is complete and sound while another connection has a transaction open") {
  LedgerByHand kept;
  fill(kept);
  Database other(kept.file(), Database::Access::write, "");
  other.script("BEGIN IMMEDIATE; UPDATE item SET words = 'half done'");
  const fs::path copy = kept.folder() / "copy.ledger";
  REQUIRE_FALSE(kept->back_up(copy));
  other.script("ROLLBACK");
  CHECK_FALSE(kept->back_up(copy));  // the same ledger, copied already
  kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_words(kept.item("1042-2"), "Mill House"); });
  const MaybeFault other_ledger = kept->back_up(copy);
  REQUIRE(other_ledger);
  CHECK(other_ledger->what == "the file is there already");
  const auto opened = Ledger::open({copy, "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::write);
  REQUIRE(opened.ok());
  CHECK((*opened)->contradictions().empty());
  CHECK((*opened)->items_in({}).size() == 5);
  CHECK((*opened)->item_numbered("1042-1")->words == "Rose Cottage");
  CHECK((*opened)->story_of_item(kept.item("1042-1")).size() == kept->story_of_item(kept.item("1042-1")).size());
  CHECK_THROWS_WITH(Database(copy, Database::Access::write, "").script("DELETE FROM item"),
                    Contains("nothing is deleted"));
}

}  // namespace ordinatio::ledger_test
