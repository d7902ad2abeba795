#include <algorithm>

#include "design/border.h"
#include "design/design_parts.h"

namespace ordinatio::inline design {
namespace {

/// The part of a box that lies at least `distance` inside the blank's outline; empty when there is none.
Polygon room_in(const Bounds& box, const Outline& blank, double distance) {
  const auto inner = inset(blank, distance);
  if (!inner) return {};
  return polygon_of(intersection(region_of(*inner), region_of(polygon_of_box(box))));
}

bool lies_inside(const Bounds& box, const Outline& blank, double distance) {
  return area_of(room_in(box, blank, distance)) >= (1 - 1e-9) * box.width() * box.height();  // 1e-9: rounding
}

void check_border(const Design& design, const BorderPart& border, TomlTable& table) {
  if (border.distance < design.margin) {
    table.fault("distance", "is less than the margin", "the border's ink would leave the clear area",
                "Write at least the margin, or make the margin smaller");
  } else if (!inset(design.blank.outline, reach_of(border))) {
    table.fault(inset(design.blank.outline, border.distance) ? "width" : "distance", "leaves nothing inside the border",
                "", "Write less");
  }
}

/// "7 to 8.4 mm from the edge"
std::string shared_stretch(const BorderPart& a, const BorderPart& b) {
  std::string text;
  append_number(text, std::max(a.distance, b.distance), 2);
  text += " to ";
  append_number(text, std::min(reach_of(a), reach_of(b)), 2);
  return text + " mm from the edge";
}

/// Engraved borders may touch one another; what two of them cover is filled by one machine and left out by another.
void check_borders_apart(const std::vector<BorderPart>& borders, std::vector<TomlTable>& tables) {
  for (std::size_t later = 1; later < borders.size(); ++later) {
    const BorderPart& b = borders[later];
    for (std::size_t earlier = 0; earlier < later; ++earlier) {
      const BorderPart& a = borders[earlier];
      if (a.distance >= reach_of(b) || b.distance >= reach_of(a)) continue;
      tables[later].fault("distance", "lays the border over another", "two of them share " + shared_stretch(a, b),
                          "Write a distance beyond the other's width, or make that one narrower");
      break;
    }
  }
}

void check_on_blank(const Design& design, const Bounds& box, TomlTable& table) {
  const double slack = 1e-9;  // mm; left + width may round
  if (box.right > design.width + slack || box.top > design.height + slack) {
    table.fault("box", "reaches over the blank's edge", "", "It is [left, bottom, width, height] in mm");
  }
}

void check_room(const Design& design, const TextPart& text, TomlTable& table) {
  double inside = design.margin;
  for (const BorderPart& border : design.borders) inside = std::max(inside, reach_of(border) + design.gap);
  const Bounds box = text.box.value_or(Bounds{0, 0, design.width, design.height});
  if (room_in(box, design.blank.outline, inside).empty()) {
    table.fault("box", "leaves no room for the text", "margin, borders and gap take all of it",
                "Move or enlarge the box, or make them smaller");
  }
}

void check_logo(const Design& design, const LogoPart& logo, TomlTable& table) {
  if (room_in(logo.box, design.blank.outline, design.margin).empty()) {
    table.fault("box", "lies outside the clear area", "", "Move the logo inside the margin");
    return;
  }
  for (const BorderPart& border : design.borders) {
    if (!lies_inside(logo.box, design.blank.outline, reach_of(border)) &&
        !room_in(logo.box, design.blank.outline, border.distance).empty()) {
      table.fault("box", "crosses a border", "", "Move the logo inside it, or make the box smaller");
    }
  }
}

/// Something that wants a part of the blank for itself.
struct Claim {
  Bounds box;
  TomlTable table;
  std::string_view what;
};

std::vector<Claim> claims_of(const Design& design, const DesignTables& tables) {
  const Bounds whole{0, 0, design.width, design.height};
  std::vector<Claim> claims;
  for (std::size_t i = 0; i < design.logos.size(); ++i) {
    claims.push_back({design.logos[i].box, tables.logos[i], "a logo"});
  }
  for (std::size_t i = 0; i < design.texts.size(); ++i) {
    claims.push_back({design.texts[i].box.value_or(whole), tables.texts[i], "another text"});
  }
  return claims;
}

/// No two claims may overlap; the later one is to blame.
void check_claims(std::vector<Claim> claims) {
  for (std::size_t later = 1; later < claims.size(); ++later) {
    for (std::size_t earlier = 0; earlier < later; ++earlier) {
      if (!overlap(claims[earlier].box, claims[later].box)) continue;
      claims[later].table.fault("box", "overlaps " + std::string(claims[earlier].what),
                                claims[later].table.has("box") ? "" : "without a box it is the whole clear area",
                                "Give each its own box = [left, bottom, width, height]");
    }
  }
}

}  // namespace

void check_design(const Design& design, DesignTables& tables) {
  const auto is_inscription = [](const TextPart& text) { return std::holds_alternative<InscriptionPart>(text.words); };
  if (!design.samples.empty() && std::ranges::none_of(design.texts, is_inscription)) {
    tables.root.fault("sample", "has no use", "the design has no place for a customer's words", "Take it out");
  }
  if (design.texts.empty() && design.borders.empty() && design.logos.empty()) {
    tables.root.fault("text", "is missing", "the design has no text, no border and no logo",
                      "Write [text] for the customer's words");
  }
  if (!inset(design.blank.outline, design.margin)) {
    tables.clear.fault("margin", "is larger than the blank", "it leaves no clear area", "Write less");
    return;
  }
  for (std::size_t i = 0; i < design.borders.size(); ++i) check_border(design, design.borders[i], tables.borders[i]);
  check_borders_apart(design.borders, tables.borders);
  for (std::size_t i = 0; i < design.texts.size(); ++i) {
    if (design.texts[i].box) check_on_blank(design, *design.texts[i].box, tables.texts[i]);
    check_room(design, design.texts[i], tables.texts[i]);
  }
  for (std::size_t i = 0; i < design.logos.size(); ++i) {
    check_on_blank(design, design.logos[i].box, tables.logos[i]);
    check_logo(design, design.logos[i], tables.logos[i]);
  }
  check_claims(claims_of(design, tables));
  check_kept_clear(design, tables);
}

}  // namespace ordinatio::inline design
