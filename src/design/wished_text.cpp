#include "design/wished_text.h"

#include <algorithm>
#include <cmath>

#include "design/layers.h"

namespace ordinatio::inline design {
namespace {

bool is_customers(const TextPart& part) { return std::holds_alternative<InscriptionPart>(part.words); }

// What is found to go here must not be astray by rounding when it is composed, mm.
constexpr double nudge_slack = edge_slack - 1e-6;
// A way past things kept clear is looked for in so many steps back from where the edges would stop the block. When none of
// them goes, no way is told.
constexpr int nudge_steps = 256;

Fault out_of_range(double size, const TextPart& part, const std::string& where) {
  return {"capitals of " + mm_text(size) + " are not what the design allows", where,
          "it allows from " + mm_text(part.min_cap_height) + " to " + mm_text(part.max_cap_height),
          "Wish for a height in that range, or for another design"};
}

/// Where the block may be moved to.
class NudgeRoom {
 public:
  NudgeRoom(const TextOnPiece& on_piece, const SetText& text, Typesetter& typesetter)
      : on_piece_(on_piece),
        ink_(ink_of(text, typesetter)),
        hull_(hull_of(ink_, curve_tolerance / 100)),
        away_(x_height_of(text)) {}

  [[nodiscard]] bool takes(Point by) const {
    const ClearArea& area = on_piece_.room.area.area;
    return share_to_edges(by) >= 1 &&
           distance_outside(area, transformed(ink_, shift_by(by)), is_filled(on_piece_.part.operation)) <= nudge_slack;
  }

  /// The way that is left of this one, no further.
  [[nodiscard]] Point furthest(Point by) const {
    const double share = std::clamp(share_to_edges(by), 0.0, 1.0);
    for (int step = 0; step < nudge_steps; ++step) {
      const Point shorter = cut_short(share * (1 - static_cast<double>(step) / nudge_steps) * by);
      if (takes(shorter)) return shorter;
    }
    return {};
  }

 private:
  /// What the block keeps from a logo beside it.
  static double x_height_of(const SetText& text) {
    double largest = 0;
    for (const BlockLine& line : text.setting.block.lines) {
      if (!line.shaped.ink.empty()) largest = std::max(largest, line.size * line.x_height);
    }
    return text.setting.placement.size * largest;
  }

  /// To whole hundredths of a millimetre, towards nothing.
  static Point cut_short(Point by) { return {std::trunc(by.x * 100) / 100, std::trunc(by.y * 100) / 100}; }

  /// How much of the way it goes until it meets an edge; more than 1 where all of it does.
  [[nodiscard]] double share_to_edges(Point by) const {
    double share = 2;
    const auto meet = [&](const HalfPlane& edge, double away) {
      const double towards = dot(edge.normal, by);
      if (towards <= 0) return;
      double reach = -1e300;
      for (const Point p : hull_.vertices) reach = std::max(reach, dot(edge.normal, p));
      share = std::min(share, (edge.offset + nudge_slack - reach - away) / towards);
    };
    const SettingArea& area = on_piece_.room.area;
    for (const HalfPlane& edge : area.area.region.edges) meet(edge, 0);
    for (const HalfPlane& edge : area.neighbours) meet(edge, away_);
    return share;
  }

  const TextOnPiece& on_piece_;
  Path ink_;
  ConvexHull hull_;
  double away_;  // mm
};

/// "1.5,-2 mm"
std::string way_text(Point by) {
  std::string text;
  append_number(text, by.x, wish_decimals);
  text += ',';
  append_number(text, by.y, wish_decimals);
  return text + " mm";
}

Fault too_far(Point by, Point furthest) {
  const bool goes = furthest != Point{};
  return {"the words cannot be moved by " + way_text(by), "",
          "their ink would leave its room on the piece, or come too near to something else on it",
          goes ? "Move them by no more than " + way_text(furthest)
               : "There is no room that way: wish for smaller capitals as well, or move them another way"};
}

}  // namespace

MaybeFault check_wish(const Design& design, const SettingWish& wish) {
  const bool of_words = wish.size || wish.nudge || wish.lines_kept;
  if (of_words && !has_inscription(design)) {
    return Fault{"design " + design.name + " has no place for the customer's words", "",
                 "a size, a nudge and kept lines are theirs", "Wish for another design, or leave these out"};
  }
  for (const TextPart& part : design.texts) {
    if (!wish.size || !is_customers(part)) continue;
    if (*wish.size < part.min_cap_height || *wish.size > part.max_cap_height)
      return out_of_range(*wish.size, part, "design " + design.name);
  }
  return std::nullopt;
}

Result<std::optional<TextPart>> wished_part(const TextPart& part, const SettingWish& wish) {
  using Wished = std::optional<TextPart>;
  if (!is_customers(part)) return Wished();
  if (!wish.unread.empty()) {
    return Fault{"the item's own setting cannot be read", "", "the ledger or the manifest has \"" + wish.unread + "\"",
                 "Give it again: ordinatio set --as-designed, with what is wished"};
  }
  if (!wish.size && !wish.lines_kept && !wish.nudge) return Wished();
  TextPart own = part;
  if (wish.size && *wish.size < part.min_cap_height) return out_of_range(*wish.size, part, "");
  if (wish.size) own.max_cap_height = std::min(own.max_cap_height, *wish.size);
  if (wish.lines_kept) own.breaks = LineBreaks::kept;
  return Wished(std::move(own));
}

MaybeFault nudge_text_on(const TextOnPiece& on_piece, Point by, SetText& text, Typesetter& typesetter) {
  const NudgeRoom room(on_piece, text, typesetter);
  if (!room.takes(by)) return too_far(by, room.furthest(by));
  Placement& placement = text.setting.placement;
  placement.shift = placement.shift + by;
  for (Gauge* gauge : {&text.legibility.stroke, &text.legibility.counter, &text.legibility.slit})
    gauge->at = gauge->at + by;
  return std::nullopt;
}

}  // namespace ordinatio::inline design
