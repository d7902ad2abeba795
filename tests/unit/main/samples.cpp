// A day in a workshop that keeps a ledger takes in what it is told to, and no invented customers.
#include "ledger_workshop.h"

namespace ordinatio::samples_test {
using Catch::Contains;

TEST_CASE("with a ledger a day without a file lays what waits and takes nothing in, and without one all is as it was") {
  LedgerWorkshop shop;
  shop.write("orders.csv", "Order,Text\n7009,Not Asked For\n");
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n"));
  const std::string day = shop.must(shop.day());
  CHECK_THAT(day, Contains("1 item set on 1 sheet") && Contains("orders.csv is not taken in"));
  CHECK_FALSE(says(shop.at("list").out, "7009"));
  CHECK(shop.at("history 7009-1").code == 2);
  shop.must(shop.at("proof"));
  CHECK(shop.at("history 7009-1").code == 2);
  CHECK_THAT(shop.must(shop.day("orders.csv")), Contains("1 item set"));

  const Workshop files;
  CHECK_THAT(files.run("day --no-dxf --no-pdf").out, Contains("10 items set"));
}

TEST_CASE("the sample orders of a new workshop are not taken into a ledger unless they are asked for") {
  LedgerWorkshop shop;
  const Workshop fresh;
  const std::string samples = fresh.read("orders.csv");
  shop.write("orders.csv", samples);
  // As they ship, and as a spreadsheet saves them between the shop's own.
  const std::string mixed =
      "Order;Text;Quantity;Design\r\n7001;Rose Cottage;1;\r\n1001;\"Rowan Cottage\r\n1874\";1;plaque-landscape\r\n";
  shop.write("mixed.csv", mixed);
  for (const std::string command : {"intake orders.csv", "day orders.csv --no-dxf --no-pdf", "proof orders.csv",
                                    "intake mixed.csv", "intake orders.csv --dry-run"}) {
    const Run refused = shop.at(command);
    INFO(command << refused.out << refused.err);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.err, Contains("1001") && Contains("came with the new workshop") && Contains("--samples"));
    CHECK_FALSE(fs::exists(shop.shop() / "workshop.ledger"));
  }
  CHECK_THAT(shop.must(shop.at("intake orders.csv --samples")), Contains("10 new items of 9 new orders"));
  CHECK_THAT(shop.must(shop.intake("own.csv", "Order,Text\n1001,A customer of our own\n")), Contains("question"));
}

}  // namespace ordinatio::samples_test
