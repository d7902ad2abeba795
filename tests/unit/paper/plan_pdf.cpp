// The workshop's plan on paper: its pages, its bars, the same bytes.
#include "paper/plan_pdf.h"

#include <catch2/catch.hpp>

#include "check/check.h"
#include "check/pdf_content.h"

namespace ordinatio::plan_pdf_test {

namespace {

PlanTask task_of(std::size_t stations) {
  PlanTask task;
  for (std::size_t i = 0; i < stations; ++i) {
    WorkStation station;
    station.name = "station " + std::to_string(i + 1);
    station.per_hour = 2 + static_cast<double>(i);
    station.breakage = 0.02;
    station.consumables = {{"belt", 1, 40}};
    task.stations.push_back(std::move(station));
  }
  task.plaques = 120;
  task.from = *day_named("2026-12-01");
  return task;
}

PlanPaper paper_of_plan(const PlanTask& task, PaperSize size = PaperSize::a4) {
  static const FontLibrary fonts("none");
  const auto plan = plan_work(task);
  REQUIRE(plan.ok());
  const auto paper = write_plan_pdf(task, *plan, "Mill", fonts, size);
  REQUIRE(paper.ok());
  return *paper;
}

}  // namespace

TEST_CASE("a plan is one page, the same bytes for the same seed, and reads back with its bars") {
  const PlanTask task = task_of(6);
  const PlanPaper paper = paper_of_plan(task);
  CHECK(paper.ink.size() == 1);
  CHECK(paper.pdf == paper_of_plan(task).pdf);
  CHECK_FALSE(check_specimen(paper.pdf, paper.ink));
  CHECK(check_specimen(paper.pdf, {paper.ink[0] * 1.01}));
}

TEST_CASE("each station has a bar as long as its days, the one that holds all up the longest and darkest") {
  const PlanTask task = task_of(3);
  const Plan plan = *plan_work(task);
  const auto page = read_pdf_pages(paper_of_plan(task).pdf).front();
  std::vector<const PaintedPath*> bars;
  for (const PaintedPath& painted : page.painted) {
    const Bounds box = bounds_of(painted.path);
    if (painted.filled && std::abs(box.height() - 2.6) < 0.01) bars.push_back(&painted);
  }
  REQUIRE(bars.size() == 5);  // a bar each, and two of the day on which all is done
  const auto days = [&](std::size_t i) {
    return static_cast<double>((plan.stations[i].last - plan.stations[i].first).count() + 1);
  };
  const double a_day = bounds_of(bars[0]->path).width() / days(0);
  for (std::size_t i = 0; i < 3; ++i) CHECK(bounds_of(bars[i]->path).width() == Approx(a_day * days(i)).epsilon(1e-3));
  CHECK(plan.slowest == 0);
  CHECK(bars[0]->colour.red < bars[1]->colour.red);
  CHECK(bars[1]->colour.red == bars[2]->colour.red);
}

TEST_CASE("other paper, and more stations than a page has room for") {
  const PlanPaper small = paper_of_plan(task_of(4), PaperSize::a5);
  CHECK_FALSE(check_specimen(small.pdf, small.ink, 148, 210));
  const PlanPaper many = paper_of_plan(task_of(40));
  CHECK(many.ink.size() > 1);
  CHECK_FALSE(check_specimen(many.pdf, many.ink));
}

}  // namespace ordinatio::plan_pdf_test
