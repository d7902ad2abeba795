// What goes into the parcels, from the ledger: papers and codes that book nothing.
#include "ledger_shop.h"
#include "shop/packing.h"
#include "shop/plates.h"

namespace ordinatio::parcels_test {
using Catch::Contains;
using What = CorrectionOptions::What;
namespace fs = std::filesystem;

namespace {

const std::string head = "Order,Text,Quantity,Design,Note,Name\n";

/// Order 1042 is engraved but for one piece that is held; of 1043 nothing is laid; 1044 is packed.
void engrave(const LedgerShop& shop) {
  shop.measure(8);
  done(shop.intake(head + "1042,Ada,3,,wrap it,Marigold\n1044,Bert,1,,,\n"));
  done(shop.correct(What::hold, "1042-3", "to be asked"));
  done(shop.day());
  done(shop.engraved("sheet-001"));
  done(shop.intake(head + "1043,Cleo,1,,,\n", "later.csv"));
  done(shop.pack("1044-1"));
}

Result<Account> packing(const LedgerShop& shop, const std::vector<std::string>& orders = {}) {
  return run_packing(shop.shop(), {shop.call("packing"), orders, PaperSize::a4, shop / "out/packing"});
}
Result<Account> labels(const LedgerShop& shop, const std::vector<std::string>& items = {}, int first = 1) {
  return run_labels(shop.shop(), {shop.call("labels"), items, first, shop / "out/packing"});
}
Result<Account> plates(const LedgerShop& shop, const std::vector<std::string>& items = {}, const PlateWish& wish = {}) {
  return run_plates(shop.shop(), {shop.call("plates"), items, wish, shop / "out/packing"});
}
std::string ledger_bytes(const LedgerShop& shop) { return *read_file(shop.ledger_file()); }

}  // namespace

TEST_CASE("a packing list, labels and plates are made of what is engraved and not packed, and nothing is booked") {
  const LedgerShop shop;
  engrave(shop);
  const std::string before = ledger_bytes(shop);
  CHECK_THAT(done(packing(shop)).told.at(0),
             Contains("1 order, 2 pieces to pack; of 1 order something is still missing"));
  CHECK_THAT(done(labels(shop)).told.at(0), Contains("2 labels"));
  CHECK(done(plates(shop)).items_set == 2);
  for (const char* file : {"packing.pdf", "labels.pdf", "plates-001.svg", "plates-001.dxf", "plates-001.json"}) {
    INFO(file);
    CHECK(fs::is_regular_file(shop / "out/packing" / file));
  }
  CHECK(ledger_bytes(shop) == before);
}

TEST_CASE("orders and items that are named are taken whatever they wait for, and unknown ones are refused") {
  const LedgerShop shop;
  engrave(shop);
  CHECK_THAT(done(packing(shop, {"1043"})).warnings.at(0), Contains("nothing of order 1043 is engraved"));
  CHECK_THAT(packing(shop, {"1099"}).fault().what, Contains("no order 1099"));
  CHECK_THAT(done(labels(shop, {"1043-1", "1044-1", "1043-1"})).told.at(0), Contains("2 labels"));
  CHECK_THAT(labels(shop, {"1049-1"}).fault().what, Contains("no item 1049-1"));
  CHECK_THAT(labels(shop, {"1043-1/?"}).fault().what, Contains("1043-1"));
  CHECK(labels(shop, {}, 99).fault().where == "--from");
}

TEST_CASE("a piece whose picture does not come out as it was is packed by its words, and that is told") {
  const LedgerShop shop;
  engrave(shop);
  shop.write("templates/slate.toml", "[blank]\nwidth = 60\nheight = 40\n[clear]\nmargin = 5\n[text]\n");
  const Account account = done(packing(shop));
  CHECK_THAT(account.warnings.at(0), Contains("1042-1") && Contains("no picture"));
  CHECK(account.files.size() == 1);
}

namespace {

constexpr const char* address_head = "Order,Text,Date,Street,Town,Customer\n";

Shop with_addresses(const LedgerShop& shop) {
  Shop reads = shop.shop();
  reads.orders.columns.address = {"Street", "Town"};
  return reads;
}
Account take_in(const LedgerShop& shop, const std::string& rows, const std::string& name) {
  shop.write(name, address_head + rows);
  return done(run_intake(with_addresses(shop), {shop.call("intake " + name), shop / name, "", false}));
}
LedgerLine line_of_item(const LedgerShop& shop, const std::string& number) {
  auto ledger = open_ledger(shop.shop(), shop.call("look"), Ledger::Access::read);
  return *(*ledger)->line((*ledger)->item_numbered(number)->line);
}

}  // namespace

TEST_CASE(
    "a row's date and address are kept; a new address is told and asks nothing, and no older file brings one back") {
  const LedgerShop shop;
  take_in(shop, "1042,Ada,2 May,1 Weir Lane,Quernby,Marigold\n", "may.csv");
  CHECK(line_of_item(shop, "1042-1").ordered == "2 May");
  CHECK(line_of_item(shop, "1042-1").address == "1 Weir Lane\nQuernby");
  const Account moved = take_in(shop, "1042,Ada,2 May,9 Ford End,Quernby,Marigold\n", "june.csv");
  CHECK_THAT(all_of_it(moved.told), Contains("order 1042 goes to another address now") && Contains("9 Ford End"));
  CHECK(line_of_item(shop, "1042-1").address == "9 Ford End\nQuernby");
  take_in(shop, "1042,Ada,2 May,1 Weir Lane,Quernby,Marigold\n", "may.csv");
  CHECK(line_of_item(shop, "1042-1").address == "9 Ford End\nQuernby");
  take_in(shop, "1042,Ada,,,,Marigold\n", "without.csv");
  CHECK(line_of_item(shop, "1042-1").address == "9 Ford End\nQuernby");
  CHECK(line_of_item(shop, "1042-1").ordered == "2 May");
}

TEST_CASE("a packing list says who a parcel is for only where the workshop wants it") {
  const auto list = [](const std::string& rows, bool name, bool address) {
    const LedgerShop shop;
    shop.measure(2);
    take_in(shop, rows, "export.csv");
    done(shop.day());
    done(shop.engraved("sheet-001"));
    Shop wants = shop.shop();
    wants.packing = {name, address};
    done(run_packing(wants, {shop.call("packing"), {}, PaperSize::a4, shop / "out/packing"}));
    return *read_file(shop / "out/packing/packing.pdf");
  };
  const std::string known = "1042,Ada,,1 Weir Lane,Quernby,Marigold\n", unknown = "1042,Ada,,,,\n";
  CHECK(list(known, false, false) == list(unknown, true, true));
  CHECK(list(known, false, true) == list("1042,Ada,,1 Weir Lane,Quernby,\n", true, true));
  CHECK(list(known, true, false) == list("1042,Ada,,,,Marigold\n", true, true));
  CHECK(list(known, true, true) != list(known, true, false));
  CHECK(list(known, true, true) == list("1042,&#65;da,,1 Weir Lane,Quernby,Mari&#103;old\n", true, true));
}

TEST_CASE("where nothing is engraved there is nothing to pack, and no file") {
  const LedgerShop shop;
  shop.measure(3);
  done(shop.intake(head + "1042,Ada,1,,,\n"));
  for (const auto& account : {packing(shop), labels(shop), plates(shop)}) {
    CHECK_THAT(done(account).told.at(0), Contains("nothing is engraved"));
    CHECK(account->files.empty());
  }
}

TEST_CASE("a plate whose modules are finer than three spots of the beam is refused with the least size") {
  const LedgerShop shop;
  engrave(shop);
  PlateWish wish;
  wish.size = 8.6;
  CHECK_THAT(plates(shop, {}, wish).fault().mend, Contains("8.7 mm"));
  wish.size = 8.7;
  CHECK(plates(shop, {}, wish).ok());
  for (const double size : {0.0, -1.0, 1e9, std::nan("")}) {
    wish.size = size;
    CHECK_FALSE(plates(shop, {}, wish).ok());
  }
}

TEST_CASE("plates are engraved or marked, dark or pale, and the same bytes each time") {
  const LedgerShop shop;
  engrave(shop);
  std::vector<std::string> seen;
  for (const Operation operation : {Operation::mark, Operation::engrave}) {
    for (const bool pale : {false, true}) {
      PlateWish wish;
      wish.operation = operation, wish.pale = pale;
      done(plates(shop, {}, wish));
      const std::string svg = *read_file(shop / "out/packing/plates-001.svg");
      done(plates(shop, {}, wish));
      CHECK(*read_file(shop / "out/packing/plates-001.svg") == svg);
      CHECK(std::ranges::find(seen, svg) == seen.end());
      seen.push_back(svg);
    }
  }
}

TEST_CASE("without a ledger it is said what is needed") {
  LedgerShop shop;
  Shop without = shop.shop();
  without.ledger.clear();
  const auto account = run_packing(without, {shop.call("packing"), {}, PaperSize::a4, shop / "out/packing"});
  REQUIRE_FALSE(account.ok());
  CHECK_THAT(describe(account.fault()), Contains("[ledger]"));
}

}  // namespace ordinatio::parcels_test
