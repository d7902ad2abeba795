#include "paper/sheet_labels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "bed/machine_setting.h"
#include "paper/page.h"
#include "paper/sheet_words.h"

namespace ordinatio::inline paper {
namespace {

constexpr double clearance = 1,
                 wide_clearance = 3;  // mm kept around pockets' labels, and around what speaks of the sheet

Bounds box_at(Point lower_left, const Label& label) {
  return {lower_left.x, lower_left.y, lower_left.x + label.width(), lower_left.y + label.height()};
}

Bounds grown(const Bounds& box, double by) { return {box.left - by, box.bottom - by, box.right + by, box.top + by}; }

bool holds(const Bounds& outer, const Bounds& inner) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.bottom >= outer.bottom &&
         inner.top <= outer.top;
}

/// The pockets where the sheet was laid: boxes around them, should it be turned; and around a piece that has none.
std::vector<Pocket> laid_pockets(const Sheet& sheet) {
  std::vector<Pocket> pockets = sheet.frame.pockets;
  if (!sheet.correction) return pockets;
  for (Pocket& pocket : pockets) {
    Path box;
    box.add_rectangle(pocket.box);
    pocket.box = bounds_of(transformed(box, sheet.correction->registration.to_bed));
  }
  for (const SheetItem& item : sheet.items) {
    if (item.pocket == 0)
      pockets.push_back({0, bounds_of(transformed(path_of(item.artwork.blank), item.to_bed)), false});
  }
  return pockets;
}

/// Puts labels where nothing else is; what has no room is left for another page.
class LabelPlaces {
 public:
  LabelPlaces(Lettering& lettering, const Sheet& sheet, const std::vector<std::string>& remarks)
      : lettering_(lettering),
        sheet_(sheet),
        said_besides_(remarks),
        bed_{0, 0, sheet.frame.plan.machine.width, sheet.frame.plan.machine.height} {
    for (const SheetPart& part : sheet.parts) parts_.push_back(bounds_of(part.path));
    left_ = std::max(edge, bed_.right / 3);
    for (const Pocket& pocket : laid_pockets(sheet)) {
      pockets_.push_back(pocket.box);
      left_ = std::clamp(pocket.box.left, edge, left_);
    }
  }

  SheetLabels take() {
    if (!is_board(sheet_)) {
      for (const Pocket& pocket : laid_pockets(sheet_)) label_pocket(pocket);
      label_marks();
    }
    label_scale_bar();
    const std::vector<std::string> of_pockets = std::exchange(labels_.remarks, {});
    place_heading();
    place_cautions();
    place_colours();
    labels_.remarks.insert(labels_.remarks.end(), of_pockets.begin(), of_pockets.end());
    return std::move(labels_);
  }

 private:
  /// With the customer's name behind the number or below it, where there is room; else it is told on another page.
  void label_pocket(const Pocket& pocket) {
    const std::string words = words_for(pocket, sheet_), name = customer_in(pocket, sheet_);
    const auto put_here = [&](const std::vector<std::string>& lines) {
      return std::ranges::any_of(std::array{2.8, 2.2, 1.8}, [&](double size) {
        Label label{{}, size};
        for (const std::string& line : lines) label.lines.push_back(lettering_.set(line, size));
        return put_beside(pocket, label);
      });
    };
    if (!name.empty() && (put_here({words + " · " + name}) || put_here({words, name}))) return;
    const bool is_put = put_here({words});
    if (!is_put || !name.empty()) labels_.remarks.push_back(name.empty() ? words : words + " · " + name);
  }

  bool put_beside(const Pocket& pocket, const Label& label) {
    for (const Point place : places_beside(pocket, label)) {
      if (label.width() > pocket.box.width() || !is_free(box_at(place, label), clearance, &pocket)) continue;
      put(label, place);
      return true;
    }
    return false;
  }

  /// Under the pocket, over it, then in the blank's lower and upper margin.
  static std::array<Point, 4> places_beside(const Pocket& pocket, const Label& label) {
    const double inset = std::max(clearance, (pocket.box.width() - label.width()) / 2);
    return {Point{pocket.box.left, pocket.box.bottom - clearance - label.height()},
            {pocket.box.left, pocket.box.top + clearance},
            {pocket.box.left + inset, pocket.box.bottom + clearance},
            {pocket.box.left + inset, pocket.box.top - clearance - label.height()}};
  }

  /// By these numbers they are named when they are measured. A board bears them as ink.
  void label_marks() {
    for (const SheetPart& part : sheet_.parts) {
      if (part.operation != Operation::mark || !part.id.starts_with("mark-")) continue;
      const Bounds mark = bounds_of(part.path);
      const Label label{{lettering_.set("mark " + part.id.substr(5), 2.2)}, 2.2};
      const double middle_x = mark.centre().x - label.width() / 2, middle_y = mark.centre().y - label.height() / 2;
      const double gap = 2 * clearance;
      for (const Point place : {Point{mark.right + gap, middle_y}, Point{mark.left - gap - label.width(), middle_y},
                                Point{middle_x, mark.top + gap}, Point{middle_x, mark.bottom - gap - label.height()}}) {
        if (!is_free(box_at(place, label), clearance)) continue;
        put(label, place);
        break;
      }
    }
  }

