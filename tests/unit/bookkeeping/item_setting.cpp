// One item set otherwise than its design says, from the ledger through a day, a proof and a remake.
#include "ledger_shop.h"
#include "shop/align.h"
#include "shop/trial.h"

namespace ordinatio::item_setting_test {
using Catch::Contains;
using What = CorrectionOptions::What;

namespace {

const std::string head = "Order,Text,Quantity,Design\n";
constexpr const char* day_of_work = "2026-11-25";

Result<Account> set(const LedgerShop& shop, const std::string& item, const std::string& wish, bool anew = false) {
  CorrectionOptions options;
  options.call = shop.call("set " + item), options.item = item, options.what = What::setting;
  options.setting = kept_setting(wish), options.as_designed = anew;
  return run_correction(shop.shop(), options);
}

ManifestItem made(const LedgerShop& shop, const std::string& sheet, const std::string& number) {
  for (const ManifestItem& item : shop.manifest(sheet).items) {
    if (item.item.id == number) return item;
  }
  FAIL(number + " is not on " + sheet);
  return {};
}

void check_sound(const LedgerShop& shop) {
  const Account checked = done(shop.check());
  CAPTURE(all_of_it(checked.told));
  CHECK(checked.held.empty());
}

/// The artwork's hash that the desk shows for the item as the ledger has it.
std::string tried_hash(const LedgerShop& shop, const std::string& number) {
  const LedgerItem item = shop.item(number);
  TrialBench bench(shop.shop());
  const auto ledger = shop.read_ledger();
  const auto placement = ledger->placement_of(item.id);
  const Trial trial{item.words,
                    item.design,
                    placement ? placement->blank : "",
                    day_of_work,
                    bench.told(*ledger, item),
                    kept_setting(item.setting)};
  const auto tried = bench.set(trial);
  if (!tried.ok()) FAIL(describe(tried.fault()));
  CHECK_FALSE(tried->held);
  return tried->artwork->hash;
}

}  // namespace

TEST_CASE("each wish is kept, laid, written into the manifest, and the same as the desk tries it") {
  const bool measured = GENERATE(true, false);
  const LedgerShop shop(measured);
  if (measured) shop.measure(8);
  shop.write(
      "templates/parting.toml",
      "[blank]\nwidth = 60\nheight = 40\n[clear]\nmargin = 3\n[text]\nline_breaks = \"free\"\ncap_height = { min = "
      "2, max = 12 }\n");
  done(shop.intake(head + "1042,Ada,5,\n1043,For Ines and Tomasz,2,parting\n"));
  done(set(shop, "1042-2", "size 5"));
  done(set(shop, "1042-3", "size 5; nudge 2,-1.5"));
  done(set(shop, "1042-4", "design asked"));
  done(set(shop, "1042-5", "design parting, face sans"));
  done(set(shop, "1043-2", "lines kept"));
  CHECK(done(shop.day()).sheets > 0);
  CHECK(shop.state("1042-4") == "ready");  // its new design wants the customer's yes
  const auto of = [&](const std::string& number) {
    return made(shop, shop.read_ledger()->sheet(shop.placement(number)->sheet)->name, number);
  };
  CHECK(of("1042-1").item.setting.is_plain());
  CHECK(of("1042-1").cap_height > 6);
  CHECK(of("1042-2").cap_height == Approx(5).epsilon(1e-9));
  CHECK(setting_text(of("1042-3").item.setting) == "size 5; nudge 2,-1.5");
  const Point way = of("1042-3").placement.shift - of("1042-2").placement.shift;
  CHECK(length(way - Point{2, -1.5}) < 1e-9);
  CHECK(of("1042-5").item.design == "parting, face sans");
  CHECK(of("1043-1").lines.size() > 1);
  CHECK(of("1043-2").lines == std::vector<std::string>{"For Ines and Tomasz"});
  for (const char* number : {"1042-1", "1042-2", "1042-3", "1042-5", "1043-1", "1043-2"}) {
    CAPTURE(number);
    CHECK(of(number).hash == tried_hash(shop, number));
  }
  check_sound(shop);
}

TEST_CASE("a manifest without wishes has no word of them") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,1,\n"));
  done(shop.day());
  CHECK_THAT(*read_file(shop / "out/sheets/sheet-001.json"), !Contains("\"wish\""));
}

