#include "text/itemise.h"
#include "cleaning/cleaning.h"
#include "cleaning/letters.h"

#include <unicode/ubidi.h>
#include <unicode/uloc.h>
#include <unicode/unistr.h>
#include <unicode/uscript.h>

#include <algorithm>

namespace ordinatio::inline text {
namespace {

using Bidi = std::unique_ptr<UBiDi, Destroyer<ubidi_close>>;

/// Levels by ICU for every UTF-16 unit; the base direction is the first strong letter's.
void set_levels(std::vector<LineLetter>& letters, const icu::UnicodeString& units) {
  UErrorCode status = U_ZERO_ERROR;
  const Bidi bidi(ubidi_open());
  ubidi_setPara(bidi.get(), units.getBuffer(), units.length(), UBIDI_DEFAULT_LTR, nullptr, &status);
  const UBiDiLevel* levels = ubidi_getLevels(bidi.get(), &status);
  if (U_FAILURE(status)) throw std::runtime_error("ICU could not resolve the line's directions");
  std::int32_t unit = 0;
  for (LineLetter& letter : letters) {
    letter.level = levels[unit];
    unit += U16_LENGTH(static_cast<UChar32>(letter.character));
  }
}

void set_scripts(std::vector<LineLetter>& letters) {
  int current = USCRIPT_COMMON;
  for (LineLetter& letter : letters) {
    letter.script = script_of(letter.character);
    letter.takes_any_script = letter.script == USCRIPT_COMMON || letter.script == USCRIPT_INHERITED;
    if (letter.takes_any_script) letter.script = current;
    current = letter.script;
  }
  // What stands before the first letter with a script of its own goes with it.
  const auto first = std::ranges::find_if(letters, [](const LineLetter& l) { return !l.takes_any_script; });
  const int script = first == letters.end() ? int{USCRIPT_LATIN} : first->script;
  std::for_each(letters.begin(), first, [script](LineLetter& l) { l.script = script; });
}

bool is_ascii(std::string_view line) {
  return std::ranges::all_of(line, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

std::vector<LineLetter> ascii_letters(std::string_view line) {
  std::vector<LineLetter> letters(line.size());
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool alphabetic = ((line[i] | 32) >= 'a') && ((line[i] | 32) <= 'z');
    letters[i] = {static_cast<char32_t>(line[i]), i, i, 0, USCRIPT_LATIN, !alphabetic, 0};
  }
  return letters;
}

}  // namespace

std::vector<LineLetter> letters_of(std::string_view line) {
  if (is_ascii(line)) return ascii_letters(line);
  std::vector<LineLetter> letters;
  std::size_t grapheme = 0;
  for (const std::string_view cluster : graphemes_of(line)) {
    auto byte = static_cast<std::size_t>(cluster.data() - line.data());
    const auto units = icu::UnicodeString::fromUTF8({cluster.data(), static_cast<std::int32_t>(cluster.size())});
    for (std::int32_t i = 0; i < units.length(); i = units.moveIndex32(i, 1)) {
      const UChar32 character = units.char32At(i);
      letters.push_back({static_cast<char32_t>(character), byte, grapheme, 0, 0, false, 0});
      byte += static_cast<std::size_t>(U8_LENGTH(character));
    }
    ++grapheme;
  }
  set_levels(letters, icu::UnicodeString::fromUTF8({line.data(), static_cast<std::int32_t>(line.size())}));
  set_scripts(letters);
  return letters;
}

std::vector<Run> runs_of(const std::vector<LineLetter>& letters) {
  std::vector<Run> runs;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const LineLetter& l = letters[i];
    const bool same =
        !runs.empty() && runs.back().level == l.level && runs.back().script == l.script && runs.back().face == l.face;
    if (same) {
      runs.back().last = i + 1;
    } else {
      runs.push_back({i, i + 1, l.level, l.script, l.face});
    }
  }
  std::vector<UBiDiLevel> levels;
  levels.reserve(runs.size());
  for (const Run& run : runs) levels.push_back(run.level);
  std::vector<std::int32_t> order(runs.size());
  ubidi_reorderVisual(levels.data(), static_cast<std::int32_t>(levels.size()), order.data());
  std::vector<Run> visual;
  visual.reserve(runs.size());
  for (const std::int32_t index : order) visual.push_back(runs[static_cast<std::size_t>(index)]);
  return visual;
}

std::string script_tag(int script) { return uscript_getShortName(static_cast<UScriptCode>(script)); }

bool is_alphabetic(int script) {
  return script == USCRIPT_LATIN || script == USCRIPT_GREEK || script == USCRIPT_CYRILLIC || script == USCRIPT_ARMENIAN;
}

std::vector<int> scripts_of(const std::string& language) {
  UScriptCode scripts[8];
  UErrorCode status = U_ZERO_ERROR;
  const int count = uscript_getCode(language.c_str(), scripts, 8, &status);
  return U_SUCCESS(status) ? std::vector<int>(scripts, scripts + count) : std::vector<int>{};
}

bool takes_told_language(int script) {
  return script == USCRIPT_HAN || script == USCRIPT_HIRAGANA || script == USCRIPT_KATAKANA ||
         script == USCRIPT_HANGUL || script == USCRIPT_ARABIC;
}

}  // namespace ordinatio::inline text
