#include <algorithm>
#include <bit>
#include <cmath>

#include "design/date.h"
#include "design/layers.h"

namespace ordinatio {
namespace {

std::string mm_text(double value) {
  std::string text;
  append_number(text, value, 2);
  return text + " mm";
}

/// The lines of a part, whoever wrote them.
Result<std::vector<std::string>> lines_of(const TextPart& part, const Words& words) {
  if (std::holds_alternative<InscriptionPart>(part.words)) return words.inscription.lines;
  if (const auto* fixed = std::get_if<WordsPart>(&part.words)) return fixed->lines;
  const Result<std::string> date = date_line(std::get<DatePart>(part.words), words.date);
  if (!date) return date.fault();
  return std::vector<std::string>{*date};
}

Result<std::vector<ShapedLine>> shape_lines(const std::vector<std::string>& lines, const TextPart& part,
                                            Typesetter& typesetter) {
  const TextStyle style{part.faces, part.language, told_language(lines)};
  std::vector<ShapedLine> shaped;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Result<ShapedLine> line = typesetter.shape(lines[i], style, i + 1);
    if (!line) return line.fault();
    shaped.push_back(std::move(*line));
  }
  return shaped;
}

struct SetText {
  Block block;
  Placement placement;
  double cap_height = 0;  // mm
};

Fault too_small(const TextPart& part, double cap_height) {
  return {"the lettering would come to " + mm_text(cap_height), "",
          "the design's least cap height is " + mm_text(part.min_cap_height),
          "Shorten the text, part it into more lines, or choose a design with more room"};
}

Fault no_place_left() {
  return {"there is no room for the text", "", "what is kept clear leaves no place where all its lines go",
          "Part it into other lines, or engrave it on a blank with less to keep clear"};
}

Wish wish_for(const TextPart& part, const Block& block, double cap_height_em) {
  Wish wish{block.anchor, part.target, part.max_cap_height / cap_height_em, part.off_axis_gain};
  if (part.box && part.block.alignment == Alignment::left) wish.anchor.x = block.ink.left;
  if (part.box && part.block.alignment == Alignment::right) wish.anchor.x = block.ink.right;
  return wish;
}

Result<SetText> set_text(const TextPart& part, const Words& words, Typesetter& typesetter) {
  const Result<std::vector<std::string>> lines = lines_of(part, words);
  if (!lines) return lines.fault();
  const Result<FaceMetrics> metrics = typesetter.metrics(part.faces.front());
  if (!metrics) return metrics.fault();
  Result<std::vector<ShapedLine>> shaped = shape_lines(*lines, part, typesetter);
  if (!shaped) return shaped.fault();
  BlockStyle style = part.block;
  style.cap_height = metrics->cap_height;
  SetText text{build_block(typesetter, std::move(*shaped), style), {}, 0};
  if (text.block.ink.empty())
    return Fault{"there is nothing to engrave", "", "the text draws no ink", "Ask for the text"};
  const Wish wish = wish_for(part, text.block, metrics->cap_height);
  const bool among_obstacles = !part.region.obstacles.empty();
  const Support support = [&](Point normal) { return support_of(text.block, normal); };
  const auto placement = among_obstacles ? largest_copy(line_hulls(text.block), part.region, wish)
                                         : largest_copy(support, text.block.ink, part.region.region, wish);
  if (!placement) return among_obstacles ? no_place_left() : too_small(part, 0);
  text.placement = *placement;
  text.cap_height = placement->size * metrics->cap_height;
  // The programme gives away 1e-11 of the size: a largest size equal to the least must not hold the item for that.
  if (text.cap_height < part.min_cap_height * (1 - 1e-9)) return too_small(part, text.cap_height);
  return text;
}

Path ink_of(const SetText& text, Typesetter& typesetter) {
  Path ink;
  for (std::size_t i = 0; i < text.block.lines.size(); ++i) {
    typesetter.append_ink(ink, text.block.lines[i], text.placement.size, text.placement(text.block.origins[i]),
                          curve_tolerance / 2);
  }
  return ink;
}

Fault astray(const Design& design, double distance) {
  return {"the artwork would leave the clear area by " + mm_text(distance), "design " + design.name,
          "this is a mistake of the program, caught before anything was written", "Keep the order and report it"};
}

MaybeFault note_faces(std::vector<UsedFace>& faces, const Block& block, Typesetter& typesetter) {
  for (const ShapedLine& line : block.lines) {
    FaceId last = 0xFFFF;
    for (const PlacedGlyph& glyph : line.glyphs) {
      if (glyph.face == std::exchange(last, glyph.face)) continue;
      const Result<std::string>& checksum = typesetter.checksum(glyph.face);
      if (!checksum) return checksum.fault();
      faces.push_back({typesetter.file(glyph.face).name, *checksum});
    }
  }
  std::ranges::sort(faces);
  faces.erase(std::unique(faces.begin(), faces.end()), faces.end());
  return std::nullopt;
}

/// Operations, verbs and coordinates in whole micrometres, little-endian: what two artworks share when they would be
/// engraved alike.
std::string hash_of(const std::vector<Layer>& layers) {
  std::string bytes;
  const auto append = [&bytes](double mm) {
    const auto micrometres = static_cast<std::uint32_t>(std::lrint(mm * 1000));
    const char little_endian[] = {static_cast<char>(micrometres), static_cast<char>(micrometres >> 8),
                                  static_cast<char>(micrometres >> 16), static_cast<char>(micrometres >> 24)};
    bytes.append(little_endian, sizeof little_endian);
  };
  for (const Layer& layer : layers) {
    bytes += name_of(layer.operation);
    bytes.reserve(bytes.size() + layer.path.verbs().size() + 8 * layer.path.points().size());
    for (const Path::Verb verb : layer.path.verbs()) bytes += "mlqcz"[static_cast<int>(verb)];
    for (const Point p : layer.path.points()) {
      append(p.x);
      append(p.y);
    }
  }
  return sha256_hex(bytes);
}

}  // namespace

