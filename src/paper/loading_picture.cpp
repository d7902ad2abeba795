#include "paper/loading_picture.h"

#include <algorithm>
#include <cmath>

#include "paper/loading_words.h"
#include "paper/page.h"

namespace ordinatio::inline paper {
namespace {

constexpr Colour bed_light{0xC4, 0xC4, 0xC4}, bed_faint{0xA0, 0xA0, 0xA0};
constexpr double bed_below = 6;                      // mm of paper under the bed, for where the person stands
constexpr double bed_line = 0.3, piece_line = 0.35;  // mm
constexpr double bed_largest_number = 9, bed_number_share = 0.4;  // mm per em; of a pocket's shorter side
constexpr double arrow_share = 0.16, least_arrow = 1.4,
                 largest_arrow = 3.2;  // of a piece's shorter side; mm on the page
constexpr double bed_inset = 1;        // mm, between the bed's edge and what is written in it
constexpr double bed_capital = 0.7;    // em: figures and capitals of the reading face are about that tall

double scale_for(const Sheet& sheet, double width, double height) {
  const Machine& bed = sheet.frame.plan.machine;
  return std::min(width / bed.width, (height - bed_below) / bed.height);
}

Path closed_path(const Polygon& corners) {
  Path path;
  for (std::size_t i = 0; i < corners.size(); ++i) i == 0 ? path.move_to(corners[i]) : path.line_to(corners[i]);
  if (!corners.empty()) path.close();
  return path;
}

class BedPlanPicture {
 public:
  BedPlanPicture(Canvas& canvas, Lettering& lettering, const Sheet& sheet, const Bounds& room, double least)
      : canvas_(canvas),
        lettering_(lettering),
        sheet_(sheet),
        lines_(loading_lines(sheet)),
        least_(least),
        scale_(scale_for(sheet, room.width(), room.height())) {
    const Machine& bed = sheet.frame.plan.machine;
    const Point origin{room.centre().x - scale_ * bed.width / 2, room.top - scale_ * bed.height};
    to_page_ = then(scale_by(scale_), shift_by(origin));
  }

  void draw() {
    draw_bed();
    for (const Pocket& pocket : sheet_.frame.pockets) draw_pocket(pocket);
    for (const SheetItem& item : sheet_.items) draw_item(item);
    for (const Pocket& pocket : sheet_.frame.pockets) {
      const bool is_empty = std::ranges::find(sheet_.items, pocket.number, &SheetItem::pocket) == sheet_.items.end();
      number(std::to_string(pocket.number), on_page(pocket.box), is_empty ? grey : black);
    }
    for (const SheetItem& item : sheet_.items) {
      if (item.pocket == 0) number("by hand", on_page(box_on_bed(item)), black);
    }
    draw_marks();
  }

 private:
  [[nodiscard]] Bounds on_page(const Bounds& box) const {
    Bounds there;
    there.add(to_page_({box.left, box.bottom}));
    there.add(to_page_({box.right, box.top}));
    return there;
  }

  void draw_bed() {
    const Machine& bed = sheet_.frame.plan.machine;
    const Bounds box = on_page({0, 0, bed.width, bed.height});
    canvas_.stroke(closed_path(polygon_of_box(box)), {bed_line, grey, {}});
    const double baseline = box.bottom - 1.2 * least_;
    lettering_.draw(canvas_, lettering_.set("0, 0", least_), {box.left, baseline}, grey);
    const SetLine front = lettering_.set("you stand here", least_);
    lettering_.draw(canvas_, front, {box.centre().x - front.width() / 2, baseline}, grey);
  }

  void draw_pocket(const Pocket& pocket) {
    Path box = closed_path(polygon_of_box(pocket.box));
    if (sheet_.correction) box = transformed(box, sheet_.correction->registration.to_bed);
    canvas_.stroke(transformed(box, to_page_), {0.2, bed_faint, {0.8, 0.8}});
  }

  void draw_item(const SheetItem& item) {
    const Transform to_page = then(item.to_bed, to_page_);
    for (const Layer& layer : item.artwork.layers) {
      if (layer.operation == Operation::guide) continue;
      const Path path = transformed(layer.path, to_page);
      if (is_filled(layer.operation)) {
        canvas_.fill(path, bed_light);
      } else {
        canvas_.stroke(path, {0.2, bed_light, {}});
      }
    }
    canvas_.stroke(transformed(path_of(item.artwork.blank), to_page), {piece_line, black, {}});
    for (const KeptClear& thing : item.artwork.kept_clear) {
      for (const Polygon& outline : outline_of(thing)) {
        canvas_.stroke(transformed(closed_path(outline), to_page), {0.25, alarm, {0.7, 0.5}});
      }
    }
    if (!item.artwork.blank.id.empty()) draw_top(item);
    if (falls_short(item)) draw_corner(item);
  }

