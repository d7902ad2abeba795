#include "bed/cutting.h"

#include <algorithm>
#include <cmath>

#include "bed/cut_search.h"
#include "bed/safety_glass.h"

namespace ordinatio::inline bed {
namespace {

/// Cuts through a part with things in it that are tried, until there are few enough; one at a time always is.
constexpr std::array breadths{all_cuts, std::size_t{3}, std::size_t{1}};

Micron to_microns(double mm) { return std::llround(mm * microns_per_mm); }
double to_mm(Micron length) { return static_cast<double>(length) / microns_per_mm; }
MicronBox to_microns(const Bounds& box) {
  return {to_microns(box.left), to_microns(box.bottom), to_microns(box.right), to_microns(box.top)};
}
Bounds to_mm(const MicronBox& box) { return {to_mm(box.left), to_mm(box.bottom), to_mm(box.right), to_mm(box.top)}; }

bool is_side(double mm) { return mm <= longest_pane_side && to_microns(std::max(mm, 0.0)) > 0; }  // not for NaN

MaybeFault check_task(const CuttingTask& task) {
  if (!is_side(task.piece_width) || !is_side(task.piece_height)) {
    return Fault{"the piece has no size that can be cut", "", "its sides are more than 0 and at most 10,000 mm", ""};
  }
  if (!(task.kerf >= 0 && task.kerf <= widest_kerf)) {
    return Fault{"the kerf is no blade's", "", "it is from 0 to " + mm_text(widest_kerf),
                 "Measure the slit that the saw leaves"};
  }
  return std::nullopt;
}

bool lies_on(const Bounds& box, const Pane& pane) {
  return box.left >= 0 && box.bottom >= 0 && box.right <= pane.width && box.top <= pane.height &&
         to_microns(box.right - box.left) > 0 && to_microns(box.top - box.bottom) > 0;
}

MaybeFault check_pane(const Pane& pane) {
  const std::string where = "pane " + pane.id;
  if (pane.tempered) {
    Fault fault = safety_glass("tempered");
    fault.where = where;
    return fault;
  }
  if (!is_side(pane.width) || !is_side(pane.height)) {
    return Fault{"the pane has no size that can be cut", where, "its sides are more than 0 and at most 10,000 mm",
                 "Measure it again"};
  }
  if (pane.things.size() > most_things) {
    return Fault{"too many things lie on the pane", where,
                 "at most " + std::to_string(most_things) + " are planned around",
                 "Take neighbouring ones together in one box, or cut the pane in two first"};
  }
  for (const PaneThing& thing : pane.things) {
    if (lies_on(thing.box, pane)) continue;
    return Fault{"the thing \"" + thing.name + "\" does not lie on the pane", where,
                 "its box has no size, or reaches beyond the pane's edges",
                 "Measure it from the pane's lower-left corner"};
  }
  return std::nullopt;
}

/// From pane mm to the mm of a piece as it stands upright.
Bounds own_box(const Bounds& box, const Bounds& place, bool turned) {
  if (!turned) return box.shifted({-place.left, -place.bottom});
  return {box.bottom - place.bottom, place.right - box.right, box.top - place.bottom, place.right - box.left};
}

Sides own_sides(const Sides& sides, bool turned) {
  if (!turned) return sides;
  return {sides.bottom, sides.right, sides.top, sides.left};
}

/// Writes the plan down in the order in which a person saws.
class Sawing {
 public:
  Sawing(CuttingPlan& plan, CutSearch& search) : plan_(plan), search_(search) {}
  void saw_pane() { saw(add_part(search_.whole_pane())); }

 private:
  std::size_t add_part(const MicronBox& box);
  void add_piece(PanePart& part, const MicronBox& box);
  std::optional<std::size_t> add_half(const MicronBox& box);
  void saw(std::size_t part);
  Cut make_cut(std::size_t part, const BladePlace& place);
  [[nodiscard]] bool measures_from_far(const BladePlace& place, const std::array<MicronBox, 2>& halves);
  [[nodiscard]] bool is_cut_further(std::optional<std::size_t> part) const {
    return part && plan_.parts[*part].fate == PanePart::Fate::cut;
  }