TEST_CASE("what was wished is drawn again by remake, align and the renewal of its sheet") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,3,\n"));
  done(set(shop, "1042-1", "size 5; nudge 2,-1.5"));
  done(shop.day());
  const std::string hash = made(shop, "sheet-001", "1042-1").hash;
  done(shop.correct(What::hold, "1042-3", "asked"));
  CHECK(made(shop, "sheet-001", "1042-1").hash == hash);
  CHECK(setting_text(made(shop, "sheet-001", "1042-1").item.setting) == "size 5; nudge 2,-1.5");

  AlignOptions align;
  align.manifest = "sheet-001", align.call = shop.call("align");
  for (const Point mark : shop.manifest("sheet-001").marks) {
    std::string& place = align.measured.emplace_back();
    append_number(place, mark.x + 0.1, 3);
    place += ',';
    append_number(place, mark.y, 3);
  }
  done(run_align(shop.shop(), align));
  CHECK(made(shop, "sheet-001-aligned", "1042-1").hash == hash);

  done(shop.engraved("sheet-001"));
  done(shop.remake("1042-1"));
  const std::string again = shop.read_ledger()->sheet(shop.placement("1042-1")->sheet)->name;
  CHECK(made(shop, again, "1042-1").hash == hash);
  done(shop.engraved(again));
  RemakeOptions other;
  other.item = "1042-1", other.text = "Adah";
  done(shop.remake(other));
  const std::string anew = shop.read_ledger()->sheet(shop.placement("1042-1")->sheet)->name;
  CHECK(made(shop, anew, "1042-1").cap_height == Approx(5).epsilon(1e-9));
  CHECK(setting_text(made(shop, anew, "1042-1").item.setting) == "size 5; nudge 2,-1.5");
  check_sound(shop);
}

TEST_CASE("an item that lies on a sheet comes off it, with the pocket said, and undo lays it there again as it was") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,2,\n"));
  done(shop.day());
  const std::string hash = shop.placement("1042-1")->hash;
  const Account account = done(set(shop, "1042-1", "size 5"));
  CHECK_THAT(all_of_it(account.warnings), Contains("1042-1 comes off sheet-001, pocket 1: do not engrave it there"));
  CHECK_THAT(all_of_it(account.told), Contains("is set as wished: size 5"));
  CHECK(shop.state("1042-1") == "received");
  CHECK(shop.manifest("sheet-001").items.size() == 1);
  CHECK_THAT(all_of_it(done(set(shop, "1042-1", "size 5")).told), Contains("is set so already"));
  done(shop.undo("1042-1"));
  CHECK(shop.item("1042-1").setting.empty());
  CHECK(shop.state("1042-1") == "on sheet");
  CHECK(made(shop, "sheet-001", "1042-1").hash == hash);
  CHECK_THAT(all_of_it(done(shop.history("1042-1")).told), Contains("set as wished: \"size 5\""));
  check_sound(shop);
}

TEST_CASE("a yes counts for the setting that was shown, and for no other") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,1,asked\n"));
  done(shop.proof());
  done(shop.approve("1042-1"));
  done(set(shop, "1042-1", "nudge 1,0; size 8"));
  CHECK(shop.state("1042-1") == "received");
  CHECK(done(shop.day()).sheets == 0);
  done(shop.proof());
  CHECK(shop.item("1042-1").proofed_hash == tried_hash(shop, "1042-1"));
  done(shop.approve("1042-1"));
  CHECK(done(shop.day()).sheets == 1);
  CHECK(made(shop, "sheet-001", "1042-1").hash == tried_hash(shop, "1042-1"));
}