  /// A small arrow at the edge that was the upper one when the piece was measured.
  void draw_top(const SheetItem& item) {
    const Bounds box = on_page(box_on_bed(item));
    const Point top = top_on_bed(item);
    const double size = std::clamp(arrow_share * std::min(box.width(), box.height()), least_arrow, largest_arrow),
                 gap = 0.6;
    const bool is_across = std::abs(top.x) > std::abs(top.y);
    const Point way = is_across ? Point{top.x < 0 ? -1.0 : 1.0, 0} : Point{0, top.y < 0 ? -1.0 : 1.0};
    const Point side{-way.y, way.x};
    const double out = (is_across ? box.width() : box.height()) / 2 - gap;
    const Point tip = box.centre() + out * way, base = tip - 0.8 * size * way;
    canvas_.fill(closed_path({tip, base + (size / 2) * side, base - (size / 2) * side}), grey);
  }

  [[nodiscard]] bool falls_short(const SheetItem& item) const {
    return std::ranges::any_of(lines_,
                               [&](const LoadingLine& line) { return line.falls_short && line.pocket == item.pocket; });
  }

  /// The corner that it is pushed into.
  void draw_corner(const SheetItem& item) {
    const auto pocket = std::ranges::find(sheet_.frame.pockets, item.pocket, &Pocket::number);
    if (pocket == sheet_.frame.pockets.end()) return;
    const Bounds box = on_page(pocket->box);
    const Jig::Datum datum = sheet_.frame.plan.jig.datum;
    const double leg = std::min({5.0, box.width() / 3, box.height() / 3});
    const Point corner{is_left(datum) ? box.left : box.right, is_lower(datum) ? box.bottom : box.top};
    Path path;
    path.move_to(corner + Point{is_left(datum) ? leg : -leg, 0});
    path.line_to(corner);
    path.line_to(corner + Point{0, is_lower(datum) ? leg : -leg});
    canvas_.stroke(path, {0.9, alarm, {}});
  }

  /// In the middle of a box.
  void number(const std::string& text, const Bounds& box, Colour colour) {
    const double size = std::clamp(bed_number_share * std::min(box.width(), box.height()), least_, bed_largest_number);
    const SetLine line = lettering_.set(text, size);
    const Point middle = box.centre();
    lettering_.draw(canvas_, line, {middle.x - line.width() / 2, middle.y - bed_capital * size / 2}, colour);
  }

  /// Each with its number towards the middle of the bed.
  void draw_marks() {
    const double middle = sheet_.frame.plan.machine.width / 2;
    for (std::size_t i = 0; i < sheet_.frame.marks.size(); ++i) {
      const std::string id = "mark-" + std::to_string(i + 1);
      const auto part = std::ranges::find(sheet_.parts, id, &SheetPart::id);
      if (part == sheet_.parts.end()) continue;
      const Path path = transformed(part->path, to_page_);
      canvas_.stroke(path, {bed_line, black, {}});
      const Bounds box = bounds_of(path);
      const SetLine line = lettering_.set("mark " + std::to_string(i + 1), least_);
      const bool is_left = sheet_.frame.marks[i].x < middle;
      const double x = is_left ? box.right + 1 : box.left - 1 - line.width();
      const Bounds bed = on_page({0, 0, sheet_.frame.plan.machine.width, sheet_.frame.plan.machine.height});
      const double lowest = bed.bottom + bed_inset, highest = bed.top - bed_inset - bed_capital * least_;
      const double y = std::clamp(box.centre().y - bed_capital * least_ / 2, lowest, std::max(lowest, highest));
      lettering_.draw(canvas_, line, {x, y}, black);
    }
  }

  Canvas& canvas_;
  Lettering& lettering_;
  const Sheet& sheet_;
  std::vector<LoadingLine> lines_;
  double least_, scale_;
  Transform to_page_;
};

}  // namespace

double loading_picture_height(const Sheet& sheet, double width, double height) {
  return scale_for(sheet, width, height) * sheet.frame.plan.machine.height + bed_below;
}

void draw_loading_picture(Canvas& canvas, Lettering& lettering, const Sheet& sheet, const Bounds& room, double least) {
  BedPlanPicture(canvas, lettering, sheet, room, least).draw();
}

}  // namespace ordinatio::inline paper
