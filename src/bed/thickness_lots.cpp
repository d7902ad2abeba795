#include "bed/thickness_lots.h"

#include <algorithm>
#include <numeric>

#include "bed/machine_setting.h"

namespace ordinatio::inline bed {

std::vector<std::size_t> thickness_lots(std::span<const double> thicknesses, double spread, std::size_t pockets) {
  const std::size_t count = thicknesses.size(), full = std::max<std::size_t>(pockets, 1);
  std::vector<std::size_t> order(count), lots(count, 0);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return thicknesses[i]; });
  const auto within = [&](std::size_t from, std::size_t last) {
    return within_spread(thicknesses[order[from]], thicknesses[order[last]], spread);
  };
  std::size_t lot = 0, lot_from = 0;
  for (std::size_t from = 0; from < count;) {
    std::size_t end = from + 1;
    while (end < count && end - from < full && within(from, end)) ++end;
    if (!within(lot_from, end - 1)) ++lot, lot_from = from;
    for (; from < end; ++from) lots[order[from]] = lot;
  }
  return lots;
}

}  // namespace ordinatio::inline bed
