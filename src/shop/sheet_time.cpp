#include "shop/sheet_time.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/phrase.h"
#include "machine/sheet_order.h"
#include "machine/spell.h"

namespace ordinatio::inline shop {
namespace {

constexpr std::size_t told_one_by_one = 4;  // sheets; more have one line

/// "engrave 1 h 33 min, row by row; mark 2 min"
std::string words_of_operations(const SheetTime& time) {
  std::string text;
  for (const OperationTime& operation : time.operations) {
    text += (text.empty() ? "" : "; ") + std::string(name_of(operation.operation)) + " " + time_text(operation.seconds);
    if (is_filled(operation.operation)) text += ", " + std::string(name_of(time.best));
  }
  return text;
}

}  // namespace

std::optional<SheetTime> sheet_time(const Shop& shop, const Sheet& sheet) {
  const Motion* motion = motion_for(shop, sheet.frame.plan.machine.name);
  if (motion == nullptr) return std::nullopt;
  Sheet as_written = sheet;
  order_work(as_written);
  return time_of(as_written, *motion);
}

std::vector<std::string> untold_words(const SheetTime& time) {
  std::vector<std::string> words;
  for (const Untold& untold : time.untold) {
    words.push_back(std::string(name_of(untold.operation)) + " is in no sum: " + untold.why);
  }
  return words;
}

std::string time_words(const SheetTime& time) {
  std::string text = "estimated time " + time_text(time.seconds);
  if (!time.operations.empty()) text += ": " + words_of_operations(time);
  for (const std::string& words : untold_words(time)) text += "; " + words;
  return text;
}

std::vector<std::string> time_remarks(const std::optional<SheetTime>& time) {
  if (!time || time->operations.empty()) return {};
  return {"E" + time_words(*time).substr(1)};
}

WorkedOut time_figures(const std::optional<SheetTime>& time) {
  if (!time || time->operations.empty()) return {};
  WorkedOut figures{{{"time", std::round(time->seconds)}}, {}};
  for (const OperationTime& operation : time->operations) {
    figures.of_sheet.emplace_back(name_of(operation.operation), std::round(operation.seconds));
  }
  for (const ItemTime& item : time->items) figures.of_items.emplace_back(item.item, std::round(item.seconds));
  return figures;
}

void tell_times(Account& account, const std::vector<NamedTime>& times) {
  double all = 0;
  std::size_t known = 0;
  std::set<std::string> untold;
  for (const auto& [sheet, time] : times) {
    if (!time || time->operations.empty()) continue;
    all += time->seconds, ++known;
    for (std::string& words : untold_words(*time)) untold.insert(std::move(words));
    if (times.size() > told_one_by_one) continue;
    account.told.push_back(sheet + ": " + time_words(*time));
  }
  if (known > 1) {
    account.told.push_back("Estimated time of " + counted(known, "sheet") + ": " + time_text(all) + ", " +
                           time_text(all / static_cast<double>(known)) + " a bed");
  }
  for (const std::string& words : untold) account.notes.push_back("estimated time: " + words);
}

}  // namespace ordinatio::inline shop
