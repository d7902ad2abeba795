#include "bed/settings_card.h"

#include <algorithm>

#include "strokes/alphabet.h"

namespace ordinatio::inline bed {
namespace {

constexpr double card_margin = 4;  // mm, of the card's edge; common practice, no source
constexpr double cell_gap = 2;     // mm
constexpr double label_capitals =
    2.5;  // mm, one of ISO 3098's sizes; where labels are too wide for their cells, the least
constexpr double least_capitals = 1.8;   // mm, the smallest of ISO 3098
constexpr double line_step = 1.7;        // capitals, from label to label below
constexpr std::size_t layer_limit = 31;  // characters of a layer's name that every reader of R12 takes

std::string value_text(double value) {
  std::string text;
  append_number(text, value, 4);
  return text;
}

/// "12.5 mm/s" as readers of layers take it: "12_5MM-S".
std::string layer_word(double value, const std::string& unit) {
  std::string word = value_text(value);
  std::ranges::replace(word, '.', '_');
  for (const char c : unit)
    word += c == '/' ? "-" : c == '%' ? "PC" : std::string(1, static_cast<char>(c >= 'a' ? c - 'a' + 'A' : c));
  return word;
}

std::string upper(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) { return c >= 'a' && c <= 'z' ? char(c - 'a' + 'A') : c; });
  return text;
}

std::string lower(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? char(c - 'A' + 'a') : c; });
  return text;
}

/// A label, from its left end on the baseline.
Path label(const std::string& words, double capitals) {
  return *words_in_strokes(*stroke_face("stroke"), words,
                           capitals);  // figures, units and three words: the alphabet has them
}

double width_of(const std::string& words, double capitals) { return bounds_of(label(words, capitals)).width(); }

class CardDrawing {
 public:
  CardDrawing(const SettingsCardPlan& plan, Sheet& sheet) : plan_(plan), sheet_(sheet) {}

  MaybeFault draw() {
    for (const double capitals : {label_capitals, least_capitals}) {
      capitals_ = capitals;
      measure();
      if (labels_fit()) break;
    }
    if (auto fault = too_small()) return fault;
    for (std::size_t row = 0; row < plan_.down.values.size(); ++row) {
      for (std::size_t column = 0; column < plan_.across.values.size(); ++column) {
        if (auto fault = draw_cell(row, column)) return fault;
      }
    }
    draw_labels();
    Path outline;
    outline.add_rectangle({0, 0, plan_.width, plan_.height});
    sheet_.parts.push_back({Operation::guide, "card", "outline of the card", std::move(outline)});
    std::ranges::stable_sort(sheet_.parts, {}, &SheetPart::operation);
    return std::nullopt;
  }

 private:
  void measure() {
    left_ = width_of(plan_.down.what, capitals_);
    for (const double value : plan_.down.values) left_ = std::max(left_, width_of(row_words(value), capitals_));
    left_ += card_margin + cell_gap;
    top_ = plan_.height - card_margin - 2 * line_step * capitals_;
    const auto side = [](double room, std::size_t count) {
      const auto n = static_cast<double>(count);
      return (room - (n - 1) * cell_gap) / n;
    };
    side_ = std::min({side(plan_.width - card_margin - left_, plan_.across.values.size()),
                      side(top_ - card_margin, plan_.down.values.size()), largest_cell});
  }

  [[nodiscard]] std::string row_words(double value) const { return value_text(value) + ' ' + plan_.down.unit; }

  [[nodiscard]] bool labels_fit() const {
    double widest = 0;
    for (const double value : plan_.across.values) widest = std::max(widest, width_of(value_text(value), capitals_));
    return side_ >= least_cell && widest <= side_ + cell_gap - capitals_ / 2 &&
           left_ + width_of(plan_.across.what + ", " + plan_.across.unit, capitals_) <= plan_.width - card_margin;
  }

