#include <algorithm>
#include <array>
#include <cmath>

#include "paper/loading_picture.h"
#include "paper/loading_words.h"
#include "paper/page.h"
#include "paper/paper.h"
#include "paper/paragraphs.h"
#include "paper/sheet_words.h"

namespace ordinatio::inline paper {
namespace {

constexpr double page_edge = 14, head_room = 11,
                 foot_room = 13;  // mm: side margins, to the first baseline's capitals, to the foot
constexpr double sheet_name_size = 8, leading = 1.25;    // mm per em; em
constexpr double pocket_row_gap = 0.55, part_gap = 3.5;  // em between pockets; mm between parts of the page
constexpr double column_gap = 7;                         // mm
constexpr double text_column = 3.7;                      // em: room for the box, then for three figures

/// How a page is laid out.
struct LoadingLook {
  double size = 0;     // mm per em
  double picture = 0;  // share of the page's height
  int columns = 1;
};
// Large letters come first, then a large picture; a small picture before the smallest letters.
constexpr double largest_picture = 0.42, good_picture = 0.26, least_picture = 0.2, picture_step = 0.02;
constexpr std::array<std::pair<double, double>, 7> sizes_and_pictures{{{caution_size, 0.3},
                                                                       {4.2, good_picture},
                                                                       {3.8, good_picture},
                                                                       {4.2, least_picture},
                                                                       {3.8, least_picture},
                                                                       {least_loading_size, good_picture},
                                                                       {least_loading_size, least_picture}}};
constexpr LoadingLook further_pages{4.2, 0.34, 2};

struct LoadingRow {
  SetLine number, item, words;
  std::vector<SetLine> lie, watch;
  double height = 0;  // mm, with the gap below
};
using LoadingColumn = std::vector<const LoadingRow*>;

/// What stands on a page, in columns side by side.
struct LoadingPage {
  std::vector<LoadingColumn> columns;
};

class LoadingPaper {
 public:
  LoadingPaper(Canvas& canvas, Lettering& lettering, const LoadingSheet& loading, const Paper& paper)
      : canvas_(canvas),
        lettering_(lettering),
        loading_(loading),
        paper_(paper),
        lines_(loading_lines(loading.sheet)),
        lie_of_all_(lie_of_all(lines_)),
        width_(paper.width - 2 * page_edge),
        cautions_(set_paragraphs(lettering, {{in_running_text(cautions_of(loading.sheet)), caution_size, leading}},
                                 width_)) {}

  void draw() {
    for (const auto& [size, least] : sizes_and_pictures) {
      for (const int columns : {1, 2}) {
        lay({size, least, columns});
        if (pages_.size() > 1) continue;
        grow_picture();
        return draw_pages();
      }
    }
    lay(further_pages);
    draw_pages();
  }

 private:
  [[nodiscard]] double foot() const { return foot_room + height_of(cautions_) + part_gap; }

  /// As far as all stays on one page.
  void grow_picture() {
    double picture = look_.picture;
    while (pages_.size() == 1 && picture < largest_picture) {
      look_.picture += picture_step;
      part_into_pages();
      if (pages_.size() == 1) picture = look_.picture;
    }
    look_.picture = picture;
    part_into_pages();
  }

  void lay(const LoadingLook& look) {
    look_ = look;
    head_ = set_paragraphs(lettering_, head_paragraphs(), width_);
    below_ = set_paragraphs(lettering_, below_paragraphs(), width_);
    rows_.clear();
    for (const LoadingLine& line : lines_) rows_.push_back(set_row(line));
    part_into_pages();
  }

  [[nodiscard]] double column_width() const { return (width_ - (look_.columns - 1) * column_gap) / look_.columns; }

  [[nodiscard]] std::vector<Paragraph> head_paragraphs() const {
    const Sheet& sheet = loading_.sheet;
    std::vector<Paragraph> head{{heading_for_loading(sheet), look_.size, leading}};
    const auto add = [&](const std::string& words) {
      if (!words.empty()) head.push_back({words, look_.size, leading});
    };
    for (const std::string& words : loading_.settings) add("Set the machine: " + words);
    for (const std::string& words : loading_.remarks) add(words);
    return head;
  }

