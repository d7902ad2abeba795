// What can be taken back, and what cannot.
#include "ledger_by_hand.h"

namespace ordinatio::undo_test {
using Catch::Contains;

namespace {

/// The item's state, words, setting, blank and place in line, in one line.
std::string seen(LedgerByHand& kept, const std::string& number) {
  const LedgerItem item = kept.item(number);
  return std::string(name_of(item.state)) + "/" + std::string(name_of(item.held_by)) + "/" + item.reason + "/" +
         item.words + "/" + item.setting + "/" + item.pinned + "/" + (item.first ? "first" : "");
}

/// Undoes the item's last entry; empty, or why not.
std::string undo(LedgerByHand& kept, const std::string& number) {
  const auto entries = kept.ask("SELECT count(*) FROM entry");
  kept->begin(EntryKind::undo);
  const auto undone = kept->undo(kept.item(number));
  if (!undone.ok()) {
    kept->commit();  // which enters nothing
    CHECK(kept.ask("SELECT count(*) FROM entry") == entries);
    return undone.fault().why;
  }
  kept->commit();
  CHECK(kept->contradictions() == std::vector<std::string>{});
  return "";
}

std::string undo_sheet(LedgerByHand& kept, int number) {
  kept->begin(EntryKind::undo);
  const auto undone = kept->undo(*kept->sheet(number));
  if (undone.ok()) {
    kept->commit();
  } else {
    kept->roll_back();
  }
  CHECK(kept->contradictions() == std::vector<std::string>{});
  return undone.ok() ? "" : undone.fault().why;
}

using Work = std::function<void(Ledger&, const LedgerItem&)>;
struct Case {
  const char* what;
  EntryKind kind;
  std::string item;
  Work work;
};

const Case undoable[] = {
    {"words", EntryKind::correction, "1043-1", [](Ledger& l, const LedgerItem& i) { l.set_words(i, "Ivy Lodge"); }},
    {"setting", EntryKind::correction, "1043-1", [](Ledger& l, const LedgerItem& i) { l.set_setting(i, "size 5"); }},
    {"hold", EntryKind::correction, "1043-1",
     [](Ledger& l, const LedgerItem& i) { l.set_state(i, ItemState::held, "asked", HeldBy::person); }},
    {"pin", EntryKind::correction, "1043-1", [](Ledger& l, const LedgerItem& i) { CHECK_FALSE(l.pin(i, "S-5")); }},
    {"another pin", EntryKind::correction, "1042-3",
     [](Ledger& l, const LedgerItem& i) { CHECK_FALSE(l.pin(i, "S-5")); }},
    {"no pin", EntryKind::correction, "1042-3", [](Ledger& l, const LedgerItem& i) { CHECK_FALSE(l.pin(i, "")); }},
    {"first", EntryKind::correction, "1043-1", [](Ledger& l, const LedgerItem& i) { l.set_first(i, true); }},
    {"approval", EntryKind::approval, "1043-1", [](Ledger& l, const LedgerItem& i) { l.set_approved(i, "hash"); }},
    {"packing", EntryKind::packing, "1042-2",
     [](Ledger& l, const LedgerItem& i) { l.set_state(i, ItemState::packed); }},
    {"spoiling of what is engraved", EntryKind::spoiling, "1042-2",
     [](Ledger& l, const LedgerItem& i) { l.spoil(*l.placement_of(i.id), "fell"); }},
    {"spoiling of what is on a sheet", EntryKind::spoiling, "1042-1",
     [](Ledger& l, const LedgerItem& i) { l.spoil(*l.placement_of(i.id), "fell"); }},
};

void run(LedgerByHand& kept, const Case& c) {
  kept.in(c.kind, [&](Ledger& ledger) { c.work(ledger, kept.item(c.item)); });
}

}  // namespace

TEST_CASE("each thing that can be taken back leaves everything as it was, and stands in the story") {
  for (const Case& c : undoable) {
    INFO(c.what);
    LedgerByHand kept;
    fill(kept);
    const std::string before = seen(kept, c.item);
    const auto blank = [&kept](const char* id) {
      return std::string(name_of(kept->blank(id)->state)) + std::to_string(kept->blank(id)->item.value_or(0));
    };
    const std::string blanks = blank("S-1") + blank("S-2") + blank("S-3") + blank("S-5");
    const auto stand = kept->stand_of(kept.item(c.item).id).has_value();
    run(kept, c);
    REQUIRE(seen(kept, c.item) != before);
    const std::size_t told = kept->story_of_item(kept.item(c.item)).size();
    CHECK(undo(kept, c.item).empty());
    CHECK(seen(kept, c.item) == before);
    CHECK(blank("S-1") + blank("S-2") + blank("S-3") + blank("S-5") == blanks);
    CHECK(kept->stand_of(kept.item(c.item).id).has_value() == stand);
    CHECK(kept->story_of_item(kept.item(c.item)).size() > told);
  }
}

TEST_CASE("corrections are taken back one after the other, and what is taken back is not taken back again") {
  LedgerByHand kept;
  fill(kept);
  for (const char* words : {"one", "two", "three"}) {
    kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_words(kept.item("1043-1"), words); });
  }
  for (const char* words : {"two", "one", "Rose Cottage"}) {
    CHECK(undo(kept, "1043-1").empty());
    CHECK(kept.item("1043-1").words == words);
  }
  CHECK_THAT(undo(kept, "1043-1"), Contains("nothing left"));
  kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_words(kept.item("1043-1"), "four"); });
  CHECK(undo(kept, "1043-1").empty());
  CHECK(kept.item("1043-1").words == "Rose Cottage");
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
    LedgerByHand kept;
    fill(kept);
    kept.in(EntryKind::correction, [&](Ledger& ledger) {
      const LedgerItem item = kept.item("1043-1");
      ledger.set_words(item, "Ivy Lodge");
      CHECK_FALSE(ledger.pin(item, "S-5"));
    });
    kept.in(EntryKind::intake, [&](Ledger& ledger) { s.work(ledger, kept.item("1043-1")); });
    const std::string before = seen(kept, "1043-1");
    CHECK_FALSE(undo(kept, "1043-1").empty());
    CHECK(seen(kept, "1043-1") == before);
  }
}

