#include "cleaning/two_ways.h"

#include <unicode/normalizer2.h>
#include <unicode/uscript.h>

#include <algorithm>

#include "base/utf8.h"
#include "cleaning/doubts.h"
#include "cleaning/entities.h"
#include "cleaning/invisibles.h"
#include "cleaning/letters.h"
#include "cleaning/mojibake.h"
#include "cleaning/objections.h"
#include "cleaning/plain_letters.h"
#include "cleaning/remnants.h"
#include "cleaning/text_limits.h"

namespace ordinatio::inline cleaning {
namespace {

using Weight = CleaningNote::Weight;

struct Line {
  std::size_t offset;  // where it begins, also when it is empty
  Letters letters;
  bool mathematical = false;
};
using Lines = std::vector<Line>;

void drop_byte_order_mark(Letters& letters, Findings& findings) {
  if (letters.empty() || letters[0].character != 0xFEFF) return;
  findings.push_back({0, Weight::silent, "byte order mark at the start left out"});
  letters.erase(letters.begin());
}

std::optional<Objection> object_to_mojibake(std::span<const Letter> letters) {
  const auto misread = find_mojibake(letters);
  if (!misread) return std::nullopt;
  const auto place = letters.subspan(misread->index, misread->length);
  std::string why = "“" + write_letters(place) + "” looks like “";
  append_utf8(why, misread->meant);
  return Objection{place[0].offset, names_of(place), why + "” read in the wrong encoding",
                   "Export the orders again as UTF-8, or type the letter that was meant"};
}

/// Letters that end a line at `index`: CR LF is one break. 0: none.
std::size_t break_length(std::span<const Letter> letters, std::size_t index) {
  if (!is_line_break(letters[index].character)) return 0;
  const bool pair =
      letters[index].character == '\r' && index + 1 < letters.size() && letters[index + 1].character == '\n';
  return pair ? 2 : 1;
}

/// Letters that `separator` takes from `start` on; 0: it does not stand there. Each run of spaces in it stands for at least
/// as many spaces of any kind, and begins where they begin.
std::size_t separator_length(std::span<const Letter> letters, std::size_t start, std::u32string_view separator) {
  const bool inside_spaces = start > 0 && is_space(letters[start - 1].character);
  if (separator.starts_with(U' ') && inside_spaces) return 0;  // tried already; again at each space would be quadratic
  std::size_t at = start;
  for (std::size_t i = 0; i < separator.size();) {
    std::size_t spaces = 0, found = 0;
    for (; i < separator.size() && separator[i] == ' '; ++i) ++spaces;
    for (; spaces > 0 && at < letters.size() && is_space(letters[at].character); ++at) ++found;
    if (found < spaces) return 0;
    if (spaces > 0) continue;
    if (at == letters.size() || letters[at].character != separator[i]) return 0;
    ++at, ++i;
  }
  return at - start;
}

std::u32string characters_of(std::string_view text) {
  std::u32string characters;
  if (const auto letters = read_letters(text); letters.ok())
    for (const Letter& letter : *letters) characters += letter.character;
  return characters;
}

void note_remnant(const Letters& letters, std::size_t begin, const RemnantBreak& remnant, Findings& findings) {
  std::size_t shown = remnant.length;
  while (is_line_break(letters[begin + shown - 1].character)) --shown;
  findings.push_back({letters[begin].offset, remnant.certain ? Weight::note : Weight::warning,
                      "“" + write_letters(std::span(letters).subspan(begin, shown)) + "” began a new line"});
}

/// `end`: the original's length, where a last, empty line begins.
Lines part_lines(const Letters& letters, std::string_view separator, std::size_t end, Findings& findings) {
  const std::u32string parting = characters_of(separator);
  const auto offset_at = [&](std::size_t index) { return index < letters.size() ? letters[index].offset : end; };
  Lines lines{{offset_at(0), {}}};
  for (std::size_t i = 0; i < letters.size();) {
    const Letter& letter = letters[i];
    const std::size_t line_break = break_length(letters, i);
    const RemnantBreak remnant = remnant_break(letters, i);
    const std::size_t length = line_break > 0       ? line_break
                               : remnant.length > 0 ? remnant.length
                                                    : separator_length(letters, i, parting);
    if (length == 0) {
      lines.back().letters.push_back(letters[i++]);
      continue;
    }
    const std::size_t begin = i;
    i += length;
    lines.push_back({offset_at(i), {}});
    if (remnant.length > 0 && line_break == 0)
      note_remnant(letters, begin, remnant, findings);
    else if (line_break == 0)
      findings.push_back({letter.offset, Weight::silent, "“" + std::string(separator) + "” began a new line"});
    else if (letter.character != '\n')
      findings.push_back({letter.offset, Weight::silent, character_name(letter.character) + " began a new line"});
  }
  return lines;
}

void leave_out_invisible_line(Line& line, Findings& findings) {
  const auto shows = [](const Letter& letter) { return letter.character != ' ' && !is_invisible(letter.character); };
  if (line.letters.empty() || std::any_of(line.letters.begin(), line.letters.end(), shows)) return;
  findings.push_back({line.letters[0].offset, Weight::note, "a line that shows nothing was emptied"});
  line.letters.clear();
}

// What is left out may bring marks together that NFC then moves, and a joiner then stands elsewhere. Words settle in two
// rounds; what has not settled after these is a tangle made to be one, and held.
constexpr int settling_rounds = 8;

/// A letter's marks, counted one by one.
struct MarkCount {
  std::size_t all = 0, accents = 0;