  [[nodiscard]] std::vector<Paragraph> below_paragraphs() const {
    const Sheet& sheet = loading_.sheet;
    std::vector<Paragraph> below;
    const auto add = [&](const std::string& words) {
      if (!words.empty()) below.push_back({words, look_.size, leading});
    };
    std::string text;
    const auto say = [&text](const std::string& words) { text += (text.empty() || words.empty() ? "" : " ") + words; };
    say(datum_words(sheet));
    if (!lie_of_all_.empty()) say("Every piece lies alike: " + lie_of_all_ + ".");
    if (has_measured()) say("An arrow points to what was a piece’s top when it was measured.");
    say(kept_on_all(sheet));
    say(empty_pockets(sheet));
    add(text);
    add(mark_places_text(sheet));
    return below;
  }

  [[nodiscard]] bool has_measured() const {
    return std::ranges::any_of(loading_.sheet.items,
                               [](const SheetItem& item) { return !item.artwork.blank.id.empty(); });
  }

  LoadingRow set_row(const LoadingLine& line) {
    const double size = look_.size, text_width = column_width() - text_left();
    LoadingRow row;
    row.number = lettering_.set(line.pocket == 0 ? "–" : std::to_string(line.pocket), 1.25 * size);
    row.item = lettering_.set(line.item, size);
    const double room = text_width - row.item.width() - size;
    row.words = shortened(line.words, size, room);
    if (!line.lie.empty()) row.lie = lettering_.set_column(line.lie, size, text_width);
    if (!line.watch.empty()) row.watch = lettering_.set_column("Watch: " + line.watch, size, text_width);
    row.height = size * (leading * static_cast<double>(1 + row.lie.size() + row.watch.size()) + pocket_row_gap);
    return row;
  }

  [[nodiscard]] double text_left() const { return text_column * look_.size; }

  /// As many of its words as have room, with an ellipsis where they are not all.
  SetLine shortened(const std::string& words, double size, double room) {
    SetLine whole = lettering_.set(words, size);
    if (whole.width() <= room) return whole;
    const std::vector<SetLine> lines = lettering_.set_column(words, size, std::max(room - size, size));
    std::string text = lines.front().shaped.text;
    text.resize(text.find_last_not_of(' ') + 1);
    return lettering_.set(text + "…", size);
  }

  void part_into_pages() {
    pages_.clear();
    const double top = first_top() - part_gap;
    const double first = top - height_of(below_) - 2 * part_gap - foot();
    std::size_t next = 0;
    do {
      const double room = pages_.empty() ? first : further_top() - foot_room;
      next = fill_page(next, room, pages_.empty());
    } while (next < rows_.size());
  }

  /// Columns of about one height. Gives the first row that had no room.
  std::size_t fill_page(std::size_t next, double room, bool may_be_empty) {
    double rest = 0, tallest = 0;
    for (std::size_t i = next; i < rows_.size(); ++i)
      rest += rows_[i].height, tallest = std::max(tallest, rows_[i].height);
    const double step = 1;  // mm
    for (double height = std::min(room, std::max(rest / look_.columns, tallest)); height < room; height += step) {
      if (filled(next, height).second == rows_.size()) {
        room = height;
        break;
      }
    }
    auto [page, end] = filled(next, room);
    if (end == next && next < rows_.size() && !may_be_empty) {  // taller than a page: it stands there alone
      page.columns.front() = {&rows_[next]};
      end = next + 1;
    }
    pages_.push_back(std::move(page));
    return end;
  }

  [[nodiscard]] std::pair<LoadingPage, std::size_t> filled(std::size_t next, double room) const {
    LoadingPage page;
    for (int column = 0; column < look_.columns; ++column) {
      LoadingColumn rows;
      double used = 0;
      while (next < rows_.size() && used + rows_[next].height <= room + 1e-6) {
        used += rows_[next].height;
        rows.push_back(&rows_[next++]);
      }
      page.columns.push_back(std::move(rows));
    }
    return {std::move(page), next};
  }

  /// Under the picture.
  [[nodiscard]] double first_top() const {
    const double picture = loading_picture_height(loading_.sheet, width_, look_.picture * paper_.height);
    return head_foot() - height_of(head_) - part_gap - picture;
  }
  /// Under the sheet's name.
  [[nodiscard]] double head_foot() const { return paper_.height - head_room - sheet_name_size * 1.25; }
  [[nodiscard]] double further_top() const { return head_foot() - part_gap; }

  void draw_pages() {
    for (std::size_t i = 0; i < pages_.size(); ++i) {
      canvas_.start_page(paper_.width, paper_.height);
      draw_title(i);
      double top = further_top();
      if (i == 0) top = draw_first_page();
      draw_columns(pages_[i], top);
      draw_folio(i);
    }
  }