  void label_scale_bar() {
    const auto bar = std::ranges::find(sheet_.parts, "scale-bar", &SheetPart::id);
    if (bar == sheet_.parts.end()) return;
    const Bounds box = bounds_of(bar->path);
    Label label{{lettering_.set("100 mm", 2.8)}, 2.8};
    const Point place{box.right + 2 * clearance, box.centre().y - label.height() / 2};
    if (is_free(box_at(place, label), clearance)) put(std::move(label), place);
  }

  /// What the sheet is and, below it, what the machine is to be set to; the latter alone rather than neither. What is said
  /// besides stands with them where all have room.
  void place_heading() {
    std::vector<std::string> lines{heading_of(sheet_)};
    if (std::string setting = setting_text(sheet_); !setting.empty()) lines.push_back(std::move(setting));
    constexpr std::array sizes{4.5, 3.5, 2.5};
    std::vector<std::string> all = lines;
    all.insert(all.end(), said_besides_.begin(), said_besides_.end());
    if (put_lines(all, sizes, true)) return;
    labels_.remarks.insert(labels_.remarks.end(), said_besides_.begin(), said_besides_.end());
    if (!said_besides_.empty() && put_lines(lines, sizes, true)) return;
    if (lines.size() > 1 && put_lines({lines.back()}, sizes, true)) lines.pop_back();
    labels_.remarks.insert(labels_.remarks.end(), lines.begin(), lines.end());
  }

  void place_colours() {
    const std::string words = colours_of(sheet_.frame.plan.palette);
    if (!put_lines({words}, {3.5, 2.6, 2.2}, false)) labels_.remarks.push_back(words);
  }

  bool put_lines(const std::vector<std::string>& lines, const std::array<double, 3>& sizes, bool from_top) {
    for (const double size : sizes) {
      Label label{{}, size};
      for (const std::string& line : lines) label.lines.push_back(lettering_.set(line, size));
      const auto place = first_free_place(label, from_top);
      if (!place) continue;
      put(std::move(label), *place);
      return true;
    }
    return false;
  }

  /// A narrow measure reads best; a wide one takes less height.
  void place_cautions() {
    const Cautions cautions = cautions_of(sheet_);
    const double factor = enlargement_for(sheet_.frame.plan.machine), size = caution_size * factor;
    const std::string words = in_running_text(cautions);
    for (const double width : {130 * factor, 200 * factor, 300 * factor, bed_.width() - 2 * edge, 70 * factor}) {
      Label label{lettering_.set_column(words, size, width), size, caution_leading};
      if (const auto place = first_free_place(label, false)) return put(std::move(label), *place);
    }
    labels_.cautions = cautions;
  }

  /// The first free place in the upper or lower third of the bed, from its edge inwards: in line with the first
  /// pockets if there is one, else anywhere.
  [[nodiscard]] std::optional<Point> first_free_place(const Label& label, bool from_top) const {
    constexpr double step = 1;  // mm
    const double last = bed_.right - edge - label.width();
    for (const auto& [from, to] : {std::pair{left_, std::min(left_, last)}, {edge, last}}) {
      for (double in = edge; in < bed_.height() / 3 - label.height(); in += step) {
        const double y = from_top ? bed_.top - in - label.height() : in;
        for (double x = from; x <= to; x += step) {
          if (is_free(box_at({x, y}, label), wide_clearance)) return Point{x, y};
        }
      }
    }
    return std::nullopt;
  }

  /// Whether nothing lies where the label would. Within its own pocket a label may stand in the blank's outline.
  [[nodiscard]] bool is_free(const Bounds& label, double around, const Pocket* own = nullptr) const {
    constexpr double touch = 1e-6;  // mm: what stands exactly at the clearance is free, whatever rounding says
    const Bounds box = grown(label, around - touch);
    const bool is_inside = own != nullptr && holds(own->box, box);
    const auto touches = [&box](const Bounds& other) { return overlap(box, other); };
    if (!holds(bed_, box) || std::ranges::any_of(taken_, touches)) return false;
    if (!is_inside && std::ranges::any_of(pockets_, touches)) return false;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      const bool is_outline = sheet_.parts[i].operation == Operation::guide && holds(parts_[i], box);
      if (touches(parts_[i]) && !(is_inside && is_outline)) return false;
    }
    return true;
  }

  void put(Label label, Point lower_left) {
    taken_.push_back(box_at(lower_left, label));
    labels_.placed.push_back({std::move(label), lower_left});
  }

  Lettering& lettering_;
  const Sheet& sheet_;
  const std::vector<std::string>& said_besides_;
  static constexpr double edge = 4;  // mm kept to the bed's edge by what speaks of the sheet
  Bounds bed_;
  double left_ = 0;  // of the first pockets
  std::vector<Bounds> parts_, pockets_, taken_;
  SheetLabels labels_;
};

}  // namespace

double enlargement_for(const Machine& bed) {
  const double longer = std::max(bed.width, bed.height), shorter = std::min(bed.width, bed.height);
  return std::max({1.0, longer / a4.height, shorter / a4.width});
}

SheetLabels place_labels(Lettering& lettering, const Sheet& sheet, const std::vector<std::string>& remarks) {
  return LabelPlaces(lettering, sheet, remarks).take();
}

}  // namespace ordinatio::inline paper
