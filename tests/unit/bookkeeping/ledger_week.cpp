// The commands of a workshop that keeps a ledger, over a tiny week.
#include "base/account.h"
#include "base/share.h"
#include "ledger_shop.h"
#include "manifest/manifest.h"
#include "shop/remake.h"

namespace ordinatio::ledger_week_test {
using Catch::Contains;
using What = CorrectionOptions::What;
namespace fs = std::filesystem;

namespace {

const std::string head = "Order,Text,Quantity,Design\n";

void check_sound(const LedgerShop& shop) {
  const Account checked = done(shop.check());
  CAPTURE(all_of_it(checked.told));
  CHECK(checked.held.empty());
}

/// Of a sheet: "1042-1 in 1 on S-1".
std::vector<std::string> places(const LedgerShop& shop, const std::string& sheet) {
  std::vector<std::string> places;
  for (const ManifestItem& item : shop.manifest(sheet).items) {
    places.push_back(item.item.id + " in " + std::to_string(item.pocket) + " on " + item.piece.id);
  }
  return places;
}

const ManifestItem& on(const Manifest& manifest, const std::string& number) {
  const auto found = std::ranges::find(manifest.items, number, [](const ManifestItem& one) { return one.item.id; });
  REQUIRE(found != manifest.items.end());
  return *found;
}

}  // namespace

TEST_CASE("a day lays what waits, and the ledger, the manifest and the stock agree") {
  const LedgerShop shop;
  shop.measure(4);
  done(shop.intake(head + "1042,Ada,2,\n1043,Eva,1,\n"));
  const Account day = done(shop.day());
  CHECK(day.items_set == 3);
  CHECK(day.sheets == 1);
  for (const char* number : {"1042-1", "1042-2", "1043-1"}) {
    CHECK(shop.state(number) == "on sheet");
    const auto placement = *shop.placement(number);
    const ManifestItem item = on(shop.manifest("sheet-001"), number);
    CHECK(placement.pocket == item.pocket);
    CHECK(placement.blank == item.piece.id);
    CHECK(placement.hash == item.hash);
    CHECK(shop.blank_state(placement.blank) == "reserved");
  }
  CHECK(done(shop.day()).told.back() == "Nothing waits to be laid on a sheet");
  CHECK_FALSE(fs::exists(shop / "out/sheets/sheet-002.svg"));
  check_sound(shop);
}

TEST_CASE("where the design asks for it nothing is laid without the customer's yes to that very artwork") {
  const LedgerShop shop;
  shop.measure(3);
  done(shop.intake(head + "1042,Ada,1,asked\n"));
  CHECK(refused(shop.approve("1042-1")).what == "there is no proof to say yes to");
  CHECK(done(shop.day()).sheets == 0);
  CHECK(shop.state("1042-1") == "ready");
  done(shop.proof());
  CHECK(shop.state("1042-1") == "proofed");
  CHECK(done(shop.day()).sheets == 0);
  done(shop.approve("1042-1"));
  CHECK(shop.state("1042-1") == "approved");

  done(shop.words("1042-1", "Adah"));
  CHECK(shop.state("1042-1") == "received");
  CHECK(refused(shop.approve("1042-1")).what == "there is no proof to say yes to");
  const Account waits = done(shop.day());
  CHECK(waits.sheets == 0);
  CHECK_THAT(all_of_it(waits.warnings), Contains("make its proof again"));
  done(shop.proof({"1042-1"}));
  CHECK_THAT(all_of_it(done(shop.day()).warnings), Contains("waits for the customer's yes"));
  done(shop.approve("1042-1"));
  CHECK(done(shop.day()).sheets == 1);
  CHECK(shop.placement("1042-1")->hash == shop.item("1042-1").approved_hash);
  CHECK(refused(shop.approve("1042-1")).what == "it is too late for that");
  check_sound(shop);
}

TEST_CASE("a spoiled piece that needs a yes is proved anew on its new blank, and can be approved") {
  const LedgerShop shop;
  shop.measure(2);
  done(shop.intake(head + "1042,Ada,1,asked\n"));
  done(shop.proof());
  done(shop.approve("1042-1"));
  done(shop.day());
  done(shop.engraved("1"));
  RemakeOptions later;
  later.item = "1042-1", later.text = "Adah", later.later = true, later.reason = "a letter was missing";
  done(shop.remake(later));
  CHECK(shop.state("1042-1") == "spoiled");
  done(shop.proof());
  done(shop.approve("1042-1"));
  CHECK(done(shop.day()).sheets == 1);
  check_sound(shop);
}

TEST_CASE("a remake is exactly what it was, in its pocket, on a fresh piece; and the lost one is written off") {
  const LedgerShop shop;
  shop.measure(4);
  done(shop.intake(head + "1042,Ada,2,\n1043,The Old Mill,1,\n"));
  done(shop.day());
  done(shop.engraved("sheet-001"));
  const ManifestItem before = on(shop.manifest("sheet-001"), "1043-1");
  done(shop.remake("1043-1"));
  const Manifest again = shop.manifest("remake-002");
  const ManifestItem& item = on(again, "1043-1");
  CHECK(item.hash == before.hash);
  CHECK(item.pocket == before.pocket);
  CHECK(item.to_bed(Point{1, 2}).x == before.to_bed(Point{1, 2}).x);
  CHECK(item.to_bed(Point{1, 2}).y == before.to_bed(Point{1, 2}).y);
  CHECK(item.piece.id != before.piece.id);
  CHECK(shop.blank_state(before.piece.id) == "spoiled");
  CHECK(shop.blank_state(item.piece.id) == "reserved");
  CHECK(shop.state("1043-1") == "on sheet");
  check_sound(shop);
}

TEST_CASE("without measured pieces a remake is what it was, too, and with other words it says them") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,2,\n"));
  done(shop.day());
  done(shop.engraved("1"));
  done(shop.remake("1042-2"));
  CHECK(on(shop.manifest("remake-002"), "1042-2").hash == on(shop.manifest("sheet-001"), "1042-2").hash);
  RemakeOptions other;
  other.item = "1042-1", other.text = "Adah";
  done(shop.remake(other));
  CHECK(on(shop.manifest("remake-003"), "1042-1").item.inscription.original == "Adah");
  CHECK(shop.item("1042-1").words == "Adah");
  done(shop.engraved("3"));
  done(shop.remake("1042-1"));  // again as it is now
  CHECK(on(shop.manifest("remake-004"), "1042-1").hash == on(shop.manifest("remake-003"), "1042-1").hash);
  check_sound(shop);
}