  void draw_title(std::size_t page) {
    const double baseline = paper_.height - head_room - capital_share * sheet_name_size;
    const SetLine name = shortened(loading_.sheet.name, sheet_name_size, 0.6 * width_);
    lettering_.draw(canvas_, name, {page_edge, baseline}, black);
    const SetLine kind =
        shortened("Loading sheet" + std::string(page == 0 ? "" : ", continued") + " · " + loading_.shop_name,
                  least_loading_size, width_ - name.width() - part_gap);
    lettering_.draw(canvas_, kind, {paper_.width - page_edge - kind.width(), baseline}, grey);
    const double y = baseline - 2.2;
    canvas_.stroke(segment({page_edge, y}, {paper_.width - page_edge, y}), thin_line());
  }

  double draw_first_page() {
    const double top = head_foot();
    draw_down(canvas_, lettering_, head_, page_edge, top, 0, black);
    const double picture = top - height_of(head_) - part_gap;
    draw_loading_picture(canvas_, lettering_, loading_.sheet,
                         {page_edge, first_top(), paper_.width - page_edge, picture}, least_loading_size);
    const double under = first_top() - part_gap;
    draw_down(canvas_, lettering_, below_, page_edge, under, 0, black);
    draw_down(canvas_, lettering_, cautions_, page_edge, foot_room + height_of(cautions_), 0, black);
    const double y = foot_room + height_of(cautions_) + part_gap / 2;
    canvas_.stroke(segment({page_edge, y}, {paper_.width - page_edge, y}), thin_line());
    return under - height_of(below_) - part_gap;
  }

  void draw_columns(const LoadingPage& page, double top) {
    double left = page_edge;
    for (const LoadingColumn& column : page.columns) {
      double y = top;
      for (const LoadingRow* row : column) {
        draw_row(*row, left, y);
        y -= row->height;
      }
      left += column_width() + column_gap;
    }
  }

  void draw_row(const LoadingRow& row, double left, double top) {
    const double size = look_.size, right = left + column_width();
    double baseline = top - capital_share * 1.25 * size;
    canvas_.stroke(box_path({left, baseline - 0.1 * size, left + 1.05 * size, baseline + 0.95 * size}),
                   {0.35, black, {}});
    const double text = left + text_left();
    lettering_.draw(canvas_, row.number, {text - 0.6 * size - row.number.width(), baseline}, black);
    lettering_.draw(canvas_, row.item, {text, baseline}, black);
    lettering_.draw(canvas_, row.words, {std::min(text + row.item.width() + size, right), baseline}, black);
    for (const auto& [lines, colour] : {std::pair(&row.lie, grey), std::pair(&row.watch, alarm)}) {
      for (const SetLine& line : *lines) {
        baseline -= leading * size;
        lettering_.draw(canvas_, line, {text, baseline}, colour);
      }
    }
  }

  void draw_folio(std::size_t page) {
    const std::string text =
        loading_.sheet.name + " · page " + std::to_string(page + 1) + " of " + std::to_string(pages_.size());
    const SetLine line = shortened(text, least_loading_size, width_);
    lettering_.draw(canvas_, line, {paper_.width - page_edge - line.width(), foot_room - 6}, grey);
  }

  static Path box_path(const Bounds& box) {
    Path path;
    path.add_rectangle(box);
    return path;
  }

  static constexpr double capital_share = 0.72;  // em, of the reading face

  Canvas& canvas_;
  Lettering& lettering_;
  const LoadingSheet& loading_;
  Paper paper_;
  std::vector<LoadingLine> lines_;
  std::string lie_of_all_;
  double width_;
  std::vector<Label> cautions_, head_, below_;
  LoadingLook look_;
  std::vector<LoadingRow> rows_;
  std::vector<LoadingPage> pages_;
};

}  // namespace

Result<std::string> write_loading_pdf(const LoadingSheet& loading, const FontLibrary& fonts, PaperSize paper) {
  const Machine& bed = loading.sheet.frame.plan.machine;
  if (!(std::isfinite(bed.width) && std::isfinite(bed.height) && bed.width > 0 && bed.height > 0)) {
    return Fault{"a loading sheet cannot be drawn", loading.sheet.name, "its bed has no measures", ""};
  }
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  Canvas canvas = Canvas::pdf(make_visible("Loading sheet · " + loading.sheet.name, " ").text);
  LoadingPaper(canvas, *lettering, loading, paper_of(paper)).draw();
  return canvas.finish();
}

}  // namespace ordinatio::inline paper
