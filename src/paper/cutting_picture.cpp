#include "paper/cutting_picture.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline paper {
namespace {

constexpr double measure_room = 14;                         // mm beside and below the pane, for its measures
constexpr double label_size = 2.6, least_label_size = 1.9;  // mm per em
constexpr double ring_radius = 1.7, number_size = 2.2;      // mm
constexpr double hatch_pitch = 1.1, factory_line = 1;       // mm
constexpr double triangle = 1.5;                            // mm, its height
constexpr Colour waste_grey{0xE2, 0xE2, 0xE2}, blade_grey{0x55, 0x55, 0x55}, white{0xFF, 0xFF, 0xFF};

double half_height(const SetLine& line) { return 0.36 * line.size; }  // of capitals and figures

Bounds box_about(Point centre, double half_width, double half_height) {
  return {centre.x - half_width, centre.y - half_height, centre.x + half_width, centre.y + half_height};
}

/// A thing, and a little air between it and words.
Bounds room_about(const Bounds& box) {
  constexpr double air = 0.6;  // mm
  return {box.left - air, box.bottom - air, box.right + air, box.top + air};
}

Path path_of(const Bounds& box) {
  Path path;
  path.add_rectangle(box);
  return path;
}

Path circle(Point centre, double radius) {
  const Polygon corners{centre + Point{-radius, -radius}, centre + Point{radius, -radius},
                        centre + Point{radius, radius}, centre + Point{-radius, radius}};
  return path_of(rounded_outline(corners, radius * (1 - 1e-9)));  // corners as round as they can be
}

}  // namespace

CuttingPicture::CuttingPicture(Canvas& canvas, Lettering& lettering, const CuttingPlan& plan, const Bounds& room)
    : canvas_(canvas), lettering_(lettering), plan_(plan) {
  scale_ = std::min(
      {1.0, (room.width() - measure_room) / plan.pane.width, (room.height() - measure_room) / plan.pane.height});
  origin_ = {room.left, room.top - scale_ * plan.pane.height};
}

Bounds CuttingPicture::on_page(const Bounds& box) const {
  const Point low = on_page(Point{box.left, box.bottom}), high = on_page(Point{box.right, box.top});
  return {low.x, low.y, high.x, high.y};
}

void CuttingPicture::fill(const Bounds& box, Colour colour) { canvas_.fill(path_of(box), colour); }

void CuttingPicture::draw() {
  draw_waste();
  for (const Cut& cut : plan_.cuts) draw_blade(cut);
  for (const PaneThing& thing : plan_.pane.things) draw_thing(thing);
  draw_edges();
  for (std::size_t i = 0; i < plan_.pieces.size(); ++i) draw_piece(i);
  for (std::size_t i = 0; i < plan_.cuts.size(); ++i) number_cut(i);
  for (const PaneThing& thing : plan_.pane.things) name_thing(thing);
  draw_measures();
}

void CuttingPicture::draw_waste() {
  for (const PanePart& part : plan_.parts) {
    if (part.fate == PanePart::Fate::waste) fill(on_page(part.box), waste_grey);
  }
}

/// The factory's edges are heavy, and lie wholly outside the pane so that they hide nothing.
void CuttingPicture::draw_edges() {
  const Bounds box = on_page(plan_.parts.front().box);
  canvas_.stroke(path_of(box), {0.25, black, {}});
  const Sides& factory = plan_.pane.factory;
  const double w = factory_line;
  if (factory.left) fill({box.left - w, box.bottom - w, box.left, box.top + w}, black);
  if (factory.right) fill({box.right, box.bottom - w, box.right + w, box.top + w}, black);
  if (factory.bottom) fill({box.left - w, box.bottom - w, box.right + w, box.bottom}, black);
  if (factory.top) fill({box.left - w, box.top, box.right + w, box.top + w}, black);
}

