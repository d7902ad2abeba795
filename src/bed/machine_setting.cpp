#include "bed/machine_setting.h"

#include <algorithm>

namespace ordinatio::inline bed {
namespace {

constexpr double typed_slack = 1e-9;  // mm: sums and differences of what was typed

std::string number(double value) {
  std::string text;
  append_number(text, value, 2);
  return text;
}

std::string in_words(const SheetItem& item) {
  const Blank& blank = item.artwork.blank;
  std::string text = blank.material.empty() ? "of a material that is not said" : "of " + blank.material;
  text += blank.thickness ? ", " + mm_text(*blank.thickness) + " thick" : ", of a thickness that is not measured";
  return item.item.id + " is " + text + (item.artwork.from_behind ? ", from behind" : "");
}

Fault mixed(const SheetItem& one, const SheetItem& other) {
  return {"items of one sheet need different settings of the machine", "", in_words(one) + "; " + in_words(other),
          "Name another piece, or take one of them off the sheet: with a ledger, ordinatio take-off; the next day lays "
          "them apart"};
}

bool are_alike(const SheetItem& a, const SheetItem& b) {
  return material_key(a.artwork.blank.material) == material_key(b.artwork.blank.material) &&
         a.artwork.from_behind == b.artwork.from_behind &&
         a.artwork.blank.thickness.has_value() == b.artwork.blank.thickness.has_value();
}

double mm_thick(const SheetItem& item) { return *item.artwork.blank.thickness; }

std::string thickness_text(const MachineSetting::Thickness& thickness) {
  if (number(thickness.least) == number(thickness.most)) return mm_text(thickness.least) + " thick";
  return number(thickness.least) + " to " + mm_text(thickness.most) + " thick";
}

}  // namespace

std::string material_key(std::string_view material) {
  std::string key;
  for (const char c : material) {
    const bool is_space = c == ' ' || c == '\t';
    if (is_space && (key.empty() || key.back() == ' ')) continue;
    key += is_space ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  if (!key.empty() && key.back() == ' ') key.pop_back();
  return key;
}

bool within_spread(double least, double most, double spread) { return most - least <= spread + typed_slack; }

Result<MachineSetting> setting_for(const Machine& machine, std::span<const SheetItem> items) {
  MachineSetting setting;
  if (items.empty()) return setting;
  const SheetItem& first = items.front();
  for (const SheetItem& item : items) {
    if (!are_alike(first, item)) return mixed(first, item);
  }
  setting.material = first.artwork.blank.material;
  setting.from_behind = first.artwork.from_behind;
  if (!first.artwork.blank.thickness) return setting;
  const auto [thinnest, thickest] = std::ranges::minmax_element(items, {}, mm_thick);
  if (!within_spread(mm_thick(*thinnest), mm_thick(*thickest), machine.thickness_spread)) {
    return mixed(*thinnest, *thickest);
  }
  setting.thickness = MachineSetting::Thickness{mm_thick(*thinnest), mm_thick(*thickest)};
  return setting;
}

std::string setting_text(const Sheet& sheet) {
  const Jig& jig = sheet.frame.plan.jig;
  const Result<MachineSetting> setting = setting_for(sheet.frame.plan.machine, sheet.items);
  std::string text;
  const auto add = [&text](const std::string& words) { text += (text.empty() ? "" : ", ") + words; };
  if (setting.ok() && !setting->material.empty()) add(setting->material);
  if (setting.ok() && setting->thickness) add(thickness_text(*setting->thickness));
  if (setting.ok() && setting->from_behind) add("from behind: lay face down");
  if (jig.name.empty()) return text;
  return "jig " + jig.name + (text.empty() ? "" : ": " + text);
}

}  // namespace ordinatio::inline bed
