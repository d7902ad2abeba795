#include <algorithm>
#include <iterator>

#include "design/border.h"
#include "design/design.h"
#include "design/layers.h"
#include "design/spacing.h"

namespace ordinatio::inline design {
namespace {

Fault no_room(const Design& design, const std::string& what, const std::string& why) {
  if (!design.blank.id.empty()) {
    return {what + " on this piece", "blank " + design.blank.id, why,
            "Take another piece, or a design with less on it"};
  }
  return {what, "design " + design.name, why, "Make it smaller in the design's file, or the blank larger"};
}

/// What is kept clear on the piece, chips left aside.
std::vector<ConvexHull> things_of(const Design& design) {
  std::vector<ConvexHull> things;
  for (const auto* list : {&design.kept_clear, &design.blank.kept_clear}) {
    for (const KeptClear& thing : *list) std::ranges::move(obstacles_of(thing), std::back_inserter(things));
  }
  return things;
}

/// The part of an area that lies in a box; nothing where none does.
std::optional<ClearArea> part_in(const ClearArea& area, const Bounds& box) {
  const Polygon room = polygon_of(intersection(area.region, region_of(polygon_of_box(box))));
  if (room.empty()) return std::nullopt;
  ClearArea part{region_of(room), {}};
  for (const ConvexHull& obstacle : area.obstacles) {
    if (overlap(obstacle, {room}, 0)) part.obstacles.push_back(obstacle);
  }
  return part;
}

/// A logo that a piece makes smaller than this share of what its box would take is no longer the mark that it was meant
/// for: another piece is better. Common practice, no source.
constexpr double least_logo_share = 0.5;

/// The logo as large as it can be in its box, in the box's middle; where the piece leaves no room for that, as large as
/// it can be in what there is of the box. Nothing where that is too small.
std::optional<Path> logo_path(const LogoPart& part, const ClearArea& clear) {
  const Bounds ink = bounds_of(part.logo.fill);
  const double scale = std::min(part.box.width() / ink.width(), part.box.height() / ink.height());
  const auto placed = [&part](double size, Point shift) {
    return transformed(part.logo.fill, {size, 0, 0, size, shift.x, shift.y});
  };
  Path path = placed(scale, part.box.centre() - scale * ink.centre());
  if (distance_outside(clear, path, is_filled(part.operation)) <= edge_slack) return path;
  const auto room = part_in(clear, part.box);
  if (!room) return std::nullopt;
  const ConvexHull hull = hull_of(part.logo.fill, curve_tolerance / 10 / scale);
  const auto placement = largest_copy({&hull, 1}, *room, {ink.centre(), part.box.centre(), scale, -1});
  if (!placement || placement->size < least_logo_share * scale) return std::nullopt;
  return placed(placement->size, placement->shift);
}

Result<TextRoom> room_of(const TextPart& text, const Design& design, const ClearArea& inside_borders) {
  const Bounds box = text.box.value_or(bounds_of(path_of(design.blank.outline)));
  auto room = part_in(inside_borders, box);
  if (!room) return no_room(design, "a text has no room", "margin, borders and box leave nothing of the blank");
  SettingArea area;
  area.area = *std::move(room);
  area.widths = widths_of(area.area.region);
  area.target = box.centre();
  area.at_edge = text.box && text.block.alignment != Alignment::centre;
  if (area.at_edge) area.target.x = text.block.alignment == Alignment::left ? box.left : box.right;
  return TextRoom{std::move(area), std::nullopt};
}

/// The area less the air that the text asks for; nothing where it asks for none, or the air would take all of it.
std::optional<SettingArea> airy_area(const SettingArea& area, double air) {
  const WidthProfile& widths = area.widths;
  const double smaller = std::min(widths.heights.back() - widths.heights.front(),
                                  std::ranges::max(widths.rights) - std::ranges::min(widths.lefts));
  if (air <= 0) return std::nullopt;
  auto within = drawn_in(area.area, air * smaller);
  if (!within) return std::nullopt;
  SettingArea airy = area;
  airy.area = *std::move(within);
  airy.widths = widths_of(airy.area.region);
  return airy;
}

/// What lies at least `distance` inside the piece's edge and off all that is kept clear; nothing where nothing does.
std::optional<ClearArea> clear_area_at(const Design& design, double distance) {
  const auto inside = inset(design.blank.outline, distance);
  if (!inside) return std::nullopt;
  ClearArea area{region_of(*inside), chips_grown(design.blank, distance)};
  std::ranges::move(things_of(design), std::back_inserter(area.obstacles));
  return area;
}

MaybeFault check_constant(const LaidDesign& design) {
  for (const Layer& layer : design.constant) {
    if (distance_outside(design.clear_area.region, layer.path) > edge_slack) {
      return no_room(design, "a border or logo leaves the clear area", "it lies within the margin of the blank's edge");
    }
    if (distance_outside(design.clear_area, layer.path, is_filled(layer.operation)) > edge_slack) {
      return no_room(design, "a border or logo runs over something kept clear", "no ink may come near that");
    }
  }
  return std::nullopt;
}

/// Where a logo may lie: in the clear area, and off every border.
std::optional<ClearArea> room_of_logo(const Design& design, const std::vector<FromBorder>& spacing) {
  double innermost = design.margin;
  for (std::size_t i = 0; i < spacing.size(); ++i) {
    if (spacing[i].inside) innermost = std::max(innermost, reach_of(design.borders[i]) + spacing[i].gap);
  }
  auto room = clear_area_at(design, innermost);
  for (std::size_t i = 0; room && i < spacing.size(); ++i) {
    if (spacing[i].inside) continue;
    const auto within = inset(design.blank.outline, std::max(0.0, design.borders[i].distance - spacing[i].gap));
    if (within) room->obstacles.push_back({polygon_of(region_of(*within))});
  }
  return room;
}

/// The parts of a design while it is laid, each with its ink or its room, which later parts keep away from.
class Laying {
 public:
  Laying(LaidDesign& design, const LogoSpacing& spacing)
      : design_(design), spacing_(spacing), things_(things_of(design)) {}