  [[nodiscard]] MaybeFault too_small() const {
    if (labels_fit()) return std::nullopt;
    return Fault{"a card of " + mm_text(plan_.width) + " x " + mm_text(plan_.height) + " is too small for " +
                     std::to_string(plan_.down.values.size()) + " rows of " +
                     std::to_string(plan_.across.values.size()) + " cells",
                 "",
                 side_ < least_cell ? "a cell would be smaller than " + mm_text(least_cell)
                                    : "its labels would run into one another",
                 "Try fewer values, or take a larger piece"};
  }

  MaybeFault draw_cell(std::size_t row, std::size_t column) {
    const double x = left_ + static_cast<double>(column) * (side_ + cell_gap);
    const double y = top_ - side_ - static_cast<double>(row) * (side_ + cell_gap);
    const TrialValues &across = plan_.across, &down = plan_.down;
    const std::string name = upper(across.what) + "_" + layer_word(across.values[column], across.unit) + "_" +
                             upper(down.what) + "_" + layer_word(down.values[row], down.unit);
    if (name.size() > layer_limit) {
      return Fault{"the layer's name " + name + " is too long", "", "readers of DXF R12 take 31 characters",
                   "Give values with fewer figures"};
    }
    SheetPart cell{Operation::engrave,
                   lower(name),
                   across.what + ' ' + value_text(across.values[column]) + ' ' + across.unit + ", " + down.what + ' ' +
                       row_words(down.values[row]),
                   {},
                   name};
    cell.path.add_rectangle({x, y, x + side_, y + side_});
    if (plan_.hatch) {
      HatchPart hatch = *plan_.hatch;
      if (down.what == "pitch") hatch.lines.pitch = down.values[row];
      if (across.what == "pitch") hatch.lines.pitch = across.values[column];
      Result<Path> lines = hatched(cell.path, hatch.lines);
      if (!lines.ok()) return lines.fault();
      cell.path = *std::move(lines), cell.operation = hatch.operation;
    }
    sheet_.parts.push_back(std::move(cell));
    return std::nullopt;
  }

  void draw_labels() {
    const double values_at = top_ + (line_step - 1) * capitals_, title_at = values_at + line_step * capitals_;
    add("across", plan_.across.what + ", " + plan_.across.unit, {left_, title_at});
    add("down", plan_.down.what, {card_margin, values_at});
    for (std::size_t i = 0; i < plan_.across.values.size(); ++i) {
      const std::string words = value_text(plan_.across.values[i]);
      const double middle = left_ + static_cast<double>(i) * (side_ + cell_gap) + side_ / 2;
      add("across-" + std::to_string(i + 1), words, {middle - width_of(words, capitals_) / 2, values_at});
    }
    for (std::size_t i = 0; i < plan_.down.values.size(); ++i) {
      const double middle = top_ - side_ / 2 - static_cast<double>(i) * (side_ + cell_gap);
      add("down-" + std::to_string(i + 1), row_words(plan_.down.values[i]), {card_margin, middle - capitals_ / 2});
    }
  }

  /// The ink's left edge comes to stand at the place.
  void add(const std::string& id, const std::string& words, Point at) {
    const Path strokes = label(words, capitals_);
    sheet_.parts.push_back({Operation::mark, "label-" + id, "label: " + words,
                            transformed(strokes, shift_by({at.x - bounds_of(strokes).left, at.y}))});
  }

  const SettingsCardPlan& plan_;
  Sheet& sheet_;
  double capitals_ = label_capitals, left_ = 0, top_ = 0, side_ = 0;
};

}  // namespace

Result<Sheet> build_settings_card(const SettingsCardPlan& plan, const BedPlan& workshop) {
  Sheet sheet;
  sheet.name = "settings-card";
  sheet.frame.plan = workshop;
  sheet.frame.plan.machine.width = sheet.frame.blank_width = plan.width;
  sheet.frame.plan.machine.height = sheet.frame.blank_height = plan.height;
  sheet.frame.plan.scale_bar = false;  // there is no room for 100 mm
  if (auto fault = CardDrawing(plan, sheet).draw()) return *std::move(fault);
  return sheet;
}

}  // namespace ordinatio::inline bed