TEST_CASE("what a design cannot do is refused with the mend, and changes nothing") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,1,\n1043,Eva,1,\n"));
  const std::pair<std::string, std::string> cases[] = {
      {"size 1", "it allows from 2 mm to 12 mm"},
      {"size 13", "it allows from 2 mm to 12 mm"},
      {"size 5; nudge 50,0", "Move them by no more than"},
      {"design slat", "Did you mean \"slate\"?"},
      {"", "nothing is wished"},
  };
  for (const auto& [wish, why] : cases) {
    INFO(wish);
    CHECK_THAT(describe(refused(set(shop, "1042-1", wish))), Contains(why));
    CHECK(shop.item("1042-1").setting.empty());
  }
  done(shop.day());
  done(shop.engraved("sheet-001"));
  CHECK(refused(set(shop, "1042-1", "size 5")).what == "it is too late for that");
}

TEST_CASE("words too wide for where they were nudged are held by the day and say how far they may go") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,1,\n"));
  done(set(shop, "1042-1", "size 5; nudge 15,0"));
  done(shop.words("1042-1", "The Old Mill"));
  const Account day = done(shop.day());
  REQUIRE(day.held.size() == 1);
  CHECK_THAT(describe(day.held[0].fault), Contains("Move them by no more than"));
  CHECK(shop.state("1042-1") == "held");
  done(set(shop, "1042-1", "", true));
  CHECK(done(shop.day()).sheets == 1);
}

TEST_CASE("a piece is chosen for what is wished of the item") {
  const LedgerShop shop;
  shop.write("blanks.csv", "id,width,height\nS-1,58,40\nS-2,60,40\n");
  done(shop.intake(head + "1042,Ada,1,\n1043,Eva,1,\n"));
  const Account far = done(set(shop, "1042-1", "size 5; nudge 50,0"));
  REQUIRE(far.warnings.size() == 1);  // a larger piece might take it
  const std::string before = "Move them by no more than ", &warning = far.warnings[0];
  REQUIRE_THAT(warning, Contains(before));
  const std::size_t begin = warning.find(before) + before.size();
  const std::string told = warning.substr(begin, warning.find(" mm", begin) - begin);
  done(set(shop, "1042-1", "nudge " + told));
  done(shop.day());
  REQUIRE(shop.state("1042-1") == "on sheet");
  REQUIRE(shop.state("1043-1") == "on sheet");
  CHECK(shop.placement("1042-1")->blank == "S-2");
  CHECK(shop.placement("1043-1")->blank == "S-1");
}

TEST_CASE("what was wished before stays beside a new wish, and goes where it is taken back") {
  const LedgerShop shop(false);
  done(shop.intake(head + "1042,Ada,1,\n"));
  done(set(shop, "1042-1", "size 5"));
  done(set(shop, "1042-1", "nudge 1,2"));
  CHECK(shop.item("1042-1").setting == "size 5; nudge 1,2");
  done(set(shop, "1042-1", "nudge 0,0"));
  CHECK(shop.item("1042-1").setting == "size 5");
  done(set(shop, "1042-1", "lines kept", true));
  CHECK(shop.item("1042-1").setting == "lines kept");
  done(set(shop, "1042-1", "", true));
  CHECK(shop.item("1042-1").setting.empty());
}

TEST_CASE("an export that changes an item with a setting of its own asks a person, who is told what stays") {
  const LedgerShop shop(false);
  const std::string lines = "Line,Order,Text,Quantity,Design\n";
  done(shop.intake(lines + "a,1042,Ada,1,\n"));
  done(set(shop, "1042-1", "size 5"));
  done(shop.intake(lines + "a,1042,Adah,1,\n", "later.csv"));
  REQUIRE(shop.read_ledger()->open_questions().size() == 1);
  CHECK_THAT(shop.read_ledger()->open_questions()[0].asks, Contains("1042-1 has a setting of its own"));
  const Account taken = done(shop.answer(1, AnswerOptions::Answer::take));
  CHECK_THAT(all_of_it(taken.told), Contains("1042-1 keeps its own setting: size 5"));
  CHECK(shop.item("1042-1").words == "Adah");
  CHECK(shop.item("1042-1").setting == "size 5");
}

}  // namespace ordinatio::item_setting_test
