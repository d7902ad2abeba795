// How far the parts of a design keep from one another. Of this folder alone.
//
// On every piece two parts keep the design's gap. Where the design itself draws them nearer, they keep as far apart as it
// draws them on a plain piece of that size.
#pragma once

#include "design/design.h"

namespace ordinatio::inline design {

/// What a logo keeps from a border, and on which side of it it stands.
struct FromBorder {
  double gap = 0;  // mm
  bool inside = true;
};
/// Of each logo, from each border.
using LogoSpacing = std::vector<std::vector<FromBorder>>;

/// For a piece that is `across` times as wide as the design draws it and `up` times as high.
LogoSpacing logo_spacing(const Design& drawn, double across, double up);

/// Moves the edges of logos' and texts' boxes apart where a smaller piece has brought two of them nearer than the gap.
/// `laid` has the parts of `drawn`, their boxes scaled. False where nothing is left of one.
bool part_boxes(Design& laid, const Design& drawn);

/// mm between two boxes; 0 where they meet.
double distance_between(const Bounds& a, const Bounds& b);

/// Whether a border keeps `gap` from a room: each of its lines is that far from the room's convex part, or that deep in
/// one of the obstacles.
bool keeps_off(const ClearArea& room, const Path& border, double gap);

/// The edge of one box that looks towards another beside it, which lies on its inner side: across or upright, wherever the
/// two are further apart. What is as far from that edge is no nearer to the first box.
HalfPlane edge_between(const Bounds& box, const Bounds& beside);

/// What of an area lies at least `distance` within its edges and off its obstacles; nothing where nothing does. Around
/// corners of obstacles it may be more by `sagitta`.
inline constexpr double air_sagitta = 0.25;  // mm: air is for the eye, and each edge of an obstacle costs programmes
std::optional<ClearArea> drawn_in(const ClearArea& area, double distance, double sagitta = air_sagitta);

/// What rounding may take off a gap, mm: arcs are chords in rooms and true in borders, chips grow by edges around their arcs.
inline constexpr double gap_slack = arc_sagitta + kept_clear_sagitta + 1e-3;

}  // namespace ordinatio::inline design
