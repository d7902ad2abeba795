// Items' numbers where they are typed and where they are told: in a workshop as it is new.
#include "bed/item_number.h"

#include <unistd.h>

#include <catch2/catch.hpp>

#include "base/account.h"
#include "shop/day.h"
#include "shop/proof.h"
#include "shop/remake.h"
#include "shop/shop.h"
#include "shop/stands.h"

namespace ordinatio::item_numbers_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

class NewShop {
 public:
  NewShop() : folder_(fs::temp_directory_path() / ("ordinatio-numbers-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    REQUIRE_FALSE(new_shop(folder_));
    shop_ = *read_shop(folder_);
  }
  ~NewShop() { fs::remove_all(folder_); }
  NewShop(const NewShop&) = delete;
  NewShop& operator=(const NewShop&) = delete;

  [[nodiscard]] const Shop& shop() const { return shop_; }
  [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_ / name; }
  [[nodiscard]] DayOptions day(const std::string& orders) const {
    REQUIRE_FALSE(write_file(folder_ / "some.csv", orders));
    DayOptions options;
    options.orders = folder_ / "some.csv", options.out = folder_ / "day", options.pdf = false;
    return options;
  }
  Result<Account> proof(const std::string& item) const {
    return run_proof(shop_, {folder_ / "orders.csv", folder_ / "proofs", {}, {item}, ""});
  }

 private:
  fs::path folder_;
  Shop shop_;
};

/// The number with a check character that is not its own.
std::string wrongly_checked(const std::string& item) {
  std::string typed = with_check(item);
  typed.back() = typed.back() == 'A' ? 'B' : 'A';
  return typed;
}

}  // namespace

TEST_CASE("proofs are asked for by numbers with their check character or without") {
  const NewShop workshop;
  CHECK(workshop.proof("1001-1").ok());
  CHECK(workshop.proof(" " + with_check("1001-1")).ok());
  const Result<Account> wrong = workshop.proof(wrongly_checked("1001-1"));
  REQUIRE_FALSE(wrong.ok());
  CHECK(wrong.fault().where == "--item");
  CHECK_THAT(wrong.fault().what, Contains("the check character of 1001-1 is not "));
  const Result<Account> unknown = workshop.proof(with_check("77-1"));
  REQUIRE_FALSE(unknown.ok());
  CHECK(unknown.fault().what == "there is no item 77-1");
}

TEST_CASE("an item is remade by its number with the check character, into files of the bare number") {
  const NewShop workshop;
  DayOptions day;
  day.orders = workshop / "orders.csv", day.out = workshop / "day", day.pdf = false;
  REQUIRE(run_day(workshop.shop(), day).ok());
  RemakeOptions options{with_check("1001-1"), workshop / "day/sheet-001.json", workshop / "remake", {}, {}};
  const Result<Account> made = run_remake(workshop.shop(), options);
  REQUIRE(made.ok());
  CHECK(made->smallest_item == "1001-1");
  CHECK(made->smallest_is_numbered);
  CHECK(fs::exists(workshop / "remake/remake-1001-1.json"));
  options.item = wrongly_checked("1001-1"), options.out = workshop / "again";
  const Result<Account> wrong = run_remake(workshop.shop(), options);
  REQUIRE_FALSE(wrong.ok());
  CHECK_THAT(wrong.fault().what, Contains("the check character of 1001-1 is not "));
  CHECK_FALSE(fs::exists(workshop / "again"));
}

TEST_CASE("the account tells which of what is held is an item, and its number stays bare there") {
  const NewShop workshop;
  const auto account = run_day(workshop.shop(), workshop.day("Order,Text,Quantity\n7,Happy 😀 birthday,1\n"
                                                             "2026-11,A,none\n8,Rowan Cottage,1\n"));
  REQUIRE(account.ok());
  REQUIRE(account->held.size() == 2);
  CHECK(account->held[0].id == "2026-11");  // an order's number, though it looks like an item's
  CHECK_FALSE(account->held[0].is_item);
  CHECK(account->held[1].id == "7-1");
  CHECK(account->held[1].is_item);
  CHECK(account->smallest_item == "8-1");
  CHECK(account->smallest_is_numbered);
  const auto stands = run_stands(workshop.shop(), {2, "2026-11-25", "", workshop / "stands"});
  REQUIRE(stands.ok());
  CHECK_FALSE(stands->smallest_is_numbered);
}

}  // namespace ordinatio::item_numbers_test
