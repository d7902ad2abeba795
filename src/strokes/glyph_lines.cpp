#include "strokes/glyph_lines.h"

#include <stdexcept>
#include <string>

#include "base/base.h"
#include "base/utf8.h"

namespace ordinatio::inline strokes {
namespace {

constexpr double quarter = 0.5522847498;  // of the radius: a cubic's handle along a quarter of a circle, within 0.03 %
constexpr double touch = 2;               // half of a dot's width, and of its corners' distance

std::vector<std::string_view> words_of(std::string_view line) {
  std::vector<std::string_view> words;
  for (std::size_t at = line.find_first_not_of(' '); at != std::string_view::npos;) {
    const std::size_t end = std::min(line.find(' ', at), line.size());
    words.push_back(line.substr(at, end - at));
    at = line.find_first_not_of(' ', end);
  }
  return words;
}

std::u32string letters_of(std::string_view text) {
  std::u32string letters;
  for (std::size_t at = 0; at < text.size();) letters += next_character(text, at);
  return letters;
}

char32_t character_of(std::string_view word) {
  if (word.starts_with("U+")) return static_cast<char32_t>(std::stoul(std::string(word.substr(2)), nullptr, 16));
  const std::u32string letters = letters_of(word);
  if (letters.size() != 1) throw std::runtime_error("is no character");
  return letters.front();
}

void add_circle(Path& path, Point middle, double r) {
  const auto at = [&](double x, double y) { return middle + Point{r * x, r * y}; };
  path.move_to(at(1, 0));
  path.cubic_to(at(1, quarter), at(quarter, 1), at(0, 1));
  path.cubic_to(at(-quarter, 1), at(-1, quarter), at(-1, 0));
  path.cubic_to(at(-1, -quarter), at(-quarter, -1), at(0, -1));
  path.cubic_to(at(quarter, -1), at(1, -quarter), at(1, 0));
}

void add_touch(Path& path, Point middle) {
  path.move_to(middle + Point{0, touch});
  path.line_to(middle + Point{-touch, 0});
  path.line_to(middle + Point{0, -touch});
  path.line_to(middle + Point{touch, 0});
  path.line_to(middle + Point{0, touch});
}

/// Reads what follows a glyph's bearings.
class GlyphReader {
 public:
  GlyphReader(std::span<const std::string_view> words, const GlyphLines& known) : words_(words), known_(known) {}

  void read(DrawnGlyph& glyph) {
    while (next_ < words_.size()) {
      const std::string_view word = words_[next_++];
      if (word.size() > 1 && word.front() == '@') {
        add_other(glyph.path, character_of(word.substr(1)));
      } else if (word.size() == 1) {
        command(glyph, word.front());
      } else {
        throw std::runtime_error("has no stroke “" + std::string(word) + "”");
      }
    }
  }

 private:
  void command(DrawnGlyph& glyph, char letter) {
    Path& path = glyph.path;
    switch (letter) {
      case 'm':
        return path.move_to(start_ = here_ = point());
      case 'l':
        do path.line_to(here_ = point());
        while (next_ < words_.size() && parse_number(words_[next_]));
        return;
      case 'h':
      case 'v':
        return add_quarter(path, letter == 'h');
      case 'c': {
        const Point first = point(), second = point();
        return path.cubic_to(first, second, here_ = point());
      }
      case 'z':
        // No contour is closed: what closes is the edge of an area to others, and lines may cross here, as in Ø.
        if (here_ != start_) path.line_to(here_ = start_);
        return;
      case 'o': {
        const Point middle = point();
        return add_circle(path, middle, number());
      }
      case 'd':
        return add_touch(path, point());
      case '^':
        glyph.above = point();
        return;
      case '_':
        glyph.below = point();
        return;
      case ',':
        glyph.ogonek = point();
        return;
      default:
        throw std::runtime_error(std::string("has no stroke “") + letter + "”");
    }
  }

  void add_quarter(Path& path, bool level) {
    const Point from = here_, to = here_ = point(), way = to - from;
    const Point level_part{quarter * way.x, 0}, upright_part{0, quarter * way.y};
    path.cubic_to(from + (level ? level_part : upright_part), to - (level ? upright_part : level_part), to);
  }

  void add_other(Path& path, char32_t character) {
    const auto other = known_.glyphs.find(character);
    if (other == known_.glyphs.end()) throw std::runtime_error("takes strokes of a letter that stands below it");
    const double scale = number() / 100;
    const Point by = point();
    path.append(other->second.path, {scale, 0, 0, scale, by.x, by.y});
  }

  double number() {
    const auto value = next_ < words_.size() ? parse_number(words_[next_++]) : std::nullopt;
    if (!value) throw std::runtime_error("lacks a number");
    return *value;
  }
  Point point() {
    const double x = number();
    return {x, number()};
  }

  std::span<const std::string_view> words_;
  const GlyphLines& known_;
  std::size_t next_ = 0;
  Point start_, here_;
};

void read_line(std::string_view line, GlyphLines& into) {
  const std::vector<std::string_view> words = words_of(line);
  if (words.empty() || words.front() == "#") return;
  if (words.front() == "kern") {
    if (words.size() != 4) throw std::runtime_error("is no kern LEFTS RIGHTS BY");
    return into.kerning.push_back({letters_of(words[1]), letters_of(words[2]), parse_number(words[3]).value()});
  }
  if (words.size() < 3) throw std::runtime_error("lacks its bearings");
  DrawnGlyph glyph{parse_number(words[1]).value(), parse_number(words[2]).value(), {}, {}, {}, {}};
  GlyphReader(std::span(words).subspan(3), into).read(glyph);
  if (!into.glyphs.emplace(character_of(words.front()), std::move(glyph)).second) {
    throw std::runtime_error("draws a letter again");
  }
}

}  // namespace

GlyphLines read_glyph_lines(std::string_view text) {
  GlyphLines lines;
  int number = 0;
  for (std::size_t at = 0; at < text.size(); ++number) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    try {
      read_line(text.substr(at, end - at), lines);
    } catch (const std::exception& wrong) {
      throw std::runtime_error("the stroke alphabet's line " + std::to_string(number + 1) + " " + wrong.what());
    }
    at = end + 1;
  }
  return lines;
}

}  // namespace ordinatio::inline strokes