  MaybeFault run() {
    auto clear = clear_area_at(design_, design_.margin);
    if (!clear) return no_room(design_, "the margin leaves no clear area", meets_itself);
    design_.clear_area = *std::move(clear);
    for (const BorderPart& border : design_.borders) {
      if (auto fault = draw_border(border)) return fault;
    }
    for (std::size_t i = 0; i < design_.logos.size(); ++i) {
      if (auto fault = draw_logo(i)) return fault;
    }
    const auto inside = clear_area_at(design_, innermost_);
    if (!inside) return no_room(design_, "no room is left inside the border", meets_itself);
    for (const TextPart& text : design_.texts) {
      if (auto fault = make_room(text, *inside)) return fault;
    }
    design_.constant = std::move(layers_).take();
    return check_constant(design_);
  }

 private:
  static constexpr const char* meets_itself = "it meets itself in the middle of the blank";

  MaybeFault draw_border(const BorderPart& border) {
    auto path = border_path(design_.blank, border, things_);
    if (!path) return no_room(design_, "a border has no room", meets_itself);
    layers_.add(border.operation, *path);
    innermost_ = std::max(innermost_, reach_of(border) + design_.gap);
    borders_.push_back(std::move(*path));
    return std::nullopt;
  }

  MaybeFault draw_logo(std::size_t i) {
    const auto room = room_of_logo(design_, spacing_[i]);
    const auto path = room ? logo_path(design_.logos[i], *room) : std::nullopt;
    if (!path)
      return no_room(design_, "a logo has no room", "what border, margin and chips leave of its box is too little");
    for (std::size_t k = 0; k < borders_.size(); ++k) {
      if (!keeps_off(*room, borders_[k], spacing_[i][k].gap - gap_slack)) return too_near("a logo");
    }
    layers_.add(design_.logos[i].operation, *path);
    inks_.push_back(bounds_of(*path));
    return std::nullopt;
  }

  MaybeFault make_room(const TextPart& text, const ClearArea& inside_borders) {
    Result<TextRoom> own = room_of(text, design_, inside_borders);
    if (!own.ok()) return own.fault();
    SettingArea& area = own->area;
    for (const Path& border : borders_) {
      if (!keeps_off(area.area, border, design_.gap - gap_slack)) return too_near("a text");
    }
    const Bounds room = bounds_of(path_of(Polygons{polygon_of(area.area.region)}));
    for (const Bounds& ink : inks_) {
      if (overlap(ink, room))
        return no_room(design_, "a text has no room of its own", "a logo or another text takes some of it");
    }
    for (std::size_t i = 0; i < design_.logos.size(); ++i) area.neighbours.push_back(edge_between(inks_[i], room));
    own->airy = airy_area(area, text.air);
    design_.rooms.push_back(*std::move(own));
    inks_.push_back(room);
    return std::nullopt;
  }

  /// What follows from how rooms are made; looked at all the same, before anything is drawn in them.
  [[nodiscard]] Fault too_near(const std::string& what) const {
    return no_room(design_, what + " would come too near to a border",
                   "the border takes a turn that leaves it no room");
  }

  LaidDesign& design_;
  const LogoSpacing& spacing_;
  std::vector<ConvexHull> things_;
  double innermost_ = design_.margin;
  LayerStack layers_;
  std::vector<Path> borders_;
  std::vector<Bounds> inks_;  // of logos, then rooms of texts: each in a box of its own
};

}  // namespace

Result<LaidDesign> laid_as_drawn(const Design& design) {
  LaidDesign laid(design);
  if (auto fault = Laying(laid, logo_spacing(design, 1, 1)).run()) return *std::move(fault);
  return laid;
}

Result<LaidDesign> laid_on(const Design& design, const Blank& blank) {
  LaidDesign laid(design);
  const Bounds box = bounds_of(path_of(blank.outline));
  const double across = box.width() / design.width, up = box.height() / design.height;
  laid.blank = blank;
  if (blank.material.empty()) laid.blank.material = design.blank.material;
  if (!blank.thickness) laid.blank.thickness = design.blank.thickness;
  laid.width = box.width(), laid.height = box.height();
  for (TextPart& text : laid.texts) {
    if (text.box) text.box = text.box->stretched(across, up);
  }
  for (LogoPart& logo : laid.logos) logo.box = logo.box.stretched(across, up);
  if (!part_boxes(laid, design))
    return no_room(laid, "a text or a logo has no room", "the gap beside it takes all of it");
  if (auto fault = Laying(laid, logo_spacing(design, across, up)).run()) return *std::move(fault);
  return laid;
}

}  // namespace ordinatio::inline design
