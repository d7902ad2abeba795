#include "cleaning/remnants.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "cleaning/invisibles.h"

namespace ordinatio::inline cleaning {
namespace {

using LetterLine = std::span<const Letter>;

constexpr std::size_t longest_tag = 300;  // letters; more between < and > is no tag that anybody left

char32_t letter_at(LetterLine letters, std::size_t index) {
  return index < letters.size() ? letters[index].character : 0;
}

char32_t small(char32_t c) { return c >= 'A' && c <= 'Z' ? c + ('a' - 'A') : c; }
bool is_ascii_letter(char32_t c) { return small(c) >= 'a' && small(c) <= 'z'; }
bool is_ascii_figure(char32_t c) { return c >= '0' && c <= '9'; }
bool is_word(char32_t c) { return is_ascii_letter(c) || is_ascii_figure(c) || c >= 0x80; }

/// Letters of one line end at `index`.
std::size_t line_end_length(LetterLine letters, std::size_t index) {
  if (!is_line_break(letter_at(letters, index))) return 0;
  return letter_at(letters, index) == '\r' && letter_at(letters, index + 1) == '\n' ? 2 : 1;
}

// ---- tags ----

struct Tag {
  std::size_t length = 0;  // from < to >; 0: there is none
  bool closes = false, has_value = false;
  std::string name;  // in small letters
};

Tag tag_at(LetterLine letters, std::size_t index) {
  if (letter_at(letters, index) != '<') return {};
  Tag tag;
  std::size_t i = index + 1;
  if (letter_at(letters, i) == '/') tag.closes = true, ++i;
  if (!is_ascii_letter(letter_at(letters, i)) && letter_at(letters, i) != '!' && letter_at(letters, i) != '?')
    return {};
  for (; is_ascii_letter(letter_at(letters, i)) || is_ascii_figure(letter_at(letters, i)); ++i) {
    tag.name += static_cast<char>(small(letter_at(letters, i)));
  }
  for (; i < letters.size() && i - index < longest_tag && letter_at(letters, i) != '<'; ++i) {
    tag.has_value = tag.has_value || letter_at(letters, i) == '=';
    if (letter_at(letters, i) != '>') continue;
    tag.length = i + 1 - index;
    return tag;
  }
  return {};
}

// Names of elements that writers of shop texts use (HTML Standard, 4; with those of HTML 4.01 that it has dropped).
// clang-format off
constexpr std::string_view elements[] = {
    "a", "abbr", "address", "article", "b", "big", "blockquote", "body", "br", "center", "cite", "code", "col", "dd",
    "del", "div", "dl", "dt", "em", "figure", "font", "footer", "form", "h1", "h2", "h3", "h4", "h5", "h6", "head",
    "header", "hr", "html", "i", "iframe", "img", "input", "ins", "kbd", "label", "li", "link", "main", "mark", "meta",
    "nav", "ol", "option", "p", "pre", "q", "s", "script", "section", "select", "small", "span", "strike", "strong",
    "style", "sub", "sup", "svg", "table", "tbody", "td", "textarea", "tfoot", "th", "thead", "time", "title", "tr", "tt",
    "u", "ul", "var", "wbr",
};
// clang-format on

/// `<Anna>` is none: brackets that somebody likes.
bool is_markup(const Tag& tag) {
  if (tag.length == 0) return false;
  return tag.closes || tag.has_value || tag.name.empty() || std::ranges::find(elements, tag.name) != std::end(elements);
}

// ---- escapes ----

std::optional<unsigned> hex_value(LetterLine letters, std::size_t index, std::size_t digits) {
  unsigned value = 0;
  for (std::size_t i = 0; i < digits; ++i) {
    const char32_t c = small(letter_at(letters, index + i));
    if (!is_ascii_figure(c) && !(c >= 'a' && c <= 'f')) return std::nullopt;
    value = value * 16 + static_cast<unsigned>(is_ascii_figure(c) ? c - '0' : c - 'a' + 10);
  }
  return value;
}

/// What `_x000D_` stands for.
std::optional<unsigned> workbook_escape(LetterLine letters, std::size_t index) {
  constexpr std::size_t digits = 4;
  if (letter_at(letters, index) != '_' || letter_at(letters, index + 1) != 'x' ||
      letter_at(letters, index + 2 + digits) != '_')
    return {};
  return hex_value(letters, index + 2, digits);
}
constexpr std::size_t workbook_escape_length = 7;

/// What stands behind the backslashes at `index`, which an export may have doubled, and where.
std::size_t behind_backslashes(LetterLine letters, std::size_t index) {
  constexpr std::size_t most = 8;  // each export in a chain doubles them; more would be looked at over and over
  for (std::size_t i = 0; i < most && letter_at(letters, index) == '\\'; ++i) ++index;
  return index;
}

std::size_t escaped_line_end(LetterLine letters, std::size_t index) {
  if (letter_at(letters, index) != '\\') return 0;
  std::size_t i = behind_backslashes(letters, index);
  if (letter_at(letters, i) == 'r' && letter_at(letters, i + 1) == '\\') i = behind_backslashes(letters, i + 1);
  return letter_at(letters, i) == 'n' ? i + 1 - index : 0;
}

/// `\t`, `\r`, `\'`, `\"`, `\u00e9`: letters of an escape that is left. 0: none; a backslash alone is a letter.
std::size_t escape_length(LetterLine letters, std::size_t index) {
  if (letter_at(letters, index) != '\\') return 0;
  const std::size_t i = behind_backslashes(letters, index);
  constexpr std::u32string_view plain = U"nrt'\"";
  if (plain.find(letter_at(letters, i)) != std::u32string_view::npos) return i + 1 - index;
  if (letter_at(letters, i) == 'u' && hex_value(letters, i + 1, 4)) return i + 5 - index;
  return 0;
}

// ---- what spreadsheets show instead of a result ----

// In English, German, French, Spanish, Italian, Dutch and Polish. From memory.
constexpr std::u32string_view errors[] = {
    U"#NAME?",   U"#REF!",  U"#VALUE!", U"#N/A",     U"#DIV/0!",   U"#NULL!",   U"#NUM!",    U"#SPILL!",  U"#CALC!",
    U"#FIELD!",  U"#WERT!", U"#BEZUG!", U"#ZAHL!",   U"#NV",       U"#VALEUR!", U"#NOM?",    U"#NOMBRE!", U"#NUL!",
    U"#N/D",     U"#¡REF!", U"#¡NUM!",  U"#¡VALOR!", U"#¿NOMBRE?", U"#¡DIV/0!", U"#VALORE!", U"#NOME?",   U"#RIF!",
    U"#WAARDE!", U"#NAAM?", U"#VERW!",  U"#GETAL!",  U"#N/B",      U"#ARG!",    U"#NAZWA?",  U"#ADR!",    U"#LICZBA!",
};

std::size_t error_length(LetterLine letters, std::size_t index) {
  if (letter_at(letters, index) != '#' || (index > 0 && is_word(letter_at(letters, index - 1)))) return 0;
  for (const std::u32string_view error : errors) {
    std::size_t i = 0;
    while (i < error.size() && letter_at(letters, index + i) == error[i]) ++i;
    if (i == error.size() && !is_word(letter_at(letters, index + i))) return i;
  }
  return 0;
}

/// A column that was too narrow for its number.
bool is_filled_up(LetterLine line) {
  constexpr std::size_t fewest = 3;
  return line.size() >= fewest &&
         std::ranges::all_of(line, [](const Letter& letter) { return letter.character == '#'; });
}

Objection objection(LetterLine line, std::size_t index, std::size_t length, const char* why, const char* mend) {
  return {line[index].offset, "“" + write_letters(line.subspan(index, length)) + "”", why, mend};
}

constexpr const char* no_result = "it is what a spreadsheet shows where a formula has no result";
constexpr const char* ask_again = "Take the words from the shop's own export, or ask the customer for them";

}  // namespace

RemnantBreak remnant_break(LetterLine letters, std::size_t index) {
  RemnantBreak found;
  if (const Tag tag = tag_at(letters, index); tag.name == "br") {
    found.length = tag.length;
  } else if (const auto code = workbook_escape(letters, index); code == 0x0D || code == 0x0A) {
    found.length = workbook_escape_length;
    if (code == 0x0D && workbook_escape(letters, index + found.length) == 0x0A) found.length += workbook_escape_length;
  } else {
    found = {escaped_line_end(letters, index), false};
  }
  if (found.length > 0) found.length += line_end_length(letters, index + found.length);
  return found;
}

void drop_guard(Letters& letters, Findings& findings) {
  if (letters.size() < 4 || letters[0].character != '=' || letters[1].character != '"') return;
  if (letters.back().character != '"') return;
  Letters bare;
  for (std::size_t i = 2; i + 1 < letters.size(); ++i) {
    bare.push_back(letters[i]);
    if (letters[i].character != '"') continue;
    if (i + 2 >= letters.size() || letters[++i].character != '"') return;  // more than one string: a formula
  }
  findings.push_back({letters[0].offset, CleaningNote::Weight::note, "a spreadsheet's guard =\"…\" was taken off"});
  letters = std::move(bare);
}

std::optional<Objection> object_to_remnants(LetterLine line) {
  if (is_filled_up(line)) return objection(line, 0, line.size(), no_result, ask_again);
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (const Tag tag = tag_at(line, i); is_markup(tag)) {
      return objection(line, i, tag.length, "it is markup of a page, no words",
                       "Take it out, and ask the customer what was meant where that is not plain");
    }
    if (const std::size_t length = escape_length(line, i); length > 0) {
      return objection(line, i, length, "it stands for a character that an export has written as a code",
                       "Write the character itself, or take it out");
    }
    if (workbook_escape(line, i)) {
      return objection(line, i, workbook_escape_length,
                       "it stands for a character that a workbook has written as a code",
                       "Write the character itself, or take it out");
    }
    if (const std::size_t length = error_length(line, i); length > 0)
      return objection(line, i, length, no_result, ask_again);
  }
  return std::nullopt;
}

