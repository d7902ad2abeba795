#include "paper/packing_list.h"

#include <algorithm>
#include <cmath>
#include <deque>

#include "base/phrase.h"
#include "paper/artwork_picture.h"
#include "paper/page.h"

namespace ordinatio::inline paper {
namespace {

constexpr double box_side = 3.6, tick_line = 0.3;  // mm, of the box to tick
constexpr double box_room = 9;                     // mm from the margin to what the box is for
constexpr double picture_width = 32;               // mm, at the most
constexpr int listed_picture_lines = 4;            // grid lines, at the most
constexpr double words_start = box_room + picture_width + gutter;
constexpr double order_size = 4.2;          // mm per em: clear of the rule above it
constexpr double picture_grid = 0.02;       // mm on the page: half a dot of a printer's 600 dpi
constexpr double label_room = 30;           // mm for "Note to the maker"
constexpr double missing_number_room = 34;  // mm for the number of a piece that is missing

/// A square to tick, standing on the baseline.
Path tick_box() {
  Path path;
  path.add_rectangle({0, 0, box_side, box_side});
  Path hole;
  hole.add_rectangle({tick_line, tick_line, box_side - tick_line, box_side - tick_line});
  path.append(reversed(hole));
  return path;
}

/// As fine as it is seen on the page, and no finer: a logo's thousand curves are a dot there.
Artwork made_coarser(const Artwork& artwork, double scale) {
  Artwork coarse;
  coarse.blank = artwork.blank;
  coarse.kept_clear = artwork.kept_clear;
  for (const Layer& layer : artwork.layers) {
    if (!is_filled(layer.operation)) {
      coarse.layers.push_back(layer);
      continue;
    }
    const double step = picture_grid / scale;
    coarse.layers.push_back({layer.operation, path_of(weld(polygons_of(layer.path, step), step))});
  }
  return coarse;
}

/// Sets what a packing list says between two margins.
class PackingText {
 public:
  PackingText(Lettering& lettering, const Paper& paper)
      : lettering_(lettering), left_(paper.left()), right_(paper.right()) {}

  void add(std::vector<Passage>& passages, const Parcel& parcel) {
    std::vector<Passage> own;
    add_heading(own, parcel);
    for (const std::string& address : parcel.addresses)
      add_named(own, parcel.addresses.size() == 1 ? "Address" : "One address of several", address);
    for (const std::string& note : parcel.notes) add_named(own, "Note to the maker", note);
    for (const ParcelItem& item : parcel.items) own.push_back(passage_of(item));
    add_missing(own, parcel, false);
    add_missing(own, parcel, true);
    for (std::size_t i = 0; i + 1 < own.size(); ++i) own[i].with_next = true;
    own.push_back(blank_lines(1));
    passages.insert(passages.end(), std::move_iterator(own.begin()), std::move_iterator(own.end()));
  }

 private:
  Cell cell(double x, std::string_view text, double size, Colour colour) {
    return {x, lettering_.set(text, size), {colour, alarm}, 1};
  }
  /// Wrapped; lines that read from right to left end where the longest of them does.
  Stack column(double x, double width, std::string_view text, double size, Colour colour) {
    Stack stack;
    double widest = 0;
    for (const std::string_view line : lines_as_typed(text)) {
      for (SetLine& set : lettering_.set_column(line, size, width)) {
        widest = std::max(widest, set.width());
        stack.push_back({x, std::move(set), {colour, alarm}, 1});
      }
    }
    for (Cell& cell : stack) {
      if (cell.text.right_to_left) cell.x = x + widest - cell.text.width();
    }
    return stack;
  }
  static void append(std::vector<Passage>& passages, std::vector<Passage> more) {
    passages.insert(passages.end(), std::move_iterator(more.begin()), std::move_iterator(more.end()));
  }

  void add_heading(std::vector<Passage>& passages, const Parcel& parcel) {
    const auto packed = static_cast<std::size_t>(
        std::ranges::count_if(parcel.missing, [](const MissingItem& item) { return item.was_packed; }));
    const std::size_t all = parcel.items.size() + parcel.missing.size();
    const bool whole = parcel.missing.size() == packed;
    const std::string count =
        parcel.missing.empty() ? (all == 1 ? "the whole order: 1 piece" : "the whole order: " + counted(all, "piece"))
                               : std::to_string(parcel.items.size()) + " of " + counted(all, "piece");
    Passage rule;
    rule.lines = 0;
    rule.rules = {{left_, right_, 0}};
    passages.push_back(std::move(rule));
    Cell pieces = cell(0, count, small_size, whole ? grey : alarm);
    pieces.x = right_ - pieces.text.width();
    Stack number = column(left_, right_ - left_ - pieces.text.width() - gutter, parcel.order, order_size, black);
    const double end = left_ + number.front().text.width() + gutter;
    const double room = pieces.x - gutter - end;
    const bool beside_number = number.size() == 1 && room >= label_room && !parcel.customer.empty();
    std::vector<Stack> stacks{number, {pieces}};
    if (beside_number) stacks.push_back(column(end, room, parcel.customer, body_size, black));
    append(passages, beside(stacks, grid));
    if (!beside_number && !parcel.customer.empty()) {
      append(passages, beside({column(left_, right_ - left_, parcel.customer, body_size, black)}, grid));
    }
  }

