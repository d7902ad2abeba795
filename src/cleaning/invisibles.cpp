#include "cleaning/invisibles.h"

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <optional>

namespace ordinatio::inline cleaning {
namespace {

using Weight = CleaningNote::Weight;

constexpr char32_t zero_width_space = 0x200B, non_joiner = 0x200C, joiner = 0x200D, grapheme_joiner = 0x34F;
constexpr std::uint8_t virama_class = 9;  // Canonical_Combining_Class of every virama
// Marks stepped over in search of the letter that carries them: no orthography stacks more (UAX #15, Stream-Safe Text
// Format); past it a joiner is taken to stand alone, so that a wall of marks costs no quadratic time.
constexpr std::ptrdiff_t most_marks = 30;

std::uint8_t combining_class(char32_t c) { return u_getCombiningClass(static_cast<UChar32>(c)); }

bool has_script(char32_t character, std::initializer_list<UScriptCode> scripts) {
  return std::any_of(scripts.begin(), scripts.end(),
                     [&](UScriptCode script) { return uscript_hasScript(static_cast<UChar32>(character), script); });
}

UJoiningType joining_type(char32_t character) {
  return static_cast<UJoiningType>(u_getIntPropertyValue(static_cast<UChar32>(character), UCHAR_JOINING_TYPE));
}

/// The letter in `letters` that `from` steps over transparent marks to reach joins towards the one who asks.
template <class Iterator>
bool joins(Iterator from, Iterator end, UJoiningType one_sided) {
  end = from + std::min(end - from, most_marks + 1);
  const auto letter =
      std::find_if(from, end, [](const Letter& l) { return joining_type(l.character) != U_JT_TRANSPARENT; });
  if (letter == end) return false;
  const UJoiningType type = joining_type(letter->character);
  return type == U_JT_DUAL_JOINING || type == one_sided;
}

/// What stands on both sides of a letter: what was kept before it, what is still to come.
struct Context {
  std::span<const Letter> before, after;

