#include "cleaning/objections.h"

#include <unicode/uchar.h>

#include "cleaning/emoji.h"

namespace ordinatio::inline cleaning {
namespace {

constexpr const char* ask = "Ask the customer for the words again";
constexpr const char* delete_it = "Delete it, or ask the customer what was meant";

struct Reason {
  char32_t first, last;
  const char* why;
  const char* mend;
};
// Code points that have a Unicode name and yet nothing to engrave.
constexpr Reason reasons[] = {
    {0x202D, 0x202E, "it turns the direction of the letters around, so that they read otherwise than they stand",
     "Delete it, and check the order of the letters"},
    {0x206A, 0x206F, "it is an invisible switch that Unicode has withdrawn", delete_it},
    {0x3164, 0x3164, "it is an invisible letter that fills an empty field", delete_it},
    {0xFFA0, 0xFFA0, "it is an invisible letter that fills an empty field", delete_it},
    {0xFFF9, 0xFFFB, "it is an invisible mark around a note between the lines", delete_it},
    {0xFFFC, 0xFFFC, "it holds the place of a picture that was not copied along", delete_it},
    {0xFFFD, 0xFFFD, "it stands where a letter was lost when the text was converted", ask},
    {0x1BCA0, 0x1BCA3, "it is an invisible control of shorthand", delete_it},
    {0x1D173, 0x1D17A, "it is an invisible control of musical notation", delete_it},
    {0xE0000, 0xE007F, "it is an invisible tag that belongs to no flag", delete_it},
};

std::optional<Objection> object_to_letter(const Letter& letter) {
  const auto objection = [&](const char* why, const char* mend) {
    return Objection{letter.offset, character_name(letter.character), why, mend};
  };
  const char32_t character = letter.character;
  if (character >= 0x20 && character < 0x7F) return std::nullopt;
  for (const Reason& reason : reasons)
    if (character >= reason.first && character <= reason.last) return objection(reason.why, reason.mend);
  const auto code = static_cast<UChar32>(character);
  switch (u_charType(code)) {
    case U_CONTROL_CHAR:
      if (character == '\t') return std::nullopt;  // a space
      return objection("it is a control character: something went wrong when the text was copied or exported", ask);
    case U_PRIVATE_USE_CHAR:
      return objection("it means something in one font only", ask);
    case U_UNASSIGNED:
      if (U_IS_UNICODE_NONCHAR(code)) return objection("Unicode keeps it free: it is never a letter", ask);
      return objection("Unicode, as far as this program knows it, has no such character", ask);
    default:
      return std::nullopt;
  }
}

Objection object_to_emoji(std::span<const Letter> emoji) {
  return {emoji[0].offset, names_of(emoji), "“" + write_letters(emoji) + "” is an emoji, which no engraving face draws",
          "Leave it out, or put words or a plain sign such as ♥ in its place"};
}

/// What closes this embedding or isolate; 0 for a letter that opens none.
char32_t closer_of(char32_t character) {
  if (character == 0x202A || character == 0x202B) return 0x202C;
  return character >= 0x2066 && character <= 0x2068 ? 0x2069 : 0;
}

std::optional<Objection> object_to_nesting(std::span<const Letter> line) {
  std::vector<const Letter*> open;
  const auto objection = [](const Letter& letter, const char* why) {
    return Objection{letter.offset, character_name(letter.character), why, delete_it};
  };
  for (const Letter& letter : line) {
    if (closer_of(letter.character) != 0) open.push_back(&letter);
    if (letter.character != 0x202C && letter.character != 0x2069) continue;
    if (open.empty() || closer_of(open.back()->character) != letter.character)
      return objection(letter, "it ends a change of writing direction that was not begun in this line");
    open.pop_back();
  }
  if (open.empty()) return std::nullopt;
  return objection(*open.back(), "it begins a change of writing direction that does not end in this line");
}

}  // namespace

std::optional<Objection> object_to(std::span<const Letter> line) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (const std::size_t length = emoji_length(line.subspan(i)); length > 0)
      return object_to_emoji(line.subspan(i, length));
    if (auto objection = object_to_letter(line[i])) return objection;
  }
  return object_to_nesting(line);
}

}  // namespace ordinatio::inline cleaning
