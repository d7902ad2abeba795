#include "paper/cutting_text.h"

#include <map>

#include "base/phrase.h"

namespace ordinatio::inline paper {
namespace {

/// A to Z, then AA, AB, … as columns of a table are named.
std::string letters_of(std::size_t number) {
  std::string letters;
  for (++number; number > 0; number = (number - 1) / 26) {
    letters.insert(letters.begin(), static_cast<char>('A' + (number - 1) % 26));
  }
  return letters;
}

std::string size_text(double width, double height) {
  std::string text;
  append_number(text, width, 2);
  return text + " × " + mm_text(height);
}

/// Puts the cuts into words, step by step.
class CuttingWords {
 public:
  explicit CuttingWords(const CuttingPlan& plan) : plan_(plan) {}
  CuttingStep step(std::size_t first);

 private:
  using Parts = std::vector<std::size_t>;
  [[nodiscard]] PanePart::Fate fate(std::size_t part) const { return plan_.parts[part].fate; }
  [[nodiscard]] PanePart::Fate fate_of_rest(const Cut& cut) const {
    return cut.rest() ? fate(*cut.rest()) : PanePart::Fate::waste;
  }
  [[nodiscard]] std::size_t last_of_run(std::size_t first) const;
  [[nodiscard]] bool goes_on(const Cut& before, const Cut& cut) const;
  [[nodiscard]] std::optional<std::size_t> last_of_like(std::size_t first, std::size_t last, const Parts& taken,
                                                        std::size_t next) const;
  std::string instruction(const Parts& taken, const Cut& cut, std::size_t count);
  std::string outcome(const Cut& first, const Cut& last, const Parts& measured);
  [[nodiscard]] std::string outcome_of_each(const Cut& first, const Cut& last, const Parts& pieces) const;
  std::string names_of(const Parts& parts);
  std::string name_of(std::size_t part);

