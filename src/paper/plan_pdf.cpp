#include "paper/plan_pdf.h"

#include <algorithm>
#include <cmath>

#include "base/phrase.h"
#include "paper/page.h"
#include "plan/plan_words.h"

namespace ordinatio::inline paper {
namespace {

constexpr double chart_share = 0.52;                 // of the page's width; the stations' words have the rest
constexpr double bar_height = 2.6;                   // mm, on the baseline of the station's name
constexpr double least_bar = 0.6;                    // mm: a day of a long plan is still seen
constexpr double week_line = 0.15, head_line = 0.2;  // mm
constexpr long most_marked_days = 420;               // the Mondays of more would be a grey field
constexpr Colour pale{0xD0, 0xD0, 0xD0}, bar_grey{0x8A, 0x8A, 0x8A};
constexpr const char* how_it_is_reckoned =
    "A bar goes from a station's first day of work to its last, as all goes on average; a grey line is a Monday. What "
    "a station "
    "finishes on a day goes on to the next station on the day after. A load waits until it is full or nothing more "
    "comes. Pieces "
    "that break by lot are begun anew on the next day.";

Path bar(double left, double right, double bottom, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

/// Sets the plan between two margins.
class PlanText {
 public:
  PlanText(Lettering& lettering, const Paper& paper, const PlanTask& task, const Plan& plan)
      : lettering_(lettering),
        left_(paper.left()),
        right_(paper.right()),
        chart_(paper.right() - chart_share * (paper.right() - paper.left())),
        task_(task),
        plan_(plan) {
    end_ = std::max(plan.done.high, plan.done.middle);
    for (const StationPlan& station : plan.stations) end_ = std::max(end_, station.last);
  }

  std::vector<Passage> passages() {
    std::vector<Passage> all;
    const auto append = [&all](std::vector<Passage> more) {
      all.insert(all.end(), std::move_iterator(more.begin()), std::move_iterator(more.end()));
    };
    append(words(done_words(task_, plan_), body_size, black));
    append(words(slowest_words(task_, plan_), body_size, black));
    append(words(prepare_words(plan_), body_size, black));
    all.push_back(blank_lines(1));
    all.push_back(head());
    for (std::size_t i = 0; i < task_.stations.size(); ++i) all.push_back(station(i));
    all.push_back(last_row());
    add_purchases(all);
    all.push_back(blank_lines(1));
    append(words(how_it_is_reckoned, small_size, grey));
    return all;
  }

 private:
  Cell cell(double x, std::string_view text, double size, Colour colour, int line) {
    return {x, lettering_.set(text, size), {colour, alarm}, line};
  }
  std::vector<Passage> words(std::string_view text, double size, Colour colour) {
    Stack stack;
    for (SetLine& line : lettering_.set_column(text, size, right_ - left_)) {
      stack.push_back({left_, std::move(line), {colour, alarm}, 1});
    }
    return beside({stack}, grid);
  }
  Cell cell_to_fit(double x, double room, std::string_view text, double size, Colour colour, int line) {
    Cell set = cell(x, text, size, colour, line);
    if (set.text.width() > room) set.text.size *= room / set.text.width();
    return set;
  }

  /// Where a day begins on the chart.
  [[nodiscard]] double x_of(Day day) const {
    const double days = static_cast<double>((end_ - task_.from).count() + 1);
    return chart_ + (right_ - chart_) * static_cast<double>((day - task_.from).count()) / days;
  }
  [[nodiscard]] Path bar_of(Day first, Day last) const {
    const double from = x_of(first), to = x_of(last + std::chrono::days(1));
    return bar(from, std::max(to, from + least_bar), 0, bar_height);
  }
  /// The Mondays, behind a row of so many grid lines.
  void add_weeks(Passage& row) const {
    if ((end_ - task_.from).count() > most_marked_days) return;
    Path lines;
    for (Day day = task_.from; day <= end_; day += std::chrono::days(1)) {
      if (weekday_of(day) != 0) continue;
      const double x = x_of(day);
      lines.append(bar(x - week_line / 2, x + week_line / 2, 0, row.lines * grid));
    }
    if (!lines.empty()) row.inks.push_back({0, std::move(lines), pale, row.lines});
  }

  Passage head() {
    Passage row;
    row.lines = 2;
    row.with_next = true;
    row.cells.push_back(cell(left_, "Station", small_size, grey, 1));
    Cell days = cell(0, "days", small_size, grey, 1), end = cell(0, day_text(end_), small_size, grey, 1);
    days.x = chart_ - gutter - days.text.width();
    end.x = right_ - end.text.width();
    row.cells.push_back(std::move(days));
    row.cells.push_back(cell(chart_, day_text(task_.from), small_size, grey, 1));
    row.cells.push_back(std::move(end));
    row.inks.push_back({0, bar(left_, right_, grid / 2, grid / 2 + head_line), grey, 2});
    return row;
  }

  Passage station(std::size_t i) {
    const WorkStation& what = task_.stations[i];
    const StationPlan& own = plan_.stations[i];
    const bool is_slowest = i == plan_.slowest;
    Passage row;
    row.lines = 4;
    add_weeks(row);
    Cell days = cell(0, std::to_string(own.days), body_size, black, 1);
    days.x = chart_ - gutter - days.text.width();
    const double room = chart_ - gutter - left_;
    row.cells.push_back(cell_to_fit(left_, days.x - left_ - 2, what.name, body_size, black, 1));
    row.cells.push_back(std::move(days));
    const std::string breakage = breakage_words(what);
    const std::string pieces = counted(static_cast<std::size_t>(own.pieces), "piece") + ", " + rate_words(what);
    row.cells.push_back(cell_to_fit(left_, room, pieces, small_size, grey, 2));
    row.cells.push_back(
        cell_to_fit(left_, room, hours_words(what) + (breakage.empty() ? "" : "; " + breakage), small_size, grey, 3));
    row.inks.push_back({0, bar_of(own.first, own.last), is_slowest ? black : bar_grey, 1});
    const std::string dates = day_text(own.first) + (own.first == own.last ? "" : " to " + day_text(own.last)) +
                              (is_slowest ? "; holds everything up" : "");
    row.cells.push_back(cell_to_fit(chart_, right_ - chart_, dates, small_size, is_slowest ? black : grey, 2));
    return row;
  }

  /// When all is done: from one run of ten to nine of ten, and the middle one.
  Passage last_row() {
    Passage row;
    row.lines = 3;
    add_weeks(row);
    row.cells.push_back(cell(left_, "All done", body_size, black, 1));
    row.cells.push_back(
        cell_to_fit(left_, chart_ - gutter - left_, "in 8 runs of 10; dark: in half of them", small_size, grey, 2));
    row.inks.push_back({0, bar_of(plan_.done.low, plan_.done.high), bar_grey, 1});
    Path middle = bar_of(plan_.done.middle, plan_.done.middle);
    row.inks.push_back({0, std::move(middle), black, 1});
    std::string dates = day_text(plan_.done.low);
    if (plan_.done.high != plan_.done.low) dates += " to " + day_text(plan_.done.high);
    row.cells.push_back(cell_to_fit(chart_, right_ - chart_, dates, small_size, grey, 2));
    return row;
  }

  void add_purchases(std::vector<Passage>& all) {
    const std::vector<Purchase> list = purchases(task_, plan_);
    if (list.empty()) return;
    Passage heading;
    heading.with_next = true;
    heading.cells.push_back(cell(left_, "To buy", small_size, grey, 1));
    heading.rules.push_back({left_, right_, 0});
    all.push_back(std::move(heading));
    for (const Purchase& one : list) {
      Passage row;
      row.cells.push_back(cell_to_fit(left_, chart_ - gutter - left_, std::to_string(one.count) + " × " + one.name,
                                      body_size, black, 1));
      row.cells.push_back(cell_to_fit(chart_, right_ - chart_, one.station, body_size, black, 1));
      all.push_back(std::move(row));
    }
  }

  Lettering& lettering_;
  double left_, right_, chart_;
  const PlanTask& task_;
  const Plan& plan_;
  Day end_;
};

double plan_ink_on(const FlowedPage& page) {
  double ink = 0;
  for (const FlowedPassage& flowed : page) {
    for (const InkCell& one : flowed.passage.inks) ink += std::abs(area_of(one.ink));
  }
  return ink;
}

}  // namespace

Result<PlanPaper> write_plan_pdf(const PlanTask& task, const Plan& plan, const std::string& shop_name,
                                 const FontLibrary& fonts, PaperSize size) {
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  const Paper paper = paper_of(size);
  const std::vector<Passage> passages = PlanText(*lettering, paper, task, plan).passages();
  const std::vector<FlowedPage> pages = flow(passages, paper.lines(), paper.lines());
  Canvas canvas = Canvas::pdf(make_visible("Workshop plan · " + shop_name, " ").text);
  PlanPaper result;
  const std::string title = counted(static_cast<std::size_t>(task.plaques), "plaque") + " from " + day_text(task.from);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    canvas.start_page(paper.width, paper.height);
    canvas.name_page("Workshop plan, page " + std::to_string(i + 1), true);
    Page page(canvas, *lettering, paper);
    page.draw_head({shop_name, "Workshop plan", title});
    page.draw(pages[i]);
    page.draw_foot({"Workshop plan", i + 1, pages.size()});
    result.ink.push_back(plan_ink_on(pages[i]));
  }
  Result<std::string> pdf = canvas.finish();
  if (!pdf.ok()) return pdf.fault();
  result.pdf = *std::move(pdf);
  return result;
}

}  // namespace ordinatio::inline paper
