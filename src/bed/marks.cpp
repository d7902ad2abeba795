#include <algorithm>
#include <cmath>
#include <numbers>

#include "bed/bed.h"

namespace ordinatio::inline bed {
namespace {

Fault mark_fault(const std::string& what, const std::string& why, const std::string& mend) {
  return {what, "shop.toml, [marks]", why, mend};
}

Bounds box_around(Point centre, double size) {
  return {centre.x - size / 2, centre.y - size / 2, centre.x + size / 2, centre.y + size / 2};
}

/// Near the bed's corners, a mark's width from the edges, the last one set aside from its corner: a sheet laid turned,
/// mirrored, or mirrored across the corners of a square bed shows.
std::vector<Point> corner_places(const BedPlan& plan) {
  const double inset = plan.marks.size, w = plan.machine.width, h = plan.machine.height;
  if (plan.marks.count < 4) return {{inset, inset}, {w - inset, inset}, {inset, h - 2.5 * inset}};
  return {{inset, inset}, {w - inset, inset}, {inset, h - inset}, {w - 2.5 * inset, h - inset}};
}

bool fix_no_turn(const std::vector<Point>& places) {
  double widest = 0, reach = 0;
  for (const Point p : places) {
    reach = std::max(reach, length(p - places[0]));
    for (const Point q : places) widest = std::max(widest, std::abs(cross(q - places[0], p - places[0])));
  }
  return widest <= 1e-3 * reach * reach;  // a triangle flatter than that fixes no turn
}

/// The mark with its scale bar's or pocket's neighbours in mind: wholly on the bed, wholly off every pocket.
MaybeFault check_place(const BedPlan& plan, const std::vector<Pocket>& pockets, Point place, std::size_t number) {
  const Bounds box = box_around(place, plan.marks.size);
  const std::string name = "mark " + std::to_string(number);
  if (box.left < 0 || box.bottom < 0 || box.right > plan.machine.width || box.top > plan.machine.height) {
    return mark_fault(name + " is off the bed", "its place is nearer to the edge than half its size",
                      "Move it inwards");
  }
  for (const Pocket& pocket : pockets) {
    if (!overlap(box, pocket.box)) continue;
    return mark_fault(name + " lies under pocket " + std::to_string(pocket.number), "a blank would cover it",
                      "Move the mark, or leave more edge around the pockets");
  }
  return std::nullopt;
}

void add_line(Path& path, Point from, Point to) {
  path.move_to(from);
  path.line_to(to);
}

void add_circle(Path& path, Point centre, double radius) {
  constexpr int arcs = 8;
  const double step = 2 * std::numbers::pi / arcs, handle = 4.0 / 3 * std::tan(step / 4);
  const auto spoke = [&](int i) { return radius * Point{std::cos(i * step), std::sin(i * step)}; };
  path.move_to(centre + spoke(0));
  for (int i = 0; i < arcs; ++i) {
    const Point a = spoke(i), b = i + 1 == arcs ? spoke(0) : spoke(i + 1);
    path.cubic_to(centre + a + handle * Point{-a.y, a.x}, centre + b - handle * Point{-b.y, b.x}, centre + b);
  }
  path.close();
}

}  // namespace

Path mark_path(MarkPlan::Kind kind, double size, Point centre) {
  const double arm = size / 2;
  Path path;
  if (kind != MarkPlan::Kind::ring) {
    add_line(path, centre - Point{arm, 0}, centre + Point{arm, 0});
    add_line(path, centre - Point{0, arm}, centre + Point{0, arm});
  }
  if (kind == MarkPlan::Kind::ring) add_circle(path, centre, arm);
  if (kind == MarkPlan::Kind::target) add_circle(path, centre, arm / 2);
  return path;
}

Result<std::vector<Point>> place_marks(const BedPlan& plan, const std::vector<Pocket>& pockets) {
  const std::vector<Point> places = plan.marks.places.empty() ? corner_places(plan) : plan.marks.places;
  if (places.size() < 3 || places.size() > 4) {
    return mark_fault("there are " + std::to_string(places.size()) + " marks",
                      "three or four are needed to lay a sheet true", "Give three or four places");
  }
  if (fix_no_turn(places)) {
    return mark_fault("the marks stand in one line", "a turn could not be told from them", "Move one of them aside");
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (auto fault = check_place(plan, pockets, places[i], i + 1)) return *std::move(fault);
  }
  return places;
}

}  // namespace ordinatio::inline bed