  void add(char32_t mark) {
    ++all;
    if (script_of(mark) == USCRIPT_INHERITED) ++accents;
  }
  /// Those that are part of a composed letter.
  void add_own(char32_t letter) {
    if (letter < 0x80) return;
    UErrorCode status = U_ZERO_ERROR;
    icu::UnicodeString parts;
    const icu::Normalizer2* nfd = icu::Normalizer2::getNFDInstance(status);
    if (U_FAILURE(status) || !nfd->getDecomposition(static_cast<UChar32>(letter), parts)) return;
    for (std::int32_t i = 0; i < parts.length(); i = parts.moveIndex32(i, 1)) {
      if (const auto part = static_cast<char32_t>(parts.char32At(i)); is_mark(part)) add(part);
    }
  }
};

/// Composing and shaping sort a letter's marks and look at each beside each; and a tower of them is no word.
std::optional<Objection> object_to_marks(std::span<const Letter> letters) {
  const auto too_many = [](std::size_t offset, std::size_t limit) {
    return Objection{offset, "more than " + std::to_string(limit) + " marks on one letter",
                     "no language writes so many", "Ask the customer for the words again"};
  };
  MarkCount count;
  for (const Letter& letter : letters) {
    if (is_mark(letter.character)) {
      count.add(letter.character);
    } else {
      count = {};
      count.add_own(letter.character);
    }
    if (count.accents > text_limits::accents) return too_many(letter.offset, text_limits::accents);
    if (count.all > text_limits::marks) return too_many(letter.offset, text_limits::marks);
  }
  return std::nullopt;
}

/// Cleans one line until cleaning it again would change nothing.
std::optional<Objection> settle(Line& line, Findings& findings) {
  Letters& letters = line.letters;
  if (auto objection = object_to_marks(letters)) return objection;
  doubt_ideographs(letters, findings);
  line.mathematical = make_plain(letters, findings).mathematical;
  for (int round = 0; round < settling_rounds; ++round) {
    for (const std::size_t offset : compose(letters))
      findings.push_back({offset, Weight::silent, "written in Unicode's composed form (NFC)"});
    if (auto objection = object_to(letters)) return objection;
    if (auto objection = object_to_mojibake(letters)) return objection;  // it may have been parted, or decomposed
    const bool dropped = drop_invisibles(letters, findings);
    if (auto objection = object_to_zero_width_space(letters)) return objection;
    // Where what was left out had parted marks, they stand together now.
    if (!tidy_spaces(letters, findings) && !dropped) return object_to_marks(letters);
  }
  return Objection{line.offset, "marks and invisible joiners in a tangle", "they do not spell a word in any script",
                   "Ask the customer for the words again"};
}

std::optional<Objection> clean_line(Line& line, Findings& findings) {
  if (auto objection = settle(line, findings)) return objection;
  if (auto objection = object_to_remnants(line.letters)) return objection;
  leave_out_invisible_line(line, findings);
  doubt_line(line.letters, findings);
  return std::nullopt;
}

bool is_empty(const Line& line) { return line.letters.empty(); }

void drop_outer_empty_lines(Lines& lines, Findings& findings) {
  const auto drop = [&](auto first, auto last) {
    for (auto line = first; line != last; ++line)
      findings.push_back({line->offset, Weight::silent, "an empty line at the text's end left out"});
    lines.erase(first, last);
  };
  drop(std::find_if_not(lines.rbegin(), lines.rend(), is_empty).base(), lines.end());
  drop(lines.begin(), std::find_if_not(lines.begin(), lines.end(), is_empty));
}

/// One empty line is spacing; two are a slip of the thumb.
void drop_repeated_empty_lines(Lines& lines, Findings& findings) {
  const auto repeated = [&](const Line& line) { return is_empty(line) && is_empty(*(&line - 1)); };
  Lines kept;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i > 0 && repeated(lines[i]))
      findings.push_back({lines[i].offset, Weight::note, "a second empty line in a row left out"});
    else
      kept.push_back(lines[i]);
  }
  lines = std::move(kept);
}

// Some exports write every space as U+00A0: then none of them is meant to glue. Two in a text without a space may be meant.
constexpr std::size_t fewest_from_export = 3;

