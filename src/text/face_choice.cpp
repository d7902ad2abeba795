#include "text/face_choice.h"

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <optional>

#include "cleaning/cleaning.h"
#include "cleaning/letters.h"
#include "text/drawn.h"
#include "text/marks.h"

namespace ordinatio::inline text {
namespace {

using Span = std::span<const LineLetter>;

class Chooser {
 public:
  Chooser(std::vector<LineLetter>& letters, const FaceRoster& roster)
      : letters_(letters), roster_(roster), units_(face_units(letters)) {}

  MaybeFault choose() {
    for (std::size_t i = 0; i < units_.size(); ++i) {
      if (units_[i].kind != FaceUnit::Kind::word) continue;
      if (auto fault = choose_word(i)) return fault;
    }
    for (std::size_t i = 0; i < units_.size(); ++i) {
      if (units_[i].kind == FaceUnit::Kind::word) continue;
      if (auto fault = choose_sign(i)) return fault;
    }
    return std::nullopt;
  }

  [[nodiscard]] const std::vector<FaceUnit>& units() const { return units_; }
  [[nodiscard]] const FaceRoster& roster() const { return roster_; }
  [[nodiscard]] bool sets_word(FaceId face, const FaceUnit& unit) const { return sets(face, letters_of(unit)); }

 private:
  [[nodiscard]] Span letters_of(const FaceUnit& unit) const {
    return Span(letters_).subspan(unit.first, unit.last - unit.first);
  }
  void set(const FaceUnit& unit, FaceId face) {
    for (std::size_t i = unit.first; i < unit.last; ++i) letters_[i].face = face;
  }
  [[nodiscard]] bool draws(FaceId face, Span letters) const {
    return std::ranges::all_of(letters, [&](const LineLetter& letter) {
      return needs_no_glyph(letter.character) || roster_.draws(face, letter.character);
    });
  }
  /// Calls use(grapheme) for each of them until one is refused.
  template <class Use>
  static bool all_graphemes(Span letters, Use use) {
    for (std::size_t first = 0, last = 0; first < letters.size(); first = last) {
      while (last < letters.size() && letters[last].grapheme == letters[first].grapheme) ++last;
      if (!use(letters.subspan(first, last - first))) return false;
    }
    return true;
  }
  [[nodiscard]] bool sits(FaceId face, Span letters) const {
    return all_graphemes(letters, [&](Span grapheme) { return !has_marks(grapheme) || roster_.sits(face, grapheme); });
  }
  [[nodiscard]] bool sets(FaceId face, Span letters) const { return draws(face, letters) && sits(face, letters); }
  /// The same, whatever the signs inside the word.
  [[nodiscard]] bool sets_letters(FaceId face, Span letters) const {
    return all_graphemes(letters, [&](Span grapheme) { return is_sign(grapheme) || sets(face, grapheme); });
  }
  static bool is_sign(Span grapheme) { return !is_wordy(grapheme.front().character); }

  /// The first face for the letters: of those preferred, the design's own, and where these may be stood in for, the rest. A
  /// damaged face is told of: what it would have drawn, nobody knows.
  Result<std::optional<FaceId>> first_that_sets(Span letters, int script, std::span<const FaceId> preferred,
                                                bool own_alone, bool signs_apart = false) const {
    const auto sets_it = [&](FaceId face) { return signs_apart ? sets_letters(face, letters) : sets(face, letters); };
    if (const auto found = std::ranges::find_if(preferred, sets_it); found != preferred.end())
      return std::optional(*found);
    if (const auto found = std::ranges::find_if(roster_.own, sets_it); found != roster_.own.end())
      return std::optional(*found);
    if (own_alone) return std::optional<FaceId>();
    for (const Result<FaceId>& face : roster_.fallback(script)) {
      if (!face.ok()) return face.fault();
      if (sets_it(*face)) return std::optional(*face);
    }
    return std::optional<FaceId>();
  }

  [[nodiscard]] std::optional<FaceId> of_script(const FaceUnit& unit) const {
    const int script = script_group(unit.script);
    const auto found = std::ranges::find(roster_.by_script, script, &std::pair<int, FaceId>::first);
    return found == roster_.by_script.end() ? std::nullopt : std::optional(found->second);
  }

  MaybeFault choose_word(std::size_t index) {
    const FaceUnit& unit = units_[index];
    const Span letters = letters_of(unit);
    if (const auto face = of_script(unit); face && sets(*face, letters)) return set(unit, *face), std::nullopt;
    std::vector<FaceId> preferred;
    // Figures beside letters of another script are of their face.
    if (unit.is_plain && !is_alphabetic(unit.script)) {
      if (const auto before = word_before(index)) preferred.push_back(letters_[units_[*before].first].face);
    }
    const auto face = first_that_sets(letters, unit.script, preferred, roster_.own_alone);
    if (!face.ok()) return face.fault();
    if (*face) return set(unit, **face), std::nullopt;
    const auto of_letters = first_that_sets(letters, unit.script, preferred, roster_.own_alone, true);
    if (of_letters.ok() && *of_letters) return set_with_signs_apart(unit, **of_letters);
    if (roster_.own_alone) return stays_decorative(unit);
    if (is_written_without_spaces(unit.script)) return choose_letter_by_letter(unit);
    return why_not(unit);
  }