TEST_CASE("where pieces are short, an item that is first in line has one before the others") {
  const LedgerShop shop;
  shop.measure(1);  // on which a shorter text would be larger
  done(shop.intake(head + "1042,Ada,1,\n1043,Eva,1,\n1044,The Household of Una,1,\n"));
  done(shop.correct(CorrectionOptions::What::first, "1044-1"));
  done(shop.day());
  CHECK(shop.state("1044-1") == "on sheet");
  CHECK(shop.state("1042-1") == "held");
  check_sound(shop);
}

TEST_CASE("a remake goes on the blank and in the pocket that are named, or waits for the next day first in line") {
  const LedgerShop shop;
  shop.measure(6);
  done(shop.intake(head + "1042,Ada,2,\n1043,Eva,1,\n"));
  done(shop.day());
  done(shop.engraved("1"));
  RemakeOptions there;
  there.item = "1042-1", there.blank = "S-6", there.pocket = 3;
  done(shop.remake(there));
  CHECK(places(shop, "remake-002") == std::vector<std::string>{"1042-1 in 3 on S-6"});

  RemakeOptions later;
  later.item = "1043-1", later.later = true;
  done(shop.remake(later));
  CHECK_FALSE(fs::exists(shop / "out/sheets/remake-003.svg"));
  CHECK(shop.state("1043-1") == "spoiled");
  done(shop.intake(head + "1044,Una,1,\n", "more.csv"));
  CHECK(shop.read_ledger()->waiting_items().front().number == "1043-1");
  done(shop.day());
  CHECK(shop.placement("1043-1")->pocket == 1);
  CHECK(shop.placement("1044-1")->pocket == 2);
  check_sound(shop);
}

