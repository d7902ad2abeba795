// A workshop that keeps no ledger: every command does its work, and nothing of it is remembered.
#include <unistd.h>

#include <catch2/catch.hpp>

#include "base/account.h"
#include "ledger/ledger.h"
#include "manifest/manifest.h"
#include "shop/align.h"
#include "shop/day.h"
#include "shop/proof.h"
#include "shop/remake.h"
#include "shop/shop.h"
#include "shop/stands.h"

namespace ordinatio::without_ledger_test {
namespace fs = std::filesystem;

namespace {

class PlainShop {
 public:
  PlainShop() : folder_(fs::temp_directory_path() / ("ordinatio-plain-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    REQUIRE_FALSE(new_shop(folder_));
    shop_ = *read_shop(folder_);
  }
  ~PlainShop() { fs::remove_all(folder_); }
  PlainShop(const PlainShop&) = delete;
  PlainShop& operator=(const PlainShop&) = delete;

  [[nodiscard]] const Shop& shop() const { return shop_; }
  [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_ / name; }
  [[nodiscard]] Result<Account> day() const {
    DayOptions options;
    options.pdf = options.dxf = false;
    return run_day(shop_, options);
  }
  [[nodiscard]] Result<Account> align() const {
    AlignOptions options;
    options.manifest = folder_ / "out/orders/sheet-001.json";
    const auto manifest = read_manifest(*read_file(options.manifest), "sheet-001.json");
    REQUIRE(manifest.ok());
    for (const Point mark : manifest->marks) {
      std::string& place = options.measured.emplace_back();
      append_number(place, mark.x, 3);
      place += ',';
      append_number(place, mark.y, 3);
    }
    return run_align(shop_, options);
  }
  /// The files of the whole folder that a ledger would leave: itself, its lock, its journal.
  [[nodiscard]] std::vector<std::string> ledgers() const {
    std::vector<std::string> found;
    for (const auto& entry : fs::recursive_directory_iterator(folder_)) {
      const std::string name = entry.path().filename().string();
      if (name.find(".ledger") != std::string::npos || name.find(".lock") != std::string::npos) found.push_back(name);
    }
    return found;
  }

 private:
  fs::path folder_;
  Shop shop_;
};

}  // namespace

TEST_CASE("without a ledger every command does its work, leaves no ledger, and counts its sheets from 1 each time") {
  const PlainShop workshop;
  for (int i = 0; i < 2; ++i) {
    const auto made = workshop.day();
    REQUIRE(made.ok());
    CHECK(made->files.front() == workshop / "out/orders/sheet-001.json");
    CHECK(made->entries.empty());
  }
  CHECK(run_proof(workshop.shop(), {{}, workshop / "proofs", {}, {}, ""}).ok());
  const auto stands = run_stands(workshop.shop(), {2, "2026-11-25", "", {}});
  REQUIRE(stands.ok());
  CHECK(stands->files.back() == workshop / "out/stands/stands-001.svg");
  const auto aligned = workshop.align();
  REQUIRE(aligned.ok());
  CHECK(aligned->files.back() == workshop / "out/align/sheet-001-aligned.svg");
  const auto again = run_remake(workshop.shop(), {"1001-1", workshop / "out/orders/sheet-001.json", {}, {}, {}});
  REQUIRE(again.ok());
  CHECK(again->files.back() == workshop / "out/remake/remake-1001-1.svg");
  CHECK(workshop.ledgers().empty());
}

TEST_CASE("without a ledger nothing is asked of what none remembers") {
  const PlainShop workshop;
  REQUIRE(workshop.day().ok());
  RemakeOptions options;
  options.item = "1001-1";
  CHECK(run_remake(workshop.shop(), options).fault().what == "no sheet is named");
  options.manifest = workshop / "out/orders/sheet-001.json";
  options.later = true;
  CHECK(run_remake(workshop.shop(), options).fault().where == "--later");
  options.later = false, options.blank = "S-1";
  CHECK(run_remake(workshop.shop(), options).fault().where == "--blank");
  CHECK(run_stands(workshop.shop(), {{}, "2026-11-25", "", {}}).fault().what == "no count is given");
  DayOptions look;
  look.dry_run = true, look.out = workshop / "looked";
  CHECK(run_day(workshop.shop(), look).fault().where == "--dry-run");
  CHECK_FALSE(fs::exists(look.out));
  CHECK(workshop.ledgers().empty());
}

}  // namespace ordinatio::without_ledger_test
