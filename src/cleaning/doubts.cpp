#include "cleaning/doubts.h"

#include <unicode/uchar.h>
#include <unicode/unorm2.h>
#include <unicode/uscript.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <string_view>

#include "base/utf8.h"
#include "cleaning/invisibles.h"
#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {
namespace {

using Weight = CleaningNote::Weight;

constexpr std::size_t fewest_capitals = 6;  // "ANNA B" may well be initials

// What customers leave in a field for words when they want none, or have put them elsewhere. In small letters.
// clang-format off
constexpr std::string_view labels[] = {
    "none", "n/a", "n.a", "not applicable", "no text", "no engraving", "see note", "see notes", "see above",
    "see below", "see attached", "see message", "see email", "see e-mail", "see order", "as above",
    "same as above", "as before", "as discussed", "ditto", "tbc", "tba", "tbd", "to be confirmed", "null",
    "undefined", "your text here", "text here", "sample text",
};
// clang-format on
constexpr std::size_t longest_label = 20;  // bytes, with a little to spare for brackets around it

/// Latin stands apart because it goes with east Asian letters, and with no others.
enum class WordWriting { none, latin, east_asian, other };

struct WordScript {
  UScriptCode script = USCRIPT_COMMON;
  WordWriting writing = WordWriting::none;
};

WordScript word_script_of(char32_t character) {
  const UScriptCode script = script_of(character);
  switch (script) {
    case USCRIPT_COMMON:
    case USCRIPT_INHERITED:
    case USCRIPT_UNKNOWN:
      return {script, WordWriting::none};
    case USCRIPT_LATIN:
      return {script, WordWriting::latin};
    case USCRIPT_HAN:
    case USCRIPT_HIRAGANA:
    case USCRIPT_KATAKANA:
    case USCRIPT_HANGUL:
    case USCRIPT_BOPOMOFO:
      return {USCRIPT_HAN, WordWriting::east_asian};
    default:
      return {script, WordWriting::other};
  }
}

bool go_together(const WordScript& a, const WordScript& b) {
  if (a.writing == WordWriting::none || b.writing == WordWriting::none || a.script == b.script) return true;
  return a.writing != WordWriting::other && b.writing != WordWriting::other;
}

bool is_word_letter(char32_t character) {
  return u_isalpha(static_cast<UChar32>(character)) || is_mark(character) || is_invisible(character);
}

/// A word that mixes Latin with east Asian letters stays open to both, and to nothing else.
bool mixes_scripts(std::span<const Letter> word) {
  WordScript first;
  for (const Letter& letter : word) {
    const WordScript script = word_script_of(letter.character);
    if (!go_together(first, script)) return true;
    if (first.writing == WordWriting::none) first = script;
  }
  return false;
}

void doubt_marks(std::span<const Letter> line, Findings& findings) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool alone = i == 0 || is_space(line[i - 1].character);
    if (alone && is_mark(line[i].character))
      findings.push_back(
          {line[i].offset, Weight::warning, character_name(line[i].character) + " has no letter to stand on"});
  }
}

bool is_all_capitals(std::span<const std::string> lines) {
  std::size_t capitals = 0, words = 0;
  for (const std::string& line : lines) {
    bool in_word = false;
    const bool no_small = all_characters(line, [&](char32_t letter) {
      const auto character = static_cast<UChar32>(letter);
      if (is_space(static_cast<char32_t>(character))) in_word = false;
      if (!u_isalpha(character)) return true;
      words += in_word ? 0 : 1;
      in_word = true;
      capitals += u_isupper(character) ? 1 : 0;
      return !u_islower(character) && !u_istitle(character);
    });
    if (!no_small) return false;
  }
  return words > 1 && capitals >= fewest_capitals;
}

bool is_ascii_punctuation(char c) { return c >= 0 && u_isalnum(c) == 0; }

/// "(See note)." is "see note".
bool is_label(std::string_view text) {
  if (text.size() > longest_label) return false;
  while (!text.empty() && is_ascii_punctuation(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_ascii_punctuation(text.back())) text.remove_suffix(1);
  std::string small(text);
  constexpr std::string_view glue = "\u00A0";
  for (std::size_t at = small.find(glue); at != std::string::npos; at = small.find(glue))
    small.replace(at, glue.size(), " ");
  for (char& c : small) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + ('a' - 'A')) : c;
  return std::find(std::begin(labels), std::end(labels), small) != std::end(labels);
}

/// "-", "…", "?": a field filled because it had to be.
bool is_punctuation(std::span<const std::string> lines) {
  return std::all_of(lines.begin(), lines.end(), [](const std::string& line) {
    return all_characters(
        line, [](char32_t character) { return is_space(character) || u_ispunct(static_cast<UChar32>(character)); });
  });
}

}  // namespace

void doubt_line(std::span<const Letter> line, Findings& findings) {
  doubt_marks(line, findings);
  for (std::size_t i = 0; i < line.size();) {
    const std::size_t start = i;
    while (i < line.size() && is_word_letter(line[i].character)) ++i;
    const auto word = line.subspan(start, i - start);
    if (word.empty())
      ++i;
    else if (mixes_scripts(word))
      findings.push_back(
          {word[0].offset, Weight::warning,
           "“" + write_letters(word) + "” has letters of more than one script, which may only look alike"});
  }
}

void doubt_ideographs(std::span<const Letter> line, Findings& findings) {
  for (const Letter& letter : line) {
    const auto code = static_cast<UChar32>(letter.character);
    if (letter.character < 0xF900 || !u_hasBinaryProperty(code, UCHAR_IDEOGRAPHIC)) continue;
    if (u_getIntPropertyValue(code, UCHAR_NFC_QUICK_CHECK) == UNORM_YES) continue;
    findings.push_back({letter.offset, Weight::warning,
                        character_name(letter.character) + " became the ordinary ideograph, which may look different"});
  }
}

std::vector<std::string> doubt_text(std::span<const std::string> lines) {
  std::vector<std::string> doubts;
  if (is_all_capitals(lines)) doubts.emplace_back("all capitals: engraved as typed");
  if ((lines.size() == 1 && is_label(lines[0])) || is_punctuation(lines))
    doubts.push_back("“" + lines[0] + "” looks like a remark, not like words to engrave");
  return doubts;
}

}  // namespace ordinatio::inline cleaning
