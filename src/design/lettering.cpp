#include "design/lettering.h"

#include <algorithm>

#include "design/text_setting.h"

namespace ordinatio {
namespace {

const TextPart* inscription_of(const Design& design) {
  const auto part = std::ranges::find_if(
      design.texts, [](const TextPart& text) { return std::holds_alternative<InscriptionPart>(text.words); });
  return part == design.texts.end() ? nullptr : &*part;
}

}  // namespace

Result<LetteringBound> bound_lettering(const Design& design, const Words& words, Typesetter& typesetter) {
  LetteringBound bound;
  const TextPart* part = inscription_of(design);
  if (part == nullptr) return bound;
  Result<SizeBound> own = bound_text(*part, words, typesetter);
  if (!own) return own.fault();
  bound.faces.push_back(std::move(*own));
  if (part->sturdier.empty()) return bound;
  if (Result<SizeBound> sturdier = bound_text(in_sturdier_face(*part), words, typesetter)) {
    bound.faces.push_back(std::move(*sturdier));
  }
  return bound;
}

double cap_height_at_most(const LetteringBound& bound, const Design& laid) {
  const TextPart* part = inscription_of(laid);
  if (part == nullptr) return 0;
  const WidthProfile& widths = part->area.widths;
  const double across = std::ranges::max(widths.rights) - std::ranges::min(widths.lefts);
  const double up = widths.heights.back() - widths.heights.front();
  double most = 0;
  for (const SizeBound& face : bound.faces) most = std::max(most, face.cap_height_in(across, up));
  return most;
}

double cap_height_on(const Design& laid, const Words& words, Typesetter& typesetter) {
  double cap_height = 0;
  for (const TextPart& part : laid.texts) {
    const Result<SetText> text = set_text(part, words, typesetter);
    if (!text || text->illegible) return 0;
    if (std::holds_alternative<InscriptionPart>(part.words)) cap_height = text->legibility.cap_height;
  }
  return cap_height;
}

}  // namespace ordinatio
