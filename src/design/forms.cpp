#include "design/forms.h"

#include <algorithm>

#include "cleaning/cleaning.h"

namespace ordinatio::inline design {
namespace {

constexpr std::size_t most_letters_named = 3;  // letters; the note says how many more

/// What is drawn for each cluster of a line, in its order.
std::map<std::size_t, Path> drawn(const ShapedLine& line, Typesetter& typesetter) {
  std::map<std::size_t, Path> paths;
  for (const PlacedGlyph& glyph : line.glyphs)
    paths[glyph.cluster].append(typesetter.outline(glyph.face, glyph.glyph).path, {1, 0, 0, 1, 0, 0});
  return paths;
}

bool is_alike(const Path& a, const Path& b) {
  const auto same = [](Point p, Point q) { return p.x == q.x && p.y == q.y; };
  return std::ranges::equal(a.verbs(), b.verbs()) && std::ranges::equal(a.points(), b.points(), same);
}

/// Adds the letters that come out otherwise in the other language.
void add_differing(std::vector<std::string>& letters, const std::string& line, const TextStyle& style,
                   const std::string& other, Typesetter& typesetter) {
  TextStyle otherwise = style;
  otherwise.told_language = other;
  if (is_voted_on(otherwise.language)) otherwise.language = other;
  const Result<ShapedLine> here = typesetter.shape(line, style), there = typesetter.shape(line, otherwise);
  if (!here.ok() || !there.ok()) return;  // why not is told where the line is set
  std::map<std::size_t, Path> own = drawn(*here, typesetter), others = drawn(*there, typesetter);
  for (const std::string_view letter : graphemes_of(line)) {
    const auto at = static_cast<std::size_t>(letter.data() - line.data());
    if (is_alike(own[at], others[at]) || std::ranges::find(letters, letter) != letters.end()) continue;
    letters.emplace_back(letter);
  }
}

/// Which of two hands it is, where the languages are not all written in one.
std::string hand_among(const ToldLanguage& told) {
  if (writing_of(told.language) != LanguageVote::Writing::arabic) return "";
  const auto is_in_nastaliq = [](std::string_view language) { return language.starts_with("ur"); };
  const bool own = is_in_nastaliq(told.language);
  if (std::ranges::all_of(told.possible, [&](const auto& other) { return is_in_nastaliq(other) == own; })) return "";
  return own ? " (Nastaliq)" : " (Naskh)";
}

std::string listed(const std::vector<std::string>& letters) {
  std::string text;
  const std::size_t named = std::min(letters.size(), most_letters_named);
  for (std::size_t i = 0; i < named; ++i) text += (i > 0 ? ", “" : "“") + letters[i] + "”";
  return letters.size() > named ? text + " and " + std::to_string(letters.size() - named) + " more" : text;
}

}  // namespace

std::string note_of_forms(const std::vector<std::string>& lines, const TextStyle& style, const ToldLanguage& told,
                          Typesetter& typesetter) {
  if (told.possible.empty()) return "";
  std::vector<std::string> letters;
  std::string others;
  for (const std::string& other : told.possible) {
    const std::size_t before = letters.size();
    std::vector<std::string> differing;
    for (const std::string& line : lines) add_differing(differing, line, style, other, typesetter);
    for (const std::string& letter : differing) {
      if (std::ranges::find(letters, letter) == letters.end()) letters.push_back(letter);
    }
    if (!differing.empty() || letters.size() > before) others += (others.empty() ? "" : ", ") + name_of_language(other);
  }
  if (letters.empty()) return "";
  return listed(letters) + (letters.size() > 1 ? " are" : " is") + " drawn otherwise in " + others + ": set in " +
         name_of_language(told.language) + " forms" + hand_among(told) + (told.guessed ? ", which is a guess" : "") +
         "; language = \"…\" in the design says otherwise";
}

}  // namespace ordinatio::inline design
