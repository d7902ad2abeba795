#include "design/setting_wish.h"

#include <cmath>

namespace ordinatio::inline design {
namespace {

constexpr std::string_view size_word = "size ", nudge_word = "nudge ", lines_words = "lines kept",
                           design_word = "design ", between = "; ";

/// As it is written again.
double rounded(double mm) {
  constexpr double steps = 1000;  // of wish_decimals
  return std::round(mm * steps) / steps + 0.0;
}

std::string nudge_text(Point by) {
  std::string text;
  append_number(text, by.x, wish_decimals);
  text += ',';
  append_number(text, by.y, wish_decimals);
  return text;
}

std::optional<double> length_in(std::string_view text, double most) {
  const auto number = parse_number(text);
  if (!number || std::abs(*number) > most) return std::nullopt;
  return rounded(*number);
}

std::string limit_text(double mm) { return mm_text(mm, 0); }

Fault not_understood(std::string_view part, const std::string& where) {
  return {"the setting \"" + std::string(part) + "\" is not understood", where,
          "it would be passed over without a word", "Give the item's setting again: ordinatio set"};
}

/// Takes one part of a text into the wish; nothing may come twice.
MaybeFault take_part_of(std::string_view part, SettingWish& wish, const std::string& where) {
  if (part.starts_with(size_word) && !wish.size) {
    const auto size = wished_size(part.substr(size_word.size()), where);
    if (!size.ok()) return size.fault();
    wish.size = *size;
  } else if (part.starts_with(nudge_word) && !wish.nudge) {
    const auto nudge = wished_nudge(part.substr(nudge_word.size()), where);
    if (!nudge.ok()) return nudge.fault();
    wish.nudge = *nudge;
  } else if (part == lines_words && !wish.lines_kept) {
    wish.lines_kept = true;
  } else if (part.starts_with(design_word)) {
    auto design = wished_design(part.substr(design_word.size()), where);
    if (!design.ok()) return design.fault();
    wish.design = *std::move(design);
  } else {
    return not_understood(part, where);
  }
  return std::nullopt;
}

}  // namespace

Result<double> wished_size(std::string_view text, const std::string& where) {
  const auto size = length_in(text, largest_wished_size);
  if (size && *size > 0) return *size;
  return Fault{"there is no height of capitals of \"" + std::string(text) + "\"", where,
               "it is a number of mm, more than 0 and up to " + limit_text(largest_wished_size),
               "Give a height such as 8.5"};
}

Result<Point> wished_nudge(std::string_view text, const std::string& where) {
  const std::size_t comma = text.find(',');
  if (comma != std::string_view::npos) {
    const auto x = length_in(text.substr(0, comma), furthest_nudge);
    const auto y = length_in(text.substr(comma + 1), furthest_nudge);
    if (x && y) return Point{*x, *y};
  }
  return Fault{"nothing can be moved by \"" + std::string(text) + "\"", where,
               "it is two numbers of mm, to the right and up, each of up to " + limit_text(furthest_nudge),
               "Give such as 1.5,-2: to the right by 1.5 mm, down by 2"};
}

Result<std::string> wished_design(std::string_view text, const std::string& where) {
  if (!text.empty() && text.size() <= longest_design_name) return std::string(text);
  return Fault{"that is no design's name", where,
               text.empty() ? "it is empty" : "it is longer than " + std::to_string(longest_design_name) + " bytes",
               "Name a design of the folder templates"};
}

std::string setting_text(const SettingWish& wish) {
  if (!wish.unread.empty()) return wish.unread;
  std::string text;
  const auto add = [&text](std::string_view word, const std::string& value) {
    if (!text.empty()) text += between;
    text.append(word).append(value);
  };
  std::string size;
  if (wish.size) append_number(size, *wish.size, wish_decimals);
  if (wish.size) add(size_word, size);
  if (wish.nudge) add(nudge_word, nudge_text(*wish.nudge));
  if (wish.lines_kept) add(lines_words, "");
  if (!wish.design.empty()) add(design_word, wish.design);  // the last: a name may hold anything
  return text;
}

Result<SettingWish> parse_setting(std::string_view text, const std::string& where) {
  SettingWish wish;
  while (!text.empty()) {
    const bool is_last = text.starts_with(design_word);
    const std::size_t end = is_last ? std::string_view::npos : text.find(between);
    if (auto fault = take_part_of(text.substr(0, end), wish, where)) return *std::move(fault);
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + between.size());
    if (text.empty()) return not_understood(text, where);
  }
  return wish;
}

SettingWish kept_setting(std::string_view text) {
  Result<SettingWish> wish = parse_setting(text, "");
  if (wish.ok()) return *std::move(wish);
  SettingWish unread;
  unread.unread = text;
  return unread;
}

SettingWish with_changes(SettingWish before, const SettingWish& now) {
  if (!now.design.empty()) before.design = now.design;
  if (now.size) before.size = now.size;
  if (now.nudge) before.nudge = now.nudge;
  if (before.nudge == Point{}) before.nudge.reset();
  before.lines_kept |= now.lines_kept;
  return before;
}

}  // namespace ordinatio::inline design
