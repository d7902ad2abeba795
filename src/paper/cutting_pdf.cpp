#include "paper/cutting_pdf.h"

#include <algorithm>

#include "paper/cutting_picture.h"
#include "paper/cutting_text.h"
#include "paper/paper_cautions.h"

namespace ordinatio::inline paper {
namespace {

constexpr Paper lying_a4{a4.height, a4.width};
constexpr double list_left = 176, number_width = 13;  // mm
constexpr std::size_t dark_remarks = 3;               // the pane, its yield, how to measure: what is read first
constexpr int most_remark_lines = 16;                 // below the pane; a longer note is cut short

/// Lays out one pane: the drawing with its remarks on the left of every page, the list of cuts on the right.
class CuttingSheet {
 public:
  CuttingSheet(Canvas& canvas, Lettering& lettering, const CuttingPage& page, std::string shop_name)
      : canvas_(canvas),
        lettering_(lettering),
        page_(page),
        shop_name_(std::move(shop_name)),
        cautions_(lettering, cutting_cautions(page.plan.task.kerf), lying_a4),
        lines_(lying_a4.lines() - cautions_.lines()) {}
  void draw();

 private:
  void add_page(const FlowedPage& list, std::size_t number, std::size_t count);
  std::vector<Passage> list();
  std::vector<Passage> remarks();
  Stack column(double x, double width, const std::string& text, double size, Colour colour);
  void add_step(std::vector<Passage>& passages, const std::string& number, const std::string& words);

  Canvas& canvas_;
  Lettering& lettering_;
  const CuttingPage& page_;
  std::string shop_name_;
  PaperCautions cautions_;  // on every page: each goes to the cut by itself
  int lines_;               // grid lines above them
};

void CuttingSheet::draw() {
  const std::vector<FlowedPage> pages = flow(list(), lines_, lines_);
  for (std::size_t i = 0; i < pages.size(); ++i) add_page(pages[i], i + 1, pages.size());
}

void CuttingSheet::add_page(const FlowedPage& list, std::size_t number, std::size_t count) {
  const std::string& id = page_.plan.pane.id;
  canvas_.start_page(lying_a4.width, lying_a4.height);
  canvas_.name_page(make_visible(id, " ").text, number == 1);
  Page page(canvas_, lettering_, lying_a4);
  page.draw_head({shop_name_, number == 1 ? "Cutting sheet" : "Cutting sheet, continued", id});
  page.draw(list);
  FlowedPage below;
  int lines = 0;
  for (Passage& passage : remarks()) {
    if (lines + passage.lines > most_remark_lines) break;
    below.push_back({lines, passage});
    lines += passage.lines;
  }
  const int first = lines_ - lines;
  for (FlowedPassage& flowed : below) flowed.first_line += first;
  page.draw(below);
  cautions_.draw(canvas_);
  page.draw_foot({id, number, count});
  const double foot = lying_a4.baseline(first + 1) + grid;
  CuttingPicture(canvas_, lettering_, page_.plan,
                 {lying_a4.left() + 1, foot, list_left - gutter, lying_a4.baseline(1) + 2})
      .draw();
}

Stack CuttingSheet::column(double x, double width, const std::string& text, double size, Colour colour) {
  Stack stack;
  for (SetLine& line : lettering_.set_column(text, size, width)) {
    Cell& cell = stack.emplace_back();
    cell.x = x;
    cell.text = std::move(line);
    cell.inks = {colour, colour};
  }
  return stack;
}

void CuttingSheet::add_step(std::vector<Passage>& passages, const std::string& number, const std::string& words) {
  const Stack numbers = column(list_left, number_width - 1, number, body_size, grey);
  const double left = list_left + number_width;
  std::vector<Passage> step = beside({numbers, column(left, lying_a4.right() - left, words, body_size, black)}, grid);
  for (std::size_t i = 0; i + 1 < step.size(); ++i) step[i].with_next = true;
  std::move(step.begin(), step.end(), std::back_inserter(passages));
}

std::vector<Passage> CuttingSheet::list() {
  std::vector<Passage> passages;
  if (page_.plan.pieces.empty()) add_step(passages, "", "No piece goes into this pane.");
  if (page_.plan.cuts.empty() && !page_.plan.pieces.empty()) {
    add_step(passages, "", "The pane is piece " + piece_id(page_.plan, 0) + " as it stands.");
  }
  for (const CuttingStep& step : cutting_steps(page_.plan)) {
    const std::string first = std::to_string(step.first), last = std::to_string(step.last);
    add_step(passages, step.first == step.last ? first : first + "–" + last, step.words);
  }
  return passages;
}

std::vector<Passage> CuttingSheet::remarks() {
  std::vector<Passage> passages;
  for (const std::string& remark : cutting_remarks(page_)) {
    const Stack stack = column(lying_a4.left(), list_left - gutter - lying_a4.left(), remark, small_size,
                               passages.size() < dark_remarks ? black : grey);
    for (Passage& passage : beside({stack}, grid)) passages.push_back(std::move(passage));
  }
  return passages;
}

}  // namespace

Result<std::string> write_cutting_pdf(const std::vector<CuttingPage>& pages, const std::string& shop_name,
                                      const FontLibrary& fonts) {
  if (pages.empty()) return Fault{"there is nothing to cut", "", "no pane has a plan", "Name a pane that can be cut"};
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  Canvas canvas = Canvas::pdf(make_visible("Cutting sheets · " + shop_name, " ").text);
  for (const CuttingPage& page : pages) CuttingSheet(canvas, *lettering, page, shop_name).draw();
  return canvas.finish();
}

}  // namespace ordinatio::inline paper
