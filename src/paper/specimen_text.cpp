#include "paper/specimen_text.h"
#include "cleaning/cleaning.h"
#include "paper/paper.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ordinatio::inline paper {
namespace {

constexpr int specimen_columns = 6;
constexpr double alphabet_height = 5;    // mm, of capitals
constexpr double usual_leading = 1.5;    // line to line, in heights of capitals (ISO 3098-1, type B, without accents)
constexpr double passage_ink_gap = 0.3;  // mm, at the least, between the ink of two lines
constexpr double hanging_share = 0.45;   // of a grid line: what may hang below a passage's last baseline

struct Alphabet {
  const char *script, *name, *capitals, *small_letters;
};
/// Greek as it is written today, Cyrillic as in Russian: what the catalogue counts as having the script.
constexpr std::array known_alphabets{
    Alphabet{"Latn", "Latin", "ABCDEFGHIJKLMNOPQRSTUVWXYZ", "abcdefghijklmnopqrstuvwxyz"},
    Alphabet{"Grek", "Greek", "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ", "αβγδεζηθικλμνξοπρσςτυφχψω"},
    Alphabet{"Cyrl", "Cyrillic", "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯ", "абвгдеёжзийклмнопрстуфхцчшщъыьэюя"}};
constexpr std::string_view figures = "0123456789", signs = "& ! ? . , : ; ’ “ ” ( ) – / @";

std::string text_of(double value, int decimals) {
  std::string text;
  append_number(text, value, decimals);
  return text;
}

std::string joined_by(const std::vector<std::string>& words, std::string_view between) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : std::string(between)) + word;
  return text;
}

/// Grid lines from one baseline to the next, at a height of capitals.
int leading_of(double cap_height) {
  return std::max(1, static_cast<int>(std::lround(usual_leading * cap_height / grid)));
}

/// Grid lines that keep ink which rises by `top` clear of ink that hangs `depth` below the baseline before.
int lines_between(double depth, double top) {
  return static_cast<int>(std::ceil((depth + top + passage_ink_gap) / grid));
}

}  // namespace

SpecimenText::SpecimenText(Lettering& lettering, const SpecimenPlan& plan, const CatalogueFace& face, double left,
                           double right)
    : lettering_(lettering), plan_(plan), face_(face), left_(left), right_(right) {
  const Result<FaceHeights> metrics = lettering.typesetter().metrics(face.name);
  capitals_ = metrics.ok() ? metrics->cap_height : 0;
}

bool SpecimenText::draws(std::string_view text) {
  const Result<bool> has = lettering_.typesetter().draws(face_.name, text);
  return has.ok() && *has;
}

// ---- what it is ----

std::string SpecimenText::scripts() {
  std::vector<std::string> names;
  for (const Alphabet& alphabet : known_alphabets) {
    if (draws(alphabet.capitals) && draws(alphabet.small_letters)) names.emplace_back(alphabet.name);
  }
  for (const std::string& script : face_.scripts) {
    if (std::ranges::find(known_alphabets, script, &Alphabet::script) == known_alphabets.end()) names.push_back(script);
  }
  return names.empty() ? "none of Latin, Greek and Cyrillic" : joined_by(names, ", ");
}

SpecimenText::Facts SpecimenText::origin() const {
  const bool is_own = face_.package.empty();
  Facts facts{{"For", is_own ? "your own use: it lies in the workshop’s fonts folder" : face_.use},
              {"File", std::filesystem::path(face_.file).filename().string()}};
  if (!is_own) facts.emplace_back("Package", face_.package);
  facts.emplace_back("Licence", face_.licence.empty() ? "as its maker grants it" : face_.licence);
  return facts;
}

SpecimenText::Facts SpecimenText::nature() {
  Facts facts{{"Scripts", scripts()}};
  const auto share = [this](double em) { return text_of(100 * em / capitals_, 1) + " % of capitals"; };
  if (face_.thinnest > 0) facts.emplace_back("Thin stroke", share(face_.thinnest));
  if (face_.counter > 0) facts.emplace_back("Tight gap", share(face_.counter));
  if (face_.thinnest > 0) {
    const double least = least_cap_height({capitals_, face_.thinnest, face_.counter}, plan_.spot);
    facts.emplace_back("Capitals", mm_text(least, 1) + " or taller");
  }
  if (face_.joined) facts.emplace_back("Letters", "joined");
  if (face_.capitals_only) facts.emplace_back("Letters", "capitals only");
  for (const FaceAxis& axis : face_.axes) {
    facts.emplace_back("Variable", axis.tag + " " + text_of(axis.least, 1) + " to " + text_of(axis.most, 1) +
                                       ", set at " + text_of(axis.standard, 1));
  }
  return facts;
}

