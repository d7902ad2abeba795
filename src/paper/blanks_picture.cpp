#include <algorithm>
#include <cmath>

#include "paper/blank_facts.h"
#include "paper/kept_clear.h"
#include "paper/measures.h"
#include "paper/paper.h"
#include "paper/paper_cautions.h"

namespace ordinatio::inline paper {
namespace {

constexpr int most_columns = 3;         // narrower ones leave no room for what is said of a piece
constexpr double tallest_drawing = 90;  // mm on the page: two rows of them stand on it
constexpr MeasuresLook measures_look{4.5, small_size};
constexpr double measures_room = 9;  // mm beside a drawing
constexpr double words_below = 9.5;  // mm from a drawing to the first baseline below its measures
constexpr double above_drawing = 2;  // mm between a piece's name and its drawing
constexpr double id_gap = 3;         // mm between a piece's name and its material
constexpr int legend_lines = 3;
constexpr double edge_width = 0.3, factory_width = 0.9;  // mm
constexpr double key_away = 2;                           // mm from what a letter is about to the letter
constexpr Colour faint{0xA6, 0xA6, 0xA6};

double column_width(int columns) { return (a4.right() - a4.left() + gutter) / columns - gutter; }

/// How the pages are parted: one scale, and as many columns as the widest piece lets stand side by side.
struct Grid {
  double reduction = 1;
  int columns = 1;
  [[nodiscard]] double width() const { return column_width(columns); }
};

Grid grid_for(const std::vector<BlankPicture>& pieces) {
  double widest = 0, tallest = 0;
  for (const BlankPicture& piece : pieces) {
    const Bounds box = bounds_of(path_of(piece.blank.outline));
    widest = std::max(widest, box.width());
    tallest = std::max(tallest, box.height());
  }
  const auto fits = [&](double reduction, int columns) {
    return widest / reduction + measures_room <= column_width(columns) && tallest / reduction <= tallest_drawing;
  };
  const int wanted = std::min(2, static_cast<int>(pieces.size()));
  const auto found = std::ranges::find_if(iso_reductions, [&](double reduction) { return fits(reduction, wanted); });
  Grid parted{found == iso_reductions.end() ? iso_reductions.back() : *found, most_columns};
  while (parted.columns > 1 && !fits(parted.reduction, parted.columns)) --parted.columns;
  return parted;
}

/// "a", "b", …, for facts that have a place.
std::vector<std::string> letters_of(const std::vector<BlankFact>& facts) {
  std::vector<std::string> letters;
  letters.reserve(facts.size());
  char next = 'a';
  for (const BlankFact& fact : facts) letters.push_back(fact.place ? std::string(1, next++) : "");
  return letters;
}

/// One piece, ready to be laid on a page.
struct Entry {
  const BlankPicture* piece;
  std::vector<BlankFact> facts;
  std::vector<std::string> letters;
  SetLine id;
  std::optional<SetLine> material;  // where it goes beside the id
  Stack lines;                      // what is said below the drawing
  int drawing_lines = 0;            // grid lines that the drawing takes
};

class ShelfPages {
 public:
  ShelfPages(Lettering& lettering, std::string shop_name, const std::vector<BlankPicture>& pieces)
      : canvas_(Canvas::pdf(make_visible("Blanks · " + shop_name, " ").text)),
        lettering_(lettering),
        shop_name_(std::move(shop_name)),
        grid_(grid_for(pieces)),
        cautions_(lettering, handling_cautions(), a4) {
    for (const BlankPicture& piece : pieces) entries_.push_back(entry_of(piece));
  }

  Result<std::string> draw();

 private:
  Entry entry_of(const BlankPicture& piece);
  [[nodiscard]] double column_left(std::size_t entry) const {
    return a4.left() + static_cast<double>(entry % static_cast<std::size_t>(grid_.columns)) * (grid_.width() + gutter);
  }
  [[nodiscard]] Transform to_page(const Entry& entry, double left, int first_line) const;
  Passage row_passage(std::size_t first, std::size_t end);
  void draw_legend();
  void draw_piece(const Entry& entry, const Transform& to_page);
  void draw_factory_edges(const BlankPicture& piece, const Transform& to_page, Colour colour);
  void draw_letters(const Entry& entry, const Transform& to_page, Colour colour);

