#include <algorithm>
#include <array>

#include "bed/item_number.h"
#include "bed/machine_setting.h"
#include "write/kept_clear.h"
#include "write/lettering.h"
#include "write/write.h"

namespace ordinatio {
namespace {

constexpr double hairline = 0.1;  // mm, for whatever is followed and not filled
constexpr double clearance = 1,
                 wide_clearance = 3;            // mm kept around pockets' labels, and around what speaks of the sheet
constexpr double leading = 1.3;                 // em
constexpr double ascent = 0.8, descent = 0.25;  // em, enough for the labels' letters
constexpr Colour label_ink{0x33, 0x33, 0x33};

constexpr std::string_view cautions =
    "Laser class 4: the beam and what it is scattered by harm eyes and skin, and can start a fire. Engraving makes "
    "fumes, and dust of glass and stone: draw them off, do not breathe them. Tempered glass shatters. Never leave the "
    "machine unattended. The machine’s manual, local codes and licensed practice come before anything said here.";

/// Lines of one size, flush left.
struct Label {
  std::vector<SetLine> lines;
  double size = 0;  // mm per em

  [[nodiscard]] double width() const {
    double widest = 0;
    for (const SetLine& line : lines) widest = std::max(widest, line.width());
    return widest;
  }
  [[nodiscard]] double height() const {
    return size * (ascent + descent + leading * static_cast<double>(lines.size() - 1));
  }
};

Bounds box_at(Point lower_left, const Label& label) {
  return {lower_left.x, lower_left.y, lower_left.x + label.width(), lower_left.y + label.height()};
}

Bounds grown(const Bounds& box, double by) { return {box.left - by, box.bottom - by, box.right + by, box.top + by}; }

bool holds(const Bounds& outer, const Bounds& inner) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.bottom >= outer.bottom &&
         inner.top <= outer.top;
}

std::string number(double value) {
  std::string text;
  append_number(text, value, 2);
  return text;
}

/// A board for pieces has none on it, and bears its own numbers.
bool is_board(const Sheet& sheet) { return sheet.items.empty(); }

std::string heading_of(const Sheet& sheet) {
  const Machine& bed = sheet.frame.plan.machine;
  const std::string bed_size = " · bed " + number(bed.width) + " × " + number(bed.height) + " mm · ";
  if (is_board(sheet)) return sheet.name + bed_size + std::to_string(sheet.frame.pockets.size()) + " pockets";
  std::string text = sheet.name + " · sheet " + std::to_string(sheet.number) + bed_size +
                     std::to_string(sheet.items.size()) + (sheet.items.size() == 1 ? " item" : " items");
  if (!sheet.remake_of.empty()) text += " · remade from " + sheet.remake_of;
  if (sheet.correction) text += " · laid as measured";
  return text;
}

std::string words_for(const Pocket& pocket, const Sheet& sheet) {
  const std::string number = pocket.number == 0 ? "laid by hand" : "pocket " + std::to_string(pocket.number);
  const auto item = std::ranges::find(sheet.items, pocket.number, &SheetItem::pocket);
  if (item == sheet.items.end()) return number + " · empty";
  const Blank& piece = item->artwork.blank;
  return number + " · " + number_for_people(item->item) + (piece.id.empty() ? "" : " on " + piece.id) +
         (piece.turned ? ", turned" : "") + " · " + item->artwork.hash.substr(0, 8);
}

/// Who ordered what lies in the pocket, cut where it is long; empty: not known.
std::string customer_in(const Pocket& pocket, const Sheet& sheet) {
  constexpr std::size_t longest = 32;  // graphemes: at 1.8 mm they stand beside most pieces
  const auto item = std::ranges::find(sheet.items, pocket.number, &SheetItem::pocket);
  if (item == sheet.items.end()) return "";
  const std::string name = make_visible(item->item.customer, " ").text;
  const std::vector<std::string_view> letters = graphemes_of(name);
  if (letters.size() <= longest) return name;
  return name.substr(0, static_cast<std::size_t>(letters[longest].data() - name.data())) + "…";
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

/// Puts labels where nothing else is; where there is no room, none is put.
class Labels {
 public:
  Labels(Canvas& canvas, Lettering& lettering, const Sheet& sheet)
      : canvas_(canvas),
        lettering_(lettering),
        sheet_(sheet),
        bed_{0, 0, sheet.frame.plan.machine.width, sheet.frame.plan.machine.height} {
    for (const SheetPart& part : sheet.parts) parts_.push_back(bounds_of(part.path));
    left_ = std::max(edge, bed_.right / 3);
    for (const Pocket& pocket : laid_pockets(sheet)) {
      pockets_.push_back(pocket.box);
      left_ = std::clamp(pocket.box.left, edge, left_);
    }
  }

  void draw() {
    if (!is_board(sheet_)) {
      for (const Pocket& pocket : laid_pockets(sheet_)) label_pocket(pocket);
      label_marks();
    }
    label_scale_bar();
    draw_heading();
    draw_cautions();
  }

 private:
  /// With the customer's name behind the number or below it, where there is room.
  void label_pocket(const Pocket& pocket) {
    const std::string words = words_for(pocket, sheet_), name = customer_in(pocket, sheet_);
    const auto put_lines = [&](const std::vector<std::string>& lines) {
      return std::ranges::any_of(std::array{2.8, 2.2, 1.8}, [&](double size) {
        Label label{{}, size};
        for (const std::string& line : lines) label.lines.push_back(lettering_.set(line, size));
        return put_beside(pocket, label);
      });
    };
    if (!name.empty() && (put_lines({words + " · " + name}) || put_lines({words, name}))) return;
    put_lines({words});
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
    const Label label{{lettering_.set("100 mm", 2.8)}, 2.8};
    const Point place{box.right + 2 * clearance, box.centre().y - label.height() / 2};
    if (is_free(box_at(place, label), clearance)) put(label, place);
  }

  /// What the sheet is and, below it, what the machine is to be set to; the latter alone rather than neither.
  void draw_heading() {
    const std::string setting = setting_text(sheet_);
    const std::vector<std::string> heading{heading_of(sheet_)},
        both = setting.empty() ? heading : std::vector<std::string>{heading.front(), setting};
    if (!put_at_top(both) && !setting.empty()) put_at_top({setting});
  }

  bool put_at_top(const std::vector<std::string>& lines) {
    for (const double size : {4.5, 3.5, 2.5}) {
      Label label{{}, size};
      for (const std::string& line : lines) label.lines.push_back(lettering_.set(line, size));
      const auto place = first_free_place(label, true);
      if (!place) continue;
      put(label, *place);
      return true;
    }
    return false;
  }

  /// A narrow measure reads best; a wide one takes less height.
  void draw_cautions() {
    for (const double size : {2.6, 2.2, 1.8}) {
      for (const double width : {130.0, 200.0, 300.0, bed_.width() - 2 * edge, 70.0}) {
        const Label label{lettering_.set_column(cautions, size, width), size};
        if (const auto place = first_free_place(label, false)) return put(label, *place);
      }
    }
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

  void put(const Label& label, Point lower_left) {
    const Bounds box = box_at(lower_left, label);
    taken_.push_back(box);
    double baseline = box.top - ascent * label.size;
    for (const SetLine& line : label.lines) {
      lettering_.draw(canvas_, line, {box.left, baseline}, label_ink);
      baseline -= leading * label.size;
    }
  }

  Canvas& canvas_;
  Lettering& lettering_;
  const Sheet& sheet_;
  static constexpr double edge = 4;  // mm kept to the bed's edge by what speaks of the sheet
  Bounds bed_;
  double left_ = 0;  // of the first pockets
  std::vector<Bounds> parts_, pockets_, taken_;
};

Result<std::string> draw_sheet(Canvas canvas, const Sheet& sheet, const FontLibrary& fonts) {
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering) return lettering.fault();
  for (const SheetPart& part : sheet.parts) {
    const Colour colour = sheet.frame.plan.palette[part.operation];
    if (is_filled(part.operation)) {
      canvas.fill(part.path, colour);
    } else {
      canvas.stroke(part.path, {hairline, colour, {}});
    }
  }
  if (MaybeFault fault = canvas.first_fault()) return *std::move(fault);  // no labels on a bed without measures
  for (const SheetItem& item : sheet.items) {
    draw_kept_clear(canvas, *lettering, item.artwork.kept_clear, item.to_bed, label_ink);
  }
  Labels(canvas, *lettering, sheet).draw();
  return canvas.finish();
}

}  // namespace

Result<std::string> write_sheet_pdf(const Sheet& sheet, const FontLibrary& fonts) {
  Canvas canvas = Canvas::pdf(make_visible(sheet.name, " ").text);
  canvas.start_page(sheet.frame.plan.machine.width, sheet.frame.plan.machine.height);
  return draw_sheet(std::move(canvas), sheet, fonts);
}

Result<std::string> write_sheet_png(const Sheet& sheet, const FontLibrary& fonts, double pixels_per_mm) {
  return draw_sheet(Canvas::picture(sheet.frame.plan.machine.width, sheet.frame.plan.machine.height, pixels_per_mm),
                    sheet, fonts);
}

}  // namespace ordinatio
