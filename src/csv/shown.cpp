#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "csv/shown.h"

namespace ordinatio::inline csv {
namespace {

constexpr std::array<std::string_view, 6> spaces{" ", "\t", "\r", "\n", "\u00A0", "\u3000"};
constexpr std::size_t shown_characters = 60, page_characters = 2'000;
constexpr std::size_t listed_lines = 5;

/// In quotes and one line, cut after `limit` characters, behind `words`.
std::string quoted(std::string words, std::string_view text, std::size_t limit) {
  std::size_t characters = 0;
  for (const char c : text) {
    if (!continues_character(c) && ++characters > limit) return words + "…\"";
    if (c == '\n') {
      words += " / ";
    } else if (c >= 0 && c < ' ') {
      words += {'\xE2', '\x90', static_cast<char>(0x80 + c)};  // U+2400 to U+241F, control pictures
    } else {
      words += c;
    }
  }
  return words + '"';
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const auto leads = [&text](std::string_view space) { return text.starts_with(space); };
  const auto trails = [&text](std::string_view space) { return text.ends_with(space); };
  for (auto space = spaces.begin(); (space = std::find_if(spaces.begin(), spaces.end(), leads)) != spaces.end();) {
    text.remove_prefix(space->size());
  }
  for (auto space = spaces.begin(); (space = std::find_if(spaces.begin(), spaces.end(), trails)) != spaces.end();) {
    text.remove_suffix(space->size());
  }
  return text;
}

std::string shown(std::string_view text, std::size_t from) {
  return quoted(from > 0 ? "\"…" : "\"", text.substr(from), shown_characters);
}

std::string shown_whole(std::string_view text) { return quoted("\"", text, page_characters); }

std::string list_lines(const std::vector<std::size_t>& lines) {
  if (lines.size() == 1) return "line " + std::to_string(lines[0]);
  // Naming the last one costs no more than "and 1 more".
  const std::size_t named = lines.size() <= listed_lines + 1 ? lines.size() - 1 : listed_lines;
  std::string list = "lines ";
  for (std::size_t at = 0; at < named; ++at) list += (at == 0 ? "" : ", ") + std::to_string(lines[at]);
  const std::size_t more = lines.size() - named;
  return list + " and " + (more == 1 ? std::to_string(lines.back()) : std::to_string(more) + " more");
}

}  // namespace ordinatio::inline csv
