#include "photo/card.h"

#include <array>

#include "paper/lettering.h"
#include "paper/page.h"
#include "paper/paper.h"

namespace ordinatio::inline paper {
namespace {

// Halves of the sheet: the card above, what to do with it below. Words stand between the marks, clear of them.
constexpr double words_left = 15, words_right = 145;  // mm, in the card's coordinates
constexpr double tick_top = 4, line_height = 30;      // of the check line
const Pen ruling{0.25, black, {}};
constexpr Colour ink_black{0, 0, 0};

constexpr std::array how_to{
    "1. Print this page at true size (100 %, not \"fit to page\"), on plain white paper that is not glossy.",
    "2. Measure the line in the middle of the card with a ruler: it must be 100 mm. If it is not, the printer has "
    "scaled the page; "
    "do not use the card.",
    "3. Cut along the dashed line and keep the upper half flat: glue it on stiff card or board if it curls.",
    "4. Lay it beside the piece, a finger's breadth away, on a plain ground of another colour. Its face must lie level "
    "with the "
    "face of the piece: put something as thick as the piece under it. A card that lies 5 mm lower makes a piece of 150 "
    "mm "
    "some 2 mm too long.",
    "5. Take the photo from above with the phone's main camera, not the wide-angle one: at least 400 mm away, card and "
    "piece in the "
    "middle of the picture and filling it, both whole, sharp, without glare and without a hard shadow. It may lean by "
    "up to 45°.",
    "6. Look at the outline that the program proposes, and measure one side with a ruler before you engrave what "
    "cannot be "
    "replaced. A lens bends straight lines a little, most of all near the picture's edges.",
};

class CardSheet {
 public:
  CardSheet(Canvas& canvas, Lettering& lettering, const Paper& paper)
      : canvas_(canvas),
        lettering_(lettering),
        paper_(paper),
        origin_{paper.width / 2 - mark_places[2].x / 2, paper.height * 3 / 4 - mark_places[2].y / 2} {}

  void draw() {
    canvas_.start_page(paper_.width, paper_.height);
    canvas_.name_page("Measuring card", true);
    for (std::size_t mark = 0; mark < mark_places.size(); ++mark) {
      canvas_.fill(transformed(mark_ink(mark), shift_by(origin_)), ink_black);
    }
    draw_check_line();
    write("Measuring card", {words_left, 82}, title_size);
    write_column("It lies beside a piece in a photo of it, level with the piece's face. All four marks must be seen.",
                 {words_left, 73}, words_right - words_left, body_size);
    const double cut = paper_.height / 2;
    canvas_.stroke(segment({0, cut}, {paper_.width, cut}), {0.25, grey, {3, 2}});
    draw_how_to(cut - 14);
  }

 private:
  void write(std::string_view text, Point on_card, double size) {
    lettering_.draw(canvas_, lettering_.set(text, size), origin_ + on_card, black);
  }
  /// Gives back where the next line would stand.
  double write_column(std::string_view text, Point on_card, double width, double size) {
    for (const SetLine& line : lettering_.set_column(text, size, width)) {
      lettering_.draw(canvas_, line, origin_ + on_card, black);
      on_card.y -= grid;
    }
    return on_card.y;
  }

  void draw_check_line() {
    const double middle = mark_places[2].x / 2;
    const auto stroke = [&](Point from, Point to) { canvas_.stroke(segment(origin_ + from, origin_ + to), ruling); };
    const double left = middle - check_line / 2;
    stroke({left, line_height}, {left + check_line, line_height});
    for (int mm = 0; mm <= check_line; ++mm) {
      const double tick = mm % 50 == 0   ? tick_top
                          : mm % 10 == 0 ? 0.7 * tick_top
                          : mm % 5 == 0  ? 0.5 * tick_top
                                         : 0.3 * tick_top;
      stroke({left + mm, line_height}, {left + mm, line_height + tick});
    }
    const SetLine words = lettering_.set("Measure this: it must be 100 mm", body_size);
    lettering_.draw(canvas_, words, origin_ + Point{middle - words.width() / 2, line_height - 6}, black);
  }

  void draw_how_to(double top) {
    const double left = paper_.left() - origin_.x, width = paper_.right() - paper_.left();
    double y = top - origin_.y;
    write("How to use the card", {left, y}, large_size);
    y -= 1.7 * grid;
    for (const char* step : how_to) y = write_column(step, {left, y}, width, body_size) - grid / 2;
  }

  Canvas& canvas_;
  Lettering& lettering_;
  Paper paper_;
  Point origin_;  // the first mark, on the page
};

}  // namespace

Result<std::string> write_card_pdf(CardPaper size, const FontLibrary& fonts) {
  constexpr Paper letter{8.5 * mm_per_inch, 11 * mm_per_inch};  // ANSI/ASME Y14.1
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  Canvas canvas = Canvas::pdf("Measuring card");
  CardSheet(canvas, *lettering, size == CardPaper::iso_a4 ? a4 : letter).draw();
  return canvas.finish();
}

}  // namespace ordinatio::inline paper
