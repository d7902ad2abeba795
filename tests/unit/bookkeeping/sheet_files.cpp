// The files of a sheet that has lost a pocket show what is still to be engraved, or the sheet is told as stale.
#include "base/account.h"
#include "ledger_shop.h"
#include "manifest/manifest.h"
#include "shop/align.h"

namespace ordinatio::sheet_files_test {
using Catch::Contains;
using What = CorrectionOptions::What;
namespace fs = std::filesystem;

namespace {

const std::string head = "Order,Text,Quantity,Design,Status\n";

std::vector<std::string> items_in(const LedgerShop& shop, const std::string& file) {
  const auto path = shop / "out/sheets" / (file + ".json");
  const auto bytes = read_file(path);
  if (!bytes.ok()) FAIL(describe(bytes.fault()));
  const auto manifest = read_manifest(*bytes, path.string());
  if (!manifest.ok()) FAIL(describe(manifest.fault()));
  std::vector<std::string> items;
  for (const ManifestItem& item : manifest->items) items.push_back(item.item.id + " in " + std::to_string(item.pocket));
  return items;
}

using Items = std::vector<std::string>;

bool is_there(const LedgerShop& shop, const std::string& file) { return fs::exists(shop / "out/sheets" / file); }

void check_sound(const LedgerShop& shop) {
  const Account checked = done(shop.check());
  for (const HeldItem& held : checked.held) FAIL_CHECK(held.id << " " << describe(held.fault));
}

Account align(const LedgerShop& shop, const std::string& sheet = "sheet-001") {
  AlignOptions options;
  options.manifest = sheet;
  const std::vector<Point> marks = shop.manifest("sheet-001").marks;
  for (const Point& mark : marks) {
    std::string place;
    append_number(place, mark.x + 0.5, 3);
    place += ",";
    append_number(place, mark.y + 0.25, 3);
    options.measured.push_back(place);
  }
  options.call = shop.call("align " + sheet);
  return done(run_align(shop.shop(), options));
}

/// Three items of three orders on sheet-001.
void lay_three(const LedgerShop& shop) {
  shop.measure(4);
  done(shop.intake(head + "1042,Ada,1,,\n1043,Bert,1,,\n1044,Cleo,1,,\n"));
  done(shop.day());
  REQUIRE(items_in(shop, "sheet-001") == Items{"1042-1 in 1", "1043-1 in 2", "1044-1 in 3"});
}

}  // namespace

TEST_CASE("a sheet that has lost a pocket to a correction, a hold or a cancellation is written anew without it") {
  const LedgerShop shop;
  lay_three(shop);
  const Manifest before = shop.manifest("sheet-001");
  Account account;
  SECTION("a correction") { account = done(shop.words("1043-1", "Bertha")); }
  SECTION("a hold") { account = done(shop.correct(What::hold, "1043-1", "they are asked")); }
  SECTION("a cancellation") {
    account = done(shop.intake(head + "1042,Ada,1,,\n1043,Bert,1,,cancelled\n1044,Cleo,1,,\n", "later.csv"));
    account = done(shop.answer(1, AnswerOptions::Answer::take));
  }
  SECTION("a piece that broke before it was engraved") { account = done(shop.spoil("1043-1")); }
  CHECK_THAT(all_of_it(account.told), Contains("sheet-001 is written anew") && Contains("earlier-001"));
  CHECK(items_in(shop, "sheet-001") == Items{"1042-1 in 1", "1044-1 in 3"});
  CHECK(items_in(shop, "earlier-001/sheet-001") == Items{"1042-1 in 1", "1043-1 in 2", "1044-1 in 3"});
  const Manifest now = shop.manifest("sheet-001");
  CHECK(now.marks == before.marks);
  CHECK(now.pockets.size() == before.pockets.size());
  CHECK(now.items[1].hash == before.items[2].hash);
  CHECK(is_there(shop, "sheet-001.svg"));
  CHECK_FALSE(is_there(shop, "sheet-001.pdf"));  // the day wrote none
  check_sound(shop);
  CHECK(done(shop.list()).warnings.empty());
  CHECK_THAT(all_of_it(done(shop.history("sheet-001")).told),
             Contains("its files are written anew; its files show 1043-1"));
}

TEST_CASE("align leaves out what is withdrawn, engraved or spoiled, says so, and refuses where nothing is left") {
  const LedgerShop shop;
  lay_three(shop);
  done(shop.engraved("1", "1"));
  const Account account = align(shop);
  CHECK_THAT(all_of_it(account.told), Contains("Left out") && Contains("1042-1") && Contains("engraved"));
  CHECK(items_in(shop, "sheet-001-aligned") == Items{"1043-1 in 2", "1044-1 in 3"});
  check_sound(shop);
  // With --out, and by a file that was moved aside, it is the same sheet.
  AlignOptions options;
  options.manifest = shop / "out/sheets/sheet-001.json", options.out = shop / "elsewhere";
  options.measured = {"1:" + std::string("10,10"), "2:190,10"};
  options.limit = 50;
  options.call = shop.call("align out");
  if (const auto copied = run_align(shop.shop(), options); copied.ok()) {
    CHECK(copied->items_set == 2);
  } else {
    CHECK(copied.fault().what.find("mark") != std::string::npos);  // places that are no marks' are told as such
  }
  done(shop.engraved("1"));
  options.manifest = "sheet-001", options.out.clear();
  const Fault fault = refused(run_align(shop.shop(), options));
  CHECK(fault.what == "nothing is left on sheet-001 to engrave");
}

TEST_CASE("corrected after align, aligned after correction, and both again") {
  const LedgerShop shop;
  lay_three(shop);
  (void)align(shop);
  CHECK(items_in(shop, "sheet-001-aligned").size() == 3);
  const Account corrected = done(shop.words("1042-1", "Ida"));
  CHECK_FALSE(is_there(shop, "sheet-001-aligned.svg"));
  CHECK(is_there(shop, "earlier-001/sheet-001-aligned.svg"));
  CHECK_THAT(all_of_it(corrected.warnings), Contains("sheet-001-aligned is gone with them"));
  check_sound(shop);
  (void)align(shop);
  CHECK(items_in(shop, "sheet-001-aligned") == Items{"1043-1 in 2", "1044-1 in 3"});
  check_sound(shop);
  (void)align(shop);  // the same to the byte, and booked once more
  check_sound(shop);
  done(shop.correct(What::hold, "1044-1", "no"));
  CHECK(items_in(shop, "sheet-001") == Items{"1043-1 in 2"});
  CHECK_FALSE(is_there(shop, "sheet-001-aligned.svg"));
  check_sound(shop);
}

TEST_CASE("a sheet that has lost all its pockets has no files any more, and gets them back by undo") {
  const LedgerShop shop;
  shop.measure(2);
  done(shop.intake(head + "1042,Ada,1,,\n"));
  done(shop.day());
  const Account held = done(shop.correct(What::hold, "1042-1", "no"));
  CHECK_THAT(all_of_it(held.told), Contains("sheet-001 has nothing left to engrave, and no files any more"));
  CHECK_FALSE(is_there(shop, "sheet-001.svg"));
  CHECK_FALSE(is_there(shop, "sheet-001.json"));
  CHECK(is_there(shop, "earlier-001/sheet-001.svg"));
  CHECK_THAT(all_of_it(done(shop.history("sheet-001")).told), Contains("it has no files any more"));
  check_sound(shop);
  done(shop.undo("1042-1"));
  CHECK(shop.state("1042-1") == "on sheet");
  CHECK(items_in(shop, "sheet-001") == Items{"1042-1 in 1"});
  check_sound(shop);
}

TEST_CASE("a sheet that cannot be written anew is told as stale by the command, the list, the history and check") {
  const LedgerShop shop;
  lay_three(shop);
  shop.write("templates/slate.toml",
             "[blank]\nwidth = 60\nheight = 40\n[clear]\nmargin = 3\n[text]\ncap_height = { min = 2, max = 11 }\n");
  const Account held = done(shop.correct(What::hold, "1043-1", "no"));
  CHECK(shop.state("1043-1") == "held");
  CHECK_THAT(all_of_it(held.warnings), Contains("sheet-001 is stale: its files show 1043-1") &&
                                           Contains("design slate has changed since sheet-001"));
  CHECK_THAT(all_of_it(done(shop.list()).warnings), Contains("sheet-001 is stale"));
  CHECK_THAT(all_of_it(done(shop.history("sheet-001")).warnings), Contains("sheet-001 is stale"));
  const Account checked = done(shop.check());
  REQUIRE(checked.held.size() == 1);
  CHECK(checked.held[0].id == "sheet-001");
  // Nothing tries again in vain; what is still on it can be booked, and with that it is over.
  CHECK(done(shop.correct(What::first, "1043-1")).warnings.empty());
}

TEST_CASE("an interrupted bed's own files go aside: the rest has a sheet of its own") {
  const LedgerShop shop;
  lay_three(shop);
  done(shop.words("1042-1", "Ida"));
  done(shop.resume("1", "2"));
  CHECK_FALSE(is_there(shop, "sheet-001.svg"));
  CHECK(items_in(shop, "rest-002") == Items{"1044-1 in 3"});
  check_sound(shop);
  // What was engraved is made again as it was, from the files that were moved aside.
  const std::string hash = shop.placement("1043-1")->hash;
  done(shop.remake("1043-1"));
  CHECK(shop.placement("1043-1")->hash == hash);
  check_sound(shop);
}

}  // namespace ordinatio::sheet_files_test
