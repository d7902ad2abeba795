// What can be taken back, and what cannot.
#include "book_by_hand.h"

using namespace ordinatio;
using Catch::Contains;

namespace {

/// The item's state, words, blank and place in line, in one line.
std::string seen(BookByHand& book, const std::string& number) {
  const LedgerItem item = book.item(number);
  return std::string(name_of(item.state)) + "/" + item.held_by + "/" + item.reason + "/" + item.words + "/" +
         item.pinned + "/" + (item.first ? "first" : "");
}

/// Undoes the item's last entry; empty, or why not.
std::string undo(BookByHand& book, const std::string& number) {
  const auto entries = book.ask("SELECT count(*) FROM entry");
  book->begin("undo");
  const auto undone = book->undo(book.item(number));
  if (!undone.ok()) {
    book->commit();  // which books nothing
    CHECK(book.ask("SELECT count(*) FROM entry") == entries);
    return undone.fault().why;
  }
  book->commit();
  CHECK(book->contradictions() == std::vector<std::string>{});
  return "";
}

std::string undo_sheet(BookByHand& book, int number) {
  book->begin("undo");
  const auto undone = book->undo(*book->sheet(number));
  if (undone.ok()) {
    book->commit();
  } else {
    book->roll_back();
  }
  CHECK(book->contradictions() == std::vector<std::string>{});
  return undone.ok() ? "" : undone.fault().why;
}

using Work = std::function<void(Ledger&, const LedgerItem&)>;
struct Case {
  const char* what;
  std::string_view kind;
  std::string item;
  Work work;
};

const Case undoable[] = {
    {"words", "correction", "1043-1", [](Ledger& l, const LedgerItem& i) { l.set_words(i, "Ivy Lodge"); }},
    {"hold", "correction", "1043-1",
     [](Ledger& l, const LedgerItem& i) { l.set_state(i, ItemState::held, "asked", "person"); }},
    {"pin", "correction", "1043-1", [](Ledger& l, const LedgerItem& i) { CHECK_FALSE(l.pin(i, "S-5")); }},
    {"another pin", "correction", "1042-3", [](Ledger& l, const LedgerItem& i) { CHECK_FALSE(l.pin(i, "S-5")); }},
    {"no pin", "correction", "1042-3", [](Ledger& l, const LedgerItem& i) { CHECK_FALSE(l.pin(i, "")); }},
    {"first", "correction", "1043-1", [](Ledger& l, const LedgerItem& i) { l.set_first(i, true); }},
    {"approval", "approval", "1043-1", [](Ledger& l, const LedgerItem& i) { l.set_approved(i, "hash"); }},
    {"packing", "packing", "1042-2", [](Ledger& l, const LedgerItem& i) { l.set_state(i, ItemState::packed); }},
    {"spoiling of what is engraved", "spoiling", "1042-2",
     [](Ledger& l, const LedgerItem& i) { l.spoil(*l.placement_of(i.id), "fell"); }},
    {"spoiling of what is on a sheet", "spoiling", "1042-1",
     [](Ledger& l, const LedgerItem& i) { l.spoil(*l.placement_of(i.id), "fell"); }},
};

void run(BookByHand& book, const Case& c) {
  book.in(c.kind, [&](Ledger& ledger) { c.work(ledger, book.item(c.item)); });
}

}  // namespace

TEST_CASE("each thing that can be taken back leaves everything as it was, and stands in the story") {
  for (const Case& c : undoable) {
    INFO(c.what);
    BookByHand book;
    fill(book);
    const std::string before = seen(book, c.item);
    const auto blank = [&book](const char* id) {
      return std::string(name_of(book->blank(id)->state)) + std::to_string(book->blank(id)->item.value_or(0));
    };
    const std::string blanks = blank("S-1") + blank("S-2") + blank("S-3") + blank("S-5");
    const auto stand = book->stand_of(book.item(c.item).id).has_value();
    run(book, c);
    REQUIRE(seen(book, c.item) != before);
    const std::size_t told = book->story_of_item(book.item(c.item)).size();
    CHECK(undo(book, c.item).empty());
    CHECK(seen(book, c.item) == before);
    CHECK(blank("S-1") + blank("S-2") + blank("S-3") + blank("S-5") == blanks);
    CHECK(book->stand_of(book.item(c.item).id).has_value() == stand);
    CHECK(book->story_of_item(book.item(c.item)).size() > told);
  }
}

TEST_CASE("corrections are taken back one after the other, and what is taken back is not taken back again") {
  BookByHand book;
  fill(book);
  for (const char* words : {"one", "two", "three"}) {
    book.in("correction", [&](Ledger& ledger) { ledger.set_words(book.item("1043-1"), words); });
  }
  for (const char* words : {"two", "one", "Rose Cottage"}) {
    CHECK(undo(book, "1043-1").empty());
    CHECK(book.item("1043-1").words == words);
  }
  CHECK_THAT(undo(book, "1043-1"), Contains("nothing left"));
  book.in("correction", [&](Ledger& ledger) { ledger.set_words(book.item("1043-1"), "four"); });
  CHECK(undo(book, "1043-1").empty());
  CHECK(book.item("1043-1").words == "Rose Cottage");
}

