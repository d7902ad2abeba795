// What is told of items, blanks and sheets; questions and stands.
#include "ledger_by_hand.h"

namespace ordinatio::story_test {
using Catch::Contains;
using Texts = std::vector<std::string>;

TEST_CASE("an item's, a blank's and a sheet's story is told in words") {
  LedgerByHand kept;
  fill(kept);
  CHECK(LedgerByHand::texts(kept->story_of_item(kept.item("1042-2"))) ==
        Texts{"new: orders.csv:2", "on sheet-001, pocket 2, blank S-2", "engraved",
              "has its stand: stands-002, pocket 1, number 41, batch first lot"});
  CHECK(LedgerByHand::texts(kept->story_of_item(kept.item("1042-4"))) ==
        Texts{"new: orders.csv:2", "on sheet-001, pocket 3, blank S-4", "spoiled: it slipped; first in line"});
  CHECK(LedgerByHand::texts(kept->story_of_blank("S-4")) ==
        Texts{"new: free, 150 × 100 mm, slate", "reserved; on sheet-001, pocket 3, blank S-4, item 1042-4",
              "spoiled: it slipped"});
  CHECK(LedgerByHand::texts(kept->story_of_sheet(*kept->sheet(1))) ==
        Texts{"new: day, 3 in it", "pocket 2 is engraved"});
}

TEST_CASE("every change of an item is told") {
  struct Case {
    std::function<void(Ledger&, const LedgerItem&)> work;
    std::string text;
  };
  const std::string words(100, 'a');
  const Case cases[] = {
      {[](Ledger& l, const LedgerItem& i) { l.set_words(i, "one\ntwo"); },
       "the words are now \"one / two\", before \"Rose Cottage\""},
      {[&](Ledger& l, const LedgerItem& i) { l.set_words(i, words); },
       "the words are now \"" + words.substr(0, 80) + "…\", before \"Rose Cottage\""},
      {[](Ledger& l, const LedgerItem& i) { l.set_words(i, std::string(79, 'a') + "ë"); },
       "the words are now \"" + std::string(79, 'a') + "…\", before \"Rose Cottage\""},
      {[](Ledger& l, const LedgerItem& i) { l.set_state(i, ItemState::held, "the date is missing", HeldBy::person); },
       "held: the date is missing"},
      {[](Ledger& l, const LedgerItem& i) { l.set_setting(i, "size 5"); }, "set as wished: \"size 5\""},
      {[](Ledger& l, const LedgerItem& i) {
         l.set_setting(i, "size 5");
         l.set_setting(*l.item(i.id), "");
       },
       "set as wished: \"size 5\"; set as its design has it again, before \"size 5\""},
      {[](Ledger& l, const LedgerItem& i) { l.set_first(i, true); }, "first in line"},
      {[](Ledger& l, const LedgerItem& i) { CHECK_FALSE(l.pin(i, "S-5")); }, "pinned to blank S-5"},
      {[](Ledger& l, const LedgerItem& i) { l.set_proofed(i, "0123456789"); }, "proof of artwork 01234567"},
      {[](Ledger& l, const LedgerItem& i) { l.set_approved(i, "0123456789"); },
       "approved is artwork 01234567; approved"},
      {[](Ledger& l, const LedgerItem& i) {
         l.set_exported(i, {i.line, "1043", 1, "Ivy Lodge", "oval", "size: full", "quick", "b.csv:3", ""});
       },
       "the words are now \"Ivy Lodge\", before \"Rose Cottage\"; the design is now \"oval\"; the wish is now \"size: "
       "full\"; the note is now \"quick\""},
  };
  for (const Case& c : cases) {
    LedgerByHand kept;
    fill(kept);
    kept.in(EntryKind::correction, [&](Ledger& ledger) { c.work(ledger, kept.item("1043-1")); });
    CHECK(kept->story_of_item(kept.item("1043-1")).back().text == c.text);
  }
}

TEST_CASE("words that a person corrected stay until the export's own change") {
  LedgerByHand kept;
  fill(kept);
  kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_words(kept.item("1043-1"), "Ivy Lodge"); });
  const auto say = [&](const std::string& words, const std::string& note) {
    kept.in(EntryKind::intake, [&](Ledger& ledger) {
      ledger.set_exported(kept.item("1043-1"), {1, "1043", 1, words, "", "", note, "", ""});
    });
    return kept.item("1043-1").words;
  };
  CHECK(say("Rose Cottage", "in blue paper") == "Ivy Lodge");
  CHECK(say("Fern House", "in blue paper") == "Fern House");
}

TEST_CASE("a blank that is measured anew is told with both sizes, and the same measure is no news") {
  LedgerByHand kept;
  fill(kept);
  LedgerBlank now = *kept->blank("S-5");
  const auto entries = kept.ask("SELECT count(*) FROM entry");
  kept.in(EntryKind::day, [&](Ledger& ledger) { ledger.set_measured(now, now); });
  CHECK(kept.ask("SELECT count(*) FROM entry") == entries);
  kept.in(EntryKind::day, [&](Ledger& ledger) {
    now.width = 148.5, now.measured = "other";
    ledger.set_measured(*ledger.blank("S-5"), now);
  });
  CHECK(kept->story_of_blank("S-5").back().text == "measured anew: 148.5 × 100 mm, before 150 × 100 mm");
  CHECK(kept->blank("S-5")->width == 148.5);
}

