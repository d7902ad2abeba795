#include <algorithm>
#include <cmath>

#include "bed/item_number.h"
#include "paper/artwork_picture.h"
#include "paper/page.h"
#include "paper/paper.h"
#include "paper/sample_layout.h"

namespace ordinatio::inline paper {
namespace {

constexpr double least_cell = 50;                       // mm across
constexpr int picture_grid_lines = 9, words_lines = 3;  // of a cell: grid lines for its plaque; number, words, air

/// Cells of one paper, filled row by row.
struct CellGrid {
  Paper paper;
  int columns = 1, rows = 1;
  double width = 0;  // mm, of a cell
  static constexpr double picture_height = picture_grid_lines * grid;

  explicit CellGrid(const Paper& given) : paper(given) {
    const double room = paper.right() - paper.left();
    columns = std::max(1, static_cast<int>((room + gutter) / (least_cell + gutter)));
    rows = std::max(1, paper.lines() / (picture_grid_lines + words_lines));
    width = (room + gutter) / columns - gutter;
  }
  [[nodiscard]] std::size_t count() const { return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows); }
  [[nodiscard]] double left(std::size_t cell) const {
    return paper.left() + static_cast<double>(cell % static_cast<std::size_t>(columns)) * (width + gutter);
  }
  /// The grid line that its words begin on.
  [[nodiscard]] int line(std::size_t cell) const {
    return static_cast<int>(cell / static_cast<std::size_t>(columns)) * (picture_grid_lines + words_lines) +
           picture_grid_lines + 1;
  }
};

/// The least whole number of times by which all plaques go into their cells.
double reduction_for(const std::vector<ProofPage>& pages, const CellGrid& cells) {
  double reduction = 1;
  for (const ProofPage& page : pages) {
    if (!page.artwork) continue;
    const Bounds box = piece_box(*page.artwork);
    reduction =
        std::max({reduction, std::ceil(box.width() / cells.width), std::ceil(box.height() / CellGrid::picture_height)});
  }
  return reduction;
}

std::string first_words(const ProofPage& page) {
  if (page.held) return "held: " + page.held->what;
  std::string words;
  for (const std::string& line : page.artwork ? page.artwork->lines : page.item.inscription.lines)
    words += (words.empty() ? "" : " / ") + line;
  return words;
}

class ContactPages {
 public:
  ContactPages(Lettering& lettering, const CellGrid& cells, double reduction)
      : lettering_(lettering), cells_(cells), reduction_(reduction) {}

  /// Gives the ink that it has drawn, mm².
  double add(Canvas& canvas, const ProofPage& proof, std::size_t cell) {
    const double left = cells_.left(cell);
    const int line = cells_.line(cell);
    write(canvas, number_for_people(proof.item), left, line, body_size, black);
    write(canvas, first_words(proof), left, line + 1, small_size, proof.held ? alarm : grey);
    if (!proof.artwork) return 0;
    const Bounds box = piece_box(*proof.artwork);
    const double foot = cells_.paper.baseline(line - 1), scale = 1 / reduction_;
    draw_artwork(canvas, lettering_, *proof.artwork,
                 then(scale_by(scale), shift_by({left - scale * box.left, foot - scale * box.bottom})));
    return ink_of(*proof.artwork) * scale * scale;
  }

 private:
  void write(Canvas& canvas, const std::string& text, double left, int line, double size, Colour colour) {
    SetLine set = lettering_.set(text, size);
    set.size *= std::clamp(cells_.width / std::max(set.width(), 1e-9), least_shrinking, 1.0);
    if (set.width() > cells_.width) set = lettering_.set_column(text, size * least_shrinking, cells_.width).front();
    lettering_.draw(canvas, set, {left, cells_.paper.baseline(line)}, colour);
  }
  static constexpr double least_shrinking = 0.7;  // smaller is hard to read; then the first words alone

  Lettering& lettering_;
  const CellGrid& cells_;
  double reduction_;
};

}  // namespace

Result<ContactSheet> write_contact_sheet(const std::vector<ProofPage>& pages, const std::string& shop_name,
                                         const FontLibrary& fonts, PaperSize paper) {
  if (pages.empty()) return Fault{"there is nothing to show", "", "no items were named", "Name an item of the orders"};
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  const CellGrid cells(paper_of(paper));
  const double reduction = reduction_for(pages, cells);
  if (!(reduction >= 1 && reduction <= iso_reductions.back()))
    return Fault{"a plaque is too large for a contact sheet", "", "", "Make its proof alone: --item"};
  Canvas canvas = Canvas::pdf(make_visible("Contact sheet · " + shop_name, " ").text);
  ContactPages contact(*lettering, cells, reduction);
  ContactSheet sheet;
  const std::size_t count = (pages.size() + cells.count() - 1) / cells.count();
  std::string scale = "Proofs, 1 : ";
  append_number(scale, reduction, 0);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    if (i % cells.count() == 0) {
      canvas.start_page(cells.paper.width, cells.paper.height);
      canvas.name_page(make_visible(number_for_people(pages[i].item), " ").text, true);
      Page page(canvas, *lettering, cells.paper);
      page.draw_head({shop_name, scale, "Contact sheet"});
      page.draw_foot({"Contact sheet", i / cells.count() + 1, count});
      sheet.ink.push_back(0);
    }
    sheet.ink.back() += contact.add(canvas, pages[i], i % cells.count());
  }
  Result<std::string> pdf = canvas.finish();
  if (!pdf.ok()) return pdf.fault();
  sheet.pdf = *std::move(pdf);
  return sheet;
}

}  // namespace ordinatio::inline paper