namespace {

bool is_cell_letter(char32_t c) { return is_word(c) || c == '_' || c == '.' || c == '$'; }

/// `A1`, `$B$22`; nothing else in it.
bool is_cell(std::string_view name) {
  std::size_t i = 0, letters = 0, digits = 0;
  const auto skip_dollar = [&] { i += i < name.size() && name[i] == '$' ? 1 : 0; };
  skip_dollar();
  for (; i < name.size() && is_ascii_letter(static_cast<unsigned char>(name[i])); ++i) ++letters;
  skip_dollar();
  for (; i < name.size() && is_ascii_figure(static_cast<unsigned char>(name[i])); ++i) ++digits;
  return i == name.size() && letters >= 1 && letters <= 3 && digits >= 1 && digits <= 7;  // sheets end at XFD1048576
}

/// Whether what begins at `i` calls a function or names a cell.
bool computes(LetterLine line, std::size_t i) {
  if (letter_at(line, i) == '"') return true;
  std::string name;
  for (; is_cell_letter(letter_at(line, i)); ++i) append_utf8(name, letter_at(line, i));
  if (name.empty()) return letter_at(line, i) == '\'' || letter_at(line, i) == '[';  // a sheet's or a workbook's name
  constexpr std::u32string_view calls = U"(!|[";
  if (i < line.size() && calls.find(letter_at(line, i)) != std::u32string_view::npos) return true;
  if (!is_cell(name)) return false;
  while (is_space(letter_at(line, i))) ++i;
  constexpr std::u32string_view operators = U"+-*/^&=<>:,;)%";
  return i >= line.size() || operators.find(letter_at(line, i)) != std::u32string_view::npos;
}

}  // namespace

std::optional<Objection> object_to_formula(LetterLine first_line) {
  if (letter_at(first_line, 0) != '=') return std::nullopt;
  std::size_t i = 1;
  constexpr std::u32string_view before = U"0123456789.+-*/(@ ";
  while (i < first_line.size() && before.find(letter_at(first_line, i)) != std::u32string_view::npos) ++i;
  if (i >= first_line.size() || !computes(first_line, i)) return std::nullopt;
  return objection(first_line, 0, first_line.size(), "it is a spreadsheet's formula, not its result", ask_again);
}

bool may_have_remnants(std::string_view text) {
  return text.starts_with('=') || text.find_first_of("<\\#") != std::string_view::npos ||
         text.find("_x") != std::string_view::npos;
}

}  // namespace ordinatio::inline cleaning