  CuttingPlan& plan_;
  CutSearch& search_;
  std::vector<MicronBox> boxes_;  // of the plan's parts
};

std::size_t Sawing::add_part(const MicronBox& box) {
  PanePart part{to_mm(box), PanePart::Fate::waste, 0};
  if (search_.is_piece(box)) {
    add_piece(part, box);
  } else if (search_.worth(box) > 0) {
    part.fate = PanePart::Fate::cut;
  }
  plan_.parts.push_back(part);
  boxes_.push_back(box);
  return boxes_.size() - 1;
}

void Sawing::add_piece(PanePart& part, const MicronBox& box) {
  part.fate = PanePart::Fate::piece;
  part.piece = plan_.pieces.size();
  CutPiece piece{part.box, box.width() != to_microns(plan_.task.piece_width), {}, {}};
  piece.factory = own_sides(search_.factory_of(box), piece.turned);
  for (const PaneThing& thing : plan_.pane.things) {
    if (!to_microns(thing.box).meets(box)) continue;
    piece.things.push_back({thing.kind, own_box(thing.box, piece.place, piece.turned), thing.name});
  }
  plan_.pieces.push_back(std::move(piece));
}

std::optional<std::size_t> Sawing::add_half(const MicronBox& box) {
  if (box.width() <= 0 || box.height() <= 0) return std::nullopt;
  return add_part(box);
}

/// What is kept is measured, not the waste beside it.
bool Sawing::measures_from_far(const BladePlace& place, const std::array<MicronBox, 2>& halves) {
  const bool low_kept = search_.worth(halves[0]) > 0, high_kept = search_.worth(halves[1]) > 0;
  return low_kept == high_kept ? place.from_far : high_kept;
}

Cut Sawing::make_cut(std::size_t part, const BladePlace& place) {
  const auto [upright, blade, unused] = place;
  const MicronBox box = boxes_[part];
  const std::array<MicronBox, 2> halves = search_.halves(box, upright, blade);
  const bool far = measures_from_far(place, halves);
  const MicronBox& kept = halves[far ? 1 : 0];
  Cut cut{part, upright, to_mm(blade), far, to_mm(upright ? kept.width() : kept.height()), {}, {}};
  // Pieces are numbered as they come off: what was measured is in hand first.
  auto& measured = far ? cut.upper : cut.lower;
  auto& rest = far ? cut.lower : cut.upper;
  measured = add_half(kept);
  rest = add_half(halves[far ? 0 : 1]);
  return cut;
}

/// Equal cuts that follow one another are made at one setting of the fence; then what came off is cut, in that order.
void Sawing::saw(std::size_t part) {
  std::vector<std::size_t> waiting;
  std::optional<Cut> before;
  for (std::optional<std::size_t> at = part; is_cut_further(at);) {
    const BladePlace place = search_.first_cut(boxes_[*at]);
    const std::array<MicronBox, 2> halves = search_.halves(boxes_[*at], place.upright, place.blade);
    const bool far = measures_from_far(place, halves);
    const MicronBox& kept = halves[far ? 1 : 0];
    const double measure = to_mm(place.upright ? kept.width() : kept.height());
    if (before && (before->upright != place.upright || before->from_far != far || before->measure != measure)) {
      waiting.push_back(*at);
      break;
    }
    before = make_cut(*at, place);
    plan_.cuts.push_back(*before);
    if (is_cut_further(before->measured())) waiting.push_back(*before->measured());
    at = before->rest();
  }
  for (const std::size_t next : waiting) saw(next);
}

MicronPane in_microns(const Pane& pane) {
  MicronPane microns{to_microns(pane.width), to_microns(pane.height), pane.factory, {}};
  for (const PaneThing& thing : pane.things) {
    microns.things.push_back({to_microns(thing.box), thing.kind == PaneThing::Kind::whole});
  }
  return microns;
}

Fault too_much(const Pane& pane, const std::string& why) {
  return {"the pane cannot be planned", "pane " + pane.id, why,
          "Plan it in parts, or take fewer things or larger pieces"};
}

Result<CuttingPlan> plan_checked(const Pane& pane, const CuttingTask& task, std::size_t patience) {
  const MicronPane microns = in_microns(pane);
  const PieceCut piece{to_microns(task.piece_width), to_microns(task.piece_height), to_microns(task.kerf)};
  const Result<Patterns> patterns = Patterns::of(piece, std::max(microns.width, microns.height));
  if (!patterns.ok()) return too_much(pane, patterns.fault().what + ": " + patterns.fault().why);
  const std::size_t across = patterns->span_of(microns.width) / 2 + 1, up = patterns->span_of(microns.height) / 2 + 1;
  if (across * up > most_spans) return too_much(pane, "the pieces are too small for it");
  CutSearch search(microns, *patterns, patience);
  CuttingPlan plan{pane, task, {}, {}, {}, true};
  for (const std::size_t breadth : breadths) {
    search.start_anew(breadth);
    search.worth(search.whole_pane());
    plan.is_best = breadth == all_cuts;
    if (!search.gave_up()) break;
  }
  Sawing(plan, search).saw_pane();
  return plan;
}

template <class Count>
int sum_over(const std::vector<CutPiece>& pieces, Count count) {
  int sum = 0;
  for (const CutPiece& piece : pieces) sum += count(piece.factory);
  return sum;
}

}  // namespace

int CuttingPlan::factory_edges() const {
  return sum_over(pieces, [](const Sides& sides) { return sides.count(); });
}

int CuttingPlan::factory_corners() const {
  return sum_over(pieces, [](const Sides& sides) { return sides.corners(); });
}

std::string piece_id(const CuttingPlan& plan, std::size_t piece) {
  return plan.pane.id + "-" + std::to_string(piece + 1);
}

Result<CuttingPlan> plan_cutting(const Pane& pane, const CuttingTask& task, std::size_t patience) {
  if (MaybeFault fault = check_task(task)) return *fault;
  if (MaybeFault fault = check_pane(pane)) return *fault;
  return plan_checked(pane, task, patience);
}

}  // namespace ordinatio::inline bed
