// The file of measured pieces, as the program writes it.
#include "shop/shelf.h"

#include <catch2/catch.hpp>

#include "ledger_shop.h"

namespace ordinatio::shelf_test {
using Catch::Contains;
namespace {

std::string bytes_of(const LedgerShop& shop, const std::string& file = "blanks.csv") {
  const auto bytes = read_file(shop / file);
  return bytes.ok() ? *bytes : "";
}
Result<Account> add(const LedgerShop& shop, const BlankCells& cells) {
  return run_add_blank(shop.shop(), shop.call("add"), cells);
}
Result<Account> change(const LedgerShop& shop, const std::string& id, const BlankCells& cells) {
  return run_change_blank(shop.shop(), shop.call("change"), id, cells);
}
Result<Account> remove(const LedgerShop& shop, const std::string& id) {
  return run_remove_blank(shop.shop(), shop.call("remove"), id);
}

}  // namespace

TEST_CASE("a piece is put on the shelf, laid on by the day, and stays there once something was made on it") {
  const LedgerShop shop;
  shop.measure(1);
  const std::string before = bytes_of(shop);
  done(add(shop, {{"id", "S-2"}, {"outline", "0,0 60,0 60,40 0,38"}, {"note", ""}}));
  CHECK(bytes_of(shop) == "id,width,height,outline\nS-1,,,\nS-2,,,\"0,0 60,0 60,40 0,38\"\n");
  done(shop.intake("Order,Text,Quantity\n1001,Weir,2\n"));
  done(shop.day());
  CHECK(shop.blank_state("S-2") == "reserved");
  const std::string now = bytes_of(shop);
  CHECK_THAT(describe(refused(remove(shop, "S-2"))), Contains("no longer free: reserved by 1001-"));
  CHECK_THAT(describe(refused(change(shop, "S-2", {{"width", "50"}}))), Contains("no longer free"));
  CHECK(bytes_of(shop) == now);
}

TEST_CASE("a piece is taken off the shelf again, and its row alone goes") {
  const LedgerShop shop;
  shop.measure(2);
  const std::string before = bytes_of(shop);
  done(add(shop, {{"id", "S-3"}, {"width", "58"}}));
  done(shop.intake("Order,Text\n1001,Weir\n"));
  done(shop.correct(CorrectionOptions::What::pin, "1001-1", "S-1"));
  done(shop.day());
  CHECK(shop.blank_state("S-3") == "free");  // the ledger has met it
  done(remove(shop, "S-3"));
  CHECK(bytes_of(shop) == before);
  CHECK(shop.check()->held.empty());
}

TEST_CASE("a row that would be held, or an id that is taken, changes nothing") {
  const LedgerShop shop;
  shop.measure(1);
  const std::string before = bytes_of(shop);
  CHECK_THAT(describe(refused(add(shop, {{"id", "S-1"}, {"width", "50"}}))), Contains("is there already"));
  CHECK_THAT(describe(refused(add(shop, {{"id", "S-2"}, {"width", "fifty"}}))), Contains("column \"width\""));
  CHECK_THAT(describe(refused(add(shop, {{"id", "S-2"}, {"material", "glass"}}))), Contains("glass"));
  CHECK_THAT(describe(refused(add(shop, {{"id", ""}}))), Contains("no id"));
  CHECK_THAT(describe(refused(change(shop, "S-7", {{"width", "50"}}))), Contains("no row has the id"));
  CHECK_THAT(describe(refused(remove(shop, "S-1"))), Contains("the only one"));
  CHECK(bytes_of(shop) == before);
  const Account same = done(add(shop, {{"id", "S-1"}, {"width", ""}}));
  CHECK_THAT(same.told.at(0), Contains("already"));
  CHECK(bytes_of(shop) == before);
}

TEST_CASE("rows that are held already hold no other up, and stay") {
  const LedgerShop shop;
  for (const std::string before : {"id,note,width\nS-1,,\nS-2,,fifty\n", "id,note,width\nS-1,,\nS-2,\"open,\n"}) {
    shop.write("blanks.csv", before);
    done(add(shop, {{"id", "S-3"}, {"note", "a \"quoted\" word"}}));
    CHECK(bytes_of(shop) == before + "S-3,\"a \"\"quoted\"\" word\",\n");
  }
}

TEST_CASE("a piece is measured anew") {
  const LedgerShop shop;
  shop.write("blanks.csv", "id,width,chips,note\nS-1,55,top 10-20 4,old\nS-2,,,\n");
  done(change(shop, "S-1", {{"outline", "0,0 60,0 60,40 0,40"}, {"width", ""}, {"chips", ""}}));
  CHECK(bytes_of(shop) == "id,width,chips,note,outline\nS-1,,,old,\"0,0 60,0 60,40 0,40\"\nS-2,,,,\n");
}

TEST_CASE("the first piece begins the file, and shop.toml names it, cut off before that or not") {
  const LedgerShop shop(false);
  if (GENERATE(false, true)) shop.write("blanks.csv", "id,width\nS-1,58\n");
  const Account account = done(add(shop, {{"id", "S-1"}, {"width", "58"}}));
  CHECK_THAT(all_of_it(account.warnings), Contains("measured pieces alone"));
  CHECK(bytes_of(shop) == "id,width\nS-1,58\n");
  const auto again = read_shop((shop / "shop.toml").parent_path());
  REQUIRE(again.ok());
  CHECK(again->blanks.file == "blanks.csv");
}

TEST_CASE("while another command has the ledger the file stays as it is") {
  const LedgerShop shop;
  shop.measure(1);
  done(shop.intake("Order,Text\n1001,Weir\n"));
  const std::string before = bytes_of(shop);
  {
    const auto other =
        Ledger::open({shop.ledger_file(), shop.call("").now, "day", 0, false, ""}, Ledger::Access::write);
    REQUIRE(other.ok());
    refused(add(shop, {{"id", "S-2"}}));
    CHECK(bytes_of(shop) == before);
  }
  done(add(shop, {{"id", "S-2"}, {"note", "x"}}));
}

}  // namespace ordinatio::shelf_test
