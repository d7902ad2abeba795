#include "strokes/alphabet.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "strokes/glyph_lines.h"

namespace ordinatio::inline strokes {
namespace {

// The blocks that have Latin letters put together with marks: Latin-1 to Extended-B, and Extended Additional.
constexpr std::pair<char32_t, char32_t> composed_ranges[] = {{0xC0, 0x24F}, {0x1E00, 0x1EFF}};

constexpr char32_t caron = 0x30C, cedilla = 0x327, ogonek = 0x328;
constexpr char32_t beside = 0x315, turned_above = 0x312, comma_below = 0x326;  // as the alphabet draws those marks
constexpr double beside_advance = 10;                                          // what a comma beside the letter adds
constexpr double mark_gap = -4;  // between one mark and the next above it: each keeps off its letter already

/// A letter and its marks; marks are drawn as their letter wants them.
struct Parts {
  char32_t letter = 0;
  std::u32string marks;
};

bool is_one_of(char32_t letter, std::u32string_view letters) {
  return letters.find(letter) != std::u32string_view::npos;
}

bool is_above(char32_t mark) {
  constexpr int above = 230;  // the combining class
  return u_getCombiningClass(static_cast<UChar32>(mark)) == above;
}

/// Latvian's comma, which Unicode calls a cedilla, and the caron beside a tall letter.
char32_t mark_as_drawn(char32_t letter, char32_t mark) {
  if (mark == cedilla && letter == U'g') return turned_above;
  if (mark == cedilla && is_one_of(letter, U"GKLNRklnr")) return comma_below;
  if (mark == caron && is_one_of(letter, U"dltL")) return beside;
  return mark;
}

Parts parts_of(char32_t character) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::UnicodeString apart =
      icu::Normalizer2::getNFDInstance(status)->normalize(icu::UnicodeString(static_cast<UChar32>(character)), status);
  if (U_FAILURE(status)) throw std::runtime_error("ICU could not take a letter apart");
  Parts parts;
  bool above = false;
  for (std::int32_t i = 0; i < apart.length(); i = apart.moveIndex32(i, 1)) {
    const auto c = static_cast<char32_t>(apart.char32At(i));
    if (i == 0) {
      parts.letter = c;
    } else {
      parts.marks += mark_as_drawn(parts.letter, c);
      above |= is_above(c);
    }
  }
  if (above && parts.letter == U'i') parts.letter = U'ı';
  if (above && parts.letter == U'j') parts.letter = U'ȷ';
  return parts;
}

/// A letter that grows by its marks.
class Composition {
 public:
  explicit Composition(const DrawnGlyph& letter) : path_(letter.path) {
    const Bounds ink = bounds_of(letter.path);
    right_ = ink.right;
    above_ = letter.above.value_or(Point{ink.centre().x, ink.top});
    below_ = letter.below.value_or(Point{ink.centre().x, ink.bottom});
    ogonek_ = letter.ogonek.value_or(Point{ink.right, 0});
  }

  void add(char32_t mark, const DrawnGlyph& drawn) {
    const Bounds ink = bounds_of(drawn.path);
    if (mark == beside) {
      constexpr double off = 14, top = 100;  // from the letter's own right, at the height of tall letters
      const double right = is_narrow_ ? right_ : stem_;
      path_.append(drawn.path, shift_by({right + off, top}));
    } else if (mark == ogonek) {
      path_.append(drawn.path, shift_by(ogonek_));
    } else if (is_above(mark) || mark == turned_above) {
      path_.append(drawn.path, shift_by(above_));
      above_.y += ink.top + mark_gap;
    } else {
      path_.append(drawn.path, shift_by(below_));
      below_.y += ink.bottom - mark_gap;
    }
  }
  /// Where a caron beside the letter stands: at its stem, which may not be its right edge.
  void stem_at(double x) { stem_ = x, is_narrow_ = false; }
  [[nodiscard]] const Path& path() const { return path_; }

 private:
  Path path_;
  double right_ = 0, stem_ = 0;
  bool is_narrow_ = true;
  Point above_, below_, ogonek_;
};

double advance_of(const DrawnGlyph& glyph) {
  const Bounds ink = bounds_of(glyph.path);
  return glyph.left + (ink.empty() ? 0 : ink.right) + glyph.right;
}

Transform slanted(double left, double degrees) {
  return {1, 0, std::tan((90 - degrees) * std::numbers::pi / 180), 1, left, 0};
}

}  // namespace

StrokeAlphabet::StrokeAlphabet(std::string_view text, double slant) {
  const GlyphLines lines = read_glyph_lines(text);
  for (const auto& [character, drawn] : lines.glyphs) {
    glyphs_[character] = {transformed(drawn.path, slanted(drawn.left, slant)), advance_of(drawn)};
  }
  for (const auto& [first, last] : composed_ranges) {
    for (char32_t character = first; character <= last; ++character) {
      if (lines.glyphs.contains(character)) continue;
      const Parts parts = parts_of(character);
      const auto letter = lines.glyphs.find(parts.letter);
      if (letter == lines.glyphs.end() || parts.marks.empty()) continue;
      Composition whole(letter->second);
      if (parts.letter == U'l' || parts.letter == U'L') whole.stem_at(0);
      if (parts.letter == U't') whole.stem_at(14);
      bool all = true;
      double advance = advance_of(letter->second);
      for (const char32_t mark : parts.marks) {
        const auto drawn = lines.glyphs.find(mark);
        if ((all &= drawn != lines.glyphs.end())) whole.add(mark, drawn->second);
        if (mark == beside && parts.letter != U'L') advance += beside_advance;
      }
      if (!all) continue;
      glyphs_[character] = {transformed(whole.path(), slanted(letter->second.left, slant)), advance};
      base_[character] = parts.letter;
    }
  }
  for (const KerningLine& line : lines.kerning) {
    for (const char32_t left : line.left) {
      for (const char32_t right : line.right) kerning_[{left, right}] = line.by;
    }
  }
}

const StrokeGlyph* StrokeAlphabet::glyph(char32_t character) const {
  const auto found = glyphs_.find(character);
  return found == glyphs_.end() ? nullptr : &found->second;
}

double StrokeAlphabet::kerning(char32_t left, char32_t right) const {
  const auto base = [this](char32_t c) {
    const auto found = base_.find(c);
    return found == base_.end() ? c : found->second;
  };
  const auto found = kerning_.find({base(left), base(right)});
  return found == kerning_.end() ? 0 : found->second;
}

}  // namespace ordinatio::inline strokes
