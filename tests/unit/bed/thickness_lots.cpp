#include "bed/thickness_lots.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <random>

namespace ordinatio::thickness_lots_test {

namespace {

/// Sheets that lots come to, each lot cut into sheets of its own.
std::size_t sheets_of(const std::vector<std::size_t>& lots, std::size_t pockets) {
  std::map<std::size_t, std::size_t> counts;
  for (const std::size_t lot : lots) ++counts[lot];
  std::size_t sheets = 0;
  for (const auto& [lot, count] : counts) sheets += (count + pockets - 1) / pockets;
  return sheets;
}

/// The fewest sheets there can be, by trying every way to put the next piece on a sheet.
std::size_t fewest(const std::vector<double>& pieces, double spread, std::size_t pockets,
                   std::vector<std::vector<double>> sheets = {}, std::size_t next = 0) {
  if (next == pieces.size()) return sheets.size();
  std::size_t best = pieces.size();
  for (std::size_t i = 0; i <= sheets.size(); ++i) {
    auto with = sheets;
    if (i == with.size()) with.emplace_back();
    with[i].push_back(pieces[next]);
    const auto [least, most] = std::ranges::minmax(with[i]);
    if (with[i].size() > pockets || most - least > spread + 1e-9) continue;
    best = std::min(best, fewest(pieces, spread, pockets, std::move(with), next + 1));
  }
  return best;
}

}  // namespace

TEST_CASE("pieces within the spread of each other are one lot, in whatever order they come") {
  const std::vector<double> pieces{7.5, 6, 6.5, 7, 6.2, 7.4};
  CHECK(thickness_lots(pieces, 1.5, 4) == std::vector<std::size_t>(6, 0));
  CHECK(thickness_lots({}, 1.5, 4).empty());
}

TEST_CASE("lots keep the spread and make as few sheets as any way of laying them") {
  std::mt19937 random(20261127);  // the seed
  for (int round = 0; round < 300; ++round) {
    std::vector<double> pieces(2 + random() % 6);
    for (double& piece : pieces) piece = 4 + static_cast<double>(random() % 13) / 2;
    const double spread = static_cast<double>(random() % 5) / 2;
    const std::size_t pockets = 1 + random() % 4;
    const std::vector<std::size_t> lots = thickness_lots(pieces, spread, pockets);
    CAPTURE(round, pieces, spread, pockets, lots);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (lots[i] == lots[j]) CHECK(std::abs(pieces[i] - pieces[j]) <= spread + 1e-9);
      }
    }
    CHECK(sheets_of(lots, pockets) == fewest(pieces, spread, pockets));
  }
}

TEST_CASE("a sheet that is filled with the thinnest may part pieces that are alike") {
  std::vector<double> pieces(9, 6.0);
  pieces.insert(pieces.end(), 7, 7.5);
  CHECK(sheets_of(thickness_lots(pieces, 1.5, 8), 8) == 2);
  pieces.back() = 7.6;
  const std::vector<std::size_t> lots = thickness_lots(pieces, 1.5, 8);
  CHECK(sheets_of(lots, 8) == 3);
}

}  // namespace ordinatio::thickness_lots_test
