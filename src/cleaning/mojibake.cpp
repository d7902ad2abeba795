#include "cleaning/mojibake.h"

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <string_view>

namespace ordinatio::inline cleaning {
namespace {

// What Windows-1252 has at 80–9F (WHATWG Encoding, index windows-1252). Where it has nothing, the byte stays itself.
constexpr char32_t windows_1252[32] = {0x20AC, 0x81,   0x201A, 0x192,  0x201E, 0x2026, 0x2020, 0x2021,
                                       0x2C6,  0x2030, 0x160,  0x2039, 0x152,  0x8D,   0x17D,  0x8F,
                                       0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                       0x2DC,  0x2122, 0x161,  0x203A, 0x153,  0x9D,   0x17E,  0x178};

/// The byte that Latin-1 or Windows-1252 reads as this character.
std::optional<unsigned> byte_of(char32_t character) {
  if (character < 0x100) return static_cast<unsigned>(character);
  const auto* found = std::find(std::begin(windows_1252), std::end(windows_1252), character);
  if (found == std::end(windows_1252)) return std::nullopt;
  return 0x80 + static_cast<unsigned>(found - windows_1252);
}

/// One character of UTF-8 at the start of `letters`, taken as bytes. Shortest form, no surrogates (RFC 3629).
std::optional<Mojibake> misread_at(std::span<const Letter> letters) {
  const char32_t lead = letters[0].character;  // both encodings have the same letters from A0 on
  if (lead < 0xC2 || lead > 0xF4) return std::nullopt;
  const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (letters.size() < length) return std::nullopt;
  char32_t meant = lead & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    const auto byte = byte_of(letters[i].character);
    if (!byte || (*byte & 0xC0) != 0x80) return std::nullopt;
    meant = meant << 6 | (*byte & 0x3F);
  }
  constexpr char32_t shortest[] = {0, 0, 0xA0, 0x800, 0x10000};  // nobody means a control of 80–9F
  if (meant < shortest[length] || !u_isdefined(static_cast<UChar32>(meant))) return std::nullopt;
  return Mojibake{0, length, meant};
}

/// A control of Latin-1, which nobody types; U+0085 may be a line break.
bool is_stray_control(const Letter& letter) {
  return letter.character >= 0x80 && letter.character < 0xA0 && letter.character != 0x85;
}

// Vietnamese and Romanian letters, and the marks of decomposed text. Not U+0305, U+0316 and U+0317, which are Ì with an
// ellipsis or a dash: "LUNEDÌ–VENERDÌ".
constexpr std::u32string_view believed_alone =
    U"ơƯưȘșȚț\u0300\u0301\u0302\u0303\u0304\u0306\u0307\u0308\u0309\u030A\u030B\u030C\u0323\u0327\u0328";

/// Letters that European names are full of. The rest (IPA, Arabic, Han, …) needs a neighbour to be believed.
bool is_likely(const Mojibake& misread, std::span<const Letter> misread_letters) {
  if (std::any_of(misread_letters.begin(), misread_letters.end(), is_stray_control)) return true;
  const char32_t meant = misread.meant, lead = misread_letters[0].character;
  if (misread.length == 2)
    return (lead >= 0xC2 && lead <= 0xC5) || believed_alone.find(meant) != std::u32string_view::npos;
  if (misread.length == 3) return lead == 0xE2 || (meant >= 0x1E00 && meant < 0x1F00) || meant == 0xFEFF;
  return true;
}

bool is_letter(std::span<const Letter> letters, std::size_t index) {
  return index < letters.size() && u_isalpha(static_cast<UChar32>(letters[index].character));
}

/// "CAFÉ”", "« voilà »": an accented letter and then closing punctuation, as a writer may well have typed them.
bool looks_typed(std::span<const Letter> letters, const Mojibake& misread) {
  const bool two = misread.length == 2;
  const std::u32string_view closing = two ? U"»”“’…–—™" : U"»”“’…–—™\u00A0";
  const auto tail = letters.subspan(misread.index + 1, misread.length - 1);
  const bool all_closing = std::all_of(tail.begin(), tail.end(), [&](const Letter& letter) {
    return closing.find(letter.character) != std::u32string_view::npos;
  });
  if (!all_closing || is_letter(letters, misread.index + misread.length)) return false;
  return !two || misread.index == 0 || !u_islower(static_cast<UChar32>(letters[misread.index - 1].character));
}

}  // namespace

std::optional<Mojibake> find_mojibake(std::span<const Letter> letters) {
  std::optional<Mojibake> before;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    auto misread = misread_at(letters.subspan(i));
    if (!misread) continue;
    misread->index = i;
    if (before && before->index + before->length == i) return before;  // two side by side are no accident
    if (is_likely(*misread, letters.subspan(i, misread->length)) && !looks_typed(letters, *misread)) return misread;
    before = misread;
    i += misread->length - 1;
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline cleaning