  void add_named(std::vector<Passage>& passages, std::string_view name, const std::string& text) {
    append(
        passages,
        beside({{cell(left_ + box_room, name, small_size, grey)},
                column(left_ + box_room + label_room, right_ - left_ - box_room - label_room, text, body_size, black)},
               grid));
  }

  Passage passage_of(const ParcelItem& item) {
    const double x = left_ + words_start, width = right_ - x;
    Stack stack = column(x, width, item.number, body_size, black);
    for (Cell& line : column(x, width, item.words, body_size, black)) stack.push_back(std::move(line));
    if (!item.stand.empty()) {
      for (Cell& line : column(x, width, item.stand, small_size, grey)) stack.push_back(std::move(line));
    }
    Passage passage;
    passage.lines = 1;  // of air
    for (Passage& row : beside({std::move(stack)}, grid)) {
      for (Cell& line : row.cells) {
        line.line += passage.lines;
        passage.cells.push_back(std::move(line));
      }
      passage.lines += row.lines;
    }
    passage.inks.push_back({left_, tick_box(), black, 2});
    add_picture(passage, item);
    return passage;
  }

  /// Its upper edge stands at the height of the number's figures.
  void add_picture(Passage& passage, const ParcelItem& item) {
    if (!item.artwork) {
      int line = 2;
      for (Cell& part : column(left_ + box_room, picture_width, item.no_picture, small_size, grey)) {
        part.line = line++;
        passage.cells.push_back(std::move(part));
      }
      passage.lines = std::max(passage.lines, line - 1);
      return;
    }
    const Bounds box = bounds_of(path_of(item.artwork->blank));
    const double scale = std::min({1.0, picture_width / box.width(), listed_picture_lines * grid / box.height()});
    const int lines = std::max(1, static_cast<int>(std::ceil(scale * box.height() / grid - 1e-9)));
    pictures_.push_back(made_coarser(*item.artwork, scale));
    passage.pictures.push_back({left_ + box_room, &pictures_.back(), scale, lines + 1});
    passage.lines = std::max(passage.lines, lines + 1);
  }

  void add_missing(std::vector<Passage>& passages, const Parcel& parcel, bool was_packed) {
    bool is_first = true;
    for (const MissingItem& item : parcel.missing) {
      if (item.was_packed != was_packed) continue;
      if (std::exchange(is_first, false)) {
        passages.push_back(blank_lines(1));
        Passage heading;
        heading.cells.push_back(cell(left_ + box_room, was_packed ? "Packed before" : "Not in this parcel", small_size,
                                     was_packed ? grey : alarm));
        passages.push_back(std::move(heading));
      }
      const double x = left_ + box_room, words = x + missing_number_room, width = right_ - words;
      Stack stack = column(words, width, item.words, body_size, was_packed ? grey : black);
      for (Cell& line : column(words, width, item.why, small_size, was_packed ? grey : alarm)) {
        stack.push_back(std::move(line));
      }
      append(passages,
             beside({column(x, missing_number_room - gutter / 2, item.number, body_size, black), stack}, grid));
    }
  }

  Lettering& lettering_;
  double left_, right_;
  std::deque<Artwork> pictures_;  // passages point to them
};

/// The rule between two orders, which the page's head draws already where one starts a page.
void drop_first_rule(FlowedPage& page) {
  if (!page.empty() && page.front().passage.lines == 0) page.erase(page.begin());
}

double listed_ink_on(const FlowedPage& page) {
  double ink = 0;
  for (const FlowedPassage& flowed : page) {
    for (const InkCell& cell : flowed.passage.inks) ink += std::abs(area_of(cell.ink));
    for (const PictureCell& cell : flowed.passage.pictures) ink += ink_of(*cell.artwork) * cell.scale * cell.scale;
  }
  return ink;
}

std::string count_of(const std::vector<Parcel>& parcels) {
  std::size_t pieces = 0;
  for (const Parcel& parcel : parcels) pieces += parcel.items.size();
  return counted(parcels.size(), "order") + ", " + counted(pieces, "piece");
}

}  // namespace

Result<PackingList> write_packing_list(const std::vector<Parcel>& parcels, const std::string& shop_name,
                                       const FontLibrary& fonts, PaperSize size) {
  if (parcels.empty()) return Fault{"there is nothing to pack", "", "no orders were named", "Name an order"};
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  const Paper paper = paper_of(size);
  PackingText text(*lettering, paper);
  std::vector<Passage> passages;
  for (const Parcel& parcel : parcels) text.add(passages, parcel);
  std::vector<FlowedPage> pages = flow(passages, paper.lines(), paper.lines());
  Canvas canvas = Canvas::pdf(make_visible("Packing list · " + shop_name, " ").text);
  PackingList list;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    canvas.start_page(paper.width, paper.height);
    canvas.name_page("Packing list, page " + std::to_string(i + 1), true);
    Page page(canvas, *lettering, paper);
    page.draw_head({shop_name, count_of(parcels), "Packing list"});
    drop_first_rule(pages[i]);
    page.draw(pages[i]);
    page.draw_foot({"Packing list", i + 1, pages.size()});
    list.ink.push_back(listed_ink_on(pages[i]));
  }
  Result<std::string> pdf = canvas.finish();
  if (!pdf.ok()) return pdf.fault();
  list.pdf = *std::move(pdf);
  return list;
}

}  // namespace ordinatio::inline paper
