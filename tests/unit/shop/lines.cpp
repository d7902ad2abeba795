// Hatched designs, lettering in strokes and settings cards, by the commands that make files of them.
#include <unistd.h>

#include <catch2/catch.hpp>

#include "base/account.h"
#include "bed/settings_card.h"
#include "check/check.h"
#include "shop/day.h"
#include "shop/proof.h"
#include "shop/remake.h"
#include "shop/settings_card.h"
#include "shop/shop.h"
#include "write/write.h"

namespace ordinatio::lines_in_shop_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

class LineShop {
 public:
  LineShop() : folder_(fs::temp_directory_path() / ("ordinatio-lines-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    REQUIRE_FALSE(new_shop(folder_));
    put("orders.csv", "Order,Text,Quantity,Design\n1,Quernby Mill,1,strokes\n2,Leat House,1,house-number\n");
    put("templates/strokes.toml",
        "[blank]\nwidth = 100\nheight = 60\n[[text]]\nfont = \"stroke\"\n[[border]]\nwidth = 1\n");
  }
  ~LineShop() { fs::remove_all(folder_); }
  LineShop(const LineShop&) = delete;
  LineShop& operator=(const LineShop&) = delete;

  void put(const std::string& name, const std::string& text) const { REQUIRE_FALSE(write_file(folder_ / name, text)); }
  void add_to_shop(const std::string& text) const { put("shop.toml", *read_file(folder_ / "shop.toml") + text); }
  [[nodiscard]] Shop shop() const {
    Result<Shop> read = read_shop(folder_);
    if (!read.ok()) FAIL(describe(read.fault()));
    return *std::move(read);
  }
  [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_ / name; }

 private:
  fs::path folder_;
};

Account good(const Result<Account>& account) {
  if (!account.ok()) FAIL(describe(account.fault()));
  for (const HeldItem& held : account->held) FAIL_CHECK(held.id << ": " << describe(held.fault));
  return *account;
}

DayOptions day_of(const LineShop& folder) {
  DayOptions options;
  options.orders = folder / "orders.csv";
  options.out = folder / "out";
  return options;
}

std::string all_files(const LineShop& folder, const std::string& ending) {
  std::string bytes;
  for (const auto& entry : fs::directory_iterator(folder / "out")) {
    if (entry.path().extension() == ending) bytes += *read_file(entry.path());
  }
  return bytes;
}

}  // namespace

TEST_CASE("a shop's hatch makes lines of every design: files pass as ever, proofs and remakes are of the lines") {
  const LineShop folder;
  folder.add_to_shop("\n[hatch]\npitch = 0.4\n");
  good(run_day(folder.shop(), day_of(folder)));
  CHECK_THAT(all_files(folder, ".svg"), Contains("score-1-1") && Contains("score-2-1") && !Contains("engrave"));
  ProofOptions proofs;
  proofs.orders = folder / "orders.csv";
  proofs.out = folder / "proofs";
  good(run_proof(folder.shop(), proofs));
  const std::string svg = all_files(folder, ".svg");
  const std::size_t sheet = svg.find("score-2-1") < svg.find("score-1-1") ? 1 : 2;
  RemakeOptions again{"2-1", folder / ("out/sheet-00" + std::to_string(sheet) + ".json"), folder / "again", {}, {}};
  Result<Account> remade = run_remake(folder.shop(), again);
  if (!remade.ok()) again.manifest = folder / ("out/sheet-00" + std::to_string(3 - sheet) + ".json");
  good(run_remake(folder.shop(), again));
}

TEST_CASE("a sheet in strokes has open lines on score, half the machine's spot inside the room") {
  const LineShop folder;
  good(run_day(folder.shop(), day_of(folder)));
  CHECK_THAT(all_files(folder, ".svg"), Contains("score-1-1") && Contains("engrave-1-1") && Contains("engrave-2-1"));
  CHECK_THAT(all_files(folder, ".dxf"), Contains("SCORE"));
}

TEST_CASE("a settings card is written, read back, and told by its layers") {
  const LineShop folder;
  folder.add_to_shop("\n[settings_card]\nsize = \"80x60\"\nspeed = \"100, 200 mm/s\"\npower = \"20, 40 %\"\n");
  const Account account = good(run_settings_card(folder.shop(), {"", "", "", "", "", "", folder / "out"}));
  CHECK(account.items_set == 4);
  CHECK_THAT(all_files(folder, ".dxf"), Contains("SPEED_200MM-S_POWER_40PC"));
  CHECK_THAT(all_files(folder, ".svg"), Contains("<title>speed 200 mm/s, power 40 %</title>"));
  // Two given on the command line stand for all that the file says.
  const Account given = good(run_settings_card(folder.shop(), {"", "30 %", "0.1, 0.2", "", "", "", folder / "other"}));
  CHECK(given.items_set == 2);
}

TEST_CASE("a cell on another cell's layer, or on its operation's, does not pass") {
  const Sheet sheet = *build_settings_card(
      {80, 60, *read_trial_values("speed", "100, 200 mm/s"), *read_trial_values("power", "20, 40 %"), {}}, BedPlan{});
  for (const DxfVersion version : {DxfVersion::r12, DxfVersion::r2000}) {
    const std::string dxf = write_dxf(sheet, {version, 0.01});
    const SheetModel model(sheet);
    CHECK_FALSE(check_dxf(dxf, model, 0.01));
    for (const char* other : {"SPEED_100MM-S_POWER_20PC", "ENGRAVE"}) {
      std::string moved = dxf;
      const std::string own = "SPEED_200MM-S_POWER_40PC";
      for (std::size_t at = moved.find(own, moved.find("ENTITIES")); at != std::string::npos;
           at = moved.find(own, at)) {
        moved.replace(at, own.size(), other);
      }
      CHECK(check_dxf(moved, model, 0.01));
    }
  }
}

TEST_CASE("a card on a piece keeps off what is on it, and a used or unknown piece is refused by name") {
  const LineShop folder;
  folder.put("blanks.csv",
             "id,width,height,keep_clear,used\nS-1,80,60,,\nS-2,80,60,old stamp 30 20 20 10,\nS-3,80,60,,a test\n");
  const auto card_on = [&](const char* blank) {
    return run_settings_card(folder.shop(),
                             {"100, 200 mm/s", "20, 40 %", "", "", blank, folder / "blanks.csv", folder / "out"});
  };
  CHECK(card_on("S-1").ok());
  const std::pair<const char*, const char*> refused[] = {
      {"S-2", "kept clear"}, {"S-3", "is used"}, {"S-4", "no piece is called"}};
  for (const auto& [blank, told] : refused) {
    const Result<Account> account = card_on(blank);
    REQUIRE_FALSE(account.ok());
    CHECK_THAT(describe(account.fault()), Contains(told));
  }
}

}  // namespace ordinatio::lines_in_shop_test
