#include "design/variant.h"

#include <algorithm>

#include "design/stroke_text.h"

namespace ordinatio::inline design {
namespace {

constexpr int size_decimals = 3;  // mm: what a file of the bed has
constexpr std::string_view face_part = ", face ", size_part = ", size ";

/// What stands behind `part` in the name, up to the next part; the name is cut before it.
std::string take_part(std::string_view& name, std::string_view part) {
  const std::size_t at = name.rfind(part);
  if (at == std::string_view::npos) return {};
  std::string value(name.substr(at + part.size()));
  name = name.substr(0, at);
  return value;
}

void change_face(LineLook& look, const std::string& from, const std::string& to) {
  if (look.faces.front() != from) return;
  look.faces.front() = to;
  look.axes.clear(), look.features.clear();  // they are those of one face
}

void change_faces(Design& design, const std::string& face) {
  for (TextPart& text : design.texts) {
    if (!std::holds_alternative<InscriptionPart>(text.words)) continue;
    const std::string before = text.look.faces.front();
    if (before == face) continue;
    change_face(text.look, before, face);
    for (RolePart& role : text.roles) change_face(role.look, before, face);
    settle_strokes(text);
  }
}

/// The blank's own shape at another size; its rounded corners keep their radius.
Blank resized(const Design& design, Point size) {
  Blank blank = design.blank;
  for (Point& p : blank.outline.vertices) p = {p.x * size.x / design.width, p.y * size.y / design.height};
  return blank;
}

}  // namespace

std::string size_text(Point size) {
  std::string text;
  append_number(text, size.x, size_decimals);
  text += 'x';
  append_number(text, size.y, size_decimals);
  return text;
}

std::optional<Point> size_named(std::string_view text) {
  const std::size_t cross = text.find('x');
  if (cross == std::string_view::npos) return std::nullopt;
  const auto across = parse_number(text.substr(0, cross)), up = parse_number(text.substr(cross + 1));
  if (!across || !up || *across <= 0 || *up <= 0) return std::nullopt;
  return Point{*across, *up};
}

std::string name_of(const DesignVariant& variant) {
  std::string name = variant.base;
  if (!variant.face.empty()) name.append(face_part).append(variant.face);
  if (variant.size) name.append(size_part).append(size_text(*variant.size));
  return name;
}

DesignVariant variant_named(std::string_view name) {
  DesignVariant variant;
  std::string_view rest = name;
  const std::string size = take_part(rest, size_part);
  variant.size = size_named(size);
  if (!size.empty() && !variant.size) return {std::string(name), {}, {}};
  variant.face = take_part(rest, face_part);
  variant.base = rest;
  return variant;
}

Result<LaidDesign> varied(LaidDesign design, const DesignVariant& variant) {
  if (variant.is_plain()) return design;
  design.name = name_of(variant);
  design.checksum = sha256_hex(design.checksum + design.name);
  if (!variant.face.empty()) change_faces(design, variant.face);
  if (!variant.size) return design;
  const Blank blank = resized(design, *variant.size);
  if (!corners_fit(blank.outline)) {
    return Fault{"the corners do not fit a blank of " + size_text(*variant.size) + " mm", "design " + design.name,
                 "they are larger than its sides allow", "Choose another size, or smaller corners in the design"};
  }
  return laid_on(design, blank);
}

}  // namespace ordinatio::inline design
