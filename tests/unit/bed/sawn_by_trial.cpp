#include "sawn_by_trial.h"

#include <algorithm>

namespace ordinatio {
namespace {

Yield sum(const Yield& a, const Yield& b) {
  Yield both{};
  for (std::size_t i = 0; i < both.size(); ++i) both[i] = a[i] + b[i];
  return both;
}

}  // namespace

Yield yield_of(const CuttingPlan& plan) {
  Yield yield{int(plan.pieces.size()), plan.factory_edges(), plan.factory_corners(), 0, -int(plan.cuts.size())};
  for (const CutPiece& piece : plan.pieces) yield[3] += int(piece.things.size());
  return yield;
}

bool SawnByTrial::meets(const Box& box, const Bounds& thing) const {
  return box[0] < thing.right && thing.left < box[2] && box[1] < thing.top && thing.bottom < box[3];
}

/// No pieces where the box is none.
Yield SawnByTrial::as_piece(const Box& box) const {
  const double width = box[2] - box[0], height = box[3] - box[1];
  const bool upright = width == task_.piece_width && height == task_.piece_height;
  const bool turned = width == task_.piece_height && height == task_.piece_width;
  if (!upright && !turned) return {};
  int things = 0;
  for (const PaneThing& thing : pane_.things) {
    if (!meets(box, thing.box)) continue;
    if (thing.kind == PaneThing::Kind::clear) return {};
    ++things;
  }
  const Sides& factory = pane_.factory;
  const bool left = factory.left && box[0] == 0, right = factory.right && box[2] == pane_.width;
  const bool bottom = factory.bottom && box[1] == 0, top = factory.top && box[3] == pane_.height;
  const int corners = (left && bottom) + (right && bottom) + (left && top) + (right && top);
  return {1, left + right + bottom + top, corners, things, 0};
}

bool SawnByTrial::cuts_whole(const Box& box, int axis, int blade) const {
  return std::any_of(pane_.things.begin(), pane_.things.end(), [&](const PaneThing& thing) {
    const double from = axis == 0 ? thing.box.left : thing.box.bottom, to = axis == 0 ? thing.box.right : thing.box.top;
    return thing.kind == PaneThing::Kind::whole && meets(box, thing.box) && from < blade + task_.kerf && to > blade;
  });
}

Yield SawnByTrial::best(const Box& box) {
  if (box[0] >= box[2] || box[1] >= box[3]) return {};
  if (const auto found = known_.find(box); found != known_.end()) return found->second;
  Yield best = as_piece(box);
  const int kerf = int(task_.kerf);
  for (const int axis : {0, 1}) {
    const std::size_t low = std::size_t(axis), high = low + 2;
    for (int blade = box[low] - kerf + 1; blade < box[high]; ++blade) {
      if (blade <= box[low] && blade + kerf >= box[high]) continue;  // it would be gone
      if ((kerf == 0 && blade == box[low]) || cuts_whole(box, axis, blade)) continue;
      Box below = box, above = box;
      below[high] = std::max(box[low], blade);
      above[low] = std::min(box[high], blade + kerf);
      Yield yield = sum(this->best(below), this->best(above));
      if (yield[0] == 0) continue;
      --yield[4];
      best = std::max(best, yield);
    }
  }
  return known_[box] = best;
}

}  // namespace ordinatio
