#include "bed/jig.h"

#include <algorithm>
#include <cmath>

#include "bed/jig_hole.h"
#include "bed/jig_numbers.h"
#include "bed/mark_numbers.h"

namespace ordinatio::inline bed {
namespace {

constexpr double touch = 1e-6;     // mm; what meets to this is not in each other's way
constexpr double notch_steps = 2;  // a millimetre: notches come in halves of it
constexpr double mark_margin = 1;  // mm kept between a notch and a mark

std::string hole_name(const Hole& hole) { return "the hole of pocket " + std::to_string(hole.pocket); }

Bounds box_of_mark(const Frame& frame, Point mark) {
  const double arm = frame.plan.marks.size / 2 + mark_margin;
  return {mark.x - arm, mark.y - arm, mark.x + arm, mark.y + arm};
}

/// A hole alone: on the bed, wider than the beam, over no mark.
MaybeFault check_hole(const Frame& frame, const Hole& hole) {
  const Machine& bed = frame.plan.machine;
  const Bounds& box = hole.box;
  if (box.left < -touch || box.bottom < -touch || box.right > bed.width + touch || box.top > bed.height + touch) {
    return jig_fault(frame.plan.jig, hole_name(hole) + " reaches off the bed",
                     "with its clearance it is larger than the pocket",
                     "Take fewer pockets or less clearance, or leave more edge");
  }
  if (std::min(box.width(), box.height()) <= frame.plan.jig.kerf) {
    return jig_fault(frame.plan.jig, hole_name(hole) + " is no wider than the beam",
                     "the kerf is " + mm_text(frame.plan.jig.kerf), "Measure the kerf: cut a slit and gauge it");
  }
  for (std::size_t i = 0; i < frame.marks.size(); ++i) {
    if (!overlap(box_of_mark(frame, frame.marks[i]), box)) continue;
    return jig_fault(frame.plan.jig, hole_name(hole) + " cuts mark " + std::to_string(i + 1) + " away",
                     "with its clearance it is larger than the pocket", "Move the mark, or leave more edge");
  }
  return std::nullopt;
}

MaybeFault check_webs(const Frame& frame, const std::vector<Hole>& holes) {
  for (std::size_t i = 0; i < holes.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const double web = distance(holes[i].box, holes[j].box);
      if (web >= least_web - touch) continue;
      return jig_fault(frame.plan.jig,
                       "pockets " + std::to_string(holes[j].pocket) + " and " + std::to_string(holes[i].pocket) +
                           (web > 0 ? " leave a web of " + mm_text(web) : " run into one another"),
                       "between two holes of the board less than " + mm_text(least_web) + " breaks",
                       "Leave more gap or pitch between pockets, or take less clearance");
    }
  }
  return std::nullopt;
}

/// How large a notch about `centre` may be so that it leaves a web to everything around it.
double room_around(const Frame& frame, const std::vector<Hole>& holes, const Hole& own, Point centre) {
  const Machine& bed = frame.plan.machine;
  double room = std::min({centre.x, centre.y, bed.width - centre.x, bed.height - centre.y}) - least_web;
  for (const Point mark : frame.marks) room = std::min(room, distance(box_of_mark(frame, mark), centre));
  for (const Hole& other : holes) {
    if (other.pocket == own.pocket) continue;
    room = std::min(room, distance(other.box, centre) - least_web);  // other notches are farther: pockets are a grid
  }
  return room;
}

/// The radius that all notches can have, at most the one asked for: the whole radius, or what is left in half steps.
double notch_radius(const Frame& frame, const std::vector<Hole>& holes) {
  double room = 1e300;
  for (const Hole& hole : holes) {
    room = std::min(room, std::min(hole.box.width(), hole.box.height()) / 2 - least_web);
    for (const Point centre : hole.notches()) room = std::min(room, room_around(frame, holes, hole, centre));
  }
  const double wanted = frame.plan.jig.notch / 2;
  return room >= wanted - touch ? wanted : std::floor(2 * room * notch_steps + touch) / notch_steps / 2;
}

Result<std::vector<Hole>> place_holes(const Frame& frame) {
  if (frame.pockets.empty() || frame.pockets.size() > board_pocket_limit) {
    return jig_fault(frame.plan.jig, "a board of " + std::to_string(frame.pockets.size()) + " pockets cannot be made",
                     "", "Take from 1 to " + std::to_string(board_pocket_limit) + " pockets");
  }
  std::vector<Hole> holes;
  for (const Pocket& pocket : frame.pockets) {
    holes.push_back(hole_for(frame, pocket));
    if (auto fault = check_hole(frame, holes.back())) return *std::move(fault);
  }
  if (auto fault = check_webs(frame, holes)) return *std::move(fault);
  if (frame.plan.jig.notch <= 0) return holes;
  const double radius = notch_radius(frame, holes);
  if (radius < std::min(least_notch, frame.plan.jig.notch) / 2 - touch) {
    return jig_fault(frame.plan.jig, "there is no room for finger notches",
                     "beside a neighbour or the bed's edge less than " + mm_text(least_notch) + " across is left",
                     "Leave more gap, pitch or edge, or write notch = 0 for none");
  }
  for (Hole& hole : holes) hole.notch_radius = radius;
  return holes;
}

void add_holes(Sheet& sheet, const std::vector<Hole>& holes) {
  for (const Hole& hole : holes) {
    const std::string number = std::to_string(hole.pocket);
    sheet.parts.push_back(
        {Operation::cut, "pocket-" + number, "hole of pocket " + number, cut_path(hole, sheet.frame.plan.jig.kerf)});
  }
}

}  // namespace

Result<Board> build_jig(const Frame& frame, Typesetter& typesetter) {
  const Result<std::vector<Hole>> holes = place_holes(frame);
  if (!holes.ok()) return holes.fault();
  const std::string name = frame.plan.jig.name.empty() ? "jig" : "jig-" + frame.plan.jig.name;
  Result<Sheet> sheet = build_sheet(frame, {}, name, 1);  // marks and scale bar, as on every sheet
  if (!sheet.ok()) return sheet.fault();
  std::vector<Bounds> taken;
  for (const SheetPart& part : sheet->parts) taken.push_back(bounds_of(part.path));
  Result<BoardNumbers> numbers = place_numbers(frame, *holes, taken, typesetter);
  if (!numbers.ok()) return numbers.fault();
  for (const PlacedNumber& number : numbers->numbers) taken.push_back(bounds_of(number.path));
  Result<std::vector<SheetPart>> of_marks = number_marks(frame, *holes, taken, numbers->height, typesetter);
  if (!of_marks.ok()) return of_marks.fault();
  for (PlacedNumber& number : numbers->numbers) {
    const std::string pocket = std::to_string(number.pocket);
    sheet->parts.push_back(
        {Operation::engrave, "pocket-" + pocket, "number of pocket " + pocket, std::move(number.path)});
  }
  std::ranges::move(*of_marks, std::back_inserter(sheet->parts));
  add_holes(*sheet, *holes);
  std::ranges::stable_sort(sheet->parts, {}, &SheetPart::operation);
  const Hole& first = holes->front();
  return Board{std::move(*sheet), first.box.width(), first.box.height(), 2 * first.notch_radius, numbers->height};
}

}  // namespace ordinatio::inline bed