  /// The letters in the face, each sign inside the word in the first that has it.
  MaybeFault set_with_signs_apart(const FaceUnit& unit, FaceId face) {
    MaybeFault fault;
    set(unit, face);
    all_graphemes(letters_of(unit), [&](Span grapheme) {
      if (!is_sign(grapheme)) return true;
      const auto first = static_cast<std::size_t>(grapheme.data() - letters_.data());
      const FaceUnit sign{first, first + grapheme.size(), FaceUnit::Kind::sign, unit.script, false};
      const auto chosen = first_that_sets(grapheme, unit.script, {&face, 1}, false);
      if (chosen.ok() && *chosen) return set(sign, **chosen), true;
      fault = chosen.ok() ? why_not(sign) : MaybeFault(chosen.fault());
      return false;
    });
    return fault;
  }

  MaybeFault choose_letter_by_letter(const FaceUnit& unit) {
    MaybeFault fault;
    all_graphemes(letters_of(unit), [&](Span grapheme) {
      const auto first = static_cast<std::size_t>(grapheme.data() - letters_.data());
      const FaceUnit one{first, first + grapheme.size(), FaceUnit::Kind::word, unit.script, false};
      const auto face = first_that_sets(grapheme, unit.script, {}, false);
      if (face.ok() && *face) return set(one, **face), true;
      fault = face.ok() ? why_not(one) : MaybeFault(face.fault());
      return false;
    });
    return fault;
  }

  MaybeFault choose_sign(std::size_t index) {
    const FaceUnit& unit = units_[index];
    std::vector<FaceId> beside;
    const bool follows =
        index > 0 && (unit.kind == FaceUnit::Kind::space || units_[index - 1].kind != FaceUnit::Kind::space);
    if (follows) beside.push_back(letters_[unit.first - 1].face);
    if (const auto next = next_word(index)) beside.push_back(letters_[units_[*next].first].face);
    const auto face = first_that_sets(letters_of(unit), unit.script, beside, false);
    if (!face.ok()) return face.fault();
    if (!*face) return why_not(unit);
    set(unit, **face);
    return std::nullopt;
  }

  [[nodiscard]] std::optional<std::size_t> word_before(std::size_t index) const {
    while (index > 0) {
      if (units_[--index].kind == FaceUnit::Kind::word) return index;
    }
    return std::nullopt;
  }
  /// The word that begins where this sign, or the signs behind it, end.
  [[nodiscard]] std::optional<std::size_t> next_word(std::size_t index) const {
    while (index < units_.size() && units_[index].kind == FaceUnit::Kind::sign) ++index;
    const bool is_word = index < units_.size() && units_[index].kind == FaceUnit::Kind::word;
    return is_word ? std::optional(index) : std::nullopt;
  }

  // ---- why a word is held ----

  [[nodiscard]] std::string quoted(const FaceUnit& unit) const {
    const std::size_t begin = letters_[unit.first].byte;
    const std::size_t end = unit.last < letters_.size() ? letters_[unit.last].byte : roster_.line.size();
    return "“" + std::string(roster_.line.substr(begin, end - begin)) + "”";
  }

  /// By the first grapheme that no face draws; else by the word, and by the first that keeps it from its first face.
  Fault why_not(const FaceUnit& unit) {
    Fault fault{quoted(unit) + " cannot be set in one face", place_in(letters_, unit.first, roster_.line_number),
                "no installed face draws all of its letters with each mark on its letter",
                "Ask the customer for other words, or put a font that has them into the workshop's fonts folder"};
    all_graphemes(letters_of(unit), [&](Span grapheme) {
      const auto drawn = [&](FaceId face) { return draws(face, grapheme); };
      const auto drawn_by = [&](const Result<FaceId>& face) { return face.ok() && drawn(*face); };
      const auto& fallback = roster_.fallback(unit.script);
      if (std::ranges::any_of(roster_.own, drawn) || std::ranges::any_of(fallback, drawn_by)) return true;
      const auto first = static_cast<std::size_t>(grapheme.data() - letters_.data());
      fault.what = character_name(grapheme.front().character) + " cannot be engraved";
      fault.where = place_in(letters_, first, roster_.line_number);
      fault.why = "no installed face draws it";
      fault.mend = "Ask the customer for other words, or put a font that has it into the workshop's fonts folder";
      return false;
    });
    return fault;
  }

