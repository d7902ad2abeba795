#include "cleaning/letters.h"

#include <unicode/edits.h>
#include <unicode/normalizer2.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <stdexcept>

#include "base/base.h"
#include "base/utf8.h"

namespace ordinatio::inline cleaning {
namespace {

const icu::Normalizer2& nfc() {
  static const icu::Normalizer2& form = [&]() -> const icu::Normalizer2& {
    UErrorCode status = U_ZERO_ERROR;
    const icu::Normalizer2* instance = icu::Normalizer2::getNFCInstance(status);
    if (U_FAILURE(status)) throw std::runtime_error("ICU has no normalisation data");
    return *instance;
  }();
  return form;
}

void demand(UErrorCode status) {
  if (U_FAILURE(status)) throw std::runtime_error("ICU could not normalise a text");
}

std::string hex_byte(char byte) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  const auto value = static_cast<unsigned char>(byte);
  return {digits[value >> 4], digits[value & 15]};
}

/// ED A0–BF xx is how a UTF-16 surrogate looks when it is written as if it were a character.
bool is_surrogate(std::string_view bytes) {
  return bytes.size() >= 3 && bytes[0] == '\xED' && static_cast<unsigned char>(bytes[1]) >= 0xA0 &&
         static_cast<unsigned char>(bytes[1]) <= 0xBF && continues_character(bytes[2]);
}

Fault broken_utf8(std::string_view original, std::size_t offset) {
  const std::size_t end[] = {offset};
  const Place place = places_of(original.substr(0, offset), end)[0];
  Fault fault{"byte " + hex_byte(original[offset]),
              "line " + std::to_string(place.line) + ", character " + std::to_string(place.column) + " (byte " +
                  std::to_string(offset + 1) + ")",
              "the text is not UTF-8 here, so nobody can tell which letter was meant",
              "Export the orders again as UTF-8, or set the encoding they are in"};
  if (const std::string_view rest = original.substr(offset); is_surrogate(rest)) {
    const auto high = static_cast<char32_t>(static_cast<unsigned char>(rest[1]) & 0x3F);
    const auto low = static_cast<char32_t>(static_cast<unsigned char>(rest[2]) & 0x3F);
    fault.what = character_name(0xD000 | high << 6 | low);
    fault.why = "it is one half of a character that was cut in two";
  }
  return fault;
}

/// Code points of `text` as letters that all stood at `offset`.
void append_letters(Letters& out, std::string_view text, std::size_t offset) {
  for (std::size_t at = 0; at < text.size();) out.push_back({next_character(text, at), offset});
}

char32_t first_character(std::string_view text) {
  UChar32 character = 0;
  U8_GET_UNSAFE(text, 0, character);
  return static_cast<char32_t>(character);
}

}  // namespace

bool is_line_break(char32_t character) {
  return character == '\n' || character == '\r' || character == 0x85 || character == 0x2028 || character == 0x2029;
}

std::vector<Place> places_of(std::string_view original, std::span<const std::size_t> offsets) {
  std::vector<Place> places;
  Place here;
  if (offsets.empty()) return places;
  for (const std::string_view grapheme : graphemes_of(original)) {
    const auto end = static_cast<std::size_t>(grapheme.data() - original.data()) + grapheme.size();
    while (places.size() < offsets.size() && offsets[places.size()] < end) places.push_back(here);
    here = is_line_break(first_character(grapheme)) ? Place{here.line + 1, 1} : Place{here.line, here.column + 1};
  }
  places.resize(offsets.size(), here);
  return places;
}

// ICU's macro narrows to a byte on purpose.
Result<Letters> read_letters(std::string_view original) {
  Letters letters;
  letters.reserve(original.size());
  for (std::size_t at = 0; at < original.size();) {
    const std::size_t start = at;
    const std::optional<char32_t> character = read_character(original, at);
    if (!character) return broken_utf8(original, start);
    letters.push_back({*character, start});
  }
  return letters;
}

std::string write_letters(std::span<const Letter> letters) {
  std::string text;
  text.reserve(letters.size());
  for (const Letter& letter : letters) append_utf8(text, letter.character);
  return text;
}

UScriptCode script_of(char32_t c) {
  UErrorCode status = U_ZERO_ERROR;
  return uscript_getScript(static_cast<UChar32>(c), &status);
}

std::vector<std::size_t> compose(Letters& letters) {
  std::vector<std::size_t> changed;
  // UAX #15: below U+0300 nothing composes, decomposes or moves.
  if (std::all_of(letters.begin(), letters.end(), [](const Letter& letter) { return letter.character < 0x300; }))
    return changed;
  const std::string text = write_letters(letters);
  UErrorCode status = U_ZERO_ERROR;
  if (nfc().isNormalizedUTF8(text, status)) return changed;

  std::string composed;
  icu::StringByteSink<std::string> sink(&composed);
  icu::Edits edits;
  nfc().normalizeUTF8(0, text, sink, &edits, status);
  demand(status);
  Letters result;
  std::size_t next = 0;
  for (auto edit = edits.getFineIterator(); edit.next(status);) {
    const auto piece = [](std::string_view whole, std::int32_t start, std::int32_t length) {
      return whole.substr(static_cast<std::size_t>(start), static_cast<std::size_t>(length));
    };
    const std::size_t count = count_characters(piece(text, edit.sourceIndex(), edit.oldLength()));
    const auto source = letters.begin() + static_cast<std::ptrdiff_t>(next);
    if (edit.hasChange()) {
      append_letters(result, piece(composed, edit.destinationIndex(), edit.newLength()), source->offset);
      changed.push_back(source->offset);
    } else {
      result.insert(result.end(), source, source + static_cast<std::ptrdiff_t>(count));
    }
    next += count;
  }
  demand(status);
  letters = std::move(result);
  return changed;
}

std::string names_of(std::span<const Letter> letters) {
  constexpr std::size_t most = 4;  // a family of four is eleven characters: more than a message can use
  std::string names;
  for (const Letter& letter : letters.first(std::min(letters.size(), most))) {
    if (!names.empty()) names += ", ";
    names += character_name(letter.character);
  }
  if (letters.size() > most) names += " and " + std::to_string(letters.size() - most) + " more";
  return names;
}

}  // namespace ordinatio::inline cleaning