TEST_CASE("a remake that is refused changes nothing") {
  const LedgerShop shop;
  shop.measure(1);
  done(shop.intake(head + "1042,Ada,1,\n1043,Eva,1,\n"));
  done(shop.day());
  const std::string before = *read_file(shop.ledger_file());
  CHECK(refused(shop.remake("1042-1")).what == "no piece is free");
  CHECK_THAT(refused(shop.remake("1043-1")).what, Contains("not made yet"));
  RemakeOptions empty;
  empty.item = "1042-1", empty.text = " \n", empty.later = true;
  CHECK(refused(shop.remake(empty)).what == "there are no words");
  RemakeOptions taken;
  taken.item = "1042-1", taken.blank = "S-1";
  CHECK_THAT(refused(shop.remake(taken)).what, Contains("not free"));
  CHECK(refused(shop.remake("1042-9")).what == "there is no item 1042-9");
  CHECK(*read_file(shop.ledger_file()) == before);
  CHECK(shop.state("1042-1") == "on sheet");
}

TEST_CASE("an interrupted bed goes on with the same pockets, marks and artwork") {
  const LedgerShop shop;
  shop.measure(5);
  done(shop.intake(head + "1042,Ada,2,\n1043,Eva,1,\n1044,Una,1,\n"));
  done(shop.day());
  const Manifest whole = shop.manifest("sheet-001");
  REQUIRE(whole.items.size() == 4);
  done(shop.resume("sheet-001", "1", "3"));
  const Manifest rest = shop.manifest("rest-002");
  CHECK(rest.pockets.size() == whole.pockets.size());
  REQUIRE(rest.marks.size() == whole.marks.size());
  for (std::size_t i = 0; i < rest.marks.size(); ++i) {
    CHECK(rest.marks[i].x == whole.marks[i].x);
    CHECK(rest.marks[i].y == whole.marks[i].y);
  }
  REQUIRE(rest.items.size() == 2);
  for (const ManifestItem& item : rest.items) {
    const ManifestItem& before = on(whole, item.item.id);
    CHECK(item.pocket == before.pocket);
    CHECK(item.hash == before.hash);
    CHECK(item.piece.id == before.piece.id);
    for (const Point p : {Point{0, 0}, Point{10, 3}}) {
      CHECK(item.to_bed(p).x == before.to_bed(p).x);
      CHECK(item.to_bed(p).y == before.to_bed(p).y);
    }
    CHECK(shop.placement(item.item.id)->sheet == 2);
    CHECK(shop.blank_state(item.piece.id) == "reserved");
  }
  std::string states;
  for (const ManifestItem& item : whole.items) states += shop.state(item.item.id) + ", ";
  CHECK(states == "engraved, on sheet, spoiled, on sheet, ");
  CHECK_THAT(refused(shop.resume("1", "2")).what, Contains("pocket 2 is settled"));
  CHECK(refused(shop.resume("rest-002", "2", "2")).what == "pocket 2 is both done and spoiled");
  CHECK(refused(run_resume(shop.shop(), {shop.call("resume"), "2", "", "2", "", {}})).what == "there is no reason");
  done(shop.resume("rest-002", "2,4"));
  CHECK_FALSE(fs::exists(shop / "out/sheets/rest-003.svg"));
  check_sound(shop);
}

TEST_CASE("what is booked as engraved can be taken back, pocket by pocket or whole, until it is packed") {
  const LedgerShop shop;
  shop.measure(3);
  done(shop.intake(head + "1042,Ada,3,\n"));
  done(shop.day());
  CHECK_THAT(refused(shop.engraved("1", "7")).what, Contains("there is nothing in pocket 7"));
  CHECK_THAT(refused(shop.engraved("1", "2-1")).what, Contains("names no pockets"));
  CHECK_THAT(all_of_it(done(shop.engraved("1", "1-2")).told), Contains("2 items engraved, 1 still on it"));
  CHECK_THAT(refused(shop.engraved("1", "2")).what, Contains("pocket 2 is settled"));
  done(shop.undo("sheet-001"));
  CHECK(shop.state("1042-1") == "on sheet");
  CHECK_THAT(refused(shop.pack("1042-1")).what, Contains("it is not engraved"));
  done(shop.engraved("1"));
  done(shop.stands(2));
  done(shop.pack("1042-1"));
  CHECK_THAT(refused(shop.undo("1")).why, Contains("something has changed since"));
  done(shop.undo("1042-1"));
  CHECK(shop.state("1042-1") == "engraved");
  done(shop.undo("1"));
  CHECK(shop.read_ledger()->spare_stands().size() == 2);
  check_sound(shop);
}

