// Plans against texts whose breaks a letterer marked by hand (line_marks.txt).
#include <algorithm>
#include <catch2/catch.hpp>
#include <charconv>
#include <fstream>
#include <iostream>
#include <map>

#include "base/phrase.h"
#include "csv/shown.h"
#include "fit/fit.h"
#include "set_once.h"

namespace ordinatio::line_marks_test {

namespace {

using Lines = std::vector<std::string>;

struct MarkedText {
  std::string language;
  double width = 0, height = 0;  // mm
  Lines typed;                   // as the customer broke it
  std::vector<Lines> plans;      // as good as one another
};

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == text.npos) return "";
  return std::string(text.substr(first, text.find_last_not_of(' ') + 1 - first));
}

Lines parted(std::string_view text, std::string_view mark) {
  Lines parts;
  for (std::size_t at = 0;; at += mark.size()) {
    const std::size_t end = std::min(text.find(mark, at), text.size());
    parts.push_back(trimmed(text.substr(at, end - at)));
    if (end == text.size()) return parts;
    at = end;
  }
}

std::string without(std::string text, std::string_view mark) {
  const std::string in_blanks = " " + std::string(mark) + " ";
  for (std::size_t at = 0; (at = text.find(in_blanks)) != text.npos;) text.replace(at, in_blanks.size(), " ");
  for (std::size_t at = 0; (at = text.find(mark)) != text.npos;) text.erase(at, mark.size());
  return text;
}

/// "a ¦ b | c" stands for two plans.
void add_plans(std::vector<Lines>& plans, const std::string& marked) {
  constexpr std::string_view maybe = "¦";
  const std::size_t at = marked.find(maybe);
  if (at == marked.npos) return plans.push_back(parted(marked, "|"));
  add_plans(plans, std::string(marked).replace(at, maybe.size(), "|"));
  add_plans(plans, std::string(marked).replace(at - 1, maybe.size() + 2, " "));
}

MarkedText read_marks(const std::string& row) {
  const Lines fields = parted(row, ";");
  REQUIRE(fields.size() >= 3);
  MarkedText text{fields[0], 0, 0, {}, {}};
  const Lines sides = parted(fields[1], "x");
  std::from_chars(sides[0].data(), sides[0].data() + sides[0].size(), text.width);
  std::from_chars(sides[1].data(), sides[1].data() + sides[1].size(), text.height);
  const bool is_broken = fields[2].starts_with('=');
  text.typed = is_broken ? parted(fields[2].substr(1), "/") : Lines{without(without(fields[2], "|"), "¦")};
  for (std::size_t i = is_broken ? 3 : 2; i < fields.size(); ++i) add_plans(text.plans, fields[i]);
  return text;
}

std::vector<MarkedText> marked_texts(const std::string& name) {
  std::ifstream file(TEST_FOLDER "/unit/fit/" + name);
  std::vector<MarkedText> texts;
  for (std::string row; std::getline(file, row);) {
    if (!row.empty() && row.front() != '#') texts.push_back(read_marks(row));
  }
  return texts;
}

struct SetLines {
  Lines lines;
  double size = 0;
};

SetLines set(const MarkedText& text, const Lines& typed, LineBreaks breaks, double reads_well, Typesetter& typesetter) {
  const TextStyle style{{"serif"}, text.language, told_language(text.typed)};
  const FaceHeights metrics = *typesetter.metrics(style);
  SettingRules rules;
  rules.styles = {{style, 1, metrics.cap_height, metrics.x_height}};
  rules.breaks = breaks;
  rules.reads_well = reads_well;
  const ConvexRegion region = region_of(Polygon{{0, 0}, {text.width, 0}, {text.width, text.height}, {0, text.height}});
  const SettingArea area{{region, {}}, widths_of(region), {text.width / 2, text.height / 2}, false};
  std::vector<StyledLine> lines;
  for (const std::string& line : typed) lines.push_back({line, 0});
  const Result<Setting> setting = set_lines(typesetter, lines, rules, area);
  REQUIRE(setting.ok());
  SetLines result{{}, setting->placement.size};
  for (const BlockLine& line : setting->block.lines) result.lines.push_back(line.shaped.text);
  return result;
}

std::string shown(const Lines& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : " | ") + line;
  return text;
}

std::string per_cent(double share) {
  std::string text;
  append_fixed(text, 100 * share, 1);
  return text + " %";
}

struct Tally {
  std::size_t texts = 0, agreed = 0;
  double lost = 0, worst = 0;  // of the largest plan's size, shares

  void add(bool agrees, double share) {
    ++texts, agreed += agrees ? 1 : 0, lost += share, worst = std::max(worst, share);
  }
  void tell(const std::string& name) const {
    std::cout << "  " << padded(name, 9) << padded(std::to_string(texts), 6) << padded(std::to_string(agreed), 7)
              << padded(per_cent(lost / static_cast<double>(texts)), 9) << per_cent(worst) << '\n';
  }
};

void tell_difference(const MarkedText& text, const SetLines& found, double largest, Typesetter& typesetter) {
  double marked = 0;  // the largest of the plans that were marked
  for (const Lines& plan : text.plans) marked = std::max(marked, set(text, plan, LineBreaks::kept, 0, typesetter).size);
  std::cout << text.language << ' ' << text.width << 'x' << text.height << ": " << shown(found.lines) << ", "
            << per_cent(1 - found.size / largest) << " lost; marked: " << shown(text.plans.front()) << ", "
            << per_cent(1 - marked / largest) << '\n';
}

/// How many of the marked texts the engine breaks as one of their plans has it; the others, and a table, are printed.
Tally agreement(const std::string& name) {
  const FontLibrary library{"none"};
  Typesetter typesetter{library};
  std::map<std::string, Tally> by_language;
  Tally all;
  for (const MarkedText& text : marked_texts(name)) {
    const SetLines found = set(text, text.typed, LineBreaks::free, SettingRules{}.reads_well, typesetter);
    const double largest = set(text, text.typed, LineBreaks::free, 0, typesetter).size;
    const bool agrees = std::ranges::find(text.plans, found.lines) != text.plans.end();
    const double lost = 1 - found.size / largest;
    all.add(agrees, lost);
    by_language[text.language].add(agrees, lost);
    if (!agrees) tell_difference(text, found, largest, typesetter);
  }
  std::cout << "size lost against the largest plan\n  language texts agreed mean     worst\n";
  for (const auto& [language, tally] : by_language) tally.tell(language);
  all.tell("all");
  return all;
}

}  // namespace

TEST_CASE("nine of ten texts are broken where a letterer would break them") {
  const Tally all = agreement("line_marks.txt");
  CHECK(all.texts >= 200);
  CHECK(all.agreed * 10 >= all.texts * 9);
}

TEST_CASE("four of five texts that nothing was weighed by are broken where a letterer would break them") {
  const Tally all = agreement("line_marks_held_out.txt");
  CHECK(all.texts == 120);
  CHECK(all.agreed * 5 >= all.texts * 4);
}

}  // namespace ordinatio::line_marks_test