TEST_CASE("a correction is not taken back once the item lies on a sheet or is engraved") {
  for (const bool engraved : {false, true}) {
    for (const bool words : {false, true}) {
      LedgerByHand kept;
      fill(kept);
      kept.in(EntryKind::correction, [&](Ledger& ledger) {
        if (words) ledger.set_words(kept.item("1043-1"), "Ivy Lodge");
        if (!words) CHECK_FALSE(ledger.pin(kept.item("1043-1"), "S-5"));
      });
      kept.in(EntryKind::day, [&](Ledger& ledger) {
        REQUIRE_FALSE(kept.lay({"1043-1"}, {"S-5"}));
        if (engraved) ledger.mark_engraved(kept.placement("1043-1"));
      });
      const std::string before = seen(kept, "1043-1");
      CHECK_FALSE(undo(kept, "1043-1").empty());
      CHECK(seen(kept, "1043-1") == before);
      CHECK(kept->contradictions().empty());
    }
  }
}

TEST_CASE("where words are taken back, a proof of them is no proof any more") {
  LedgerByHand kept;
  fill(kept);
  kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_words(kept.item("1043-1"), "Ivy Lodge"); });
  kept.in(EntryKind::proof, [&](Ledger& ledger) { ledger.set_state(kept.item("1043-1"), ItemState::proofed); });
  CHECK(undo(kept, "1043-1").empty());
  CHECK(kept.item("1043-1").state == ItemState::received);
}

TEST_CASE("where a setting is taken back, a proof of it is no proof any more") {
  LedgerByHand kept;
  fill(kept);
  kept.in(EntryKind::correction, [&](Ledger& ledger) { ledger.set_setting(kept.item("1043-1"), "size 5"); });
  kept.in(EntryKind::proof, [&](Ledger& ledger) { ledger.set_state(kept.item("1043-1"), ItemState::proofed); });
  CHECK(undo(kept, "1043-1").empty());
  CHECK(kept.item("1043-1").state == ItemState::received);
}

TEST_CASE("a spoiling is not taken back when the stand has gone to another item") {
  LedgerByHand kept;
  fill(kept);
  kept.in(EntryKind::spoiling, [&](Ledger& ledger) { ledger.spoil(kept.placement("1042-2"), "fell"); });
  CHECK(kept->spare_stands().size() == 2);
  kept.in(EntryKind::engraving, [&](Ledger& ledger) { ledger.mark_engraved(kept.placement("1042-1")); });
  kept.in(EntryKind::stands,
          [&](Ledger& ledger) { ledger.give_stand(ledger.spare_stands().front(), kept.item("1042-1").id); });
  CHECK_THAT(undo(kept, "1042-2"), Contains("something has changed since"));
}

TEST_CASE("what was booked as engraved is taken back with the stands that were given, and only once") {
  LedgerByHand kept;
  fill(kept);
  CHECK(undo_sheet(kept, 1).empty());
  CHECK(kept.item("1042-2").state == ItemState::on_sheet);
  CHECK(kept->blank("S-2")->state == LedgerBlank::State::reserved);
  CHECK(kept->spare_stands().size() == 2);
  CHECK_THAT(undo_sheet(kept, 1), Contains("nothing left"));
}

TEST_CASE("what was booked as engraved is not taken back once it is packed or spoiled, nor is a sheet itself") {
  for (const bool packed : {true, false}) {
    LedgerByHand kept;
    fill(kept);
    kept.in(packed ? EntryKind::packing : EntryKind::spoiling, [&](Ledger& ledger) {
      if (packed) ledger.set_state(kept.item("1042-2"), ItemState::packed);
      if (!packed) ledger.spoil(kept.placement("1042-2"), "fell");
    });
    CHECK_THAT(undo_sheet(kept, 1), Contains("something has changed since"));
    CHECK_THAT(undo_sheet(kept, 2), Contains("nothing left"));
  }
}

TEST_CASE("an entry that made something new is not taken back") {
  LedgerByHand kept;
  fill(kept);
  kept.in(EntryKind::engraving, [&](Ledger& ledger) {
    ledger.mark_engraved(kept.placement("1042-1"));
    REQUIRE_FALSE(kept.lay({"1043-1"}));
  });
  CHECK_THAT(undo_sheet(kept, 1), Contains("made something new"));
  CHECK(kept.item("1042-1").state == ItemState::engraved);
}

}  // namespace ordinatio::undo_test