  [[nodiscard]] char32_t previous() const { return before.empty() ? 0 : before.back().character; }
  [[nodiscard]] char32_t next() const { return after.empty() ? 0 : after.front().character; }
  [[nodiscard]] bool joined_before() const { return joins(before.rbegin(), before.rend(), U_JT_LEFT_JOINING); }
  [[nodiscard]] bool joined_after() const { return joins(after.begin(), after.end(), U_JT_RIGHT_JOINING); }
};

bool follows_virama(const Context& context) { return combining_class(context.previous()) == virama_class; }

/// RFC 5892 A.1.
bool parts_something(const Context& context) {
  return follows_virama(context) || (context.joined_before() && context.joined_after());
}

/// RFC 5892 A.2, and two uses that names have beyond it: a letter kept in its joined form at a word's end or beginning
/// (Persian ه‍), and ya-phalaa after RA, which Bengali writes RA, joiner, virama, YA (Unicode 15.0, 12.2).
bool joins_something(const Context& context) {
  return follows_virama(context) || context.joined_before() || context.joined_after() ||
         (u_charType(static_cast<UChar32>(context.previous())) == U_OTHER_LETTER &&
          combining_class(context.next()) == virama_class);
}

bool is_selector(char32_t c) { return (c >= 0xFE00 && c <= 0xFE0F) || (c >= 0xE0100 && c <= 0xE01EF); }

/// Han variants (IVS), and the standardized forms of Myanmar and Phags-pa. U+FE0E and U+FE0F choose between text and emoji.
bool selects_something(char32_t selector, const Context& context) {
  if (selector == 0xFE0E || selector == 0xFE0F) return false;
  return has_script(context.previous(), {USCRIPT_HAN, USCRIPT_MYANMAR, USCRIPT_PHAGS_PA});
}

bool is_mongolian_control(char32_t c) { return c >= 0x180B && c <= 0x180F; }

/// Written without spaces: a line may be broken in the middle of what looks like a word.
bool takes_no_space(char32_t character) {
  return has_script(character,
                    {USCRIPT_HAN, USCRIPT_HIRAGANA, USCRIPT_KATAKANA, USCRIPT_BOPOMOFO, USCRIPT_YI, USCRIPT_THAI,
                     USCRIPT_LAO, USCRIPT_KHMER, USCRIPT_MYANMAR, USCRIPT_TIBETAN, USCRIPT_TAI_LE, USCRIPT_NEW_TAI_LUE,
                     USCRIPT_LANNA, USCRIPT_TAI_VIET, USCRIPT_JAVANESE, USCRIPT_BALINESE});
}

/// What a zero width space means: between letters written without spaces a place where a line may end; between others a
/// space that got lost, where the letters tell, by a comma or a capital after a small letter; beside a sign nothing.
enum class ZeroWidthSpace { superfluous, break_place, space, unclear };

ZeroWidthSpace meaning_between(char32_t before, char32_t after) {
  const auto shows = [](char32_t c) { return c != 0 && !is_space(c) && !is_invisible(c); };
  const auto is_in = [](std::uint32_t mask, char32_t c) {
    return (U_MASK(u_charType(static_cast<UChar32>(c))) & mask) != 0;
  };
  const auto is_letter = [&is_in](char32_t c) { return is_in(U_GC_L_MASK, c) || is_mark(c); };
  if (!shows(before) || !shows(after) || is_mark(after)) return ZeroWidthSpace::superfluous;
  if (takes_no_space(before) || takes_no_space(after)) return ZeroWidthSpace::break_place;
  if (std::u32string_view(U",;:!?،؛؟").find(before) != std::u32string_view::npos && is_letter(after))
    return ZeroWidthSpace::space;
  const auto is_in_word = [&](char32_t c) { return is_letter(c) || is_in(U_GC_N_MASK, c); };
  if (!is_in_word(before) || !is_in_word(after)) return ZeroWidthSpace::superfluous;
  const bool new_word = is_in(U_GC_LL_MASK, before) && is_in(U_GC_LU_MASK, after);
  return new_word ? ZeroWidthSpace::space : ZeroWidthSpace::unclear;
}

ZeroWidthSpace meaning_of(const Context& context) { return meaning_between(context.previous(), context.next()); }

/// What the note calls a character that is to be left out here; nothing for one that stays.
std::optional<std::string> superfluous(char32_t character, const Context& context) {
  switch (character) {
    case 0xAD:
      return "soft hyphen";
    case zero_width_space:
      if (meaning_of(context) != ZeroWidthSpace::superfluous) return std::nullopt;
      return "zero width space";
    case 0x2060:
      return "word joiner";
    case 0xFEFF:
      return "byte order mark";
    case 0x2061:
    case 0x2062:
    case 0x2063:
    case 0x2064:
      return "invisible sign of mathematics";
    case non_joiner:
      if (parts_something(context)) return std::nullopt;
      return "zero width non-joiner that parts nothing";
    case joiner:
      if (joins_something(context)) return std::nullopt;
      return "zero width joiner that joins nothing";
    case grapheme_joiner:
      if (is_mark(context.previous()) && is_mark(context.next())) return std::nullopt;
      return "combining grapheme joiner between no marks";
    case 0xFE0E:
      return "request for text instead of an emoji (U+FE0E)";
    case 0xFE0F:
      return "request for an emoji (U+FE0F) after what is none";
    default:
      break;
  }
  if (is_selector(character) && !selects_something(character, context))
    return "variation selector that selects nothing";
  if (is_mongolian_control(character) && !has_script(context.previous(), {USCRIPT_MONGOLIAN}))
    return "Mongolian selector after what is not Mongolian";
  return std::nullopt;
}

std::string describe_spaces(std::span<const Letter> run) {
  if (run.size() > 1) return std::to_string(run.size()) + " spaces in a row became one";
  switch (run[0].character) {
    case '\t':
      return "a tab became a space";
    case 0xA0:
      return "a non-breaking space became a space";
    default:
      return character_name(run[0].character) + " became a space";
  }
}

/// How many letters from `index` on are spaces that carry no mark.
std::size_t space_run(std::span<const Letter> line, std::size_t index) {
  std::size_t end = index;
  while (end < line.size() && is_space(line[end].character)) ++end;
  const bool carries = end > index && end < line.size() && is_mark(line[end].character);
  if (carries && (line[end - 1].character == ' ' || line[end - 1].character == 0xA0)) --end;
  return end - index;
}

}  // namespace

bool is_space(char32_t character) {
  if (character == ' ' || character == '\t') return true;
  return character >= 0xA0 && character != 0x1680 && u_charType(static_cast<UChar32>(character)) == U_SPACE_SEPARATOR;
}

bool is_invisible(char32_t character) {
  return u_hasBinaryProperty(static_cast<UChar32>(character), UCHAR_DEFAULT_IGNORABLE_CODE_POINT);
}

bool is_mark(char32_t character) {
  if (character < 0x300) return false;
  return (U_MASK(u_charType(static_cast<UChar32>(character))) & U_GC_M_MASK) != 0 && !is_invisible(character);
}

bool drop_invisibles(Letters& line, Findings& findings) {
  // Most lines hold none: they are not copied.
  if (std::none_of(line.begin(), line.end(),
                   [](const Letter& l) { return l.character >= 0xAD && is_invisible(l.character); }))
    return false;
  Letters kept;
  bool spaced = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Context context{kept, std::span(line).subspan(i + 1)};
    if (const auto words = superfluous(line[i].character, context)) {
      findings.push_back({line[i].offset, Weight::note, *words + " left out"});
    } else if (line[i].character == zero_width_space && meaning_of(context) == ZeroWidthSpace::space) {
      findings.push_back({line[i].offset, Weight::note, "a zero width space became a space"});
      kept.push_back({U' ', line[i].offset});
      spaced = true;
    } else {
      kept.push_back(line[i]);
    }
  }
  const bool changed = spaced || kept.size() != line.size();
  line = std::move(kept);
  return changed;
}

