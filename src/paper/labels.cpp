#include "paper/labels.h"

#include <algorithm>
#include <cmath>

#include "codes/codes.h"
#include "paper/page.h"

namespace ordinatio::inline paper {
namespace {

// What a phone held a hand's breadth away reads when it is printed at 300 dpi: four dots a module. Common practice, no source.
constexpr double least_module = 0.33;                 // mm
constexpr double most_module = 0.8;                   // mm: larger ones leave room to the words
constexpr double label_margin = 2;                    // mm from a label's edge to its words
constexpr double least_beside = 16, least_below = 5;  // mm for the words beside a code, or below it
constexpr double label_leading = 1.25;                // em
constexpr double words_size = 3;                      // mm per em
constexpr double least_words = 2;                     // mm per em; smaller is not read
constexpr double edge_slack = 1e-6;                   // mm: exactly at the edge is on the paper
constexpr Colour full_black{0, 0, 0}, cut_line{0xB0, 0xB0, 0xB0};

/// Where code and words lie on a label, its lower left corner the origin.
struct LabelPlan {
  double module = 0;
  Point code;    // lower left of the whole square
  Bounds words;  // below or beside it
};

LabelPlan plan_for(const LabelGrid& measures, int whole_side) {
  const double w = measures.width, h = measures.height;
  const double beside = std::min({h, w - least_beside - label_margin, most_module * whole_side}) / whole_side;
  const double below = std::min({w, h - least_below - label_margin, most_module * whole_side}) / whole_side;
  const double code = std::max(beside, below) * whole_side;
  if (beside >= below) return {beside, {0, (h - code) / 2}, {code, label_margin, w - label_margin, h - label_margin}};
  return {below, {(w - code) / 2, h - code}, {label_margin, label_margin, w - label_margin, h - code}};
}

Fault too_small(const LabelGrid& measures, const std::string& number, int whole_side) {
  const double code = least_module * whole_side;
  return {"labels of " + mm_text(measures.width) + " x " + mm_text(measures.height) +
              " are too small for the code of " + number,
          "shop.toml, [labels]",
          "a phone reads modules of " + mm_text(least_module) + " and more, and the code is " +
              std::to_string(whole_side) + " of them wide with the light about it",
          "Take labels of " + mm_text(std::ceil(code + least_beside + label_margin)) + " x " +
              mm_text(std::ceil(code)) + " or more"};
}

class LabelPages {
 public:
  LabelPages(Canvas& canvas, Lettering& lettering, const LabelGrid& measures)
      : canvas_(canvas), lettering_(lettering), measures_(measures) {}

  /// Gives the ink that it has drawn, mm².
  Result<double> add(const LabelItem& item, int place) {
    const Result<QrCode> code = qr_code(item.number);
    if (!code.ok()) return code.fault();
    const LabelPlan plan = plan_for(measures_, code->whole_side());
    if (plan.module < least_module) return too_small(measures_, item.number, code->whole_side());
    const Point corner = corner_of(place);
    if (measures_.lines) draw_edge(corner);
    const Polygons dark = outlines_of(*code, plan.module);
    canvas_.fill(transformed(path_of(dark), shift_by(corner + plan.code)), full_black);
    write(item, plan.words.shifted(corner), plan.words.left >= plan.module * code->whole_side());
    return area_of(dark);
  }

