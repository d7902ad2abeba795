#include "text/marks.h"

#include <hb-ot.h>
#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "text/mark_places.h"

namespace ordinatio::inline text {
namespace {

// Reached by long runs of unlike texts; then it starts anew, which costs time and changes nothing.
constexpr std::size_t verdict_limit = 1 << 14;

bool is_placed_mark(char32_t c) {
  const auto code = static_cast<UChar32>(c);
  return (U_MASK(u_charType(code)) & (U_GC_MN_MASK | U_GC_ME_MASK)) != 0 &&
         !u_hasBinaryProperty(code, UCHAR_DEFAULT_IGNORABLE_CODE_POINT);
}

/// Scripts whose marks are letters' own accents, set by one rule for all letters.
bool takes_accents(int script) {
  return script == USCRIPT_LATIN || script == USCRIPT_GREEK || script == USCRIPT_CYRILLIC ||
         script == USCRIPT_ARMENIAN || script == USCRIPT_COMMON;
}

/// Scripts for which HarfBuzz guesses a mark's place by its class where the face has no anchors.
bool may_be_guessed(int script) {
  constexpr int scripts[] = {USCRIPT_HEBREW, USCRIPT_ARABIC, USCRIPT_SYRIAC,   USCRIPT_THAANA,
                             USCRIPT_NKO,    USCRIPT_HAN,    USCRIPT_HIRAGANA, USCRIPT_KATAKANA};
  return std::ranges::find(scripts, script) != std::end(scripts);
}

constexpr double em_wider = 1;  // how much wider letters are when it is seen which marks move along

hb_position_t wider_advance(hb_font_t* font, void*, hb_codepoint_t glyph, void*) {
  hb_font_t* parent = hb_font_get_parent(font);
  const unsigned units = hb_face_get_upem(hb_font_get_face(font));
  return hb_font_get_glyph_h_advance(parent, glyph) + static_cast<hb_position_t>(em_wider * units);
}

/// The face with every letter an em wider: marks that are anchored stay with their letter, others do not.
HbFont widened(hb_font_t* font) {
  static hb_font_funcs_t* const functions = [] {
    hb_font_funcs_t* made = hb_font_funcs_create();
    hb_font_funcs_set_glyph_h_advance_func(made, wider_advance, nullptr, nullptr);
    hb_font_funcs_make_immutable(made);
    return made;
  }();
  HbFont wide(hb_font_create_sub_font(font));
  hb_font_set_funcs(wide.get(), functions, nullptr, nullptr);
  return wide;
}

/// Whether the face places marks of the script by anchors of its own.
bool has_anchors(const Face& face, int script) {
  unsigned count = 4;
  hb_tag_t tags[4];
  hb_ot_tags_from_script_and_language(hb_script_from_string(script_tag(script).c_str(), -1), HB_LANGUAGE_INVALID,
                                      &count, tags, nullptr, nullptr);
  hb_face_t* file = hb_font_get_face(face.font());
  unsigned script_index = 0, feature = 0;
  hb_ot_layout_table_select_script(file, HB_OT_TAG_GPOS, count, tags, &script_index, nullptr);
  return hb_ot_layout_language_find_feature(file, HB_OT_TAG_GPOS, script_index, HB_OT_LAYOUT_DEFAULT_LANGUAGE_INDEX,
                                            HB_TAG('m', 'a', 'r', 'k'), &feature) != 0;
}

/// Origins from the first glyph's pen, in ems.
std::vector<PlacedGlyph> glyphs_of(hb_buffer_t* buffer, const Face& face, FaceId id) {
  unsigned count = 0;
  const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
  const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(buffer, &count);
  std::vector<PlacedGlyph> glyphs;
  double pen = 0;
  for (unsigned i = 0; i < count; ++i) {
    const Point origin{pen + face.em(positions[i].x_offset), face.em(positions[i].y_offset)};
    glyphs.push_back({id, infos[i].codepoint, origin, infos[i].cluster, false});
    pen += face.em(positions[i].x_advance);
  }
  return glyphs;
}

std::string key_of(FaceId face, const RunRequest& request) {
  std::string key = std::to_string(face) + ' ' + std::to_string(request.script) + (request.right_to_left ? '<' : '>');
  key.append(request.language).append(" ");
  for (const hb_feature_t& feature : request.features) {
    key += std::to_string(feature.tag) + '=' + std::to_string(feature.value) + ' ';
  }
  return key.append(request.line.substr(request.begin, request.end - request.begin));
}

/// A letter and its marks, taken apart (NFD): ị is an i and a dot below.
std::u32string taken_apart(std::span<const LineLetter> grapheme) {
  UErrorCode status = U_ZERO_ERROR;
  icu::UnicodeString whole;
  for (const LineLetter& letter : grapheme) whole.append(static_cast<UChar32>(letter.character));
  const icu::UnicodeString parts = icu::Normalizer2::getNFDInstance(status)->normalize(whole, status);
  if (U_FAILURE(status)) throw std::runtime_error("ICU could not take a letter apart");
  std::u32string letters;
  for (std::int32_t i = 0; i < parts.length(); i = parts.moveIndex32(i, 1)) {
    letters += static_cast<char32_t>(parts.char32At(i));
  }
  return letters;
}

bool has_mark_above(std::u32string_view parts) {
  return std::ranges::any_of(parts, [](char32_t c) { return mark_place(c) == MarkPlace::above; });
}

/// An i or j that keeps its dot under another mark; in Lithuanian the dot is typed where it stays.
bool keeps_soft_dot(const Face& face, const PlacedGlyph& letter, std::span<const LineLetter> grapheme) {
  constexpr char32_t typed_dot = 0x307;
  const std::u32string parts = taken_apart(grapheme);
  if (!u_hasBinaryProperty(static_cast<UChar32>(parts.front()), UCHAR_SOFT_DOTTED) || !has_mark_above(parts) ||
      parts.find(typed_dot) != std::u32string_view::npos)
    return false;
  const bool first_is_dotted = !has_mark_above(taken_apart(grapheme.first(1)));
  return letter.glyph == face.glyph_of(parts.front()) ||
         (first_is_dotted && letter.glyph == face.glyph_of(grapheme.front().character));
}

/// Which mark each glyph behind the letter's is: the one it is drawn for by itself, else the next that is left. What the
/// face has composed with the letter has no glyph of its own, and those marks come first.
std::vector<char32_t> marks_of(std::span<const PlacedGlyph> glyphs, std::span<const LineLetter> grapheme,
                               const Face& face) {
  std::u32string left = taken_apart(grapheme);
  std::erase_if(left, [](char32_t c) { return !is_placed_mark(c); });
  std::vector<char32_t> marks(glyphs.size() - 1, 0);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const auto own = std::ranges::find_if(left, [&](char32_t c) { return face.glyph_of(c) == glyphs[i + 1].glyph; });
    if (own == left.end()) continue;
    marks[i] = *own;
    left.erase(own);
  }
  for (std::size_t i = marks.size(); i-- > 0;) {
    if (marks[i] != 0 || left.empty()) continue;
    marks[i] = left.back();
    left.pop_back();
  }
  return marks;
}

}  // namespace

