#include "paper/wording.h"
#include "base/utf8.h"

#include <unicode/brkiter.h>
#include <unicode/uchar.h>
#include <unicode/utext.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <memory>
#include <stdexcept>
#include <utility>

namespace ordinatio::inline paper {
namespace {

constexpr UChar32 zero_width_non_joiner = 0x200C, zero_width_joiner = 0x200D;
constexpr UChar32 no_character = 0;  // before what follows a sign of ours; U+0000 itself is always spelled out

/// Negative where the bytes are not UTF-8.
UChar32 character_at(std::string_view text, std::size_t& at) {
  const std::optional<char32_t> character = read_character(text, at);
  return character ? static_cast<UChar32>(*character) : U_SENTINEL;
}

std::string hex(std::uint32_t number, std::size_t digits) {
  std::string text;
  for (; number != 0 || text.size() < digits; number /= 16) text.insert(text.begin(), "0123456789ABCDEF"[number % 16]);
  return text;
}

/// Whether a joiner after this character has work to do: cursive letters, conjuncts after a virama (RFC 5892, appendix
/// A.1 and A.2, less what follows the joiner), and emoji, which are spelled out as a whole.
bool takes_joiner(UChar32 before) {
  for (const UProperty emoji : {UCHAR_EXTENDED_PICTOGRAPHIC, UCHAR_EMOJI_MODIFIER, UCHAR_VARIATION_SELECTOR}) {
    if (u_hasBinaryProperty(before, emoji)) return true;
  }
  const int joining = u_getIntPropertyValue(before, UCHAR_JOINING_TYPE);
  return joining == U_JT_DUAL_JOINING || joining == U_JT_LEFT_JOINING || joining == U_JT_RIGHT_JOINING ||
         u_getCombiningClass(before) == 9;
}

bool is_hidden(UChar32 character, UChar32 before) {
  if (character == ' ') return false;
  if (character == zero_width_joiner || character == zero_width_non_joiner) return !takes_joiner(before);
  const auto is_of = [character](std::uint32_t kinds) { return (U_MASK(u_charType(character)) & kinds) != 0; };
  // Without a letter a mark would land on whatever stands to its left: a line's number, or a sign of ours.
  if (is_of(U_GC_M_MASK) && (before == ' ' || before == no_character)) return true;
  constexpr std::uint32_t hidden_kinds = U_GC_CC_MASK | U_GC_CO_MASK | U_GC_CN_MASK | U_GC_Z_MASK;
  if (is_of(hidden_kinds) || character == 0xFFFD) return true;
  // Variation selectors choose a letter's form: they show in the letter.
  return u_hasBinaryProperty(character, UCHAR_DEFAULT_IGNORABLE_CODE_POINT) != 0 &&
         u_hasBinaryProperty(character, UCHAR_VARIATION_SELECTOR) == 0;
}

}  // namespace

void Wording::add(std::string_view words, bool is_sign) {
  text += words;
  odd.resize(text.size(), is_sign);
}

Wording Wording::part(std::size_t begin, std::size_t end) const {
  const auto at = [this](std::size_t byte) { return odd.begin() + static_cast<std::ptrdiff_t>(byte); };
  return {text.substr(begin, end - begin), {at(begin), at(end)}};
}

Wording make_visible(std::string_view line, std::string_view space_sign) {
  Wording wording;
  const std::size_t last_word_end = line.find_last_not_of(' ') + 1;  // 0 where there is none
  UChar32 before = ' ';
  for (std::size_t at = 0; at < line.size();) {
    const std::size_t begin = at;
    const UChar32 character = character_at(line, at);
    const std::string_view bytes = line.substr(begin, at - begin);
    const UChar32 previous = std::exchange(before, no_character);
    if (character < 0) {
      for (const char byte : bytes) wording.add("[0x" + hex(static_cast<unsigned char>(byte), 2) + "]", true);
    } else if (character == ' ' && (previous == ' ' || begin >= last_word_end)) {
      wording.add(space_sign, true);
      before = ' ';
    } else if (is_hidden(character, previous)) {
      wording.add(spell_out(bytes), true);
    } else {
      wording.add(bytes, false);
      before = character;
    }
  }
  return wording;
}

std::string spell_out(std::string_view grapheme) {
  std::string text;
  for (std::size_t at = 0; at < grapheme.size();) {
    const auto character = static_cast<std::uint32_t>(std::max(character_at(grapheme, at), 0));
    text += (text.empty() ? "[U+" : " U+") + hex(character, 4);
  }
  return text + "]";
}

bool reads_right_to_left(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const UCharDirection direction = u_charDirection(character_at(text, at));
    if (direction == U_LEFT_TO_RIGHT) return false;
    if (direction == U_RIGHT_TO_LEFT || direction == U_RIGHT_TO_LEFT_ARABIC) return true;
  }
  return false;
}

std::vector<std::size_t> line_breaks(std::string_view text) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<icu::BreakIterator> breaks(
      icu::BreakIterator::createLineInstance(icu::Locale::getRoot(), status));
  const std::unique_ptr<UText, decltype(&utext_close)> source(
      utext_openUTF8(nullptr, text.data(), static_cast<std::int64_t>(text.size()), &status), utext_close);
  if (U_SUCCESS(status)) breaks->setText(source.get(), status);
  if (U_FAILURE(status)) throw std::runtime_error(std::string("ICU cannot break lines: ") + u_errorName(status));
  std::vector<std::size_t> places;
  breaks->first();
  for (int place = breaks->next(); place != icu::BreakIterator::DONE; place = breaks->next()) {
    places.push_back(static_cast<std::size_t>(place));
  }
  return places;
}

}  // namespace ordinatio::inline paper