TEST_CASE("each correction is taken back by undo, and stands in the history both ways") {
  const LedgerShop shop;
  shop.measure(2);
  done(shop.intake(head + "1042,Ada,1,\n"));
  struct Case {
    What what;
    std::string value, told;
  };
  const Case cases[] = {{What::words, "Adah", "the words are now \"Adah\", before \"Ada\""},
                        {What::hold, "asked", "held: asked"},
                        {What::pin, "S-2", "pinned to blank S-2"},
                        {What::first, "", "first in line"}};
  done(shop.day());
  done(shop.undo("1042-1").ok() ? Result<Account>(Fault{"nothing could be taken back", "", "", ""})
                                : shop.spoil("1042-1"));
  const auto seen = [&] {
    const LedgerItem item = shop.item("1042-1");
    return std::string(name_of(item.state)) + std::string(name_of(item.held_by)) + item.words + item.pinned +
           (item.first ? "first" : "");
  };
  done(shop.correct(What::hold, "1042-1", "later"));
  done(shop.correct(What::release, "1042-1"));
  done(shop.undo("1042-1"));
  CHECK(shop.state("1042-1") == "held");
  done(shop.undo("1042-1"));
  for (const Case& c : cases) {
    if (c.what == What::first) continue;  // a spoiled one is first already
    const std::string before = seen();
    done(shop.correct(c.what, "1042-1", c.value));
    CHECK(seen() != before);
    CHECK_THAT(all_of_it(done(shop.history("1042-1")).told), Contains(c.told));
    done(shop.undo("1042-1"));
    CHECK(seen() == before);
  }
  CHECK(refused(shop.words("1042-1", " ")).what == "there are no words");
  CHECK(refused(shop.correct(What::hold, "1042-1")).what == "there is no reason");
  CHECK(refused(shop.correct(What::pin, "1042-1", "S-9")).what == "there is no blank S-9");
  CHECK(refused(shop.correct(What::release, "1042-1")).what == "it is not held");
  check_sound(shop);
}

TEST_CASE("an item on a sheet comes off it when its words are corrected or it is held, and goes back by undo") {
  for (const What what : {What::words, What::hold}) {
    const LedgerShop shop;
    shop.measure(2);
    done(shop.intake(head + "1042,Ada,1,\n"));
    done(shop.day());
    const LedgerPlacement before = *shop.placement("1042-1");
    const Account account = done(shop.correct(what, "1042-1", "Adah"));
    CHECK_THAT(all_of_it(account.warnings), Contains("comes off sheet-001, pocket 1: do not engrave it there"));
    CHECK_FALSE(shop.placement("1042-1"));
    CHECK(shop.blank_state(before.blank) == "free");
    check_sound(shop);
    done(shop.undo("1042-1"));
    CHECK(shop.state("1042-1") == "on sheet");
    CHECK(shop.item("1042-1").words == "Ada");
    CHECK(shop.placement("1042-1")->id == before.id);
    check_sound(shop);
    done(shop.correct(what, "1042-1", "Adah"));
    done(shop.spoil("", before.blank));  // it cannot go back to that
    CHECK_THAT(refused(shop.undo("1042-1")).why, Contains("something has changed since"));
    CHECK(refused(shop.correct(What::first, "1042-9")).what == "there is no item 1042-9");
    check_sound(shop);
  }
}

TEST_CASE("a command that was cut off before the person heard of it is not done twice, and another one is") {
  const LedgerShop shop;
  shop.measure(4);
  done(shop.intake(head + "1042,Ada,1,\n"));
  done(shop.day());
  done(shop.engraved("1"));
  RemakeOptions options;
  options.item = "1042-1";
  options.call = shop.call_to_be_heard("remake 1042-1");
  done(run_remake(shop.shop(), options));
  const Account again = done(run_remake(shop.shop(), options));
  CHECK_THAT(all_of_it(again.told), Contains("it is not done again"));
  CHECK(again.files.size() == 4);
  CHECK(shop.read_ledger()->next_sheet_number() == 3);
  REQUIRE_FALSE(acknowledge(shop.shop(), options.call, again));
  done(run_remake(shop.shop(), options));
  CHECK(shop.read_ledger()->next_sheet_number() == 4);
  check_sound(shop);
}

