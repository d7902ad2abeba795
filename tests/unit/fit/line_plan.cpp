#include "fit/line_plan.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>
#include <tuple>

#include "text/break_penalty.h"

namespace ordinatio::line_plan_test {

namespace {

/// Words of given widths, a space of 0.25 between them, in a region of given width at every height; a stand-in for
/// lettering whose true fit is known in closed form.
struct Model {
  std::vector<double> words;  // em
  std::vector<PlanQuestion::Piece> pieces;
  double width = 100, height = 60;  // mm
  double slope = 0;                 // the region narrows by that towards its upper edge, mm a mm: a trapezium
  double largest = 1e9;
  double leading = 1.2;
  double reads_well = 0;

  [[nodiscard]] double line_width(std::size_t first, std::size_t last) const {
    double sum = -0.25;
    for (std::size_t i = first; i < last; ++i) {
      sum += words[i] + 0.25;
      if (i + 1 < last && pieces[i].must_end) return std::numeric_limits<double>::infinity();
    }
    return sum;
  }
  [[nodiscard]] double width_at(double height_above_foot) const { return width - slope * height_above_foot; }

  /// The largest size at which every line, a band of height 1 em above its baseline, goes into the trapezium with the
  /// last baseline at its foot: each line's top is what meets the slanting sides.
  [[nodiscard]] double size_of(const LineEnds& ends) const {
    double size = largest;
    std::size_t first = 0;
    for (std::size_t row = 0; row < ends.size(); ++row) {
      const double top = leading * static_cast<double>(ends.size() - 1 - row) + 1;  // em above the foot
      const double line = line_width(first, ends[row]);
      first = ends[row];
      size = std::min(size, width / (line + slope * top));  // s·line ≤ width − slope·s·top
    }
    return std::min(size, height / (leading * static_cast<double>(ends.size() - 1) + 1));
  }
  /// A bound: at its baseline the region is wider than at the line's top.
  [[nodiscard]] std::vector<double> room(std::size_t rows, double size) const {
    if (size * (leading * static_cast<double>(rows - 1) + 1) > height * (1 + 1e-12)) return {};
    std::vector<double> room;
    for (std::size_t row = 0; row < rows; ++row) {
      room.push_back(width_at(size * leading * static_cast<double>(rows - 1 - row)) / size);
    }
    return room;
  }
  [[nodiscard]] double line_size(std::size_t first, std::size_t last, std::size_t row, std::size_t rows) const {
    return width / (line_width(first, last) + slope * (leading * static_cast<double>(rows - 1 - row) + 1));
  }
  [[nodiscard]] PlanQuestion question() const {
    PlanQuestion question;
    question.pieces = pieces;
    question.width = [this](std::size_t first, std::size_t last, double) { return line_width(first, last); };
    question.room = [this](std::size_t rows, double size) { return room(rows, size); };
    question.line_size = [this](std::size_t first, std::size_t last, std::size_t row, std::size_t rows, std::size_t) {
      return line_size(first, last, row, rows);
    };
    question.size = [this](const LineEnds& ends, double) { return PlanFit{size_of(ends), true}; };
    question.height_size = [this](std::size_t rows, std::size_t, std::size_t) {
      return height / (leading * static_cast<double>(rows - 1) + 1);
    };
    question.largest = largest;
    question.reads_well = reads_well;
    return question;
  }
};

std::vector<LineEnds> all_plans(const Model& model) {
  std::vector<LineEnds> plans;
  const std::size_t places = model.words.size() - 1;
  for (std::size_t set = 0; set < std::size_t{1} << places; ++set) {
    LineEnds ends;
    bool legal = true;
    for (std::size_t i = 0; i < places; ++i) {
      const bool ends_here = ((set >> i) & 1) != 0;
      const PlanQuestion::Piece& piece = model.pieces[i];
      legal = legal && (ends_here ? piece.may_end || piece.must_end : !piece.must_end);
      if (ends_here) ends.push_back(i + 1);
    }
    ends.push_back(model.words.size());
    if (legal) plans.push_back(ends);
  }
  return plans;
}

struct Reading {
  int penalty = 0;
  double worth = 0;  // size × Π over the lines of (1 − reads_well) ^ (penalty / 10)
};

/// How a plan reads and what it is worth, line by line, from the words of the header alone.
Reading reading_of(const Model& model, const LineEnds& ends) {
  Reading reading{0, model.size_of(ends)};
  std::size_t first = 0;
  for (const std::size_t last : ends) {
    const PlanQuestion::Piece& piece = model.pieces[last - 1];
    int penalty = last == first + 1 && piece.alone > piece.penalty ? piece.alone : piece.penalty;
    bool runs_on = false;
    for (std::size_t i = first; i + 1 < last; ++i) runs_on |= model.pieces[i].pauses;
    if (runs_on && !piece.pauses && !piece.must_end) penalty = std::max(penalty, break_penalty::run_on);
    reading.penalty += penalty;
    reading.worth *= std::pow(1 - model.reads_well, penalty / 10.0);
    first = last;
  }
  return reading;
}

struct Looks {
  int penalty;
  double squares;
  int unevenness;
  LineEnds ends;
};

Looks looks_of(const Model& model, const LineEnds& ends, double least) {
  const std::vector<double> room = model.room(ends.size(), least);
  Looks looks{reading_of(model, ends).penalty, 0, 0, ends};
  double sum = 0;
  std::size_t first = 0;
  for (std::size_t row = 0; row < ends.size(); ++row) {
    const double left = (room[row] - model.line_width(first, ends[row])) / room[row];
    looks.squares += left * left;
    sum += left;
    first = ends[row];
  }
  const double rows = static_cast<double>(ends.size()), mean = sum / rows;
  looks.unevenness = static_cast<int>(std::lround(100 * std::sqrt(std::max(0.0, looks.squares / rows - mean * mean))));
  return looks;
}

/// What the header promises, by trying everything.
LineEnds by_brute_force(const Model& model, const LineEnds& own) {
  double best = 0;
  const std::vector<LineEnds> plans = all_plans(model);
  for (const LineEnds& ends : plans) best = std::max(best, reading_of(model, ends).worth);
  const double least = best * (1 - size_tie);
  if (reading_of(model, own).worth >= least) return own;
  std::map<std::size_t, Looks> by_rows;
  for (const LineEnds& ends : plans) {
    if (reading_of(model, ends).worth < least) continue;
    const Looks looks = looks_of(model, ends, least);
    const auto [entry, is_new] = by_rows.emplace(ends.size(), looks);
    Looks& known = entry->second;
    if (!is_new && std::tie(looks.penalty, looks.squares) < std::tie(known.penalty, known.squares)) known = looks;
  }
  const auto better = [](const auto& a, const auto& b) {
    return std::tuple(a.second.penalty, a.second.unevenness, a.first) <
           std::tuple(b.second.penalty, b.second.unevenness, b.first);
  };
  return std::min_element(by_rows.begin(), by_rows.end(), better)->second.ends;
}

Model random_model(std::mt19937& random, std::size_t words) {
  const auto between = [&random](double least, double most) {
    return std::uniform_real_distribution<double>(least, most)(random);
  };
  Model model;
  for (std::size_t i = 0; i < words; ++i) {
    model.words.push_back(between(0.4, 6));
    const double kind = between(0, 1);
    const int penalty = kind < 0.5 ? static_cast<int>(between(1, 30)) : 0;
    const int alone = between(0, 1) < 0.3 ? static_cast<int>(between(1, 30)) : 0;
    model.pieces.push_back({kind > 0.15, kind > 0.93, penalty, alone, between(0, 1) < 0.2});
  }
  model.pieces.back() = {true, true, 0, model.pieces.back().alone, false};
  constexpr double prices[] = {0, 0.02, 0.1, 0.1, 0.25, 0.5};
  model.reads_well = prices[random() % std::size(prices)];
  model.height = between(10, 150);
  model.slope = between(0, 1) < 0.5 ? 0 : between(0, 0.5) * model.width / model.height;
  if (between(0, 1) < 0.3) model.largest = between(2, 20);
  return model;
}

LineEnds lines_as_they_came(const Model& model) {
  LineEnds ends;
  for (std::size_t i = 0; i < model.pieces.size(); ++i) {
    if (model.pieces[i].must_end) ends.push_back(i + 1);
  }
  return ends;
}

}  // namespace

TEST_CASE("the plan that is found is the one that trying all plans finds, at any price of reading well") {
  const unsigned seed = 20260;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::size_t changed = 0, smaller = 0;
  for (int i = 0; i < 2000; ++i) {
    Model model = random_model(random, 1 + static_cast<std::size_t>(i % 12));
    const LineEnds own = lines_as_they_came(model);
    const ChosenPlan found = best_plan(model.question(), own);
    INFO("case " << i << ", reads_well " << model.reads_well);
    REQUIRE(found.ends == by_brute_force(model, own));
    REQUIRE(found.size == model.size_of(found.ends));
    changed += found.ends != own ? 1 : 0;
    model.reads_well = 0;
    smaller += found.size < 0.98 * model.size_of(by_brute_force(model, own)) ? 1 : 0;
  }
  CHECK(changed > 700);  // else the cases say little
  CHECK(smaller > 150);  // and so it would be if reading well never cost any size
}

TEST_CASE("no more of the size is given up for a step of reading better than the design says") {
  Model model;
  model.words = {3, 1, 4};  // 3 | 1 4 reads well, 3 1 | 4 does not, and is a fifth larger
  model.pieces = {{true, false, 0, 0}, {true, false, 10, 0}, {true, true, 0, 0}};
  const LineEnds well{1, 3}, badly{2, 3};
  const double loss = 1 - model.size_of(well) / model.size_of(badly);
  REQUIRE(loss == Approx(0.19).margin(0.005));
  model.reads_well = 0.98 * loss - size_tie;
  CHECK(best_plan(model.question(), {3}).ends == badly);
  model.reads_well = 1.02 * loss;
  CHECK(best_plan(model.question(), {3}).ends == well);
  model.pieces[1].penalty = 25;  // two and a half steps
  model.reads_well = 0.1;
  CHECK(best_plan(model.question(), {3}).ends == well);
  model.reads_well = 0.05;
  CHECK(best_plan(model.question(), {3}).ends == badly);
}

TEST_CASE("a short word is no line by itself where that is dear") {
  Model model;
  model.words = {4, 3.8, 1};
  model.pieces = {{true, false, 0, 0}, {true, false, 0, 0}, {true, true, 0, 0}};
  model.height = 80;
  model.reads_well = 0.1;
  CHECK(best_plan(model.question(), {3}).ends == LineEnds{1, 2, 3});
  model.pieces[2].alone = 25;
  CHECK(best_plan(model.question(), {3}).ends == LineEnds{1, 3});
}

TEST_CASE("lines as they came are kept where nothing is gained") {
  Model model;
  model.words = {4, 4};
  model.pieces = {{true, false, 0}, {true, true, 0}};
  model.largest = 5;
  CHECK(best_plan(model.question(), {1, 2}).ends == LineEnds{1, 2});
  CHECK(best_plan(model.question(), {2}).ends == LineEnds{2});
}

TEST_CASE("a penalty is paid only for size, and evenness decides between equals") {
  Model model;
  model.words = {3, 3, 3, 3};
  model.pieces = {{true, false, 0}, {true, false, 5}, {true, false, 0}, {true, true, 0}};
  model.height = 26;                                               // two lines at most
  CHECK(best_plan(model.question(), {4}).ends == LineEnds{2, 4});  // the only one that gains
  model.largest = 8;                                               // now 1 + 3 goes as well
  CHECK(best_plan(model.question(), {4}).ends == LineEnds{1, 4});
  model.pieces[1].penalty = 0;
  CHECK(best_plan(model.question(), {4}).ends == LineEnds{2, 4});
}

TEST_CASE("forty words are planned with few fits, whatever the region's shape") {
  std::mt19937 random(7);
  std::size_t most = 0;
  for (int i = 0; i < 60; ++i) {
    Model model = random_model(random, 40);
    for (std::size_t k = 0; k + 1 < model.pieces.size(); ++k) model.pieces[k].must_end = false;
    most = std::max(most, best_plan(model.question(), {40}).fits);
  }
  CHECK(most < fit_limit);
}

}  // namespace ordinatio::line_plan_test
