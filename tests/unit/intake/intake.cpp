// What exports that overlap, change and repeat themselves make of the ledger.
#include "base/account.h"
#include "intake_ledger.h"
#include "orders/orders.h"

namespace ordinatio::intake_test {
using Catch::Contains;

namespace {

using Rows = std::vector<Row>;
struct Case {
  const char* what;
  Rows first, then;
  std::string items;  // of order 1042 after the second export
  std::size_t questions;
};

const Case cases[] = {
    // ---- overlapping exports ----
    {"the same rows", {{"1042", "Ada"}}, {{"1042", "Ada"}}, "1 Ada received", 0},
    {"a longer export", {{"1041", "Eva"}}, {{"1041", "Eva"}, {"1042", "Ada", 2}}, "1 Ada received; 2 Ada received", 0},
    {"an export that lacks the order", {{"1042", "Ada"}}, {{"1043", "Eva"}}, "1 Ada received", 0},
    {"an export that lacks a line",
     {{"1042", "Ada"}, {"1042", "Ida"}},
     {{"1042", "Ida"}},
     "1 Ada received; 2 Ida received",
     0},
    {"rows in another order",
     {{"1042", "Ada"}, {"1042", "Ida"}},
     {{"1042", "Ida"}, {"1042", "Ada"}},
     "1 Ada received; 2 Ida received",
     0},
    {"two lines alike, once more",
     {{"1042", "Ada"}, {"1042", "Ada"}},
     {{"1042", "Ada"}, {"1042", "Ada"}},
     "1 Ada received; 2 Ada received",
     0},
    {"a third line alike",
     {{"1042", "Ada"}, {"1042", "Ada"}},
     {{"1042", "Ada"}, {"1042", "Ada"}, {"1042", "Ada"}},
     "1 Ada received; 2 Ada received; 3 Ada received",
     0},
    {"a new line beside the old one",
     {{"1042", "Ada"}},
     {{"1042", "Ada"}, {"1042", "Ida"}},
     "1 Ada received; 2 Ida received",
     0},
    {"the same words on another product",
     {{"1042", "Ada"}},
     {{"1042", "Ada"}, {"1042", "Ada", 1, "", "", "oval"}},
     "1 Ada received; 2 Ada received",
     0},
    // ---- edits with line ids ----
    {"another text of the line", {{"1042", "Ada", 1, "L1"}}, {{"1042", "Ida", 1, "L1"}}, "1 Ida received", 0},
    {"a new line with an id of its own",
     {{"1042", "Ada", 1, "L1"}},
     {{"1042", "Ida", 1, "L2"}},
     "1 Ada received; 2 Ida received",
     0},
    {"lines with ids, rows in another order",
     {{"1042", "Ada", 1, "L1"}, {"1042", "Ada", 1, "L2"}},
     {{"1042", "Ida", 1, "L2"}, {"1042", "Ada", 1, "L1"}},
     "1 Ada received; 2 Ida received",
     0},
    {"a row twice in one file",
     {{"1042", "Ada", 1, "L1"}, {"1042", "Ada", 1, "L1"}},
     {{"1042", "Ada", 1, "L1"}},
     "1 Ada received",
     0},
    {"the same id in another order", {{"1041", "Eva", 1, "L1"}}, {{"1042", "Ada", 1, "L1"}}, "1 Ada received", 0},
    {"ids that come later",
     {{"1042", "Ada"}, {"1042", "Ida"}},
     {{"1042", "Ada", 1, "L1"}, {"1042", "Ida", 1, "L2"}},
     "1 Ada received; 2 Ida received",
     0},
    {"ids that are gone",
     {{"1042", "Ada", 1, "L1"}, {"1042", "Ida", 1, "L2"}},
     {{"1042", "Ada"}, {"1042", "Ida"}},
     "1 Ada received; 2 Ida received",
     0},
    {"ids that come with another text", {{"1042", "Ada"}}, {{"1042", "Ida", 1, "L1"}}, "1 Ada held by question", 1},
    {"ids that are gone, with another text",
     {{"1042", "Ada", 1, "L1"}},
     {{"1042", "Ida"}},
     "1 Ada held by question",
     1},
    // ---- edits without line ids ----
    {"another text without an id", {{"1042", "Ada"}}, {{"1042", "Ida"}}, "1 Ada held by question", 1},
    {"two texts without ids",
     {{"1042", "Ada"}, {"1042", "Ida"}},
     {{"1042", "Adam"}, {"1042", "Idas"}},
     "1 Ada held by question; 2 Ida held by question",
     2},
    {"one text of two without ids",
     {{"1042", "Ada"}, {"1042", "Ida"}},
     {{"1042", "Ada"}, {"1042", "Idas"}},
     "1 Ada received; 2 Ida held by question",
     1},
    {"a line gone and two come",
     {{"1042", "Ada"}},
     {{"1042", "Adam"}, {"1042", "Zeno"}},
     "1 Ada held by question; 2 Zeno received",
     1},
    // ---- quantities ----
    {"more alike", {{"1042", "Ada"}}, {{"1042", "Ada", 3}}, "1 Ada received; 2 Ada received; 3 Ada received", 0},
    {"fewer alike", {{"1042", "Ada", 3}}, {{"1042", "Ada"}}, "1 Ada received; 2 cancelled; 3 cancelled", 0},
    {"more of different texts",
     {{"1042", "Ada|Ida", 2, "L1"}},
     {{"1042", "Ada|Ida|Eva", 3, "L1"}},
     "1 Ada received; 2 Ida received; 3 Eva received",
     0},
    {"fewer of different texts",
     {{"1042", "Ada|Ida|Eva", 3, "L1"}},
     {{"1042", "Ada|Ida", 2, "L1"}},
     "1 Ada received; 2 Ida received; 3 cancelled",
     0},
    {"one of different texts changed",
     {{"1042", "Ada|Ida", 2, "L1"}},
     {{"1042", "Ada|Eva", 2, "L1"}},
     "1 Ada received; 2 Eva received",
     0},
    {"different texts become alike",
     {{"1042", "Ada|Ida", 2, "L1"}},
     {{"1042", "Ada", 2, "L1"}},
     "1 Ada received; 2 Ada received",
     0},
    // ---- cancellations ----
    {"a cancelled order", {{"1042", "Ada", 2}}, {{"1042", "Ada", 2, "", "", "", true}}, "1 cancelled; 2 cancelled", 0},
    {"a cancelled line of two",
     {{"1042", "Ada", 1, "L1"}, {"1042", "Ida", 1, "L2"}},
     {{"1042", "", 0, "L1", "", "", true}, {"1042", "Ida", 1, "L2"}},
     "1 cancelled; 2 Ida received",
     0},
    {"an order that comes cancelled",
     {{"1042", "Ada", 2, "", "", "", true}},
     {{"1042", "Ada", 2, "", "", "", true}},
     "",
     0},
    {"an order that came cancelled, wanted now",
     {{"1042", "Ada", 2, "", "", "", true}},
     {{"1042", "Ada"}},
     "1 Ada received",
     0},
    // ---- what is not engraved ----
    {"another note", {{"1042", "Ada"}}, {{"1042", "Ada", 1, "", "in blue paper"}}, "1 Ada received", 0},
};

}  // namespace

TEST_CASE("an export after another makes of the order what it should") {
  for (const Case& c : cases) {
    INFO(c.what);
    IntakeLedger kept;
    kept.read(c.first);
    const Account account = kept.read(c.then);
    CHECK(kept.items() == c.items);
    CHECK(kept.questions() == c.questions);
    // Whatever it was: once more, as the same file or as another with the same rows, it is nothing new.
    for (const char* checksum : {"export 2", ""}) {
      kept.read(c.then, checksum);
      CHECK(kept.items() == c.items);
      CHECK(kept.questions() == c.questions);
      CHECK(kept.counts().new_items + kept.counts().changed + kept.counts().asked == 0);
    }
  }
}

TEST_CASE("what comes of a change is told") {
  IntakeLedger kept;
  kept.read({{"1042", "Ada", 2, "L1"}});
  CHECK(kept.read({{"1042", "Ida", 1, "L1", "by Friday"}}).told ==
        std::vector<std::string>{"1042-1 says \"Ida\", before \"Ada\"", "1042-1 has the note \"by Friday\"",
                                 "1042-2 is cancelled"});
  CHECK(kept.read({{"1042", "Ida", 3, "L1", "by Friday"}}).told == std::vector<std::string>{});  // it is asked
  CHECK_THAT(kept->open_questions().at(0).asks, Contains("1042-2 was cancelled"));
}

TEST_CASE("an id that comes twice with different rows holds the second, and the first goes on") {
  IntakeLedger kept;
  const Account account = kept.read({{"1042", "Ada", 1, "L1"}, {"1042", "Ida", 1, "L1"}});
  CHECK(kept.items() == "1 Ada received");
  REQUIRE(account.held.size() == 1);
  CHECK_THAT(account.held[0].fault.what, Contains("line id L1 is there again"));
}

TEST_CASE("what is on a sheet, engraved or corrected by hand is asked about, and stays as it is") {
  struct Settled {
    const char* what;
    std::function<void(IntakeLedger&)> work;
    std::string asks;
  };
  const Settled settled[] = {{"on a sheet", [](IntakeLedger& kept) { kept.lay("1042-1"); }, "1042-1 is on sheet-1"},
                             {"engraved", [](IntakeLedger& kept) { kept.lay("1042-1", true); }, "1042-1 is engraved"},
                             {"packed",
                              [](IntakeLedger& kept) {
                                kept.lay("1042-1", true);
                                kept.set_state("1042-1", ItemState::packed, "", HeldBy::nobody);
                              },
                              "1042-1 is packed"},
                             {"corrected", [](IntakeLedger& kept) { kept.correct("1042-1", "Ada!"); },
                              "the words of 1042-1 were corrected by hand"}};
  const Row changes[] = {{"1042", "Ida", 1, "L1"},
                         {"1042", "Ada", 1, "L1", "", "", true},
                         {"1042", "Ida", 3, "L1"},
                         {"1042", "Ida", 1, "L1", "with a note"}};
  for (const Settled& s : settled) {
    for (const Row& row : changes) {
      INFO(s.what << ", then " << row.text << " × " << row.quantity);
      IntakeLedger kept;
      kept.read({{"1042", "Ada", 1, "L1"}});
      s.work(kept);
      const LedgerItem before = *kept->item_numbered("1042-1");
      const Account account = kept.read({row});
      CHECK(account.told.empty());
      REQUIRE(kept.questions() == 1);
      CHECK_THAT(kept->open_questions()[0].asks, Contains(s.asks));
      const LedgerItem now = *kept->item_numbered("1042-1");
      CHECK(now.words == before.words);
      CHECK(now.note == before.note);
      CHECK((now.state == before.state || now.held_by == HeldBy::question));
      CHECK(kept->items_of_order("1042").size() == 1);
      kept.read({row});
      CHECK(kept.questions() == 1);
    }
  }
}

TEST_CASE("a line is left alone as a whole while a question about it is open, and what waits is held") {
  IntakeLedger kept;
  kept.read({{"1042", "Ada", 2, "L1"}});
  kept.lay("1042-1");
  kept.read({{"1042", "Ida", 2, "L1"}});
  CHECK(kept.items() == "1 Ada on sheet; 2 Ada held by question");
  // Changed back: the ledger has it so, and the question is still to be answered.
  kept.read({{"1042", "Ada", 2, "L1"}});
  CHECK(kept.items() == "1 Ada on sheet; 2 Ada held by question");
}

TEST_CASE("a correction by hand outlives a change of something else") {
  IntakeLedger kept;
  kept.read({{"1042", "Ada", 1, "L1"}});
  kept.correct("1042-1", "Adah");
  kept.read({{"1042", "Ada", 1, "L1", "by Friday"}});
  CHECK(kept.items() == "1 Adah received");
  CHECK(kept->item_numbered("1042-1")->note == "by Friday");
  kept.read({{"1042", "Ada", 2, "L1", "by Friday"}});
  CHECK(kept.items() == "1 Adah received; 2 Ada received");
  kept.lay("1042-1");
  kept.read({{"1042", "Ada", 2, "L1", "by Monday"}});
  CHECK(kept.items() == "1 Adah on sheet; 2 Ada received");
  CHECK(kept.questions() == 0);
}

TEST_CASE("an export that says what was corrected by hand asks nothing") {
  IntakeLedger kept;
  kept.read({{"1042", "Ada", 1, "L1"}});
  kept.correct("1042-1", "Adah");
  kept.lay("1042-1");
  kept.read({{"1042", "Adah", 1, "L1"}});
  CHECK(kept.items() == "1 Adah on sheet");
  CHECK(kept.questions() == 0);
}

TEST_CASE("of pieces alike the ones that wait go first, and those that a person corrected last") {
  IntakeLedger kept;
  kept.read({{"1042", "Ada", 4}});
  kept.lay("1042-2");
  kept.correct("1042-4", "Adah");
  kept.read({{"1042", "Ada", 2}});
  CHECK(kept.items() == "1 cancelled; 2 Ada on sheet; 3 cancelled; 4 Adah received");
  kept.read({{"1042", "Ada", 1}});
  CHECK(kept.questions() == 1);
  CHECK(kept.items() == "1 cancelled; 2 Ada on sheet; 3 cancelled; 4 Adah held by question");
}

TEST_CASE("an older export after a newer one asks once, and the very same file never") {
  for (const std::string line : {"L1", ""}) {
    IntakeLedger kept;
    kept.read({{"1042", "Ada", 1, line}}, "old");
    kept.read({{"1042", "Ada", 1, line}}, "old, with another order");  // it brought nothing new
    kept.read({{"1042", "Ada", 2, line}}, "new");
    for (const char* known : {"old", "old, with another order", "new"}) {
      kept.read({{"1042", "Ada", 1, line}}, known);
      CHECK(kept.questions() == 0);
      CHECK(kept.items() == "1 Ada received; 2 Ada received");
    }
    kept.read({{"1042", "Ada", 1, line}}, "another");
    REQUIRE(kept.questions() == 1);
    CHECK(kept->open_questions()[0].kind == LedgerQuestion::Kind::older);
    CHECK(kept.items() == "1 Ada held by question; 2 Ada held by question");
    kept.read({{"1042", "Ada", 1, line}}, "yet another");
    CHECK(kept.questions() == 1);
  }
}

TEST_CASE("a file in which an order came cancelled does not cancel it when it is wanted by then") {
  for (const std::string line : {"L1", ""}) {
    IntakeLedger kept;
    kept.read({{"1042", "Ada", 2, line, "", "", true}}, "old");
    kept.read({{"1042", "Ada", 2, line}}, "new");
    kept.read({{"1042", "Ada", 2, line, "", "", true}}, "old");
    CHECK(kept.items() == "1 Ada received; 2 Ada received");
    CHECK(kept.questions() == 0);
    kept.read({{"1042", "Ada", 2, line, "", "", true}}, "newest");
    CHECK(kept.items() == "1 cancelled; 2 cancelled");
  }
}

TEST_CASE("a text that a line once had is a new line where the line itself is there, too") {
  IntakeLedger kept;
  kept.read({{"1042", "Ada"}});
  kept.read({{"1042", "Ida"}});
  Account account;
  kept->begin(EntryKind::answer);
  take_proposal(*kept, kept->open_questions().at(0), {}, account);
  kept->settle(kept->open_questions().at(0), LedgerQuestion::State::taken);
  kept->commit();
  CHECK(kept.items() == "1 Ida received");
  kept.read({{"1042", "Ida"}, {"1042", "Ada"}});
  CHECK(kept.items() == "1 Ida received; 2 Ada received");
  CHECK(kept.questions() == 0);
}

TEST_CASE("a blank that the order names later is kept for the item, and on a sheet it is asked") {
  IntakeLedger kept;
  kept.read({{"1042", "Ada", 1, "L1"}, {"1043", "Eva", 1, "L1"}});
  kept->begin(EntryKind::day);
  for (const char* id : {"S-1", "S-2"}) kept->add_blank({id, "", 150, 100, "d", LedgerBlank::State::free, "", {}});
  kept->commit();
  kept.read({{"1042", "Ada", 1, "L1", "", "", false, "S-1"}});
  CHECK(kept->item_numbered("1042-1")->pinned == "S-1");
  CHECK(kept->blank("S-1")->item == kept->item_numbered("1042-1")->id);
  kept.lay("1043-1");
  kept.read({{"1043", "Eva", 1, "L1", "", "", false, "S-2"}});
  CHECK(kept.questions() == 1);
  CHECK(kept->blank("S-2")->state == LedgerBlank::State::free);
}

TEST_CASE("texts that a spreadsheet would run are taken as they are") {
  for (const std::string text : {"=1+1", "+44", "-Mum-", "@home", "\tindent", "=cmd|' /C calc'!A0"}) {
    IntakeLedger kept;
    Orders orders;
    orders.orders = {order_of_row({"1042", "", 1})};
    orders.orders[0].text = text;
    orders.checksum = "sum";
    Account account;
    kept->begin(EntryKind::intake);
    take_in(*kept, orders, "orders.csv", account);
    kept->commit();
    CHECK(kept->item_numbered("1042-1")->words == text);
  }
}

}  // namespace ordinatio::intake_test