  Canvas canvas_;
  Lettering& lettering_;
  std::string shop_name_;
  Grid grid_;
  PaperCautions cautions_;
  std::vector<Entry> entries_;
};

Colour words_colour(const BlankPicture& piece) { return piece.used.empty() ? black : grey; }
Colour lines_colour(const BlankPicture& piece) { return piece.used.empty() ? black : faint; }

Entry ShelfPages::entry_of(const BlankPicture& piece) {
  Entry entry{&piece, facts_of_shape(piece.blank), {}, lettering_.set(piece.blank.id, large_size), {}, {}, 0};
  if (entry.id.width() > grid_.width()) entry.id.size *= grid_.width() / entry.id.width();
  const std::string material = material_of(piece);
  SetLine beside = lettering_.set(material, small_size);
  if (entry.id.width() + id_gap + beside.width() <= grid_.width()) {
    entry.material = std::move(beside);
  } else {
    entry.facts.push_back({material, std::nullopt});
  }
  for (BlankFact& fact : facts_of_row(piece)) entry.facts.push_back(std::move(fact));
  entry.letters = letters_of(entry.facts);
  const Inks inks{words_colour(piece), grey};
  for (std::size_t i = 0; i < entry.facts.size(); ++i) {
    const std::string text = (entry.letters[i].empty() ? "" : entry.letters[i] + ": ") + entry.facts[i].text;
    for (SetLine& line : lettering_.set_column(text, small_size, grid_.width())) {
      if (entry.lines.size() == shown_facts + 10) break;  // a note as long as a page is not for a contact sheet
      entry.lines.push_back({0, std::move(line), inks, 1});
    }
  }
  const double height = bounds_of(path_of(piece.blank.outline)).height() / grid_.reduction;
  entry.drawing_lines = static_cast<int>(std::ceil((above_drawing + height + words_below) / grid)) - 1;
  return entry;
}

Transform ShelfPages::to_page(const Entry& entry, double left, int first_line) const {
  const Bounds box = bounds_of(path_of(entry.piece->blank.outline));
  const double top = a4.baseline(first_line + 1) - above_drawing;
  return then(scale_by(1 / grid_.reduction),
              shift_by({left - box.left / grid_.reduction, top - box.top / grid_.reduction}));
}

/// The words of the pieces that stand side by side.
Passage ShelfPages::row_passage(std::size_t first, std::size_t end) {
  Passage passage;
  for (std::size_t i = first; i < end; ++i) {
    const Entry& entry = entries_[i];
    SetLine id = entry.id;
    const double beside = column_left(i) + id.width() + id_gap;
    passage.cells.push_back({column_left(i), std::move(id), {words_colour(*entry.piece), grey}, 1});
    if (entry.material) passage.cells.push_back({beside, *entry.material, {grey, grey}, 1});
    int line = 1 + entry.drawing_lines;
    for (Cell cell : entry.lines) {
      cell.x = column_left(i);
      cell.line = ++line;
      passage.cells.push_back(std::move(cell));
    }
    passage.lines = std::max(passage.lines, line + 1);
  }
  return passage;
}

void ShelfPages::draw_legend() {
  Page page(canvas_, lettering_, a4);
  page.write("Scale 1:" + one_place(grid_.reduction) +
                 ", figures in mm. Places are measured from the lower-left corner of " + "the box around each piece.",
             {a4.left(), a4.baseline(1)}, small_size, grey);
  page.write(
      "Dashed: kept clear. Heavy line: factory edge. Grey: used. A letter on a piece stands before its line below.",
      {a4.left(), a4.baseline(2)}, small_size, grey);
}

/// The parts of the drawn edge that lie on a factory-cut side of the box.
void ShelfPages::draw_factory_edges(const BlankPicture& piece, const Transform& to_page, Colour colour) {
  constexpr double picture_slack = 0.01, tolerance = 0.01;  // mm
  const Bounds box = bounds_of(path_of(piece.blank.outline));
  const auto on_side = [&](std::size_t side, Point p) {
    const std::array distances{p.x - box.left, p.y - box.bottom, box.right - p.x, box.top - p.y};
    return distances[side] < picture_slack;
  };
  for (const Polygon& edge : polygons_of(path_of(piece.blank), tolerance)) {
    for (std::size_t i = 0; i < edge.size(); ++i) {
      const Point a = edge[i], b = edge[(i + 1) % edge.size()];
      for (std::size_t side = 0; side < 4; ++side) {
        if (!piece.factory_edges[side] || !on_side(side, a) || !on_side(side, b)) continue;
        canvas_.stroke(segment(to_page(a), to_page(b)), {factory_width, colour, {}});
      }
    }
  }
}

void ShelfPages::draw_letters(const Entry& entry, const Transform& to_page, Colour colour) {
  for (std::size_t i = 0; i < entry.facts.size(); ++i) {
    if (!entry.facts[i].place) continue;
    const FactPlace& place = *entry.facts[i].place;
    const SetLine letter = lettering_.set(entry.letters[i], small_size);
    const Point middle = to_page(place.at) + key_away / length(place.inward) * place.inward;
    lettering_.draw(canvas_, letter, middle - Point{letter.width() / 2, 0.25 * small_size}, colour);
  }
}

void ShelfPages::draw_piece(const Entry& entry, const Transform& to_page) {
  const BlankPicture& piece = *entry.piece;
  const Colour colour = lines_colour(piece);
  const Bounds box = bounds_of(path_of(piece.blank.outline));
  canvas_.stroke(transformed(path_of(piece.blank), to_page), {edge_width, colour, {}});
  draw_factory_edges(piece, to_page, colour);
  draw_kept_clear(canvas_, lettering_, piece.blank.kept_clear, to_page, grey);
  draw_letters(entry, to_page, words_colour(piece));
  Bounds drawn;
  drawn.add(to_page({box.left, box.bottom}));
  drawn.add(to_page({box.right, box.top}));
  draw_measures(canvas_, lettering_, drawn, one_place(box.width()), one_place(box.height()), measures_look);
}

Result<std::string> ShelfPages::draw() {
  const auto columns = static_cast<std::size_t>(grid_.columns);
  std::vector<Passage> rows;
  for (std::size_t i = 0; i < entries_.size(); i += columns) {
    rows.push_back(row_passage(i, std::min(i + columns, entries_.size())));
  }
  const int lines = a4.lines() - legend_lines - cautions_.lines() + 1;  // the last row needs no line free below it
  std::vector<FlowedPage> pages = flow(rows, lines, lines);
  std::size_t next = 0;
  for (std::size_t page_number = 1; FlowedPage & flowed : pages) {
    canvas_.start_page(a4.width, a4.height);
    canvas_.name_page(make_visible(entries_[next].piece->blank.id, " ").text, true);
    Page page(canvas_, lettering_, a4);
    const std::size_t last = std::min(next + flowed.size() * columns, entries_.size()) - 1;
    const std::string &from = entries_[next].piece->blank.id, &to = entries_[last].piece->blank.id;
    page.draw_head({shop_name_, "Blanks", next == last ? from : from + " to " + to});
    draw_legend();
    for (FlowedPassage& row : flowed) {
      row.first_line += legend_lines;
      for (std::size_t i = 0; i < columns && next < entries_.size(); ++i, ++next) {
        draw_piece(entries_[next], to_page(entries_[next], column_left(next), row.first_line));
      }
    }
    page.draw(flowed);
    cautions_.draw(canvas_);
    page.draw_foot({"Blanks", page_number++, pages.size()});
  }
  return canvas_.finish();
}

}  // namespace

Result<std::string> write_blanks_pdf(const std::vector<BlankPicture>& pieces, const std::string& shop_name,
                                     const FontLibrary& fonts) {
  if (pieces.empty()) return Fault{"there is no piece to show", "", "every row is held", "Mend the rows"};
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  return ShelfPages(*lettering, shop_name, pieces).draw();
}

}  // namespace ordinatio::inline paper
