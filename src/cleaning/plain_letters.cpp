#include "cleaning/plain_letters.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>

#include <stdexcept>
#include <utility>

namespace ordinatio::inline cleaning {
namespace {

bool is_ligature(char32_t c) { return c >= 0xFB00 && c <= 0xFB06; }

bool is_mathematical(char32_t c) {
  const bool in_block = (c >= 0x2100 && c <= 0x214F) || (c >= 0x1D400 && c <= 0x1D7FF);
  // ℹ is pasted as an emoji: it is held as one.
  const bool emoji = u_hasBinaryProperty(static_cast<UChar32>(c), UCHAR_EMOJI);
  return in_block && !emoji && u_getIntPropertyValue(static_cast<UChar32>(c), UCHAR_DECOMPOSITION_TYPE) == U_DT_FONT;
}

/// Its compatibility decomposition: letters only, for these.
void append_plain(Letters& line, const Letter& letter) {
  UErrorCode status = U_ZERO_ERROR;
  icu::UnicodeString parts;
  icu::Normalizer2::getNFKDInstance(status)->normalize(icu::UnicodeString(static_cast<UChar32>(letter.character)),
                                                       parts, status);
  if (U_FAILURE(status)) throw std::runtime_error("ICU could not take a letter apart");
  for (std::int32_t i = 0; i < parts.length(); i = parts.moveIndex32(i, 1)) {
    line.push_back({static_cast<char32_t>(parts.char32At(i)), letter.offset});
  }
}

}  // namespace

PlainLetters make_plain(Letters& line, Findings& findings) {
  PlainLetters result;
  bool ligature = false;
  Letters plain;
  for (const Letter& letter : line) {
    const bool is_joined = is_ligature(letter.character), is_maths = is_mathematical(letter.character);
    if (!is_joined && !is_maths) {
      plain.push_back(letter);
      continue;
    }
    append_plain(plain, letter);
    if (is_joined && !std::exchange(ligature, true)) {
      findings.push_back(
          {letter.offset, CleaningNote::Weight::note, character_name(letter.character) + " was taken apart"});
    }
    if (is_maths && !std::exchange(result.mathematical, true)) {
      findings.push_back({letter.offset, CleaningNote::Weight::note, "mathematical letters became plain ones"});
    }
  }
  result.changed = ligature || result.mathematical;
  if (result.changed) line = std::move(plain);
  return result;
}

}  // namespace ordinatio::inline cleaning
