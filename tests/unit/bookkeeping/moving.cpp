// Items of a sheet that change their pockets and their pieces, or come off it: ledger and files say the same, there and back.
#include "base/account.h"
#include "ledger_shop.h"
#include "machine/sheet_order.h"
#include "shop/align.h"
#include "shop/trial.h"

namespace ordinatio::moving_test {
using Catch::Contains;
using What = CorrectionOptions::What;
namespace fs = std::filesystem;

namespace {

const std::string head = "Order,Text,Quantity,Design\n";

Result<Account> move(const LedgerShop& shop, const std::string& item, std::optional<int> pocket,
                     const std::string& piece = "") {
  return run_move(shop.shop(), {shop.call("move " + item), item, pocket, piece});
}
Result<Account> to_piece(const LedgerShop& shop, const std::string& item, const std::string& piece) {
  return move(shop, item, {}, piece);
}
Result<Account> take_off(const LedgerShop& shop, const std::string& item) { return shop.correct(What::take_off, item); }

/// A day with every kind of file.
void lay(const LedgerShop& shop, DxfVersion version = DxfVersion::r12) {
  DayOptions options;
  options.date = "2026-11-25", options.workers = 1, options.call = shop.call("day");
  Shop as_asked = shop.shop();
  as_asked.dxf.version = version;
  done(run_day(as_asked, options));
}

/// Ada, Bert and Cleo in pockets 1 to 3 of the six of sheet-001, and pieces to spare.
void lay_three(const LedgerShop& shop, const std::string& design = "") {
  done(shop.intake(head + "1042,Ada,1," + design + "\n1043,Bert,1," + design + "\n1044,Cleo,1," + design + "\n"));
  if (!shop.shop().blanks.file.empty()) {
    for (int n = 1; n <= 3; ++n) {
      done(shop.correct(What::pin, "104" + std::to_string(n + 1) + "-1", "S-" + std::to_string(n)));
    }
  }
  lay(shop);
}

using Files = std::map<std::string, std::string>;
Files files_of(const LedgerShop& shop) {
  Files files;
  for (const auto& entry : fs::directory_iterator(shop / "out/sheets")) {
    if (entry.is_regular_file()) files[entry.path().filename().string()] = *read_file(entry.path());
  }
  return files;
}

std::string lies(const LedgerShop& shop, const std::string& item) {
  const auto placement = shop.placement(item);
  return placement ? std::to_string(placement->pocket) + " " + placement->blank : "";
}

/// Ledger, manifest, SVG, DXF and PDF of the sheet say the same.
void check_alike(const LedgerShop& shop, const std::string& name = "sheet-001") {
  const Account checked = done(shop.check());
  for (const HeldItem& held : checked.held) FAIL_CHECK(held.id << " " << describe(held.fault));
  const auto ledger = shop.read_ledger();
  const LedgerSheet sheet = *ledger->sheet_named(name);
  std::vector<std::string> booked, drawn;
  for (const LedgerPlacement& one : ledger->placements_on(sheet.number)) {
    if (one.state != LedgerPlacement::State::on_sheet) continue;
    booked.push_back(ledger->item(one.item)->number + " " + std::to_string(one.pocket) + " " + one.blank + " " +
                     one.hash);
  }
  for (const ManifestItem& one : shop.manifest(name).items) {
    drawn.push_back(one.item.id + " " + std::to_string(one.pocket) + " " + one.piece.id + " " + one.hash);
  }
  CHECK(booked == drawn);
  TrialBench bench(shop.shop());
  const Result<Sheet> model = bench.sheet(sheet);
  if (!model.ok()) FAIL(describe(model.fault()));
  Sheet in_order = *model;
  order_work(in_order);  // as the files have it
  const SheetModel whole(in_order);
  const auto bytes = [&](const char* kind) { return *read_file(shop / ("out/sheets/" + name + kind)); };
  if (const auto fault = check_svg(bytes(".svg"), whole)) FAIL_CHECK(describe(*fault));
  if (const auto fault = check_dxf(bytes(".dxf"), whole, shop.shop().dxf.tolerance)) FAIL_CHECK(describe(*fault));
  if (const auto fault = check_pdf(bytes(".pdf"), whole)) FAIL_CHECK(describe(*fault));
}

/// What is refused changes neither the ledger nor a file.
template <class Command>
Fault changes_nothing(const LedgerShop& shop, Command&& command) {
  const Files before = files_of(shop);
  const auto stories = [&] {
    std::string text;
    const auto ledger = shop.read_ledger();
    for (const LedgerItem& item : ledger->items_in(std::nullopt))
      text += std::to_string(ledger->story_of_item(item).size());
    return text;
  };
  const std::string told = stories();
  const Fault fault = refused(command());
  CHECK(files_of(shop) == before);
  CHECK(stories() == told);
  CHECK_FALSE(fault.mend.empty());
  return fault;
}

}  // namespace

TEST_CASE("an item goes to a free pocket, the operator is told, and undo brings the very files back") {
  const bool measured = GENERATE(true, false);
  const LedgerShop shop(measured);
  if (measured) shop.measure(5);
  lay_three(shop);
  const Files before = files_of(shop);
  CHECK(before.size() == 4);
  const std::string piece = shop.placement("1042-1")->blank;
  const Account account = done(move(shop, "1042-1", 6));
  CHECK(lies(shop, "1042-1") == "6 " + piece);
  CHECK_THAT(all_of_it(account.told), Contains("goes from pocket 1 to pocket 6 of sheet-001"));
  CHECK_THAT(all_of_it(account.warnings), Contains(measured ? "Put piece " + piece + " into pocket 6 of sheet-001"
                                                            : "Lay a piece into pocket 6 of sheet-001: pocket 1"));
  CHECK_THAT(files_of(shop)["sheet-001.svg"], Contains("item 1042-1, pocket 6"));
  check_alike(shop);
  CHECK_THAT(all_of_it(done(shop.history("1042-1")).told), Contains("on sheet-001, pocket 6"));
  CHECK_THAT(all_of_it(done(shop.history("sheet-001")).told), Contains("1042-1 goes from pocket 1 to pocket 6"));
  const Account undone = done(shop.undo("1042-1"));
  CHECK(lies(shop, "1042-1") == "1 " + piece);
  CHECK_THAT(all_of_it(undone.warnings), Contains("into pocket 1 of sheet-001 again"));
  CHECK(files_of(shop) == before);
  check_alike(shop);
  CHECK(changes_nothing(shop, [&] { return shop.undo("1042-1"); }).what == "this cannot be taken back");
}

TEST_CASE("two items change places, either takes it back, and what stood before it is taken back after it") {
  const LedgerShop shop;
  shop.measure(5);
  lay_three(shop);
  const Files before = files_of(shop);
  const std::string ada = shop.placement("1042-1")->blank, cleo = shop.placement("1044-1")->blank;
  const Account account = done(move(shop, "1042-1", 3));
  CHECK(lies(shop, "1042-1") == "3 " + ada);
  CHECK(lies(shop, "1044-1") == "1 " + cleo);
  CHECK_THAT(all_of_it(account.warnings),
             Contains("Put piece " + ada + " into pocket 3") && Contains("Put piece " + cleo + " into pocket 1"));
  check_alike(shop);
  const Files swapped = files_of(shop);
  done(move(shop, "1044-1", 2));
  check_alike(shop);
  // 1042-1 alone lies as it was moved, but its other half does not.
  CHECK_THAT(changes_nothing(shop, [&] { return shop.undo("1042-1"); }).why, Contains("something has changed since"));
  done(shop.undo("1043-1"));
  CHECK(files_of(shop) == swapped);
  done(shop.undo("1044-1"));
  CHECK(files_of(shop) == before);
  check_alike(shop);
}

TEST_CASE("a move is not taken back into a pocket that something else has by now") {
  const LedgerShop shop;
  shop.measure(5);
  lay_three(shop);
  done(move(shop, "1042-1", 5));
  done(move(shop, "1043-1", 1));
  CHECK_THAT(changes_nothing(shop, [&] { return shop.undo("1042-1"); }).why, Contains("1043-1 has pocket 1 by now"));
  check_alike(shop);
}

TEST_CASE("an item lies in its new pocket as it lay in its own: upright among others that lie along") {
  const LedgerShop shop(false);
  shop.write("templates/upright.toml",
             "[blank]\nwidth = 40\nheight = 60\n[clear]\nmargin = 3\n[text]\ncap_height = { min = 2, max = 8 }\n");
  done(shop.intake(head + "1042,Ada,1,\n1043,Bo,1,upright\n"));
  DayOptions options;
  options.date = "2026-11-25", options.workers = 1, options.call = shop.call("day");
  Shop with_board = shop.shop();
  Jig& jig = with_board.plan.jig;
  jig.fill_bed = false, jig.columns = 2, jig.rows = 2, jig.pitch_x = 80, jig.pitch_y = 55, jig.first = {20, 20};
  jig.pocket_width = 61, jig.pocket_height = 41;
  done(run_day(with_board, options));
  REQUIRE(shop.manifest("sheet-001").items.size() == 2);
  const Files before = files_of(shop);
  const auto way = [&](const std::string& item) {
    for (const ManifestItem& one : shop.manifest("sheet-001").items) {
      if (one.item.id == item) return one.to_bed(Point{40, 0}) - one.to_bed(Point{});
    }
    return Point{};
  };
  const Point along = way("1042-1"), upright = way("1043-1");
  CHECK(length(along - upright) > 1);
  done(move(shop, "1042-1", 2));
  CHECK(length(way("1042-1") - along) < 1e-9);
  CHECK(length(way("1043-1") - upright) < 1e-9);
  check_alike(shop);
  done(move(shop, "1043-1", 4));
  CHECK(length(way("1043-1") - upright) < 1e-9);
  check_alike(shop);
  done(shop.undo("1043-1"));
  done(shop.undo("1042-1"));
  CHECK(files_of(shop) == before);
}

TEST_CASE("an item goes on another piece in its pocket, and back") {
  const LedgerShop shop;
  shop.write("blanks.csv", "id,width,height\nS-1,,\nS-2,,\nS-3,,\nS-4,52,38\n");
  lay_three(shop);
  const Files before = files_of(shop);
  const LedgerPlacement was = *shop.placement("1043-1");
  REQUIRE(shop.blank_state("S-4") == "free");
  const Account account = done(to_piece(shop, "1043-1", "S-4"));
  CHECK(lies(shop, "1043-1") == "2 S-4");
  CHECK(shop.placement("1043-1")->hash != was.hash);
  CHECK(shop.blank_state(was.blank) == "free");
  CHECK(shop.blank_state("S-4") == "reserved");
  CHECK_THAT(all_of_it(account.told), Contains(was.blank + " is free again"));
  CHECK_THAT(all_of_it(account.warnings), Contains("Put piece S-4 into pocket 2 of sheet-001"));
  check_alike(shop);
  CHECK_THAT(all_of_it(done(shop.history("S-4")).told), Contains("sheet-001, pocket 2, blank S-4, item 1043-1"));

  SECTION("undo has its old piece and the very files back") {
    done(shop.undo("1043-1"));
    CHECK(shop.blank_state("S-4") == "free");
    CHECK(files_of(shop) == before);
  }
  SECTION("moved once more, and corrected, and aligned, the sheet shows it on the new piece") {
    done(move(shop, "1043-1", 5));
    check_alike(shop);
    done(shop.words("1042-1", "Ida"));
    CHECK(lies(shop, "1043-1") == "5 S-4");
  }
  SECTION("a remake makes it as it is on the new piece") {
    const double cap_height = shop.manifest("sheet-001").items[1].cap_height;
    shop.write("blanks.csv", "id,width,height\nS-1,,\nS-2,,\nS-3,,\nS-4,52,38\nS-5,52,38\n");
    done(shop.engraved("sheet-001"));
    RemakeOptions again;
    again.item = "1043-1", again.blank = "S-5";
    done(shop.remake(again));
    CHECK(shop.manifest("remake-002").items[0].cap_height == cap_height);
    return;
  }
  SECTION("another item has its old piece: that cannot be taken back") {
    done(shop.intake(head + "1050,Dora,1,\n", "later.csv"));
    done(shop.day());
    REQUIRE(shop.placement("1050-1")->blank == was.blank);
    CHECK_THAT(refused(shop.undo("1043-1")).why, Contains("something has changed since"));
  }
  check_alike(shop);
}

TEST_CASE("a piece on which it would be set otherwise than the customer said yes to is refused") {
  const LedgerShop shop;
  shop.write("blanks.csv", "id,width,height\nS-1,,\nS-2,52,38\nS-3,,\n");
  done(shop.intake(head + "1042,Ada,1,asked\n"));
  done(shop.correct(What::pin, "1042-1", "S-1"));
  done(shop.proof());
  done(shop.approve("1042-1"));
  lay(shop);
  const Fault fault = changes_nothing(shop, [&] { return to_piece(shop, "1042-1", "S-2"); });
  CHECK(fault.what == "the artwork is not what was approved");
  CHECK_THAT(fault.mend, Contains("ordinatio pin 1042-1/") && Contains(" S-2"));
  done(to_piece(shop, "1042-1", "S-3"));  // of the same shape: the same artwork
  check_alike(shop);
  done(take_off(shop, "1042-1"));
  CHECK(shop.state("1042-1") == "received");
}

TEST_CASE("what is wished of an item is kept on its new piece") {
  const LedgerShop shop;
  shop.measure(4);
  done(shop.intake(head + "1042,Ada,1,\n"));
  CorrectionOptions wish;
  wish.call = shop.call("set"), wish.item = "1042-1", wish.what = What::setting;
  wish.setting = kept_setting("size 5; nudge 1,0");
  done(run_correction(shop.shop(), wish));
  lay(shop);
  const std::string free = shop.placement("1042-1")->blank == "S-4" ? "S-3" : "S-4";
  const std::string hash = shop.placement("1042-1")->hash;
  done(to_piece(shop, "1042-1", free));
  CHECK(shop.placement("1042-1")->hash == hash);
  CHECK(shop.manifest("sheet-001").items[0].cap_height == Approx(5));
  check_alike(shop);
}

TEST_CASE("what cannot be is refused with its reason, and changes nothing") {
  const LedgerShop shop;
  shop.write(
      "blanks.csv",
      "id,width,height,material,thickness,used\nS-1,,,slate,5,\nS-2,,,slate,5,\nS-3,,,slate,5,\nS-4,,,copper,5,\n"
      "S-5,,,slate,9,\nS-6,90,80,slate,5,\nS-7,,,slate,5,mine\nS-8,8,7,slate,5,\n");
  lay_three(shop);
  const auto pocket = [&](int number) { return [&shop, number] { return move(shop, "1042-1", number); }; };
  const auto piece = [&](const char* id) { return [&shop, id] { return to_piece(shop, "1042-1", id); }; };
  const auto none = pocket(7);
  CHECK(changes_nothing(shop, none).why == "its bed has pockets 1 to 6");
  CHECK(changes_nothing(shop, pocket(0)).why == "its bed has pockets 1 to 6");
  CHECK(changes_nothing(shop, pocket(-4)).why == "its bed has pockets 1 to 6");
  CHECK(changes_nothing(shop, pocket(1)).what == "it lies there already");
  done(move(shop, "1042-1", 4));
  CHECK(changes_nothing(shop, pocket(4)).what == "it lies there already");
  done(shop.undo("1042-1"));
  const std::string own = shop.placement("1042-1")->blank, other = shop.placement("1043-1")->blank;
  CHECK(changes_nothing(shop, piece(own.c_str())).what == "it is on that piece already");
  CHECK_THAT(changes_nothing(shop, piece(other.c_str())).why, Contains("item 1043-1"));
  CHECK_THAT(changes_nothing(shop, piece("S-7")).why, Contains("it is used: mine"));
  CHECK(changes_nothing(shop, piece("S-99")).what == "there is no piece S-99");
  CHECK_THAT(describe(changes_nothing(shop, piece("S-4"))), Contains("is of copper"));
  CHECK_THAT(describe(changes_nothing(shop, piece("S-5"))), Contains("9 mm thick"));
  CHECK_THAT(describe(changes_nothing(shop, piece("S-6"))), Contains("mm too"));
  (void)changes_nothing(shop, piece("S-8"));
  CHECK(changes_nothing(shop, [&] { return move(shop, "1099-1", 2); }).what.find("1099-1") != std::string::npos);

  done(shop.engraved("sheet-001", "2"));
  CHECK_THAT(changes_nothing(shop, pocket(2)).why, Contains("1043-1/") && Contains("engraved"));
  CHECK(changes_nothing(shop, [&] { return move(shop, "1043-1", 5); }).what == "it is too late for that");
  CHECK(changes_nothing(shop, [&] { return take_off(shop, "1043-1"); }).what == "it is too late for that");
  done(take_off(shop, "1044-1"));
  CHECK(changes_nothing(shop, [&] { return move(shop, "1044-1", 5); }).what == "it lies on no sheet");
  CHECK(changes_nothing(shop, [&] { return take_off(shop, "1044-1"); }).what == "it lies on no sheet");
  check_alike(shop);
}

TEST_CASE("an item that is engraved where it was moved to stays there") {
  const LedgerShop shop;
  shop.measure(5);
  lay_three(shop);
  done(move(shop, "1042-1", 2));
  done(shop.engraved("sheet-001", "2"));
  CHECK_THAT(changes_nothing(shop, [&] { return shop.undo("1042-1"); }).why,
             Contains("1042-1 is engraved there since"));
  CHECK_THAT(changes_nothing(shop, [&] { return shop.undo("1043-1"); }).why,
             Contains("1042-1 is engraved there since"));
  done(shop.undo("sheet-001"));
  done(shop.undo("1043-1"));
  CHECK(shop.placement("1042-1")->pocket == 1);
  check_alike(shop);
}

TEST_CASE("an item taken off its sheet waits, its piece is free, its pocket too, and undo finds it a place") {
  const LedgerShop shop;
  shop.measure(5);
  lay_three(shop);
  const Files before = files_of(shop);
  const std::string piece = shop.placement("1043-1")->blank;
  const Account account = done(take_off(shop, "1043-1"));
  CHECK(shop.state("1043-1") == "received");
  CHECK(shop.blank_state(piece) == "free");
  CHECK_THAT(all_of_it(account.told), Contains("it waits again, and piece " + piece + " is free"));
  CHECK_THAT(all_of_it(account.warnings), Contains("comes off sheet-001, pocket 2: do not engrave it there"));
  check_alike(shop);
  SECTION("as it was") {
    done(shop.undo("1043-1"));
    CHECK(files_of(shop) == before);
  }
  SECTION("in the pocket that was left for its own") {
    done(move(shop, "1044-1", 2));
    CHECK(lies(shop, "1044-1").starts_with("2 "));
    check_alike(shop);
    done(shop.undo("1043-1"));
    CHECK(lies(shop, "1043-1") == "3 " + piece);
    check_alike(shop);
    done(shop.undo("1044-1"));
    CHECK(files_of(shop) == before);
  }
  SECTION("the next day has it on a sheet of its own") {
    done(shop.day());
    CHECK(shop.state("1043-1") == "on sheet");
    CHECK(shop.read_ledger()->sheet(shop.placement("1043-1")->sheet)->name == "sheet-002");
  }
  SECTION("the last one takes the files with it") {
    done(take_off(shop, "1042-1"));
    done(take_off(shop, "1044-1"));
    CHECK(files_of(shop).empty());
    done(shop.undo("1044-1"));
    CHECK(files_of(shop).size() == 4);
  }
  check_alike(shop);
}

TEST_CASE("what is moved on a sheet that was laid to its marks is to be laid to them again") {
  const LedgerShop shop;
  shop.measure(5);
  lay_three(shop);
  const auto align = [&] {
    AlignOptions options;
    options.manifest = "sheet-001", options.call = shop.call("align");
    for (const Point& mark : shop.manifest("sheet-001").marks) {
      std::string place;
      append_number(place, mark.x + 0.5, 3);
      place += ",";
      append_number(place, mark.y + 0.25, 3);
      options.measured.push_back(place);
    }
    return done(run_align(shop.shop(), options));
  };
  align();
  const Account account = done(move(shop, "1042-1", 6));
  CHECK_THAT(all_of_it(account.warnings), Contains("sheet-001-aligned is gone with them"));
  CHECK_FALSE(fs::exists(shop / "out/sheets/sheet-001-aligned.svg"));
  check_alike(shop);
  align();
  const Manifest aligned = shop.manifest("sheet-001-aligned");
  CHECK(aligned.items.back().item.id == "1042-1");
  CHECK(aligned.items.back().pocket == 6);
  done(shop.words("1043-1", "Bertha"));
  CHECK(shop.manifest("sheet-001").items.size() == 2);
  check_alike(shop);
  done(shop.undo("1042-1"));
  CHECK(shop.placement("1042-1")->pocket == 1);
  check_alike(shop);
}

TEST_CASE("what is moved stays where it is on the sheet of the rest, and moves there, too") {
  const LedgerShop shop;
  shop.measure(5);
  lay_three(shop);
  done(move(shop, "1044-1", 5));
  done(shop.resume("sheet-001", "1"));
  CHECK(shop.placement("1044-1")->pocket == 5);
  CHECK(shop.read_ledger()->sheet(shop.placement("1044-1")->sheet)->name == "rest-002");
  check_alike(shop, "rest-002");
  // That it was moved is of the sheet that it has left.
  CHECK(changes_nothing(shop, [&] { return shop.undo("1044-1"); }).what == "this cannot be taken back");
  done(move(shop, "1044-1", 2));
  CHECK(shop.placement("1043-1")->pocket == 5);
  check_alike(shop, "rest-002");
  done(shop.undo("1043-1"));
  CHECK(shop.placement("1044-1")->pocket == 5);
  check_alike(shop, "rest-002");
}

TEST_CASE("the files have the form that they had: each kind, and the version of the DXF") {
  const LedgerShop shop;
  shop.measure(5);
  done(shop.intake(head + "1042,Ada,1,\n1043,Bert,1,\n"));
  SECTION("without DXF and PDF") {
    done(shop.day());
    done(move(shop, "1042-1", 4));
    CHECK(files_of(shop).size() == 2);
  }
  SECTION("of another version than the workshop's own") {
    lay(shop, DxfVersion::r2000);
    done(move(shop, "1042-1", 4));
    CHECK_THAT(files_of(shop)["sheet-001.dxf"], Contains("AC1015"));
  }
}

TEST_CASE("a sheet that cannot be drawn again keeps its pockets, and the reason is told") {
  const LedgerShop shop;
  shop.measure(5);
  lay_three(shop);
  shop.write("templates/slate.toml",
             "[blank]\nwidth = 60\nheight = 40\n[clear]\nmargin = 4\n[text]\ncap_height = { min = 2, max = 12 }\n");
  CHECK_THAT(changes_nothing(shop, [&] { return move(shop, "1042-1", 6); }).what, Contains("has changed since"));
  CHECK(lies(shop, "1042-1").starts_with("1 "));
}

TEST_CASE(
    "a piece laid by hand has no pocket to leave, and comes off; a workshop without a ledger is told to keep one") {
  const LedgerShop shop(false);
  lay_three(shop);
  done(shop.engraved("sheet-001", "1"));
  RemakeOptions by_hand;
  by_hand.item = "1042-1", by_hand.corners = {"20,20", "80,20"};
  done(shop.remake(by_hand));
  CHECK(changes_nothing(shop, [&] { return move(shop, "1042-1", 2); }).what == "it lies in no pocket");
  CHECK(changes_nothing(shop, [&] { return to_piece(shop, "1043-1", "S-1"); }).what == "no piece can be named");
  done(take_off(shop, "1042-1"));
  Shop without = shop.shop();
  without.ledger.clear();
  const Fault fault = refused(run_move(without, {shop.call("move"), "1043-1", 5}));
  CHECK_THAT(describe(fault), Contains("[ledger]"));
}

}  // namespace ordinatio::moving_test
