// Stands with and without serial numbers: by the work of the commands, in a workshop as it is new.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <set>

#include "base/account.h"
#include "check/check.h"
#include "manifest/manifest.h"
#include "shop/remake.h"
#include "shop/shop.h"
#include "shop/stands.h"

namespace ordinatio::stands_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

constexpr const char* numbered_stand = R"(
[blank]
width = 60
height = 30
[clear]
margin = 3
[[text]]
number = "serial"
before = "No. "
font = "sans"
box = [5, 5, 50, 20]
cap_height = { min = 2, max = 6 }
)";

class StandShop {
 public:
  StandShop() : folder_(fs::temp_directory_path() / ("ordinatio-stands-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    REQUIRE_FALSE(new_shop(folder_));
    REQUIRE_FALSE(write_file(folder_ / "templates/numbered.toml", numbered_stand));
    shop_ = *read_shop(folder_);
  }
  ~StandShop() { fs::remove_all(folder_); }
  StandShop(const StandShop&) = delete;
  StandShop& operator=(const StandShop&) = delete;

  [[nodiscard]] const Shop& shop() const { return shop_; }
  [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_ / name; }
  Result<Account> stands(int count, const std::string& design, std::optional<int> first_number) const {
    return run_stands(shop_, {count, "2026-11-25", design, folder_ / "stands", first_number});
  }
  /// What lies on all sheets, in order.
  [[nodiscard]] std::vector<ManifestItem> items(const Account& account) const {
    std::vector<ManifestItem> all;
    for (const fs::path& file : account.files) {
      if (file.extension() != ".json") continue;
      const auto manifest = read_manifest(*read_file(file), file.string());
      if (!manifest.ok()) FAIL(describe(manifest.fault()));
      all.insert(all.end(), manifest->items.begin(), manifest->items.end());
    }
    return all;
  }

 private:
  fs::path folder_;
  Shop shop_;
};

}  // namespace

TEST_CASE("stands are numbered one after the other, in three digits or more, each with an artwork of its own") {
  const StandShop workshop;
  const auto account = workshop.stands(4, "numbered", 998);
  if (!account.ok()) FAIL(describe(account.fault()));
  CHECK(account->items_set == 4);
  CHECK(account->notes.empty());
  std::vector<std::string> told;
  std::set<std::string> hashes;
  for (const ManifestItem& item : workshop.items(*account)) {
    told.push_back(item.item.id + " " + item.item.number);
    hashes.insert(item.hash);
  }
  CHECK(told == std::vector<std::string>{"stand-998 998", "stand-999 999", "stand-1000 1000", "stand-1001 1001"});
  CHECK(hashes.size() == 4);
}

TEST_CASE("a numbered stand is what its number alone makes it, wherever in the run it comes") {
  const StandShop workshop;
  const auto many = workshop.stands(40, "numbered", 1);
  REQUIRE(many.ok());
  const std::vector<ManifestItem> all = workshop.items(*many);
  REQUIRE(all.size() == 40);
  CHECK(all[6].item.number == "007");
  const auto one = workshop.stands(1, "numbered", 7);
  REQUIRE(one.ok());
  CHECK(workshop.items(*one).at(0).hash == all[6].hash);
  CHECK(many->smallest_cap_height > 0);
}

TEST_CASE("a numbered stand is remade with its number") {
  const StandShop workshop;
  REQUIRE(workshop.stands(3, "numbered", 7).ok());
  const auto remade =
      run_remake(workshop.shop(), {"stand-008", workshop / "stands/stands-001.json", workshop / "remake", {}, {}});
  if (!remade.ok()) FAIL(describe(remade.fault()));
  CHECK(workshop.items(*remade).at(0).item.number == "008");
  CHECK_FALSE(remade->smallest_is_numbered);  // no order's number, and no check character
}

TEST_CASE("a design with a serial number wants the first, and nothing is written without it") {
  const StandShop workshop;
  const auto account = workshop.stands(3, "numbered", {});
  REQUIRE_FALSE(account.ok());
  CHECK(account.fault().what == "no serial number is given");
  CHECK_THAT(account.fault().mend, Contains("--first-number"));
  CHECK_FALSE(fs::exists(workshop / "stands"));
}

TEST_CASE("stands without a place for a number are alike, and a number that has no use is told") {
  const StandShop workshop;
  const auto plain = workshop.stands(3, "", {});
  REQUIRE(plain.ok());
  CHECK(plain->notes.empty());
  const auto noted = workshop.stands(3, "", 7);
  REQUIRE(noted.ok());
  CHECK(noted->notes == std::vector<std::string>{"--first-number has no use: design stand-words has no place for one"});
  const std::vector<ManifestItem> items = workshop.items(*noted);
  REQUIRE(items.size() == 3);
  CHECK(items[0].item.id == "stand-001");
  CHECK(items[0].item.number.empty());
  CHECK(items[0].hash == items[2].hash);
}

TEST_CASE("no stand bears a number below 1 or over six digits") {
  const StandShop workshop;
  for (const int first : {0, -5, 1'000'000, 999'998}) {
    const auto account = workshop.stands(3, "numbered", first);
    INFO(first);
    REQUIRE_FALSE(account.ok());
    CHECK(account.fault().where == "--first-number");
    CHECK(account.fault().mend == "Give a number from 1 to 999997");
  }
  CHECK(workshop.stands(3, "numbered", 999'997).ok());
}

}  // namespace ordinatio::stands_test
