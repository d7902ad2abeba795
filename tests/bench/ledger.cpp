// How long the ledger takes when it is large: an intake of 10,000 rows, a day of 50 new items, and the looks at it.
//   bench_ledger SHOP FOLDER [ORDERS, in the ledger before, by default 100000]
// SHOP is copied to FOLDER, which must not be there yet. The ledger is filled by the commands themselves: orders taken in,
// laid on sheets (SVG alone), engraved and packed.
#include <chrono>
#include <cstdio>
#include <string>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "shop/day.h"

using namespace ordinatio;
namespace fs = std::filesystem;

namespace {

using Clock = std::chrono::steady_clock;

constexpr int rows_a_file = 10'000;

std::string name_of(int i) {
  constexpr const char* heads[] = {"Alder", "Barley", "Cobble", "Dapple", "Elder", "Fallow", "Gorse", "Hazel"};
  constexpr const char* tails[] = {"beck Cottage", "croft House", "ford Mill", "gate Barn", "ley View", "wick Lodge"};
  return std::string(heads[i % 8]) + tails[i / 8 % 6] + " " + std::to_string(i % 997 + 1);
}

/// An export of orders from `first` on, a row and an item each.
fs::path write_export(const fs::path& folder, int first, int count) {
  std::string csv = "Order,Line,Text,Quantity\r\n";
  for (int i = first; i < first + count; ++i) {
    csv += std::to_string(i) + "," + std::to_string(i) + "-a,\"" + name_of(i) + "\nEst. " +
           std::to_string(1800 + i % 200) + "\",1\r\n";
  }
  const fs::path file = folder / ("export-" + std::to_string(first) + ".csv");
  if (const auto fault = write_file(file, csv)) throw std::runtime_error(describe(*fault));
  return file;
}

LedgerCall call(const char* cause) { return {"2026-11-25T08:00:00Z", cause, false, 5, "", {}}; }

template <class Work>
double seconds(Work&& work) {
  const auto start = Clock::now();
  const Result<Account> account = work();
  if (!account) throw std::runtime_error(describe(account.fault()));
  return std::chrono::duration<double>(Clock::now() - start).count();
}

double take_in(const Shop& shop, const fs::path& file) {
  return seconds([&] { return run_intake(shop, {call("intake"), file, "", false}); });
}

double day(const Shop& shop, const fs::path& orders, bool all_files) {
  DayOptions options;
  options.orders = orders;
  options.dxf = options.pdf = all_files;
  options.call = call("day");
  return seconds([&] { return run_day(shop, options); });
}

/// Takes the orders in, lays them on sheets, engraves and packs them.
void fill(const Shop& shop, const fs::path& folder, int orders) {
  for (int first = 1; first <= orders; first += rows_a_file) {
    const fs::path file = write_export(folder, first, std::min(rows_a_file, orders - first + 1));
    const double in = take_in(shop, file), laid = day(shop, file, false);
    EngravedOptions engraved{call("engraved"), {}, ""};
    ItemsOptions packed{call("packed"), {}};
    constexpr int sheet_items = 8;
    const int last = std::min(first + rows_a_file - 1, orders);
    for (int sheet = (first - 1) / sheet_items + 1; (sheet - 1) * sheet_items < last; ++sheet) {
      engraved.sheets.push_back(std::to_string(sheet));
    }
    for (int i = first; i <= last; ++i) packed.items.push_back(std::to_string(i) + "-1");
    const double booked = seconds([&] { return run_engraved(shop, engraved); });
    const double closed = seconds([&] { return run_pack(shop, packed); });
    std::printf("  to %6d orders: intake %.2f s, day %.2f s, engraved %.2f s, packed %.2f s\n", last, in, laid, booked,
                closed);
  }
}

void time_it(const Shop& shop, const fs::path& folder, int orders) {
  const fs::path more = write_export(folder, orders + 1, rows_a_file);
  const fs::path both = write_export(folder, orders + 1 - rows_a_file / 2, rows_a_file);
  const fs::path fresh = write_export(folder, orders + 2 * rows_a_file, 50);
  std::printf("day with 50 new items, SVG, DXF and PDF   %.3f s\n", day(shop, fresh, true));
  std::printf("day with nothing new                      %.3f s\n", day(shop, fresh, true));
  std::printf("intake of 10,000 rows, half of them known %.3f s\n", take_in(shop, both));
  std::printf("intake of 10,000 rows, half of them known %.3f s (the second half)\n", take_in(shop, more));
  std::printf("intake of the same 10,000 rows again      %.3f s\n", take_in(shop, more));
  std::printf("history of an item                        %.3f s\n", seconds([&] {
                return run_history(shop, {call("history"), std::to_string(orders / 2) + "-1"});
              }));
  std::printf("correct the words of an item              %.3f s\n", seconds([&] {
                return run_correction(shop, {call("correct"), std::to_string(orders + 5) + "-1",
                                             CorrectionOptions::What::words, "Other words"});
              }));
  std::printf("backup                                    %.3f s\n",
              seconds([&] { return run_backup(shop, call("backup"), folder / "copy.ledger"); }));
  std::printf("check                                     %.3f s\n",
              seconds([&] { return run_check(shop, call("check")); }));
  std::printf("the ledger has %.0f MB\n", static_cast<double>(fs::file_size(shop.folder / shop.ledger)) / 1e6);
}

}  // namespace

int main(int argc, char** argv) try {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  if (argc < 3) return std::fprintf(stderr, "bench_ledger SHOP FOLDER [ORDERS]\n"), 2;
  const fs::path folder = argv[2];
  const int orders = argc > 3 ? std::stoi(argv[3]) : 100'000;
  fs::create_directories(folder);
  fs::copy(argv[1], folder / "shop", fs::copy_options::recursive);
  Result<Shop> shop = read_shop(folder / "shop");
  if (!shop) throw std::runtime_error(describe(shop.fault()));
  shop->ledger = "bench.ledger";
  fill(*shop, folder, orders);
  time_it(*shop, folder, orders);
  return 0;
} catch (const std::exception& fault) {
  std::fprintf(stderr, "%s\n", fault.what());
  return 1;
}
