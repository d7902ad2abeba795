// How thick ink is and how narrow the gaps in it are: what decides whether a beam can draw a letter. Measured on welded
// polygons, in their unit, by discs that touch the outline from within (ink) or from without (gaps).
#pragma once

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {

/// A disc that fits between two sides of the ink or of a gap: its centre is where to show it.
struct Gauge {
  Point at;
  double width = 0;  // the disc's diameter
  friend bool operator==(const Gauge&, const Gauge&) = default;
};

/// A neck of a gap, and how far the gap stays narrow from there.
struct Slit {
  Gauge gauge;
  bool closed = false;  // it lies in a closed counter
  /// How long the outline's stretch beside the neck is along which the gap is narrower than `width`. Ascending; the last
  /// width is infinite.
  struct Reach {
    double width = 0, length = 0;
  };
  std::vector<Reach> reaches;
};

// ---- slits.cpp ----
/// How deep ink that fills the gap where it is narrower than `width` would reach in from where it is wider: half the
/// outline's stretch, since a blind slit has two sides, and one that is open at both ends is filled from both. 0 where the
/// neck is no narrower. Up to a twentieth too large.
double depth_under(const Slit& slit, double width);

/// Ascending by width.
struct Thickness {
  std::vector<Gauge> strokes, gaps;
  std::vector<Gauge> counters;  // of the gaps the largest disc in each closed counter, seams left out
  std::vector<Slit> slits;      // necks of gaps, of those along one slit the narrowest; and seams
};

/// Lengths are in the polygons' unit; the defaults are for lettering in ems, chosen by looking at faces of ten kinds.
struct GaugeRules {
  double chord_error = 1e-4;  // how far the polygons may lie off the true outline
  double step = 0.04;         // the outline is probed at least this often
  /// What ends within this depth is a tip, not a stroke: 0.3 mm on letters of 5 mm. Pen strokes that run out to a point
  /// would have no thickness without it; at 0.04 a script's tails measure as thick as its hairlines.
  double tip_depth = 0.04;
  /// The same, in radii of the disc. A corner of 30° or more is a tip at any size: a disc of radius r misses it by
  /// (1/sin 15° − 1)·r. With tip_depth alone the corners of a Z or a 4 would pass for its thinnest stroke.
  double corner_depth = 2.8637;
  double slot_depth = 1;  // in its place for gaps: a slot no deeper than half its width is none
  /// Necks narrower than this that are twice as wide within a tip's depth to both sides are mere touches: a stroke
  /// that grazes another, which may part or fuse and no reader sees it. Apertures that tell an e from an o are wider.
  double touch = 0.02;
  /// A closed counter narrower than this is none, but a seam between strokes that were drawn to meet: a slit. In 6,700 Han
  /// characters (GB 2312 and JIS X 0208, level 1, Noto Sans CJK) seams are up to 0.0084 wide and counters 0.02 and more.
  double seam = 0.01;
  /// How deep what lies beyond a disc may be and still be its tip.
  [[nodiscard]] double tip(double radius) const {
    return radius * corner_depth > tip_depth ? radius * corner_depth : tip_depth;
  }
};

// ---- thickness.cpp ----
/// `ink`: welded: outer contours counter-clockwise, holes clockwise, none crossing. `zone`: only what is centred in it
/// (nullptr: all).
///
/// strokes: necks of the ink, its tapering ends, and the largest disc in each piece of ink.
/// gaps: necks of what is not ink, and the largest disc in each hole, since a closed counter need not have a neck. Of these
/// the slits are the necks, the counters the discs.
///
/// A neck is a pair of outline points opposite one another, both on the rim of a disc that holds no outline, where the
/// distance is a local minimum (or constant, between parallel edges); to both sides of it lies more than a tip. A
/// tapering end is measured where the disc is the largest that comes within a tip of the end: the largest spot that
/// still draws it.
///
/// Errors: necks are exact on the polygons, so within 2·chord_error of the true outline's; necks below 4·chord_error are
/// taken for edges that meet. Tapers between straight sides are told to a thousandth of step; between curves, low by at
/// most one chord times the slope. Largest discs are low by at most chord_error.
/// Time grows with the square of the number of edges.
Thickness thickness_of(const Polygons& ink, const GaugeRules& rules = {}, const Bounds* zone = nullptr);

}  // namespace ordinatio::inline geometry