void CuttingPicture::draw_blade(const Cut& cut) {
  const Bounds part = plan_.parts[cut.part].box;
  Bounds blade = part;
  (cut.upright ? blade.left : blade.bottom) = std::max(cut.blade, cut.upright ? part.left : part.bottom);
  (cut.upright ? blade.right : blade.top) = std::min(cut.blade + plan_.task.kerf, cut.upright ? part.right : part.top);
  blade = on_page(blade);
  fill(blade, blade_grey);
  const Point middle = blade.centre();
  const Point from = cut.upright ? Point{middle.x, blade.bottom} : Point{blade.left, middle.y};
  const Point to = cut.upright ? Point{middle.x, blade.top} : Point{blade.right, middle.y};
  canvas_.stroke(segment(from, to), {0.25, blade_grey, {}});  // however thin the blade
}

void CuttingPicture::draw_thing(const PaneThing& thing) {
  const Bounds box = on_page(thing.box);
  taken_.push_back(room_about(box));
  if (thing.kind == PaneThing::Kind::clear) {
    draw_hatching(box);
    canvas_.stroke(path_of(box), {0.25, alarm, {}});
  } else {
    canvas_.stroke(path_of(box), {0.35, alarm, {1.2, 0.8}});
  }
}

void CuttingPicture::draw_hatching(const Bounds& box) {
  for (double sum = box.left + box.bottom + hatch_pitch; sum < box.right + box.top; sum += hatch_pitch) {
    const double left = std::max(box.left, sum - box.top), right = std::min(box.right, sum - box.bottom);
    canvas_.stroke(segment({left, sum - left}, {right, sum - right}), {0.2, alarm, {}});
  }
}

void CuttingPicture::draw_piece(std::size_t index) {
  const CutPiece& piece = plan_.pieces[index];
  const Bounds box = on_page(piece.place);
  draw_upper_edge(box, piece.turned);
  const Point centre = box.centre();
  const Point third{0, box.height() / 4}, side{box.width() / 4, 0};
  const std::vector<Point> centres{centre,        centre + third,        centre - third,       centre + side,
                                   centre - side, centre + third + side, centre - third - side};
  for (const std::string& name : {piece_id(plan_, index), std::to_string(index + 1)}) {
    SetLine line = lettering_.set(make_visible(name, " ").text, label_size);
    line.size *= std::min(1.0, 0.85 * box.width() / line.width());
    if (line.size < least_label_size || 2 * half_height(line) > 0.8 * box.height()) continue;
    if (put(line, centres, black)) return;
  }
}

/// Own upper edge: on top, or on the left of a piece that lies a quarter turn counter-clockwise.
void CuttingPicture::draw_upper_edge(const Bounds& box, bool turned) {
  if (std::min(box.width(), box.height()) < 4 * triangle) return;
  const Point centre = box.centre();
  constexpr double inset = 0.5;  // mm
  const Point tip = turned ? Point{box.left + inset, centre.y} : Point{centre.x, box.top - inset};
  const Point along = turned ? Point{0, triangle / 2} : Point{triangle / 2, 0};
  const Point back = turned ? Point{triangle, 0} : Point{0, -triangle};
  Path path;
  path.move_to(tip);
  path.line_to(tip + back + along);
  path.line_to(tip + back - along);
  path.close();
  canvas_.fill(path, grey);
  taken_.push_back(bounds_of(path));
}

void CuttingPicture::name_thing(const PaneThing& thing) {
  if (thing.name.empty()) return;
  const Bounds box = on_page(thing.box);
  const SetLine line = lettering_.set(thing.name, least_label_size + 0.3);
  const Point centre = box.centre();
  const double away = half_height(line) + 0.8, aside = line.width() / 2 + 0.8;
  std::erase(taken_, room_about(box));  // its own name may lie on it
  const bool fits = thing.kind == PaneThing::Kind::whole && line.width() < box.width() && 2 * away < box.height();
  const std::vector<Point> inside{centre}, beside{{centre.x, box.top + away},
                                                  {centre.x, box.bottom - away},
                                                  {box.right + aside, centre.y},
                                                  {box.left - aside, centre.y}};
  if (!(fits && put_on_waste(line, inside, alarm))) put_on_waste(line, beside, alarm);
  taken_.push_back(room_about(box));
}

