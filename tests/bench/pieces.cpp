// How many fits a second on pieces of each kind, and how long 500 items on 500 measured pieces take to share out.
//   bench_pieces SHOP ORDERS.csv
#include <chrono>
#include <cstdio>
#include <random>
#include <string>

#include "orders/orders.h"
#include "shop/piece_choice.h"

using namespace ordinatio;

namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) { return std::chrono::duration<double>(Clock::now() - start).count(); }

Polygon box(double left, double bottom, double width, double height) {
  return {{left, bottom}, {left + width, bottom}, {left + width, bottom + height}, {left, bottom + height}};
}

Blank plain(double width, double height) {
  Blank blank;
  blank.id = "bench";
  blank.outline = rectangle_outline(width, height, Corner::square, 0);
  return blank;
}

struct Kind {
  const char* name;
  Blank blank;
};

std::vector<Kind> kinds_of(double width, double height) {
  std::vector<Kind> kinds{{"rectangle", plain(width, height)},
                          {"rounded, 18 mm", plain(width, height)},
                          {"chipped, 7 mm deep", plain(width, height)},
                          {"with a stamp", plain(width, height)},
                          {"chip, corner, stamp", plain(width, height)}};
  const CornerShape rounded{Corner::rounded, 18};
  kinds[1].blank.outline = rectangle_outline(width, height, Corner::rounded, 18);
  kinds[2].blank.chips = {box(width / 2, height - 7, 25, 7)};
  kinds[3].blank.kept_clear = {{"stamp", box(12, 12, 22, 12), 0, 2}};
  kinds[4].blank = {"bench", rectangle_outline(width, height, {CornerShape{}, {}, rounded, {}}), kinds[2].blank.chips,
                    kinds[3].blank.kept_clear};
  return kinds;
}

void time_fits(const Kind& kind, const Design& design, const std::vector<Words>& words, Typesetter& typesetter) {
  const Result<LaidDesign> laid = laid_on(design, kind.blank);
  if (!laid.ok()) {
    std::printf("%-22s no room\n", kind.name);
    return;
  }
  std::size_t fits = 0, set = 0;
  const auto start = Clock::now();
  while (seconds_since(start) < 1) {
    SettingRecords records;
    set += ReadyWords(*laid, words[fits++ % words.size()], typesetter).cap_height_on(*laid, records) > 0;
  }
  std::printf("%-22s %8.0f fits a second, %.0f %% of the items set\n", kind.name,
              static_cast<double>(fits) / seconds_since(start),
              100.0 * static_cast<double>(set) / static_cast<double>(fits));
}

/// Reclaimed pieces: no two are alike, one in ten has a chip, one in twenty a stamp.
Blanks reclaimed(std::size_t count, double width, double height) {
  std::mt19937 random(1874);
  const auto share = [&random] { return static_cast<double>(random()) / 4294967296.0; };
  Blanks blanks;
  for (std::size_t i = 0; i < count; ++i) {
    BlankRow& row = blanks.rows.emplace_back();
    row.width = width - 12 * share() * share(), row.height = height - 12 * share() * share();
    row.blank = plain(row.width, row.height);
    row.blank.id = "R-" + std::to_string(i + 1);
    if (i % 10 == 3) row.blank.chips = {box(row.width * 0.7 * share(), row.height - 7, 20, 7)};
    if (i % 20 == 7) row.blank.kept_clear = {{"stamp", box(12, 12, 22, 12), 0, 2}};
  }
  return blanks;
}

void time_choice(Workroom& workroom, Composer& composer, std::vector<Order> orders, const Blanks& blanks) {
  PieceChoice choice(workroom, blanks, composer.typesetters(), "");
  std::vector<std::string> notes;
  const auto start = Clock::now();
  const auto items = choice.choose(orders, notes);
  std::printf("%zu items on %zu pieces: %.2f s, %zu sizes worked out of %zu\n  %s\n", items.size(), blanks.rows.size(),
              seconds_since(start), choice.sizes_asked(), items.size() * blanks.rows.size(), notes.back().c_str());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return std::fprintf(stderr, "bench_pieces SHOP ORDERS.csv\n"), 2;
  const Result<Shop> shop = read_shop(argv[1]);
  if (!shop.ok()) return std::fprintf(stderr, "%s\n", describe(shop.fault()).c_str()), 2;
  Result<Orders> read = read_orders(argv[2], shop->orders);
  if (!read.ok()) return std::fprintf(stderr, "%s\n", describe(read.fault()).c_str()), 2;
  read->orders.resize(std::min<std::size_t>(read->orders.size(), 500));
  Workroom workroom(*shop);
  Composer composer(workroom, "", 0);
  if (const auto fault = workroom.open_designs(read->orders))
    return std::fprintf(stderr, "%s\n", fault->what.c_str()), 2;
  const Design& design = (*workroom.station(shop->default_design))->design;
  std::vector<Words> words;
  for (const Order& order : read->orders) {
    if (auto inscription = clean_inscription(order.text, workroom.cleaning()); inscription.ok())
      words.push_back({*inscription, ""});
  }
  for (const Kind& kind : kinds_of(design.width, design.height)) {
    time_fits(kind, design, words, composer.typesetters().front());
  }
  time_choice(workroom, composer, read->orders, reclaimed(500, design.width, design.height));
  return 0;
}