  const CuttingPlan& plan_;
  std::map<std::size_t, std::size_t> letters_;  // of parts; 0 is A
};

/// Whether the cut is one more of the same: through what the one before left, as far from its fresh edge.
bool CuttingWords::goes_on(const Cut& before, const Cut& cut) const {
  return before.rest() == cut.part && before.upright == cut.upright && before.from_far == cut.from_far &&
         before.measure == cut.measure && fate(*before.measured()) == fate(*cut.measured());
}

std::size_t CuttingWords::last_of_run(std::size_t first) const {
  std::size_t last = first;
  while (last + 1 < plan_.cuts.size() && goes_on(plan_.cuts[last], plan_.cuts[last + 1])) ++last;
  return last;
}

std::string CuttingWords::name_of(std::size_t part) {
  if (part == 0) return "the pane";
  if (fate(part) == PanePart::Fate::piece) return "piece " + piece_id(plan_, plan_.parts[part].piece);
  if (fate(part) == PanePart::Fate::waste) return "waste";
  return "part " + letters_of(letters_.try_emplace(part, letters_.size()).first->second);
}

/// "part A", "parts A to D": parts of one fate, whose names follow one another.
std::string CuttingWords::names_of(const Parts& parts) {
  std::string first = name_of(parts.front()), last = first;
  for (const std::size_t part : parts) last = name_of(part);
  if (parts.size() == 1) return first;
  first.insert(first.find(' '), "s");
  return first + (parts.size() == 2 ? " and" : " to") + last.substr(last.find(' '));
}

/// Where the cuts from `next` on do to the part whose letter is next what those from `first` to `last` did to one, and leave nothing to be
/// cut: the last of them.
std::optional<std::size_t> CuttingWords::last_of_like(std::size_t first, std::size_t last, const Parts& taken,
                                                      std::size_t next) const {
  if (next >= plan_.cuts.size()) return std::nullopt;
  const Cut &done = plan_.cuts[first], &cut = plan_.cuts[next];
  const std::size_t end = last_of_run(next);
  const bool alike = done.upright == cut.upright && done.from_far == cut.from_far && done.measure == cut.measure &&
                     end - next == last - first && done.part != 0 && cut.part != 0 &&
                     letters_.at(cut.part) == letters_.at(taken.back()) + 1 &&
                     fate(*done.measured()) == PanePart::Fate::piece && fate(*cut.measured()) == PanePart::Fate::piece;
  const PanePart::Fate rest = fate_of_rest(plan_.cuts[last]);
  if (!alike || rest == PanePart::Fate::cut || rest != fate_of_rest(plan_.cuts[end])) return std::nullopt;
  return end;
}

std::string CuttingWords::instruction(const Parts& taken, const Cut& cut, std::size_t count) {
  const char* edge = cut.upright ? (cut.from_far ? "right" : "left") : (cut.from_far ? "upper" : "lower");
  std::string words = "Take " + names_of(taken) + (taken.size() == 1 ? ". Cut " : " in turn. Cut each ") +
                      (cut.upright ? "upright" : "level") + ", " + mm_text(cut.measure) + " from its " + edge + " edge";
  if (count == 1) return words + ".";
  return words + "; then " + (count == 2 ? "once" : std::to_string(count - 1) + " times") +
         " more, as far from the edge just cut.";
}

/// Of several parts that are cut alike: their pieces as they come off.
std::string CuttingWords::outcome_of_each(const Cut& first, const Cut& last, const Parts& pieces) const {
  const bool low_last = first.from_far;
  const char* end = first.upright ? (low_last ? "on the left" : "on the right") : (low_last ? "below" : "above");
  std::string words = " Pieces " + piece_id(plan_, plan_.parts[pieces.front()].piece) + " to " +
                      piece_id(plan_, plan_.parts[pieces.back()].piece) + ", as they come off";
  if (fate_of_rest(last) == PanePart::Fate::piece) return words + ", the last of each " + end + ".";
  return words + ". What is left " + end + ": waste.";
}

std::string CuttingWords::outcome(const Cut& first, const Cut& last, const Parts& measured) {
  const char* low = first.upright ? "Left: " : "Below: ";
  const char* high = first.upright ? "Right: " : "Above: ";
  std::string words = " " + ((first.from_far ? high : low) + names_of(measured)) + ". ";
  if (!last.rest()) return words + "The blade takes the rest.";
  return words + (first.from_far ? low : high) + name_of(*last.rest()) + ".";
}

CuttingStep CuttingWords::step(std::size_t first) {
  const std::size_t last = last_of_run(first);
  Parts taken{plan_.cuts[first].part}, measured;
  std::size_t end = last;
  while (const auto next = last_of_like(first, last, taken, end + 1)) {
    taken.push_back(plan_.cuts[end + 1].part);
    end = *next;
  }
  for (std::size_t i = first; i <= end; ++i) measured.push_back(*plan_.cuts[i].measured());
  if (taken.size() > 1 && fate_of_rest(plan_.cuts[end]) == PanePart::Fate::piece) {
    measured.push_back(*plan_.cuts[end].rest());
  }
  std::string words = instruction(taken, plan_.cuts[first], last - first + 1);
  words += taken.size() > 1 ? outcome_of_each(plan_.cuts[first], plan_.cuts[last], measured)
                            : outcome(plan_.cuts[first], plan_.cuts[last], measured);
  return {first + 1, end + 1, std::move(words)};
}

std::string about_pane(const CuttingPage& page) {
  std::string text = size_text(page.plan.pane.width, page.plan.pane.height);
  if (page.thickness) text += ", " + mm_text(*page.thickness) + " thick";
  if (!page.material.empty()) text = page.material + ", " + text;
  return text + ".";
}

std::string about_yield(const CuttingPlan& plan) {
  const CuttingTask& task = plan.task;
  std::string text = counted(plan.pieces.size(), "piece") + " of " + size_text(task.piece_width, task.piece_height) +
                     " at the most, by " + counted(plan.cuts.size(), "cut") + ".";
  if (plan.pane.factory.count() > 0) {
    text += " Factory edges kept: " + std::to_string(plan.factory_edges()) +
            ", corners: " + std::to_string(plan.factory_corners()) + ".";
  }
  return plan.is_best ? text : text + " There may be a better plan: the things on the pane leave too many to try.";
}

std::string about_kerf(const CuttingTask& task) {
  if (task.kerf == 0) return "Nothing is allowed for the blade: score and break on the line.";
  return "Measure to the edge of what is kept: the blade takes its " + mm_text(task.kerf) + " beyond the measure.";
}

/// "nail hole, crack": the things of one kind.
std::string names_of(const std::vector<PaneThing>& things, PaneThing::Kind kind) {
  std::string names;
  for (const PaneThing& thing : things) {
    if (thing.kind == kind) names += (names.empty() ? "" : ", ") + thing.name;
  }
  return names;
}

std::string legend(const CuttingPlan& plan) {
  std::string text = "Numbers in rings: the order of the cuts.";
  if (!plan.pieces.empty()) text += " Triangle: the piece's upper edge.";
  if (plan.pane.factory.count() > 0) text += " Heavy line: the factory's edge.";
  const std::string clear = names_of(plan.pane.things, PaneThing::Kind::clear);
  const std::string whole = names_of(plan.pane.things, PaneThing::Kind::whole);
  if (!clear.empty()) text += " Hatched: no piece takes it in (" + clear + ").";
  if (!whole.empty()) text += " Dashed: no cut goes through it (" + whole + ").";
  return text + " Grey: waste.";
}

}  // namespace

std::vector<CuttingStep> cutting_steps(const CuttingPlan& plan) {
  CuttingWords words(plan);
  std::vector<CuttingStep> steps;
  for (std::size_t next = 0; next < plan.cuts.size(); next = steps.back().last) steps.push_back(words.step(next));
  return steps;
}

std::vector<std::string> cutting_remarks(const CuttingPage& page) {
  std::vector<std::string> remarks{about_pane(page), about_yield(page.plan), about_kerf(page.plan.task),
                                   legend(page.plan)};
  if (!page.note.empty()) remarks.push_back(page.note);  // last: it may be long, and is then cut short
  return remarks;
}

}  // namespace ordinatio::inline paper