/// In a ring on the blade's line, where it is free.
void CuttingPicture::number_cut(std::size_t index) {
  const Cut& cut = plan_.cuts[index];
  const Bounds part = plan_.parts[cut.part].box;
  SetLine line = lettering_.set(std::to_string(index + 1), number_size);
  line.size *= std::min(1.0, 1.6 * ring_radius / line.width());
  const double across = cut.blade + plan_.task.kerf / 2;
  Point centre;
  for (const double share : {0.5, 0.36, 0.64, 0.22, 0.78, 0.1, 0.9, 0.5}) {
    const Point at{part.left + share * part.width(), part.bottom + share * part.height()};
    centre = on_page(cut.upright ? Point{across, at.y} : Point{at.x, across});
    if (is_free(box_about(centre, ring_radius, ring_radius))) break;
  }
  taken_.push_back(box_about(centre, ring_radius, ring_radius));
  canvas_.fill(circle(centre, ring_radius), white);
  canvas_.stroke(circle(centre, ring_radius), {0.2, black, {}});
  draw_outlines(line, {centre.x - line.width() / 2, centre.y - half_height(line)}, black);
}

bool CuttingPicture::is_free(const Bounds& box) const {
  return std::none_of(taken_.begin(), taken_.end(), [&](const Bounds& other) { return overlap(box, other); });
}

std::optional<Bounds> CuttingPicture::take_place(const SetLine& line, const std::vector<Point>& centres) {
  for (const Point centre : centres) {
    const Bounds box = box_about(centre, line.width() / 2, half_height(line));
    if (!is_free(box)) continue;
    taken_.push_back(box);
    return box;
  }
  return std::nullopt;
}

bool CuttingPicture::put(const SetLine& line, const std::vector<Point>& centres, Colour colour) {
  const std::optional<Bounds> box = take_place(line, centres);
  if (box) lettering_.draw(canvas_, line, {box->left, box->bottom}, colour);
  return box.has_value();
}

bool CuttingPicture::put_on_waste(const SetLine& line, const std::vector<Point>& centres, Colour colour) {
  const std::optional<Bounds> box = take_place(line, centres);
  if (!box) return false;
  constexpr double edge = 0.4;  // mm
  fill({box->left - edge, box->bottom - edge, box->right + edge, box->top + edge}, white);
  draw_outlines(line, {box->left, box->bottom}, colour);
  return true;
}

void CuttingPicture::draw_outlines(const SetLine& line, Point at, Colour colour) {
  Path ink;
  lettering_.typesetter().append_ink(ink, line.shaped, line.size, at, curve_tolerance);
  canvas_.fill(ink, colour);
}

/// The pane's measures below it and on its right, their lines parted by the figures (ISO 129-1 allows it so).
void CuttingPicture::draw_measures() {
  constexpr double away = 8.5, beyond = 1.5, gap = 1.2;  // mm
  const Bounds box = on_page(plan_.parts.front().box);
  const SetLine width = lettering_.set(mm_text(plan_.pane.width), label_size);
  const SetLine height = lettering_.set(mm_text(plan_.pane.height), label_size);
  const double y = box.bottom - away, x = box.right + away;
  const Point centre = box.centre();
  for (const double end : {box.left, box.right}) {
    const double stop = centre.x + (end < centre.x ? -1 : 1) * (width.width() / 2 + gap);
    canvas_.stroke(segment({end, box.bottom - gap - factory_line}, {end, y - beyond}), thin_line());
    if ((end < centre.x) == (end < stop)) canvas_.stroke(segment({end, y}, {stop, y}), thin_line());
  }
  for (const double end : {box.bottom, box.top}) {
    const double stop = centre.y + (end < centre.y ? -1 : 1) * (half_height(height) + gap);
    canvas_.stroke(segment({box.right + gap + factory_line, end}, {x + beyond, end}), thin_line());
    if ((end < centre.y) == (end < stop)) canvas_.stroke(segment({x, end}, {x, stop}), thin_line());
  }
  lettering_.draw(canvas_, width, {centre.x - width.width() / 2, y - half_height(width)}, black);
  const double left = std::min(x - height.width() / 2, x);
  lettering_.draw(canvas_, height, {left, centre.y - half_height(height)}, black);
}

}  // namespace ordinatio::inline paper
