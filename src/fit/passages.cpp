#include "fit/passages.h"

#include <algorithm>

namespace ordinatio::inline fit {
namespace {

bool is_space(const std::string& line) { return line.find_first_not_of(' ') == std::string::npos; }

/// Puts a line behind the passage's last one, or begins a passage with it. The own lines' ends are told in bytes.
void add_line(TextPassages& list, std::vector<std::vector<std::size_t>>& ends, const StyledLine& line,
              std::size_t number, bool is_free) {
  const bool blank = is_space(line.text);
  TextPassage* last = list.passages.empty() ? nullptr : &list.passages.back();
  const bool beside = is_free && last != nullptr && !last->blank && !blank && last->style == line.style;
  if (beside && may_join(last->text, line.text)) {
    last->text += " " + line.text;
  } else {
    list.passages.push_back({blank ? "" : line.text, line.style, number, blank});
    ends.emplace_back();
  }
  ends.back().push_back(list.passages.back().text.size());
}

/// Places where Unicode and good sense let a line end, and the ends of the customer's own lines, which cost nothing.
void add_pieces(TextPassages& list, std::size_t index, const std::vector<std::size_t>& own, bool may_part,
                Typesetter& typesetter, const LineStyle& style) {
  const std::string& text = list.passages[index].text;
  const std::vector<BreakPlace> places =
      may_part ? typesetter.breaker().places(text, style.text.language) : std::vector<BreakPlace>{};
  std::size_t begin = 0, next_own = 0;
  bool begins_own = true;
  const auto add_until = [&](std::size_t end, std::size_t next, int penalty, bool is_own) {
    const std::string_view words = std::string_view(text).substr(begin, end - begin);
    const bool is_own_line = !may_part || (begins_own && is_own);
    const int alone = is_own_line ? 0 : lone_penalty(words, style.text.language);
    const bool pauses =
        is_own || (!words.empty() && std::string_view(",;:!?").find(words.back()) != std::string_view::npos);
    list.pieces.push_back({index, begin, end, is_own, is_own ? 0 : penalty, alone, pauses});
    begin = next;
    begins_own = is_own;
  };
  for (const BreakPlace& place : places) {
    while (next_own < own.size() && own[next_own] < place.end) {  // a place of the customer's that Unicode has not
      const std::size_t end = own[next_own++];
      add_until(end, std::min(text.find_first_not_of(' ', end), text.size()), 0, true);
    }
    const bool is_own = next_own < own.size() && own[next_own] == place.end;
    if (is_own) ++next_own;
    add_until(place.end, place.begin, place.penalty, is_own);
  }
  for (; next_own < own.size(); ++next_own) {
    add_until(own[next_own], std::min(text.find_first_not_of(' ', own[next_own]), text.size()), 0, true);
  }
}

std::string last_word(std::string_view line) {
  const std::size_t space = line.rfind(' ');
  return std::string(space == std::string_view::npos ? line : line.substr(space + 1));
}

}  // namespace

TextPassages passages_of(const std::vector<StyledLine>& lines, const SettingRules& rules, Typesetter& typesetter) {
  TextPassages list;
  std::vector<std::vector<std::size_t>> ends;
  for (std::size_t i = 0; i < lines.size(); ++i) add_line(list, ends, lines[i], i, rules.breaks == LineBreaks::free);
  for (std::size_t i = 0; i < list.passages.size(); ++i) {
    const bool may_part = rules.breaks != LineBreaks::kept && !list.passages[i].blank;
    add_pieces(list, i, ends[i], may_part, typesetter, rules.styles[list.passages[i].style]);
  }
  return list;
}

LineEnds own_ends(const TextPassages& list) {
  LineEnds ends;
  for (std::size_t i = 0; i < list.pieces.size(); ++i) {
    if (list.pieces[i].ends_own_line) ends.push_back(i + 1);
  }
  return ends;
}

std::vector<std::string> changes_of(const TextPassages& list, const LineEnds& ends) {
  std::vector<std::string> changes;
  std::size_t line = 1;
  for (std::size_t i = 0; i < list.pieces.size(); ++i) {
    const TextPiece& piece = list.pieces[i];
    const bool ends_here = std::ranges::binary_search(ends, i + 1);
    const std::string number = std::to_string(line);
    if (ends_here && !piece.ends_own_line) {
      const std::string& text = list.passages[piece.passage].text;
      changes.push_back("line " + number + " was parted after “" +
                        last_word(text.substr(piece.begin, piece.end - piece.begin)) + "”");
    }
    if (!piece.ends_own_line) continue;
    ++line;
    if (!ends_here) changes.push_back("lines " + number + " and " + std::to_string(line) + " were joined");
  }
  return changes;
}

}  // namespace ordinatio::inline fit
