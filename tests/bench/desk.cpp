// How long the desk takes from a key stroke to the new picture, at the server, with a large ledger; and from its start to the
// first picture.
//   bench_desk FOLDER [KEYS, by default 2000]
// FOLDER must not be there yet: a workshop is made in it with 1,000 items and 200 measured pieces.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>

#include "desk/routes.h"

using namespace ordinatio;
namespace fs = std::filesystem;

namespace {

using Ticks = std::chrono::steady_clock;

constexpr int items = 1'000, pieces = 200;

double milliseconds_since(Ticks::time_point start) {
  return std::chrono::duration<double, std::milli>(Ticks::now() - start).count();
}

std::string asked(Router& router, const Request& request) {
  Response response = router.answer(request);
  if (response.status != 200) throw std::runtime_error(request.path + ": " + response.body);
  return response.body;
}

std::string name_of(int i) {
  constexpr const char* heads[] = {"Alder", "Barley", "Cobble", "Dapple", "Elder", "Fallow", "Gorse", "Hazel"};
  constexpr const char* tails[] = {"beck Cottage", "croft House", "ford Mill", "gate Barn", "ley View", "wick Lodge"};
  return std::string(heads[i % 8]) + tails[i / 8 % 6] + " " + std::to_string(i % 97 + 1);
}

void make_workshop(const fs::path& folder, Router& router) {
  asked(router, {Method::post,
                 "/api/new",
                 {},
                 {},
                 R"({"name":"Mill","bed_width":900,"bed_height":600,"piece_width":150,"piece_height":100,)"
                 R"("corner_radius":3,"material":""})"});
  std::string rows = "id,width,height\n", orders = "Order,Text,Quantity\n";
  for (int i = 1; i <= pieces; ++i)
    rows += "S-" + std::to_string(i) + "," + std::to_string(145 + i % 10) + "," + std::to_string(97 + i % 6) + "\n";
  for (int i = 1; i <= items; ++i) orders += std::to_string(i) + "," + name_of(i) + ",1\n";
  std::string shop = *read_file(folder / "shop.toml") + "\n[blanks]\nfile = \"blanks.csv\"\n";
  if (write_file(folder / "blanks.csv", rows) || write_file(folder / "shop.toml", shop))
    throw std::runtime_error("the workshop cannot be written");
  asked(router, {Method::post, "/api/intake", {{"name", "orders.csv"}}, {}, orders});
}

/// One key stroke after the other, as words grow under a person's hands.
std::vector<double> typed(Router& router, int keys) {
  std::vector<double> times;
  for (int item = 1; static_cast<int>(times.size()) < keys; item = item % items + 7) {
    const std::string words = name_of(item);
    for (std::size_t length = 1; length <= words.size(); ++length) {
      Request request{Method::post, "/api/fit", {}, {}, ""};
      request.body = R"({"number":")" + std::to_string(item) + R"(-1","words":")" + words.substr(0, length) +
                     R"(","piece":"S-)" + std::to_string(item % pieces + 1) + "\"}";
      const auto start = Ticks::now();
      asked(router, request);
      times.push_back(milliseconds_since(start));
    }
  }
  std::ranges::sort(times);
  return times;
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) return std::fprintf(stderr, "bench_desk FOLDER [KEYS]\n"), 2;
  const fs::path folder = words[1];
  const int keys = count > 2 ? std::stoi(words[2]) : 2'000;
  const auto clock = [] { return std::string("2026-11-25T08:00:00Z"); };
  {
    WorkshopDesk desk(folder, clock, "0");
    Router router(desk, "key");
    make_workshop(folder, router);
  }
  const auto start = Ticks::now();
  WorkshopDesk desk(folder, clock, "0");
  Router router(desk, "key");
  asked(router, {Method::post, "/api/fit", {}, {}, R"({"number":"1-1","words":"Weir Lane","piece":"S-1"})"});
  std::printf("start to the first picture  %.1f ms\n", milliseconds_since(start));
  const std::vector<double> times = typed(router, keys);
  const auto part = [&](std::size_t percent) { return times[(times.size() - 1) * percent / 100]; };
  std::printf("key stroke to new picture   p50 %.2f ms, p95 %.2f ms, p99 %.2f ms, most %.2f ms, of %zu\n", part(50),
              part(95), part(99), times.back(), times.size());
  return 0;
}