std::optional<Objection> object_to_zero_width_space(std::span<const Letter> line) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Context context{line.first(i), line.subspan(i + 1)};
    if (line[i].character != zero_width_space || meaning_of(context) != ZeroWidthSpace::unclear) continue;
    return Objection{line[i].offset, character_name(zero_width_space),
                     "it stands unseen inside a word, and nobody can tell whether these are two words or one",
                     "Put a space in its place, or delete it"};
  }
  return std::nullopt;
}

bool is_glue(char32_t character) { return character == 0xA0 || character == 0x202F; }

bool glues(std::span<const Letter> line, std::size_t index) {
  const auto shows = [](const Letter& l) { return !is_space(l.character) && !is_invisible(l.character); };
  return is_glue(line[index].character) && index > 0 && index + 1 < line.size() && shows(line[index - 1]) &&
         shows(line[index + 1]) && !is_mark(line[index + 1].character);
}

namespace {

/// Where what shows of the line ends.
std::size_t end_of_visible(std::span<const Letter> line) {
  std::size_t end = line.size();
  while (end > 0 && (is_space(line[end - 1].character) || is_invisible(line[end - 1].character))) --end;
  return end;
}

}  // namespace

bool tidy_spaces(Letters& line, Findings& findings) {
  Letters tidy;
  tidy.reserve(line.size());
  const std::size_t visible_end = end_of_visible(line);
  enum class Last { nothing, letter, space } last = Last::nothing;  // that shows and was kept
  bool changed = false;
  for (std::size_t i = 0; i < line.size();) {
    const std::size_t length = space_run(line, i);
    if (length == 0) {
      if (!is_invisible(line[i].character)) last = Last::letter;
      tidy.push_back(line[i++]);
      continue;
    }
    const std::span run = std::span(line).subspan(i, length);
    i += length;
    const bool outer = last == Last::nothing || i > visible_end, again = last == Last::space && !outer;
    const bool stays = length == 1 && (run[0].character == ' ' || glues(line, i - 1));
    if (!outer && !again) {
      tidy.push_back({stays ? run[0].character : U' ', run[0].offset});
      last = Last::space;
      if (stays) continue;
    }
    changed = true;
    findings.push_back({run[0].offset, outer ? Weight::silent : Weight::note,
                        outer   ? "spaces at the line's end left out"
                        : again ? "a second space, behind an invisible mark, left out"
                                : describe_spaces(run)});
  }
  line = std::move(tidy);
  return changed;
}

void loosen(Letters& line, Findings& findings) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (!glues(line, i)) continue;
    findings.push_back({line[i].offset, Weight::note, describe_spaces(std::span(line).subspan(i, 1))});
    line[i].character = ' ';
  }
}

}  // namespace ordinatio::inline cleaning