TEST_CASE("a wrong check character is refused, and without one a person is asked") {
  const LedgerShop shop;
  shop.measure(1);
  done(shop.intake(head + "1042,Ada,1,\n"));
  CorrectionOptions options{shop.call("correct"), with_check("1042-1"), What::words, "Adah"};
  std::string asked;
  options.call.confirm = [&](const std::string& question) {
    asked = question;
    return false;
  };
  done(run_correction(shop.shop(), options));
  CHECK(asked.empty());
  options.item = "1042-1";
  CHECK(refused(run_correction(shop.shop(), options)).what == "nothing was changed");
  CHECK_THAT(asked, Contains("1042-1") && Contains("Adah"));
  options.item = with_check("1042-1");
  options.item.back() = options.item.back() == 'A' ? 'B' : 'A';
  CHECK_FALSE(run_correction(shop.shop(), options).ok());
}

TEST_CASE("stands are as many as engraved items lack, counted on, and no number comes twice") {
  const LedgerShop shop;
  shop.measure(4);
  done(shop.intake(head + "1042,Ada,3,\n"));
  done(shop.day());
  CHECK(done(shop.stands()).told.back() == "Every item that is engraved has its stand");
  done(shop.engraved("1", "1-2"));
  CHECK(done(shop.stands()).items_set == 2);
  const auto serial = [&](const std::string& number) {
    const auto ledger_file = shop.read_ledger();
    const auto stand = ledger_file->stand_of(ledger_file->item_numbered(number)->id);
    return stand ? stand->serial : std::nullopt;
  };
  CHECK(serial("1042-1") == 1);
  CHECK(serial("1042-2") == 2);
  CHECK(refused(shop.stands(2, 2)).what == "a stand with number 2 is there already");
  done(shop.stands(2));  // to spare
  done(shop.engraved("1"));
  CHECK_THAT(all_of_it(done(shop.stands()).told), Contains("to spare and have an item now: 1"));
  CHECK(serial("1042-3") == 3);
  const Manifest manifest = shop.manifest("stands-003");
  CHECK(manifest.items.at(0).item.number == "003");
  done(shop.spoil("1042-1"));
  CHECK_FALSE(serial("1042-1"));
  check_sound(shop);
}

TEST_CASE("the stock is what is free less what will be spoiled, by Wilson's interval") {
  const LedgerShop shop;
  shop.measure(10);
  done(shop.intake(head + "1042,Ada,4,\n"));
  CHECK_THAT(all_of_it(done(run_stock(shop.shop(), {shop.call("stock")})).told), Contains("Nothing has been engraved"));
  done(shop.day());
  done(shop.engraved("1"));
  done(shop.spoil("1042-1"));
  done(shop.spoil("", "S-10"));
  const std::string told = all_of_it(done(run_stock(shop.shop(), {shop.call("stock")})).told);
  // With the piece that no item had 2 of 5, by hand: (2 + 1.9208 ± 1.96 √(2 · 3 / 5 + 0.9604)) / (5 + 3.8415).
  CHECK_THAT(told, Contains("Spoiled so far: 2 of 5, 40 %; with 95 % confidence between 11.8 % and 76.9 % (Wilson)"));
  // Of 5 free ones 5 · 0.6 = 3, 5 · 0.231 = 1.15 and 5 · 0.882 = 4.4; for one plaque ⌈1 / 0.6⌉, ⌈1 / 0.231⌉.
  CHECK_THAT(told, Contains("60 mm × 40 mm: 1 item waits; pieces: 5 free, 0 reserved, 3 used, 2 spoiled; of the free "
                            "ones expect 3 good plaques, between 1 and 4; to make all that wait, have 2 pieces ready, "
                            "at worst 5"));
}

TEST_CASE("more sold than there is is told, and what lies on a sheet is nobody else's piece") {
  const LedgerShop shop;
  shop.measure(3);
  done(shop.intake(head + "1042,Ada,2,\n"));
  done(shop.day());
  done(shop.intake(head + "1043,Eva,2,\n", "more.csv"));
  const Account stock = done(run_stock(shop.shop(), {shop.call("stock")}));
  CHECK_THAT(all_of_it(stock.warnings), Contains("more is sold than there is") && Contains("2 items and 1 pieces"));
  done(shop.correct(What::pin, "1043-1", "S-3"));
  CHECK_THAT(all_of_it(done(run_stock(shop.shop(), {shop.call("stock")})).warnings), Contains("2 items and 1 pieces"));
}