double distance_outside(const ConvexRegion& region, const Path& path) {
  const auto worst = [&region](const auto& points) {
    double distance = -1e300;
    for (const Point p : points) distance = std::max(distance, distance_outside(region, p));
    return distance;
  };
  Bounds box;
  for (const Point p : path.points()) box.add(p);
  const std::array corners{Point{box.left, box.bottom}, Point{box.right, box.bottom}, Point{box.right, box.top},
                           Point{box.left, box.top}};
  if (path.empty() || worst(corners) <= 0) return 0;
  if (worst(path.points()) <= 0) return 0;
  double distance = -1e300;
  for (const Polyline& line : flatten(path, curve_tolerance / 100)) distance = std::max(distance, worst(line.points));
  return distance;
}

Result<Artwork> compose(const Design& design, const Words& words, Typesetter& typesetter) {
  Artwork artwork;
  artwork.blank = design.blank;
  artwork.clear_area = design.clear_area;
  artwork.kept_clear = design.kept_clear;
  LayerStack layers(design.constant);
  for (const TextPart& part : design.texts) {
    const Result<SetText> text = set_text(part, words, typesetter);
    if (!text) return text.fault();
    const Path ink = ink_of(*text, typesetter);
    const double out = distance_outside(design.clear_area, ink, is_filled(part.operation));
    if (out > edge_slack) return astray(design, out);
    layers.add(part.operation, ink);
    if (auto fault = note_faces(artwork.faces, text->block, typesetter)) return *std::move(fault);
    const bool first = artwork.cap_height == 0;
    if (first || std::holds_alternative<InscriptionPart>(part.words)) artwork.placement = text->placement;
    artwork.cap_height = first ? text->cap_height : std::min(artwork.cap_height, text->cap_height);
  }
  artwork.layers = std::move(layers).take();
  artwork.hash = hash_of(artwork.layers);
  return artwork;
}

}  // namespace ordinatio