bool has_marks(std::span<const LineLetter> grapheme) {
  return std::ranges::any_of(grapheme, [](const LineLetter& letter) { return is_placed_mark(letter.character); });
}

bool MarkJudge::sits(FaceId face, std::span<const LineLetter> grapheme, const RunRequest& request) {
  return verdict(face, grapheme, request).sits;
}

bool MarkJudge::sits(std::span<const PlacedGlyph> glyphs, std::span<const LineLetter> grapheme,
                     const RunRequest& request) {
  const Verdict& alone = verdict(glyphs.front().face, grapheme, request);
  std::vector<bool> anchored = alone.anchored;
  anchored.resize(glyphs.size(), false);
  return judge(glyphs, grapheme, anchored);
}

const MarkJudge::Verdict& MarkJudge::verdict(FaceId face, std::span<const LineLetter> grapheme,
                                             const RunRequest& request) {
  std::string key = key_of(face, request);
  if (const auto known = verdicts_.find(key); known != verdicts_.end()) return known->second;
  if (verdicts_.size() >= verdict_limit) verdicts_.clear();
  const Face& shown = face_of_(face);
  // Alone: what stands beside it must have no part in what is kept.
  RunRequest alone = request;
  alone.line = request.line.substr(request.begin, request.end - request.begin);
  alone.begin = 0, alone.end = alone.line.size();
  const auto shape_with = [&](hb_font_t* font) {
    shape_into(buffer_.get(), font, alone);
    return glyphs_of(buffer_.get(), shown, face);
  };
  const std::vector<PlacedGlyph> glyphs = shape_with(shown.font());
  const std::vector<PlacedGlyph> wide = shape_with(widened(shown.font()).get());
  Verdict verdict;
  const bool anchors = has_anchors(shown, request.script) && wide.size() == glyphs.size();
  for (std::size_t i = 0; i < glyphs.size(); ++i) {
    constexpr double alike = 1e-3;  // em
    verdict.anchored.push_back(anchors && std::abs(wide[i].origin.x - glyphs[i].origin.x) < alike);
  }
  verdict.sits = judge(glyphs, grapheme, verdict.anchored);
  return verdicts_.emplace(std::move(key), std::move(verdict)).first->second;
}