TEST_CASE("artwork other than what was approved is refused, and a blank that is not the item's to have") {
  LedgerByHand kept;
  fill(kept);
  const auto refused = [&](const std::string& number, const std::string& blank, const std::string& hash, bool asks) {
    kept->begin(EntryKind::day);
    const auto fault = kept.lay({number}, {blank}, hash, asks);
    if (fault) {
      const auto entries = kept.ask("SELECT count(*) FROM entry");
      kept->commit();
      CHECK(kept.ask("SELECT count(*) FROM entry") == entries);
    } else {
      kept->roll_back();
    }
    return fault ? fault->what : std::string();
  };
  CHECK(refused("1043-1", "", "hash", false).empty());
  CHECK(refused("1043-1", "", "hash", true) == "the artwork is not what was approved");
  kept.in(EntryKind::approval, [&](Ledger& ledger) { ledger.set_approved(kept.item("1043-1"), "hash"); });
  CHECK(refused("1043-1", "", "hash", true).empty());
  CHECK(refused("1043-1", "", "other", true) == "the artwork is not what was approved");
  CHECK(refused("1043-1", "", "other", false) == "the artwork is not what was approved");
  CHECK(refused("1043-1", "S-3", "hash", false) == "blank S-3 is not free");
  CHECK(refused("1043-1", "S-4", "hash", false) == "blank S-4 is not free");
  CHECK(refused("1043-1", "S-6", "hash", false) == "blank S-6 is not free");
  CHECK(refused("1043-1", "S-5", "hash", false).empty());
  CHECK(refused("1042-3", "S-3", "hash", false).empty());
}

TEST_CASE("a piece that is written off or let go is no longer the item's") {
  for (const BlankFate fate : {BlankFate::spoiled, BlankFate::free}) {
    LedgerByHand kept;
    fill(kept);
    kept.in(EntryKind::day, [&](Ledger&) { REQUIRE_FALSE(kept.lay({"1042-3"}, {"S-3"})); });
    CHECK(kept.item("1042-3").pinned == "S-3");
    kept.in(EntryKind::intake, [&](Ledger& ledger) {
      ledger.withdraw(kept.placement("1042-3"), "the order was changed", fate);
      ledger.set_state(kept.item("1042-3"), ItemState::received);
    });
    CHECK(kept.item("1042-3").pinned.empty());
    CHECK(kept->contradictions().empty());
  }
}

TEST_CASE("those first in line are served first, then as they came") {
  LedgerByHand kept;
  fill(kept);
  const auto waiting = [&] {
    std::string numbers;
    for (const LedgerItem& item : kept->waiting_items()) numbers += item.number + " ";
    return numbers;
  };
  CHECK(waiting() == "1042-4 1042-3 1043-1 ");
  kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_first(kept.item("1043-1"), true); });
  CHECK(waiting() == "1042-4 1043-1 1042-3 ");
}

TEST_CASE("a question is open until it is settled, once") {
  LedgerByHand kept;
  fill(kept);
  kept.in(EntryKind::intake, [&](Ledger& ledger) {
    ledger.ask({0, 2, LedgerQuestion::Kind::older, "v2", "{}", "is it older", LedgerQuestion::State::open});
  });
  REQUIRE(kept->open_questions().size() == 1);
  const LedgerQuestion question = kept->open_questions().front();
  CHECK(question.asks == "is it older");
  CHECK(question.kind == LedgerQuestion::Kind::older);
  CHECK(kept->question_about(2, "v2")->id == question.id);
  CHECK_FALSE(kept->question_about(1, "v2"));
  kept.in(EntryKind::answer, [&](Ledger& ledger) { ledger.settle(question, LedgerQuestion::State::as_new); });
  CHECK(kept->open_questions().empty());
  CHECK(kept->question(question.id)->state == LedgerQuestion::State::as_new);
}

TEST_CASE("stands are counted on, given, and to spare again when their item is lost") {
  LedgerByHand kept;
  fill(kept);
  CHECK(kept->next_serial() == 43);
  CHECK(kept->serial_given(42, 50) == 42);
  CHECK_FALSE(kept->serial_given(43, 50));
  CHECK(kept->engraved_without_stand().empty());
  CHECK(kept->stand_of(kept.item("1042-2").id)->serial == 41);
  CHECK(kept->spare_stands().size() == 1);
  kept.in(EntryKind::spoiling, [&](Ledger& ledger) { ledger.spoil(kept.placement("1042-2"), "fell"); });
  CHECK(kept->spare_stands().size() == 2);
  CHECK_FALSE(kept->stand_of(kept.item("1042-2").id));
}

TEST_CASE("items are counted by their states, pieces by what became of them") {
  LedgerByHand kept;
  fill(kept);
  std::string counts;
  for (const StateCount& count : kept->items_by_state())
    counts += std::to_string(count.count) + " " + count.what + ", ";
  CHECK(counts == "2 received, 1 on sheet, 1 engraved, 1 spoiled, ");
  CHECK(kept->makings().good == 1);
  CHECK(kept->makings().spoiled == 1);
}

TEST_CASE("a mistyped number is told with the nearest one") {
  LedgerByHand kept;
  fill(kept);
  CHECK(kept->nearest_number("1042-7") != std::nullopt);
  CHECK_FALSE(kept->nearest_number("zzz"));
}

}  // namespace ordinatio::story_test