std::vector<Stack> SpecimenText::stacks_of(const Facts& facts, double x, double right) {
  const double values = x + (right_ - left_ + gutter) / specimen_columns;
  Stack names, texts;
  for (const auto& [name, value] : facts) {
    names.push_back({x, lettering_.set(name, small_size), {grey, alarm}, 1});
    for (SetLine& line : lettering_.set_column(value, body_size, right - values)) {
      texts.push_back({values, std::move(line), {black, alarm}, 1});
    }
    while (names.size() < texts.size()) names.push_back({x, lettering_.set("", small_size), {grey, alarm}, 1});
  }
  return {std::move(names), std::move(texts)};
}

std::vector<Passage> SpecimenText::facts() {
  const double middle = (left_ + right_ - gutter) / 2;
  std::vector<Stack> stacks = stacks_of(origin(), left_, middle);
  for (Stack& stack : stacks_of(nature(), middle + gutter, right_)) stacks.push_back(std::move(stack));
  std::vector<Passage> passages = beside(stacks, grid);
  std::vector<std::string> lacking;
  for (const std::string& line : plan_.words) {
    for (const std::string_view grapheme : graphemes_of(line)) {
      if (!draws(grapheme) && std::ranges::find(lacking, grapheme) == lacking.end()) lacking.emplace_back(grapheme);
    }
  }
  if (!lacking.empty()) {
    const Facts lack{{"Not in it", joined_by(lacking, " ") + " – drawn here by the faces that stand in"}};
    for (Passage& passage : beside(stacks_of(lack, left_, right_), grid)) passages.push_back(std::move(passage));
  }
  for (std::size_t i = 0; i + 1 < passages.size(); ++i) passages[i].with_next = true;
  return passages;
}

// ---- the sample ----

std::vector<Cell> SpecimenText::label(double cap_height) {
  const double width = (right_ - left_ + gutter) / specimen_columns - gutter;
  std::vector<Cell> cells{{left_, lettering_.set(mm_text(cap_height, 1), body_size), {black, alarm}, 1}};
  const auto add = [&](const std::string& text, Colour colour) {
    for (SetLine& line : lettering_.set_column(text, small_size, width)) {
      cells.push_back({left_, std::move(line), {colour, alarm}, static_cast<int>(cells.size()) + 1});
    }
  };
  if (face_.thinnest <= 0 || capitals_ <= 0) return cells;
  const double stroke = face_.thinnest * cap_height / capitals_, gap = face_.counter * cap_height / capitals_;
  add("stroke " + mm_text(stroke), stroke < plan_.spot ? alarm : grey);
  if (stroke < plan_.spot) {
    add("too fine for a spot of " + mm_text(plan_.spot), alarm);
  } else if (gap < plan_.spot) {
    add("gap " + mm_text(gap), alarm);
    add("closes under a spot of " + mm_text(plan_.spot), alarm);
  }
  return cells;
}

/// A line of the sample, broken where a line of at most `ems` may end, never behind an ampersand; a word that is wider
/// is broken between graphemes.
Result<std::vector<ShapedLine>> SpecimenText::lines_of(std::string_view words, double ems) {
  const TextStyle style{{face_.name}, plan_.language, told_language(plan_.words)};
  Typesetter& typesetter = lettering_.typesetter();
  std::vector<ShapedLine> lines;
  const auto shape = [&](std::string_view text) {
    return typesetter.shape(text.substr(0, text.find_last_not_of(' ') + 1), style);
  };
  const auto fits = [&](std::string_view text) {
    const Result<ShapedLine> line = shape(text);
    return line.ok() && line->ink.width() <= ems;
  };
  std::vector<std::size_t> breaks = line_breaks(words);
  std::erase_if(breaks, [&](std::size_t at) { return at < words.size() && words.substr(0, at).ends_with("& "); });
  for (std::size_t begin = 0; begin < words.size();) {
    std::size_t end = begin;
    for (const std::size_t at : breaks) {
      if (at > begin && fits(words.substr(begin, at - begin))) end = at;
    }
    if (end == begin) {
      for (const std::string_view grapheme : graphemes_of(words.substr(begin))) {
        if (end > begin && !fits(words.substr(begin, end - begin + grapheme.size()))) break;
        end += grapheme.size();
      }
    }
    Result<ShapedLine> line = shape(words.substr(begin, end - begin));
    if (!line.ok()) return line.fault();
    lines.push_back(std::move(*line));
    begin = end;
  }
  return lines;
}

