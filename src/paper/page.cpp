#include "paper/page.h"

#include <cmath>

#include "paper/artwork_picture.h"

namespace ordinatio::inline paper {
namespace {

constexpr double ruler_height = 12;                  // mm above the page's lower edge
constexpr double ruler_length = 100;                 // mm
constexpr double rule_words = 36, least_folio = 12;  // mm that two lines of words about it take; that a folio needs

}  // namespace

int Paper::lines() const {
  return static_cast<int>(std::floor((height - top_margin - foot_margin) / grid)) - header_lines;
}

Path segment(Point from, Point to) {
  Path path;
  path.move_to(from);
  path.line_to(to);
  return path;
}

const Pen& thin_line() {
  static const Pen pen{0.2, grey, {}};
  return pen;
}

void Page::draw_head(const PageHead& head) {
  const double top = paper_.baseline(-3), width = paper_.right() - paper_.left();
  lettering_.draw(canvas_, set_to_fit(head.shop_name, small_size, 0.6 * width), {paper_.left(), top}, grey);
  write_flush_right(head.kind, {paper_.right(), top}, small_size, head.kind_colour);
  lettering_.draw(canvas_, set_to_fit(head.title, title_size, width), {paper_.left(), paper_.baseline(-1)},
                  {black, black}, "H1");
  const double y = paper_.baseline(-1) - grid / 2;
  canvas_.stroke(segment({paper_.left(), y}, {paper_.right(), y}), thin_line());
}

void Page::draw_foot(const PageFoot& foot) {
  const double left = paper_.left(), y = ruler_height;
  canvas_.stroke(segment({left, y}, {left + ruler_length, y}), thin_line());
  for (int mm = 0; mm <= ruler_length; mm += 5) {
    const double x = left + mm, tick = mm % 50 == 0 ? 4 : mm % 10 == 0 ? 2.5 : 1.5;
    canvas_.stroke(segment({x, y}, {x, y + tick}), thin_line());
  }
  const std::string pages =
      foot.count == 1 ? "" : " · page " + std::to_string(foot.number) + " of " + std::to_string(foot.count);
  const double x = left + ruler_length + 4, below = y - grid;
  const bool is_narrow = paper_.right() - x < rule_words + least_folio;
  if (is_narrow) {
    write("This rule measures 100 mm when printed at true size.", {left, below}, small_size, grey);
  } else {
    write("This rule measures 100 mm", {x, y + 3.2}, small_size, grey);
    write("when printed at true size.", {x, y}, small_size, grey);
  }
  const double room = is_narrow ? paper_.right() - left - 2 * rule_words : paper_.right() - x - rule_words;
  const SetLine folio = set_to_fit(foot.name + pages, small_size, room);
  lettering_.draw(canvas_, folio, {paper_.right() - folio.width(), is_narrow ? below : y}, grey);
}

void Page::draw(const FlowedPage& passages) {
  for (const FlowedPassage& flowed : passages) draw_passage(flowed.passage, flowed.first_line);
}

void Page::draw_passage(const Passage& passage, int first_line) {
  for (const Cell& cell : passage.cells) {
    lettering_.draw(canvas_, cell.text, {cell.x, paper_.baseline(first_line + cell.line)}, cell.inks);
  }
  for (const InkCell& cell : passage.inks) {
    canvas_.fill(transformed(cell.ink, shift_by({cell.x, paper_.baseline(first_line + cell.line)})), cell.colour);
  }
  for (const PictureCell& cell : passage.pictures) {
    const Bounds box = bounds_of(path_of(cell.artwork->blank));
    const Point corner{cell.x - cell.scale * box.left,
                       paper_.baseline(first_line + cell.line) - cell.scale * box.bottom};
    draw_artwork(canvas_, lettering_, *cell.artwork, then(scale_by(cell.scale), shift_by(corner)));
  }
  for (const Rule& rule : passage.rules) {
    const double y = paper_.baseline(first_line + rule.line);
    canvas_.stroke(segment({rule.left, y}, {rule.right, y}), thin_line());
  }
}

void Page::write(std::string_view text, Point at, double size, Colour colour) {
  lettering_.draw(canvas_, lettering_.set(text, size), at, colour);
}

void Page::write_flush_right(std::string_view text, Point at, double size, Colour colour) {
  const SetLine line = lettering_.set(text, size);
  lettering_.draw(canvas_, line, {at.x - line.width(), at.y}, colour);
}

SetLine Page::set_to_fit(std::string_view text, double size, double width) {
  SetLine line = lettering_.set(text, size);
  if (line.width() > width) line.size *= width / line.width();
  return line;
}

}  // namespace ordinatio::inline paper