void loosen_export(Lines& lines, Findings& findings) {
  std::size_t glue = 0;
  for (const Line& line : lines) {
    for (std::size_t i = 0; i < line.letters.size(); ++i) {
      if (line.letters[i].character == ' ') return;
      glue += glues(line.letters, i) ? 1 : 0;
    }
  }
  if (glue < fewest_from_export) return;
  for (Line& line : lines) loosen(line.letters, findings);
}

std::optional<Objection> clean_letters(Letters letters, std::size_t end, const CleaningRules& rules, Lines& lines,
                                       Findings& findings) {
  drop_byte_order_mark(letters, findings);
  if (rules.decode_entities)
    if (auto objection = decode_entities(letters, findings)) return objection;
  if (auto objection = object_to_mojibake(letters)) return objection;
  drop_guard(letters, findings);
  lines = part_lines(letters, rules.line_separator, end, findings);
  for (Line& line : lines)
    if (auto objection = clean_line(line, findings)) return objection;
  loosen_export(lines, findings);
  drop_outer_empty_lines(lines, findings);
  drop_repeated_empty_lines(lines, findings);
  return lines.empty() ? std::nullopt : object_to_formula(lines[0].letters);
}

Fault placed(std::string_view original, Objection objection) {
  const Place place = places_of(original, std::span(&objection.offset, 1))[0];
  return {std::move(objection.what),
          "line " + std::to_string(place.line) + ", character " + std::to_string(place.column),
          std::move(objection.why), std::move(objection.mend)};
}

Fault no_text() {
  return {"the text is empty", "", "nothing would be engraved",
          "Give the item its words, or leave it out of the orders"};
}

std::vector<CleaningNote> placed(std::string_view original, Findings findings) {
  std::stable_sort(findings.begin(), findings.end(), [](const auto& a, const auto& b) { return a.offset < b.offset; });
  std::vector<std::size_t> offsets;
  for (const Finding& finding : findings) offsets.push_back(finding.offset);
  const std::vector<Place> places = places_of(original, offsets);
  std::vector<CleaningNote> notes;
  for (std::size_t i = 0; i < findings.size(); ++i)
    notes.push_back({findings[i].weight, places[i].line, places[i].column, std::move(findings[i].rule)});
  return notes;
}

/// Whether the separator may stand in the text: told from its first letter that is no space.
bool may_part(std::string_view text, std::string_view separator) {
  if (separator.empty()) return false;
  const std::size_t first = separator.find_first_not_of(' ');
  return first == std::string_view::npos || text.find(separator[first]) != std::string_view::npos;
}

/// Printable ASCII without "&" where entities are decoded, one space between words, no space or empty line at an end.
bool is_plain(std::string_view text, const CleaningRules& rules) {
  if (text.empty() || may_part(text, rules.line_separator) || may_have_remnants(text)) return false;
  char before = '\n';
  for (const char c : text) {
    const bool printable = (c >= ' ' && c <= '~') || c == '\n';
    const bool space_twice = (before == ' ' || before == '\n') && (c == ' ' || c == '\n');
    if (!printable || space_twice || (c == '&' && rules.decode_entities)) return false;
    before = c;
  }
  return before != ' ' && before != '\n';
}

}  // namespace

std::optional<Inscription> clean_plain(std::string_view original, const CleaningRules& rules) {
  if (!is_plain(original, rules)) return std::nullopt;
  Inscription inscription{std::string(original), {}, {}};
  for (std::size_t start = 0; start <= original.size();) {
    const std::size_t end = std::min(original.find('\n', start), original.size());
    inscription.lines.emplace_back(original.substr(start, end - start));
    start = end + 1;
  }
  for (std::string& doubt : doubt_text(inscription.lines))
    inscription.notes.push_back({Weight::warning, 1, 1, std::move(doubt)});
  return inscription;
}

Result<Inscription> clean_fully(std::string_view original, const CleaningRules& rules) {
  auto letters = read_letters(original);
  if (!letters.ok()) return letters.fault();
  Lines lines;
  Findings findings;
  if (auto objection = clean_letters(*std::move(letters), original.size(), rules, lines, findings))
    return placed(original, *std::move(objection));
  if (lines.empty()) return no_text();
  Inscription inscription{std::string(original), {}, {}};
  for (const Line& line : lines) {
    inscription.lines.push_back(write_letters(line.letters));
    inscription.mathematical |= line.mathematical;
  }
  for (std::string& doubt : doubt_text(inscription.lines))
    findings.push_back({lines[0].letters[0].offset, Weight::warning, std::move(doubt)});
  inscription.notes = placed(original, std::move(findings));
  return inscription;
}

Result<Inscription> clean_inscription(std::string_view original, const CleaningRules& rules) {
  if (auto fault = too_long(original)) return *std::move(fault);
  auto plain = clean_plain(original, rules);
  Result<Inscription> inscription = plain ? Result<Inscription>(*std::move(plain)) : clean_fully(original, rules);
  if (!inscription.ok()) return inscription;
  if (auto fault = too_long(inscription->lines)) return *std::move(fault);
  return inscription;
}

}  // namespace ordinatio::inline cleaning