 private:
  [[nodiscard]] Point corner_of(int place) const {
    const int row = place / measures_.columns, column = place % measures_.columns;
    const double top = paper_measures(measures_.paper).y - measures_.top - row * (measures_.height + measures_.gap_y);
    return {measures_.left + column * (measures_.width + measures_.gap_x), top - measures_.height};
  }
  void draw_edge(Point corner) {
    Path path;
    path.add_rectangle({corner.x, corner.y, corner.x + measures_.width, corner.y + measures_.height});
    canvas_.stroke(path, {0.1, cut_line, {}});
  }
  /// The number whole, then as many lines of words as there is room for; beside the code in the middle of its height.
  void write(const LabelItem& item, const Bounds& room, bool in_the_middle) {
    std::vector<SetLine> lines = number_lines(item.number, room);
    double used = height_of(lines);
    bool is_whole = true;
    for (const std::string_view line : lines_as_typed(item.words)) {
      for (SetLine& set : lettering_.set_column(line, words_size, room.width())) {
        if (used + label_leading * words_size > room.height()) is_whole = false;
        if (!is_whole) break;
        used += label_leading * words_size;
        lines.push_back(std::move(set));
      }
    }
    if (!is_whole) end_with_dots(lines, room.width());
    double y = in_the_middle ? room.centre().y + used / 2 : room.top;
    double widest = 0;
    for (const SetLine& line : lines) widest = std::max(widest, line.width());
    for (const SetLine& line : lines) {
      y -= label_leading * line.size;
      const double x = line.right_to_left ? room.left + widest - line.width() : room.left;
      lettering_.draw(canvas_, line, {x, y + 0.3 * line.size}, full_black);
    }
  }
  /// Smaller until it goes on one line; where it then could not be read, on several.
  std::vector<SetLine> number_lines(const std::string& number, const Bounds& room) {
    SetLine line = lettering_.set(number, large_size);
    const double size = std::min(large_size, large_size * room.width() / std::max(line.width(), 1e-9));
    if (size >= least_words) return line.size = size, std::vector{std::move(line)};
    return lettering_.set_column(number, least_words, room.width());
  }
  static double height_of(const std::vector<SetLine>& lines) {
    double height = 0;
    for (const SetLine& line : lines) height += label_leading * line.size;
    return height;
  }
  void end_with_dots(std::vector<SetLine>& lines, double width) {
    if (lines.size() < 2) return;
    const std::string& last = lines.back().shaped.text;
    for (const std::size_t end : ends_of(last)) {
      SetLine cut = lettering_.set(last.substr(0, end) + "…", words_size);
      if (cut.width() > width) continue;
      lines.back() = std::move(cut);
      return;
    }
  }
  /// Bytes behind which the line may be cut, the last first.
  static std::vector<std::size_t> ends_of(const std::string& line) {
    std::vector<std::size_t> ends;
    for (std::size_t i = line.size(); i > 0; --i) {
      if (i == line.size() || (static_cast<unsigned char>(line[i]) & 0xC0U) != 0x80U) ends.push_back(i);
    }
    return ends;
  }

  Canvas& canvas_;
  Lettering& lettering_;
  const LabelGrid& measures_;
};

}  // namespace

MaybeFault check_labels(const LabelGrid& measures, const std::string& where) {
  const Point paper = paper_measures(measures.paper);
  const double right = measures.left + measures.columns * (measures.width + measures.gap_x) - measures.gap_x;
  const double bottom = measures.top + measures.rows * (measures.height + measures.gap_y) - measures.gap_y;
  if (right <= paper.x + edge_slack && bottom <= paper.y + edge_slack) return std::nullopt;
  const bool is_wide = right > paper.x + edge_slack;
  return Fault{"the labels reach over the paper's edge", where,
               is_wide
                   ? "they end " + mm_text(right) + " from its left edge, and it is " + mm_text(paper.x) + " wide"
                   : "they end " + mm_text(bottom) + " from its upper edge, and it is " + mm_text(paper.y) + " high",
               "Measure a sheet of labels again"};
}

Result<Labels> write_labels(const std::vector<LabelItem>& items, const LabelGrid& measures, int first,
                            const std::string& shop_name, const FontLibrary& fonts) {
  if (items.empty()) return Fault{"there is nothing to label", "", "no items were named", "Name an item"};
  if (first < 1 || first > measures.count()) {
    return Fault{"there is no label " + std::to_string(first), "--from",
                 "a sheet has " + std::to_string(measures.count()),
                 "Count them row by row from the upper left, from 1"};
  }
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  const Point paper = paper_measures(measures.paper);
  Canvas canvas = Canvas::pdf(make_visible("Labels · " + shop_name, " ").text);
  LabelPages pages(canvas, *lettering, measures);
  Labels labels;
  int place = first - 1;
  for (const LabelItem& item : items) {
    if (place == measures.count()) place = 0;
    if (place == 0 || labels.ink.empty()) {
      canvas.start_page(paper.x, paper.y);
      canvas.name_page("Labels, page " + std::to_string(labels.ink.size() + 1), true);
      labels.ink.push_back(0);
    }
    const Result<double> ink = pages.add(item, place++);
    if (!ink.ok()) return ink.fault();
    labels.ink.back() += *ink;
  }
  Result<std::string> pdf = canvas.finish();
  if (!pdf.ok()) return pdf.fault();
  labels.pdf = *std::move(pdf);
  return labels;
}

}  // namespace ordinatio::inline paper