Result<Passage> SpecimenText::sample(double cap_height) {
  const double em = cap_height / capitals_;
  const double x = left_ + (right_ - left_ + gutter) / specimen_columns;
  Passage passage;
  passage.lines = 0;
  double depth = 0;
  for (const std::string& words : plan_.words) {
    const Result<std::vector<ShapedLine>> lines = lines_of(words, (right_ - x) / em);
    if (!lines.ok()) return lines.fault();
    for (const ShapedLine& line : *lines) {
      if (line.ink.empty()) continue;
      passage.lines += std::max(lines_between(depth, em * line.ink.top), leading_of(cap_height));
      InkCell cell{x, {}, black, passage.lines};
      // Ink starts at the margin at every size, whatever the letter's own bearing.
      lettering_.typesetter().append_ink(cell.ink, line, em, {-em * line.ink.left, 0}, curve_tolerance);
      passage.inks.push_back(std::move(cell));
      depth = -em * line.ink.bottom;
    }
  }
  const int first = passage.inks.empty() ? 1 : passage.inks.front().line;
  passage.lines += std::max(0, static_cast<int>(std::ceil(depth / grid - hanging_share)));
  for (Cell& cell : label(cap_height)) {
    cell.line += first - 1;
    passage.lines = std::max(passage.lines, cell.line);
    passage.cells.push_back(std::move(cell));
  }
  return passage;
}

// ---- alphabets ----

void SpecimenText::add_alphabet(std::vector<Passage>& passages, std::string_view letters) {
  const double em = alphabet_height / capitals_;
  const double x = left_ + (right_ - left_ + gutter) / specimen_columns;
  std::string own;
  for (const std::string_view grapheme : graphemes_of(letters)) {
    if (draws(grapheme)) own += grapheme;
  }
  if (own.find_first_not_of(' ') == std::string::npos) return;
  for (const std::string& row : rows_of(own, (right_ - x) / em)) {
    Result<SetLine> line = lettering_.set_in(face_.name, row, em);
    if (!line.ok()) continue;  // it has each letter, but not beside the others
    Passage passage;
    const double top = em * line->shaped.ink.top, depth = -em * line->shaped.ink.bottom;
    passage.lines = std::max(2, lines_between(hanging_share * grid, top));
    passage.cells.push_back({x, std::move(*line), {black, alarm}, passage.lines});
    passage.lines += std::max(0, static_cast<int>(std::ceil(depth / grid - hanging_share)));
    passage.with_next = true;
    passages.push_back(std::move(passage));
  }
}

/// As few rows as it takes, of as many letters each.
std::vector<std::string> SpecimenText::rows_of(const std::string& letters, double ems) {
  const std::vector<std::string_view> graphemes = graphemes_of(letters);
  for (std::size_t count = 1;; ++count) {
    std::vector<std::string> rows(count);
    for (std::size_t i = 0; i < graphemes.size(); ++i) rows[i * count / graphemes.size()] += graphemes[i];
    const bool fit = std::ranges::all_of(rows, [&](const std::string& row) {
      const Result<SetLine> line = lettering_.set_in(face_.name, row, 1);
      return !line.ok() || line->width() <= ems;
    });
    if (fit || count >= graphemes.size()) return rows;
  }
}

std::vector<Passage> SpecimenText::alphabets() {
  std::vector<Passage> passages;
  for (const Alphabet& alphabet : known_alphabets) {
    if (!draws(alphabet.capitals)) continue;
    const std::size_t first = passages.size();
    add_alphabet(passages, alphabet.capitals);
    if (!face_.capitals_only && draws(alphabet.small_letters)) add_alphabet(passages, alphabet.small_letters);
    if (first == passages.size()) continue;
    Passage& head = passages[first];
    head.cells.push_back({left_, lettering_.set(alphabet.name, small_size), {grey, alarm}, head.cells.front().line});
  }
  const std::size_t first = passages.size();
  add_alphabet(passages, std::string(figures).append(" ").append(signs));
  if (first < passages.size()) {
    Passage& head = passages[first];
    head.cells.push_back({left_, lettering_.set("Figures, signs", small_size), {grey, alarm}, head.cells.front().line});
  }
  if (!passages.empty()) passages.back().with_next = false;
  return passages;
}

}  // namespace ordinatio::inline paper
