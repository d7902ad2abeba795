#include "paper/loading_words.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/phrase.h"
#include "bed/item_number.h"
#include "bed/machine_setting.h"

namespace ordinatio::inline paper {
namespace {

/// By how much less than its pocket a piece must measure to be told of: what is nearer lies right wherever the hand leaves it.
/// Common practice, no source.
constexpr double told_gap = 2;  // mm, besides what a board's holes are larger than the nominal piece

/// A place on a piece as it lies is told by thirds.
constexpr double first_third = 1.0 / 3, last_third = 2.0 / 3;

std::string corner_words(Jig::Datum datum) {
  return std::string(is_lower(datum) ? "lower" : "upper") + (is_left(datum) ? " left" : " right");
}

/// "turned: its top to the left"; empty where it lies as it was measured. Turned by a correction it lies as it did.
std::string turn_words(const SheetItem& item) {
  const Point top = top_on_bed(item);
  const std::string whose = item.artwork.blank.id.empty() ? "turned: the words’ top " : "turned: its top ";
  if (std::abs(top.x) > std::abs(top.y)) return whose + (top.x < 0 ? "to the left" : "to the right");
  return top.y < 0 ? whose + "towards you" : "";
}

/// By how much it is smaller than its pocket, across and up; nothing where it fills it.
std::string gap_words(const SheetItem& item, const Sheet& sheet) {
  const auto pocket = std::ranges::find(sheet.frame.pockets, item.pocket, &Pocket::number);
  if (pocket == sheet.frame.pockets.end()) return "";
  // A correction turns and stretches: the piece is measured as it lay before.
  const Bounds piece = bounds_of(path_of(item.artwork.blank));
  const bool turned = pocket->turned;
  const double width = turned ? piece.height() : piece.width(), height = turned ? piece.width() : piece.height();
  const Jig& jig = sheet.frame.plan.jig;
  const double least = told_gap + jig.clearance;
  const double across = pocket->box.width() - width, up = pocket->box.height() - height;
  std::string text;
  if (across > least) text = mm_text(across, 1) + " narrower";
  if (up > least) text += (text.empty() ? "" : " and ") + mm_text(up, 1) + " shorter";
  if (text.empty()) return "";
  return text + " than its pocket: push it to the " + corner_words(jig.datum);
}

std::string lie_words(const SheetItem& item, const Sheet& sheet) {
  std::string text = item.artwork.blank.id.empty() ? "" : "piece " + item.artwork.blank.id;
  const auto add = [&text](const std::string& words) {
    if (!words.empty()) text += (text.empty() ? "" : " · ") + words;
  };
  if (item.pocket == 0) add("laid by hand where its corners were measured");
  if (item.artwork.from_behind) add("face down");
  add(turn_words(item));
  add(gap_words(item, sheet));
  return text;
}

/// "at the upper left", of a place in a box.
std::string place_words(Point at, const Bounds& box) {
  const double across = (at.x - box.left) / std::max(box.width(), 1e-9);
  const double up = (at.y - box.bottom) / std::max(box.height(), 1e-9);
  const std::string row = up > last_third ? "upper" : up < first_third ? "lower" : "";
  const std::string column = across < first_third ? "left" : across > last_third ? "right" : "";
  if (row.empty() && column.empty()) return "in the middle";
  if (row.empty()) return "at the " + column;
  return column.empty() ? "at the " + row + " edge" : "at the " + row + " " + column;
}

Point middle_of(const Polygon& corners) {
  Bounds box;
  for (const Point corner : corners) box.add(corner);
  return box.centre();
}

/// What every piece of its design bears is told once, of the bed.
bool is_of_design(const SheetItem& item, std::size_t thing) {
  return thing + item.artwork.blank.kept_clear.size() < item.artwork.kept_clear.size();
}

std::string watch_words(const SheetItem& item) {
  const Bounds box = box_on_bed(item);
  std::string text;
  const auto add = [&](const std::string& what, Point at) {
    text += (text.empty() ? "" : "; ") + what + " " + place_words(item.to_bed(at), box);
  };
  for (const Polygon& chip : item.artwork.blank.chips) add("chip", middle_of(chip));
  for (std::size_t i = 0; i < item.artwork.kept_clear.size(); ++i) {
    const KeptClear& thing = item.artwork.kept_clear[i];
    if (!is_of_design(item, i)) add(thing.name.empty() ? "kept clear" : thing.name, middle_of(thing.corners));
  }
  return text;
}

std::string all_words(const SheetItem& item) {
  std::string text;
  for (const std::string& line : item.artwork.lines) {
    if (!line.empty()) text += (text.empty() ? "" : " / ") + line;
  }
  return text;
}

std::string place_number(double value) {
  std::string text;
  append_number(text, value, 1);
  return text;
}

}  // namespace

Point top_on_bed(const SheetItem& item) {
  const Point top = item.artwork.blank.turned ? Point{-1, 0} : Point{0, 1};
  return item.to_bed(top) - item.to_bed(Point{});
}

Bounds box_on_bed(const SheetItem& item) { return bounds_of(transformed(path_of(item.artwork.blank), item.to_bed)); }

std::vector<LoadingLine> loading_lines(const Sheet& sheet) {
  std::vector<LoadingLine> lines;
  for (const SheetItem& item : sheet.items) {
    lines.push_back({item.pocket, number_for_people(item.item), all_words(item), lie_words(item, sheet),
                     watch_words(item), !gap_words(item, sheet).empty()});
  }
  std::ranges::stable_sort(lines, {}, &LoadingLine::pocket);
  return lines;
}

std::string lie_of_all(std::vector<LoadingLine>& lines) {
  if (lines.size() < 2) return "";
  std::string lie = lines.front().lie;
  if (!std::ranges::all_of(lines, [&lie](const LoadingLine& line) { return line.lie == lie; })) return "";
  for (LoadingLine& line : lines) line.lie.clear();
  return lie;
}

std::string datum_words(const Sheet& sheet) {
  if (sheet.frame.pockets.empty()) return "";
  return "Push each piece into the " + corner_words(sheet.frame.plan.jig.datum) + " corner of its pocket.";
}

std::string heading_for_loading(const Sheet& sheet) {
  const Machine& bed = sheet.frame.plan.machine;
  std::string text = counted(sheet.items.size(), "piece") + " · ";
  if (const std::string setting = setting_text(sheet); !setting.empty()) text += setting + " · ";
  text += "bed " + place_number(bed.width) + " × " + mm_text(bed.height, 1);
  if (!sheet.remake_of.empty()) text += " · remade from " + sheet.remake_of;
  if (sheet.correction) text += " · laid as measured";
  if (!sheet.date.empty()) text += " · dated " + sheet.date;
  return text;
}

std::string kept_on_all(const Sheet& sheet) {
  std::map<std::string, std::size_t> most;  // of one piece
  for (const SheetItem& item : sheet.items) {
    std::map<std::string, std::size_t> here;
    for (std::size_t i = 0; i < item.artwork.kept_clear.size(); ++i) {
      if (is_of_design(item, i)) ++here[item.artwork.kept_clear[i].name];
    }
    for (const auto& [name, count] : here) most[name] = std::max(most[name], count);
  }
  std::string text;
  for (const auto& [name, count] : most) {
    text += (text.empty() ? "" : ", ") + (count > 1 ? std::to_string(count) + " × " : "") +
            (name.empty() ? "a place" : name);
  }
  return text.empty() ? "" : "Kept clear, as the design says: " + text + ".";
}

std::string mark_places_text(const Sheet& sheet) {
  std::string text;
  for (std::size_t i = 0; i < sheet.frame.marks.size(); ++i) {
    const Point at =
        sheet.correction ? sheet.correction->registration.to_bed(sheet.frame.marks[i]) : sheet.frame.marks[i];
    text +=
        (text.empty() ? "" : " · ") + std::to_string(i + 1) + " at " + place_number(at.x) + ", " + place_number(at.y);
  }
  return text.empty() ? "" : "Marks, mm from 0, 0: " + text + ".";
}

std::string empty_pockets(const Sheet& sheet) {
  std::vector<int> empty;
  for (const Pocket& pocket : sheet.frame.pockets) {
    if (std::ranges::find(sheet.items, pocket.number, &SheetItem::pocket) == sheet.items.end())
      empty.push_back(pocket.number);
  }
  std::string text;
  for (std::size_t i = 0; i < empty.size();) {
    std::size_t last = i;
    while (last + 1 < empty.size() && empty[last + 1] == empty[last] + 1) ++last;
    text += (text.empty() ? "" : ", ") + std::to_string(empty[i]);
    if (last > i) text += (last == i + 1 ? ", " : " to ") + std::to_string(empty[last]);
    i = last + 1;
  }
  if (text.empty()) return "";
  return (empty.size() == 1 ? "Nothing goes into pocket " : "Nothing goes into pockets ") + text + ".";
}

}  // namespace ordinatio::inline paper