TEST_CASE("history tells items, orders, blanks and sheets, and the nearest where nothing is called so") {
  const LedgerShop shop;
  shop.measure(2);
  done(shop.intake(head + "1042,Ada,2,\n"));
  done(shop.day());
  const std::string blank = shop.placement("1042-1")->blank;
  done(shop.engraved("1", "1"));
  done(shop.spoil("1042-1"));
  const std::string item = all_of_it(done(shop.history("1042-1")).told);
  CHECK_THAT(item, Contains("is spoiled: it broke") && Contains("[intake export.csv]") && Contains("[engraved 1]") &&
                       Contains("on sheet-001, pocket 1, blank " + blank));
  CHECK_THAT(all_of_it(done(shop.history(blank)).told),
             Contains("blank " + blank + " is spoiled: it broke") && Contains("used"));
  CHECK_THAT(all_of_it(done(shop.history("sheet-001")).told),
             Contains("pocket 1 is engraved") && Contains("pocket 2, blank ") && Contains("spoiled: it broke"));
  CHECK_THAT(all_of_it(done(shop.history("1042")).told), Contains("1042-1") && Contains("1042-2"));
  CHECK_THAT(refused(shop.history("1042-7")).mend, Contains("1042-"));
}

TEST_CASE("check finds a sheet's file that was altered, one that is gone, and a stray") {
  const LedgerShop shop;
  shop.measure(1);
  done(shop.intake(head + "1042,Ada,1,\n"));
  done(shop.day());
  check_sound(shop);
  const fs::path svg = shop / "out/sheets/sheet-001.svg";
  const std::string bytes = *read_file(svg);
  const auto found = [&] {
    std::string all;
    for (const HeldItem& held : done(shop.check()).held) all += held.id + ": " + held.fault.what + "; ";
    return all;
  };
  shop.write("out/sheets/sheet-001.svg", bytes + " ");
  CHECK(found() == "sheet-001: the file is not what was written; ");
  fs::remove(svg);
  CHECK(found() == "sheet-001: the file is gone; ");
  shop.write("out/sheets/sheet-001.svg", bytes);
  shop.write("out/sheets/sheet-009.svg", "");
  CHECK(found() == "sheet-009.svg: the ledger does not know this sheet; ");
  fs::remove(shop / "out/sheets/sheet-009.svg");
  Database(shop.ledger_file(), Database::Access::write, "").script("UPDATE item SET state = 'ready'");
  CHECK_THAT(found(), Contains("ledger: item 1042-1 lies on a sheet, and its state says otherwise"));
}

TEST_CASE("a manifest that was altered is not made again from") {
  const LedgerShop shop;
  shop.measure(2);
  done(shop.intake(head + "1042,Ada,1,\n"));
  done(shop.day());
  shop.write("out/sheets/sheet-001.json", *read_file(shop / "out/sheets/sheet-001.json") + "\n");
  CHECK(refused(shop.remake("1042-1")).what == "the manifest is not what was written");
  CHECK(refused(shop.resume("1", "")).what == "the manifest is not what was written");
  CHECK(shop.state("1042-1") == "on sheet");
}

TEST_CASE("a list is of what is open, or of one state, and a backup is a ledger of its own") {
  const LedgerShop shop;
  shop.measure(2);
  done(shop.intake(head + "1042,Ada,2,\n"));
  done(shop.day());
  done(shop.engraved("1", "1"));
  done(shop.pack("1042-1"));
  CHECK(done(shop.list()).told.size() == 1);
  CHECK_THAT(done(shop.list("packed")).told.at(0), Contains("1042-1") && Contains("packed"));
  CHECK(done(shop.list("held")).told == std::vector<std::string>{"No items"});
  CHECK_THAT(refused(shop.list("paked")).mend, Contains("packed"));
  done(run_backup(shop.shop(), shop.call("backup"), shop / "copy.ledger"));
  const auto copy =
      Ledger::open({shop / "copy.ledger", "2026-11-25T08:00:00Z", "", 0, false, ""}, Ledger::Access::read);
  REQUIRE(copy.ok());
  CHECK((*copy)->item_numbered("1042-1")->state == ItemState::packed);
  CHECK((*copy)->contradictions().empty());
}

}  // namespace ordinatio::ledger_week_test
