#include "design/lettering.h"

#include <algorithm>

#include "design/text_setting.h"

namespace ordinatio::inline design {
namespace {

bool is_inscription(const TextPart& part) { return std::holds_alternative<InscriptionPart>(part.words); }

bool are_same(const std::vector<HalfPlane>& a, const std::vector<HalfPlane>& b) {
  return std::ranges::equal(a, b, [](const HalfPlane& one, const HalfPlane& other) {
    return one.normal == other.normal && one.offset == other.offset;
  });
}

/// All that a setting goes by; widths are the region's.
bool are_same(const SettingArea& a, const SettingArea& b) {
  return are_same(a.area.region.edges, b.area.region.edges) &&
         std::ranges::equal(a.area.obstacles, b.area.obstacles, {}, &ConvexHull::vertices, &ConvexHull::vertices) &&
         a.target == b.target && a.at_edge == b.at_edge && are_same(a.neighbours, b.neighbours) &&
         a.for_size_alone == b.for_size_alone && a.most_capitals == b.most_capitals;
}

}  // namespace

struct ReadyWords::Kept {
  const Design& design;
  const Words& words;
  Typesetter& typesetter;
  std::vector<ReadyText> texts;  // of the design, in its order
};

ReadyWords::ReadyWords(const Design& design, const Words& words, Typesetter& typesetter)
    : kept_(new Kept{design, words, typesetter, std::vector<ReadyText>(design.texts.size())}) {}
ReadyWords::~ReadyWords() = default;
ReadyWords::ReadyWords(ReadyWords&&) noexcept = default;
ReadyWords& ReadyWords::operator=(ReadyWords&&) noexcept = default;

Result<LetteringBound> ReadyWords::bound() {
  const auto& texts = kept_->design.texts;
  const auto part = std::ranges::find_if(texts, is_inscription);
  if (part == texts.end()) return LetteringBound{};
  ReadyText& ready = kept_->texts[static_cast<std::size_t>(part - texts.begin())];
  Result<std::vector<SizeBound>> faces = bound_text(*part, kept_->words, kept_->typesetter, ready);
  if (!faces.ok()) return faces.fault();
  return LetteringBound{*std::move(faces)};
}

double ReadyWords::cap_height_on(const LaidDesign& laid, SettingRecords& records) {
  records.resize(laid.texts.size());
  double cap_height = 0;
  for (std::size_t i = 0; i < laid.texts.size(); ++i) {
    const TextPart& part = laid.texts[i];
    const Result<SetText> text =
        set_text({part, laid.rooms[i]}, kept_->words, kept_->typesetter, kept_->texts[i], records[i]);
    if (!text.ok() || text->illegible) return 0;
    if (is_inscription(part)) cap_height = text->legibility.cap_height;
  }
  return cap_height;
}

std::size_t ReadyWords::lines_kept() const {
  std::size_t lines = 0;
  for (const ReadyText& text : kept_->texts) {
    for (const auto* face : {&text.own, &text.sturdier}) {
      if (*face && (*face)->ok()) lines += (**face)->lines.lines_kept();
    }
  }
  return lines;
}

bool have_same_room(const LaidDesign& a, const LaidDesign& b) {
  return std::ranges::equal(a.rooms, b.rooms, [](const TextRoom& one, const TextRoom& other) {
    return are_same(one.area, other.area) && one.airy.has_value() == other.airy.has_value() &&
           (!one.airy || are_same(*one.airy, *other.airy));
  });
}

double cap_height_at_most(const LetteringBound& bound, const LaidDesign& laid) {
  const auto part = std::ranges::find_if(laid.texts, is_inscription);
  if (part == laid.texts.end()) return 0;
  const WidthProfile& widths = laid.rooms[static_cast<std::size_t>(part - laid.texts.begin())].area.widths;
  const double across = std::ranges::max(widths.rights) - std::ranges::min(widths.lefts);
  const double up = widths.heights.back() - widths.heights.front();
  double most = 0;
  for (const SizeBound& face : bound.faces) most = std::max(most, face.cap_height_in(across, up));
  return most;
}

}  // namespace ordinatio::inline design