TEST_CASE("what has changed since is not taken back") {
  struct Since {
    const char* what;
    Work work;  // after the correction of 1043-1, whose pin and words are its last
  };
  const Since since[] = {
      {"other words came", [](Ledger& l, const LedgerItem& i) { l.set_words(i, "from the export"); }},
      {"its blank was spoiled",
       [](Ledger& l, const LedgerItem&) { l.set_blank_state("S-5", LedgerBlank::State::spoiled, {}, "fell"); }},
      {"it was cancelled", [](Ledger& l, const LedgerItem& i) { l.set_state(i, ItemState::cancelled, "export"); }},
  };
  for (const Since& s : since) {
    INFO(s.what);
    BookByHand book;
    fill(book);
    book.in("correction", [&](Ledger& ledger) {
      const LedgerItem item = book.item("1043-1");
      ledger.set_words(item, "Ivy Lodge");
      CHECK_FALSE(ledger.pin(item, "S-5"));
    });
    book.in("intake", [&](Ledger& ledger) { s.work(ledger, book.item("1043-1")); });
    const std::string before = seen(book, "1043-1");
    CHECK_FALSE(undo(book, "1043-1").empty());
    CHECK(seen(book, "1043-1") == before);
  }
}

TEST_CASE("a correction is not taken back once the item lies on a sheet or is engraved") {
  for (const bool engraved : {false, true}) {
    for (const bool words : {false, true}) {
      BookByHand book;
      fill(book);
      book.in("correction", [&](Ledger& ledger) {
        if (words) ledger.set_words(book.item("1043-1"), "Ivy Lodge");
        if (!words) CHECK_FALSE(ledger.pin(book.item("1043-1"), "S-5"));
      });
      book.in("day", [&](Ledger& ledger) {
        REQUIRE_FALSE(book.lay({"1043-1"}, {"S-5"}));
        if (engraved) ledger.mark_engraved(book.placement("1043-1"));
      });
      const std::string before = seen(book, "1043-1");
      CHECK_FALSE(undo(book, "1043-1").empty());
      CHECK(seen(book, "1043-1") == before);
      CHECK(book->contradictions().empty());
    }
  }
}

TEST_CASE("where words are taken back, a proof of them is no proof any more") {
  BookByHand book;
  fill(book);
  book.in("correction", [&](Ledger& ledger) { ledger.set_words(book.item("1043-1"), "Ivy Lodge"); });
  book.in("proof", [&](Ledger& ledger) { ledger.set_state(book.item("1043-1"), ItemState::proofed); });
  CHECK(undo(book, "1043-1").empty());
  CHECK(book.item("1043-1").state == ItemState::received);
}

TEST_CASE("a spoiling is not taken back when the stand has gone to another item") {
  BookByHand book;
  fill(book);
  book.in("spoiling", [&](Ledger& ledger) { ledger.spoil(book.placement("1042-2"), "fell"); });
  CHECK(book->spare_stands().size() == 2);
  book.in("engraving", [&](Ledger& ledger) { ledger.mark_engraved(book.placement("1042-1")); });
  book.in("stands", [&](Ledger& ledger) { ledger.give_stand(ledger.spare_stands().front(), book.item("1042-1").id); });
  CHECK_THAT(undo(book, "1042-2"), Contains("something has changed since"));
}

TEST_CASE("what was booked as engraved is taken back with the stands that were given, and only once") {
  BookByHand book;
  fill(book);
  CHECK(undo_sheet(book, 1).empty());
  CHECK(book.item("1042-2").state == ItemState::on_sheet);
  CHECK(book->blank("S-2")->state == LedgerBlank::State::reserved);
  CHECK(book->spare_stands().size() == 2);
  CHECK_THAT(undo_sheet(book, 1), Contains("nothing left"));
}

TEST_CASE("what was booked as engraved is not taken back once it is packed or spoiled, nor is a sheet itself") {
  for (const bool packed : {true, false}) {
    BookByHand book;
    fill(book);
    book.in(packed ? "packing" : "spoiling", [&](Ledger& ledger) {
      if (packed) ledger.set_state(book.item("1042-2"), ItemState::packed);
      if (!packed) ledger.spoil(book.placement("1042-2"), "fell");
    });
    CHECK_THAT(undo_sheet(book, 1), Contains("something has changed since"));
    CHECK_THAT(undo_sheet(book, 2), Contains("nothing left"));
  }
}

TEST_CASE("an entry that made something new is not taken back") {
  BookByHand book;
  fill(book);
  book.in("engraving", [&](Ledger& ledger) {
    ledger.mark_engraved(book.placement("1042-1"));
    REQUIRE_FALSE(book.lay({"1043-1"}));
  });
  CHECK_THAT(undo_sheet(book, 1), Contains("made something new"));
  CHECK(book.item("1042-1").state == ItemState::engraved);
}
