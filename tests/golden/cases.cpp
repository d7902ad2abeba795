#include "cases.h"

#include <unistd.h>

#include <cstdlib>
#include <stdexcept>

#include "base/account.h"
#include "shop/day.h"
#include "shop/remake.h"
#include "shop/shop.h"
#include "shop/stands.h"

namespace golden {
namespace fs = std::filesystem;
using namespace ordinatio;
namespace {

void require(const Result<Account>& account) {
  if (!account.ok()) throw std::runtime_error(describe(account.fault()));
  if (account->held.empty()) return;
  throw std::runtime_error(account->held.front().id + " is held: " + describe(account->held.front().fault));
}

DayOptions day(const fs::path& shop, const fs::path& out) {
  DayOptions options;
  options.orders = shop / "orders.csv";
  options.out = out;
  return options;
}

/// The second item of the first sheet, once more: as it was, or with other words in the other pocket.
void remake(const Shop& shop, const fs::path& out, bool corrected) {
  const fs::path sheets = fresh_folder("sheets-to-remake");
  require(run_day(shop, day(shop.folder, sheets)));
  RemakeOptions options{"1001-2", sheets / "sheet-001.json", out, {}, {}};
  if (corrected) options.pocket = 1, options.text = "L 8";
  require(run_remake(shop, options));
}

/// 2 px/mm, by poppler: what people see is drawn by what they will look at it with.
void turn_into_pictures(const fs::path& folder) {
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() != ".pdf") continue;
    const std::string command = "pdftocairo -png -singlefile -r 50.8 '" + entry.path().string() + "' '" +
                                (folder / entry.path().stem()).string() + "'";
    if (std::system(command.c_str()) != 0) throw std::runtime_error("this failed: " + command);
    fs::remove(entry.path());
  }
}

}  // namespace

std::vector<Case> all_cases() {
  using enum Case::Work;
  return {{"one-letter", "one-letter"},
          {"accents-and-border", "accents-and-border"},
          {"right-to-left", "right-to-left"},
          {"joined-script", "joined-script"},
          {"asymmetric", "asymmetric"},
          {"turned", "turned"},
          {"remade", "turned", remake},
          {"corrected", "turned", correction},
          {"stands", "stands", stands},
          {"r2000", "r2000"},
          {"strokes", "strokes"},
          {"hatched", "hatched"}};
}

fs::path shop_folder(const Case& one) { return fs::path(TEST_FOLDER) / "golden/cases" / one.shop; }
fs::path expected_folder(const Case& one) { return fs::path(TEST_FOLDER) / "golden/expected" / one.name; }

void make(const Case& one, const fs::path& out) {
  const Result<Shop> shop = read_shop(shop_folder(one));
  if (!shop.ok()) throw std::runtime_error(describe(shop.fault()));
  switch (one.work) {
    case Case::Work::day:
      require(run_day(*shop, day(shop->folder, out)));
      break;
    case Case::Work::stands:
      require(run_stands(*shop, {3, "2026-11-25", "", out}));
      break;
    case Case::Work::remake:
    case Case::Work::correction:
      remake(*shop, out, one.work == Case::Work::correction);
  }
  turn_into_pictures(out);
}

fs::path fresh_folder(const std::string& name) {
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-golden-" + std::to_string(::getpid())) / name;
  fs::remove_all(folder);
  fs::create_directories(folder);
  return folder;
}

}  // namespace golden