  [[nodiscard]] Fault stays_decorative(const FaceUnit& unit) const {
    const FaceId own = roster_.own.front();
    std::string lacking;
    std::size_t first = unit.first;
    all_graphemes(letters_of(unit), [&](Span grapheme) {
      if (is_sign(grapheme) || sets(own, grapheme)) return true;
      std::vector<Letter> named;
      for (const LineLetter& letter : grapheme) named.push_back({letter.character, letter.byte});
      const std::string names = names_of(named);
      if (lacking.empty()) first = static_cast<std::size_t>(grapheme.data() - letters_.data());
      if (lacking.find(names) == std::string::npos) lacking += (lacking.empty() ? "" : "; ") + names;
      return lacking.size() < most_named;
    });
    return {quoted(unit) + " cannot be set in " + roster_.name(own), place_in(letters_, first, roster_.line_number),
            "the face lacks " + lacking + ", and no " +
                (roster_.of_lines ? "letters of outlines stand in for lines"
                                  : "plain face stands in for a decorative one unasked"),
            roster_.of_lines ? "Choose another design, or ask the customer for other words"
                             : "Choose another design, or name a face under fallbacks or sturdier in this one"};
  }

  static constexpr std::size_t most_named = 160;  // bytes of a message

  std::vector<LineLetter>& letters_;
  const FaceRoster& roster_;
  std::vector<FaceUnit> units_;
};

struct BlockWord {
  const Chooser* line = nullptr;
  const FaceUnit* unit = nullptr;
};
/// The words of a script, of all lines; numbers are of none.
struct ScriptWords {
  int script = 0;
  std::vector<BlockWord> words;

  [[nodiscard]] bool all_set_by(FaceId face) const {
    return std::ranges::all_of(words, [&](const BlockWord& word) { return word.line->sets_word(face, *word.unit); });
  }
  [[nodiscard]] std::optional<FaceId> first_that_sets_all() const {
    const FaceRoster& roster = words.front().line->roster();
    for (const FaceId face : roster.own) {
      if (all_set_by(face)) return face;
    }
    if (roster.own_alone) return std::nullopt;
    for (const Result<FaceId>& face : roster.fallback(words.front().unit->script)) {
      if (!face.ok()) return std::nullopt;  // told where its words are set
      if (all_set_by(*face)) return *face;
    }
    return std::nullopt;
  }
};

/// In the order in which they come.
std::vector<ScriptWords> words_by_script(const std::vector<Chooser>& block) {
  std::vector<ScriptWords> scripts;
  for (const Chooser& line : block) {
    for (const FaceUnit& unit : line.units()) {
      if (unit.kind != FaceUnit::Kind::word || unit.is_plain) continue;
      const int script = script_group(unit.script);
      auto known = std::ranges::find(scripts, script, &ScriptWords::script);
      if (known == scripts.end()) known = scripts.insert(scripts.end(), {script, {}});
      known->words.push_back({&line, &unit});
    }
  }
  return scripts;
}

/// Lines of nothing but numbers count as Latin ones (set_scripts): where the block has no Latin, its first script takes them.
void take_numbers_along(std::vector<std::pair<int, FaceId>>& faces, const std::vector<ScriptWords>& scripts) {
  const auto alphabetic = [](const ScriptWords& one) { return is_alphabetic(one.script); };
  const auto first = std::ranges::find_if(scripts, alphabetic);
  if (first == scripts.end() || std::ranges::count(scripts, int{USCRIPT_LATIN}, &ScriptWords::script) > 0) return;
  const auto its = std::ranges::find(faces, first->script, &std::pair<int, FaceId>::first);
  if (its != faces.end()) faces.emplace_back(int{USCRIPT_LATIN}, its->second);
}

}  // namespace

std::vector<std::pair<int, FaceId>> faces_by_script(std::vector<RosteredLine>& block) {
  std::vector<Chooser> choosers;
  choosers.reserve(block.size());
  for (RosteredLine& line : block) choosers.emplace_back(line.letters, line.roster);
  const std::vector<ScriptWords> scripts = words_by_script(choosers);
  std::vector<std::pair<int, FaceId>> faces;
  for (const ScriptWords& script : scripts) {
    const auto face = script.first_that_sets_all();
    if (face && *face != script.words.front().line->roster().own.front()) faces.emplace_back(script.script, *face);
  }
  take_numbers_along(faces, scripts);
  return faces;
}

bool needs_no_glyph(char32_t c) {
  return (c >= 0x200B && c <= 0x200F) || c == 0x061C || (c >= 0x2066 && c <= 0x2069) || (c >= 0x202A && c <= 0x202E) ||
         (c >= 0xFE00 && c <= 0xFE0F) || (c >= 0xE0100 && c <= 0xE01EF);
}

MaybeFault choose_faces(std::vector<LineLetter>& letters, const FaceRoster& roster) {
  return Chooser(letters, roster).choose();
}

}  // namespace ordinatio::inline text
