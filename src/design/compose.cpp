#include <algorithm>
#include <bit>
#include <cmath>

#include "design/hatch_table.h"
#include "design/layers.h"
#include "design/lettering.h"
#include "design/text_setting.h"

namespace ordinatio::inline design {
namespace {

Fault astray(const Design& design, double distance) {
  return {"the artwork would leave the clear area by " + mm_text(distance), "design " + design.name,
          "this is a mistake of the program, caught before anything was written", "Keep the order and report it"};
}

MaybeFault note_faces(std::vector<UsedFace>& faces, const Block& block, Typesetter& typesetter) {
  for (const BlockLine& line : block.lines) {
    FaceId last = 0xFFFF;
    for (const PlacedGlyph& glyph : line.shaped.glyphs) {
      if (glyph.face == std::exchange(last, glyph.face)) continue;
      const Result<std::string>& checksum = typesetter.checksum(glyph.face);
      if (!checksum.ok()) return checksum.fault();
      faces.push_back({typesetter.file(glyph.face).name, *checksum});
    }
  }
  std::ranges::sort(faces);
  faces.erase(std::unique(faces.begin(), faces.end()), faces.end());
  return std::nullopt;
}

/// Takes over what an artwork says of its texts; the inscription's place goes before that of other texts.
void add_text(Artwork& artwork, SetText text, bool is_inscription, bool no_inscription_yet) {
  const Legibility& legibility = text.legibility;
  const bool first = artwork.placement.size == 0;
  if (first || legibility.cap_height < artwork.cap_height) {
    artwork.cap_height = legibility.cap_height;
    artwork.x_height = legibility.x_height;
  }
  if (first || legibility.stroke.width < artwork.stroke.width) artwork.stroke = legibility.stroke;
  if (first || legibility.counter.width < artwork.counter.width) artwork.counter = legibility.counter;
  if (first || (is_inscription && no_inscription_yet)) artwork.placement = text.setting.placement;
  if (is_inscription && no_inscription_yet) artwork.lines = std::move(text.lines);
  artwork.changes.insert(artwork.changes.end(), text.changes.begin(), text.changes.end());
  artwork.warnings.insert(artwork.warnings.end(), text.warnings.begin(), text.warnings.end());
  if (!text.illegible && std::isfinite(legibility.slit.width)) artwork.slits.push_back(legibility.slit);
  if (!artwork.illegible) artwork.illegible = std::move(text.illegible);
}

/// Ink as large as it goes touches its room's edges: what rounding makes of that is not outside, mm.
constexpr double touch = 1e-9;

/// The curves of a path of which an end or a control point lies outside, and the ends of its lines that do.
Path segments_outside(const Path& path, const ConvexRegion& region) {
  const auto is_outside = [&region](Point p) { return distance_outside(region, p) > touch; };
  Path outside;
  const Point* next = path.points().data();
  Point here;
  for (const Path::Verb verb : path.verbs()) {
    if (verb == Path::Verb::close) continue;  // the contour's ends are looked at, and the region is convex
    const int taken = std::max(1, static_cast<int>(verb));
    if (std::any_of(next, next + taken, is_outside)) {
      outside.move_to(taken == 1 ? next[0] : here);
      if (verb == Path::Verb::quad) outside.quad_to(next[0], next[1]);
      if (verb == Path::Verb::cubic) outside.cubic_to(next[0], next[1], next[2]);
    }
    here = next[taken - 1];
    next += taken;
  }
  return outside;
}

}  // namespace

std::string hash_of(const std::vector<Layer>& layers) {
  std::string bytes;
  const auto put = [](char* at, double mm) {
    const auto micrometres = static_cast<std::uint32_t>(std::lrint(mm * 1000));
    for (int shift = 0; shift < 32; shift += 8) *at++ = static_cast<char>(micrometres >> shift);
    return at;
  };
  for (const Layer& layer : layers) {
    bytes += name_of(layer.operation);
    for (const Path::Verb verb : layer.path.verbs()) bytes += "mlqcz"[static_cast<int>(verb)];
    const std::size_t before = bytes.size();
    bytes.resize(before + 8 * layer.path.points().size());
    char* at = bytes.data() + before;
    for (const Point p : layer.path.points()) at = put(put(at, p.x), p.y);
  }
  return sha256_hex(bytes);
}

double distance_outside(const ConvexRegion& region, const Path& path) {
  if (path.empty()) return 0;
  Bounds box;
  for (const Point p : path.points()) box.add(p);
  ConvexRegion near;  // its edges that the path may cross
  for (const HalfPlane& edge : region.edges) {
    const Point corner{edge.normal.x > 0 ? box.right : box.left, edge.normal.y > 0 ? box.top : box.bottom};
    if (dot(edge.normal, corner) > edge.offset + touch) near.edges.push_back(edge);
  }
  if (near.edges.empty()) return 0;
  double distance = 0;
  for (const Polyline& line : flatten(segments_outside(path, near), curve_tolerance / 100)) {
    for (const Point p : line.points) distance = std::max(distance, distance_outside(near, p));
  }
  return distance;
}

bool has_inscription(const Design& design) {
  return std::ranges::any_of(design.texts,
                             [](const TextPart& text) { return std::holds_alternative<InscriptionPart>(text.words); });
}

bool has_number(const Design& design) {
  return std::ranges::any_of(design.texts,
                             [](const TextPart& text) { return std::holds_alternative<NumberPart>(text.words); });
}

Result<Artwork> compose(const LaidDesign& design, const Words& words, Typesetter& typesetter) {
  return compose(design, words, typesetter, {});
}

Result<Artwork> compose(const LaidDesign& design, const Words& words, Typesetter& typesetter, SettingRecords records) {
  records.resize(design.texts.size());
  Artwork artwork;
  artwork.blank = design.blank;
  artwork.from_behind = design.from_behind;
  artwork.clear_area = design.clear_area;
  artwork.kept_clear = design.kept_clear;
  artwork.kept_clear.insert(artwork.kept_clear.end(), design.blank.kept_clear.begin(), design.blank.kept_clear.end());
  LayerStack layers(design.constant);
  bool has_inscription = false;
  for (std::size_t i = 0; i < design.texts.size(); ++i) {
    const TextPart& part = design.texts[i];
    ReadyText ready;
    Result<SetText> text = set_text({part, design.rooms[i]}, words, typesetter, ready, records[i]);
    if (!text.ok()) return text.fault();
    const Path ink = ink_of(*text, typesetter);
    // In its own room it keeps its gap from all other parts: Laying has seen to that.
    const double out = distance_outside(design.rooms[i].area.area, ink, is_filled(part.operation));
    if (out > edge_slack) return astray(design, out);
    layers.add(part.operation, ink);
    if (auto fault = note_faces(artwork.faces, text->setting.block, typesetter)) return *std::move(fault);
    const bool is_inscription = std::holds_alternative<InscriptionPart>(part.words);
    add_text(artwork, std::move(*text), is_inscription, !has_inscription);
    has_inscription |= is_inscription;
  }
  if (design.hatch) {
    if (auto fault = hatch_engraving(layers, *design.hatch)) return *std::move(fault);
  }
  artwork.layers = std::move(layers).take();
  artwork.hash = hash_of(artwork.layers);
  return artwork;
}

}  // namespace ordinatio::inline design