/// The ink of the letter's glyph; where a mark below is part of that, the letter alone says how far it reaches across.
Bounds MarkJudge::letter_ink(const PlacedGlyph& glyph, std::span<const LineLetter> grapheme, const Face& face) const {
  Bounds ink = outline_of_(glyph).ink;
  const std::u32string parts = taken_apart(grapheme.first(1));
  const hb_codepoint_t bare = parts.size() > 1 && !has_mark_above(parts) ? face.glyph_of(parts.front()) : 0;
  if (bare != 0) {
    const Bounds& alone = outline_of_({glyph.face, bare, {}, 0, false}).ink;
    ink.left = alone.left, ink.right = alone.right;
  }
  return ink.shifted(glyph.origin);
}

bool MarkJudge::judge(std::span<const PlacedGlyph> glyphs, std::span<const LineLetter> grapheme,
                      const std::vector<bool>& anchored) {
  if (glyphs.empty()) return true;
  const int script = grapheme.front().script;
  const Face& face = face_of_(glyphs.front().face);
  if (!takes_accents(script)) {
    if (!may_be_guessed(script) || glyphs.size() == 1) return true;
    return has_anchors(face, script);
  }
  if (keeps_soft_dot(face, glyphs.front(), grapheme)) return false;
  const std::vector<char32_t> marks = marks_of(glyphs, grapheme, face);
  Bounds letter = letter_ink(glyphs[0], grapheme, face);
  for (std::size_t i = 1; i < glyphs.size(); ++i) {
    const Bounds ink = outline_of_(glyphs[i]).ink.shifted(glyphs[i].origin);
    if (ink.empty() || marks[i - 1] == 0) continue;
    if (letter.empty()) return false;
    bool touches = false;
    for (std::size_t k = 0; k < i && !touches; ++k) touches = ink_.overlap_each_other(glyphs[k], glyphs[i]);
    const MarkPlace place = mark_place(marks[i - 1]);
    if (!is_in_place(place, {ink, letter, touches, anchored[i]})) return false;
    if (place == MarkPlace::above || place == MarkPlace::below) letter.add(ink);
  }
  return true;
}

}  // namespace ordinatio::inline text
