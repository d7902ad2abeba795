// The book as a file: made, opened again, its times, and what a person sees when it cannot be opened.
#include <sys/stat.h>

#include "book_by_hand.h"

using namespace ordinatio;
using Catch::Contains;
namespace fs = std::filesystem;

TEST_CASE("a book is made by the first command that writes, and not by one that reads") {
  BookByHand book;
  const auto fault = book.open("2026-11-25T08:00:00Z", false, Ledger::Access::read);
  REQUIRE(fault);
  CHECK(fault->what == "there is no ledger yet");
  CHECK(fs::is_empty(book.folder()));
  REQUIRE_FALSE(book.open());
  CHECK(fs::exists(book.file()));
  CHECK(book->contradictions().empty());
  CHECK_FALSE(fs::exists(book.file().string() + ".new"));
}

TEST_CASE("what was committed is there when the book is opened again, and what was not is gone") {
  BookByHand book;
  fill(book);
  book->begin("intake");
  book.add_order("1044", 2);
  REQUIRE_FALSE(book.open("2026-11-25T09:00:00Z"));
  CHECK(book->items_in({}).size() == 5);
  CHECK_FALSE(book->item_numbered("1044-1"));
  book->begin("intake");
  book.add_order("1044", 2);
  book->roll_back();
  CHECK(book->items_of_order("1044").empty());
  CHECK(book->contradictions().empty());
  const LedgerItem item = book.item("1042-3");
  CHECK(item.pinned == "S-3");
  CHECK(item.words == "Rose Cottage");
  CHECK(book->sheet_named("sheet-001")->files == std::map<std::string, std::string>{{"sheet-001.svg", "sum"}});
  CHECK(book->sheets().size() == 2);
  CHECK(book->planned_sheets().empty());
}

TEST_CASE("a transaction that changes nothing writes no entry") {
  BookByHand book;
  fill(book);
  const auto entries = book.ask("SELECT count(*) FROM entry");
  book.in("correction", [&](Ledger& ledger) {
    ledger.set_words(book.item("1042-3"), "Rose Cottage");
    ledger.set_first(book.item("1042-3"), false);
  });
  CHECK(book.ask("SELECT count(*) FROM entry") == entries);
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
    BookByHand book;
    fill(book);
    const auto fault = book.open(c.now, c.is_right);
    CHECK(fault.has_value() == c.at.empty());
    if (fault) continue;
    book.in("correction", [&](Ledger& ledger) { ledger.set_words(book.item("1043-1"), "Ivy Lodge"); });
    const StoryLine last = book->story_of_item(book.item("1043-1")).back();
    CHECK(last.at == c.at);
    CHECK(last.cause == "cause of " + c.now);
  }
}

TEST_CASE("once a wrong time was put right, the clock is held against the right one") {
  BookByHand book;
  REQUIRE_FALSE(book.open("2062-11-25T08:00:00Z"));
  book.in("intake", [&](Ledger&) { book.add_order("1042", 1); });
  CHECK(book.open("2026-11-25T08:00:00Z")->what == "the clock has gone back");
  REQUIRE_FALSE(book.open("2026-11-25T08:00:00Z", true));
  book.in("intake", [&](Ledger&) { book.add_order("1043", 1); });
  CHECK_FALSE(book.open("2026-11-25T08:00:01Z"));
}

TEST_CASE("nothing can be deleted, and what happened cannot be written anew, by whatever program") {
  BookByHand book;
  fill(book);
  book.in("intake", [&](Ledger& ledger) {
    ledger.note_export("checksum", "orders.csv");
    ledger.ask({0, 1, LedgerQuestion::Kind::edit, "v", "{}", "is it", LedgerQuestion::State::open});
  });
  book.close();
  for (const char* table : {"entry", "change", "export", "line", "line_version", "item", "blank", "sheet", "sheet_file",
                            "placement", "question", "stand"}) {
    INFO(table);
    const std::string count = "SELECT count(*) FROM " + std::string(table);
    const auto before = book.ask(count);
    REQUIRE(before != "0");
    CHECK_THROWS_WITH(book.sql("DELETE FROM " + std::string(table)), Contains("nothing is deleted"));
    CHECK(book.ask(count) == before);
  }
  for (const char* update :
       {"UPDATE entry SET at = ''", "UPDATE change SET after = ''", "UPDATE export SET name = ''"}) {
    CHECK_THROWS_WITH(book.sql(update), Contains("what happened is not changed"));
  }
}

TEST_CASE("states that no item and no blank can have are refused by the file itself") {
  BookByHand book;
  fill(book);
  for (const char* update :
       {"UPDATE item SET state = 'melted'", "UPDATE item SET state = 'held'", "UPDATE item SET held_by = 'person'",
        "UPDATE item SET state = 'held', held_by = 'person', reason = ''", "UPDATE item SET state = 'approved'",
        "UPDATE blank SET state = 'reserved', item = NULL", "UPDATE blank SET state = 'free', item = 1",
        "UPDATE blank SET state = 'spoiled', reason = ''", "UPDATE placement SET state = 'spoiled', reason = ''",
        "UPDATE placement SET state = 'on sheet', item = 1", "UPDATE placement SET state = 'on sheet', blank = 'S-1'",
        "UPDATE stand SET serial = 41", "UPDATE stand SET item = 1"}) {
    INFO(update);
    CHECK_THROWS_AS(book.sql(update), std::logic_error);
  }
  CHECK(book->contradictions().empty());
}

TEST_CASE("one command at a time holds the book, and who holds it is told") {
  BookByHand book;
  fill(book);
  const auto second =
      Ledger::open({book.file(), "2026-11-25T08:00:00Z", "a second one", 0, false, ""}, Ledger::Access::write);
  REQUIRE_FALSE(second.ok());
  CHECK(second.fault().what == "the ledger is in use");
  CHECK_THAT(second.fault().why, Contains("cause of 2026-11-25T08:00:00Z"));
  const auto reader = Ledger::open({book.file(), "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::read);
  CHECK(reader);
  book.close();
  CHECK(Ledger::open({book.file(), "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::write));
}

TEST_CASE("a backup is complete and sound while another connection has a transaction open") {
  BookByHand book;
  fill(book);
  Database other(book.file(), Database::Access::write, "");
  other.script("BEGIN IMMEDIATE; UPDATE item SET words = 'half done'");
  const fs::path copy = book.folder() / "copy.ledger";
  REQUIRE_FALSE(book->back_up(copy));
  other.script("ROLLBACK");
  CHECK_FALSE(book->back_up(copy));  // the same book, copied already
  book.in("correction", [&](Ledger& ledger) { ledger.set_words(book.item("1042-2"), "Mill House"); });
  const MaybeFault other_book = book->back_up(copy);
  REQUIRE(other_book);
  CHECK(other_book->what == "the file is there already");
  const auto opened = Ledger::open({copy, "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::write);
  REQUIRE(opened);
  CHECK((*opened)->contradictions().empty());
  CHECK((*opened)->items_in({}).size() == 5);
  CHECK((*opened)->item_numbered("1042-1")->words == "Rose Cottage");
  CHECK((*opened)->story_of_item(book.item("1042-1")).size() == book->story_of_item(book.item("1042-1")).size());
  CHECK_THROWS_WITH(Database(copy, Database::Access::write, "").script("DELETE FROM item"),
                    Contains("nothing is deleted"));
}
