#include "fit/line_candidates.h"

#include <algorithm>
#include <limits>

namespace ordinatio::inline fit {
namespace {

/// Where a byte's pen stands in its passage: a first look at a line's width.
double pen_at(const ShapedLine& whole, std::size_t byte) {
  const auto glyph = std::ranges::lower_bound(whole.glyphs, byte, {}, &PlacedGlyph::cluster);
  return glyph == whole.glyphs.end() ? whole.advance : glyph->origin.x;
}

/// How far the letters before each byte advance together, whatever way they run.
std::vector<double> pens_of(const ShapedLine& whole) {
  std::vector<double> pens(whole.text.size() + 1);
  for (std::size_t i = 0; i < whole.glyphs.size(); ++i) {
    const double next = i + 1 < whole.glyphs.size() ? whole.glyphs[i + 1].origin.x : whole.advance;
    pens[whole.glyphs[i].cluster + 1] += std::max(0.0, next - whole.glyphs[i].origin.x);
  }
  for (std::size_t byte = 1; byte < pens.size(); ++byte) pens[byte] += pens[byte - 1];
  return pens;
}

}  // namespace

LineCandidates::LineCandidates(Typesetter& typesetter, const TextPassages& list, const SettingRules& rules)
    : typesetter_(typesetter), list_(list), rules_(rules) {}

void LineCandidates::lie_in(const ConvexRegion& region) {
  region_ = &region;
  ++region_number_;
  fault_.reset();
}

MaybeFault LineCandidates::shape(const std::vector<StyledLine>& lines) {
  for (const TextPassage& passage : list_.passages) {
    const TextStyle& style = rules_.styles[passage.style].text;
    Result<ShapedLine> shaped = typesetter_.shape(passage.text, style, passage.first_line + 1);
    if (!shaped.ok()) return in_own_line(passage, shaped.fault(), lines);
    wholes_.push_back(std::move(*shaped));
    whole_measures_.push_back(measure_of(wholes_.back(), passage));
  }
  const bool has_ink = std::ranges::any_of(wholes_, [](const ShapedLine& whole) { return !whole.ink.empty(); });
  if (has_ink) return std::nullopt;
  return Fault{"there is nothing to engrave", "", "the text draws no ink", "Ask for the text"};
}

/// The same Fault, told by the place in the customer's line.
Fault LineCandidates::in_own_line(const TextPassage& passage, const Fault& fault,
                                  const std::vector<StyledLine>& lines) {
  for (std::size_t i = passage.first_line; i < lines.size() && lines[i].style == passage.style; ++i) {
    const Result<ShapedLine> alone = typesetter_.shape(lines[i].text, rules_.styles[passage.style].text, i + 1);
    if (!alone.ok()) return alone.fault();
  }
  return fault;
}

const LineStyle& LineCandidates::style_of(std::size_t piece) const {
  return rules_.styles[list_.passages[list_.pieces[piece].passage].style];
}

LineMeasure LineCandidates::measure_of(const ShapedLine& line, const TextPassage& passage) {
  const LineStyle& style = rules_.styles[passage.style];
  LineMeasure measure = measure_line(line, style.size, style.cap_height, typesetter_, rules_.block);
  measure.role = passage.style;
  return measure;
}

LineCandidate& LineCandidates::line(std::size_t first, std::size_t last) {
  const std::size_t key = first * list_.pieces.size() + last - 1;
  if (const auto known = candidates_.find(key); known != candidates_.end()) {
    if (known->second.fault) fault_ = known->second.fault;
    return known->second;
  }
  const TextPiece &from = list_.pieces[first], &to = list_.pieces[last - 1];
  Result<ShapedLine> line = typesetter_.part_of(wholes_[from.passage], from.begin, to.end, style_of(first).text);
  if (!line.ok()) fault_ = line.fault();
  ShapedLine shaped = line.ok() ? std::move(*line) : ShapedLine{};
  const LineMeasure measure = measure_of(shaped, list_.passages[from.passage]);
  LineCandidate candidate{std::move(shaped), measure, {}};
  if (!line.ok()) candidate.fault = line.fault();
  return candidates_.emplace(key, std::move(candidate)).first->second;
}

double LineCandidates::width(std::size_t first, std::size_t last, double most) {
  const TextPiece &from = list_.pieces[first], &to = list_.pieces[last - 1];
  if (from.passage != to.passage) return std::numeric_limits<double>::infinity();
  const ShapedLine& whole = wholes_[from.passage];
  const double size = style_of(first).size;
  constexpr double side_bearings = 1;  // em; ink reaches beyond or stays short of its pen by less
  if (whole.left_to_right) {
    const double least = size * (pen_at(whole, to.end) - pen_at(whole, from.begin) - side_bearings);
    if (least > most) return least;
  }
  const LineMeasure& measure = line(first, last).measure;
  return size * (measure.right - measure.left);
}

std::vector<double> LineCandidates::reaches() const {
  std::vector<double> reaches;
  double before = 0;
  for (std::size_t i = 0; i < list_.pieces.size();) {
    const std::size_t passage = list_.pieces[i].passage;
    const std::vector<double> pens = pens_of(wholes_[passage]);
    const double size = style_of(i).size;
    for (; i < list_.pieces.size() && list_.pieces[i].passage == passage; ++i) {
      reaches.push_back(before + size * pens[std::min(list_.pieces[i].end, pens.size() - 1)]);
    }
    before += size * pens.back();
  }
  return reaches;
}

const ConvexHull& LineCandidates::hull_of(LineCandidate& line) {
  if (line.hull) return *line.hull;
  std::vector<Point> points;
  for (const PlacedGlyph& glyph : line.shaped.glyphs) {
    const Polygon& corners = typesetter_.outline(glyph.face, glyph.glyph).hull.vertices;
    for (const Point p : corners) points.push_back(glyph.origin + p);
  }
  return line.hull.emplace(ordinatio::hull_of(std::move(points)));
}

const std::vector<double>& LineCandidates::supports_of(LineCandidate& line) {
  if (line.region == region_number_) return line.supports;
  line.region = region_number_;
  line.supports.clear();
  // Of a long text many lines are asked for once: the hull tells the same, but for rounding, and sooner.
  const bool by_hull = list_.pieces.size() > piece_limit && !line.measure.ink.empty();
  for (const HalfPlane& edge : region_->edges) {
    line.supports.push_back(by_hull ? support_of(hull_of(line), edge.normal) : support(line.shaped, edge.normal));
  }
  return line.supports;
}

double LineCandidates::support(const ShapedLine& line, Point normal) {
  double support = -1e300;
  for (const PlacedGlyph& glyph : line.glyphs) {
    const GlyphOutline& outline = typesetter_.outline(glyph.face, glyph.glyph);
    const Bounds& ink = outline.ink;
    const double start = dot(normal, glyph.origin);
    const Point furthest{normal.x > 0 ? ink.right : ink.left, normal.y > 0 ? ink.top : ink.bottom};
    if (ink.empty() || start + dot(normal, furthest) <= support) continue;
    support = std::max(support, start + support_of(outline.hull, normal));
  }
  return support;
}

}  // namespace ordinatio::inline fit
