#include <algorithm>
#include <map>

#include "logo/drawing.h"

namespace ordinatio::inline logo {
namespace {

using Index = std::size_t;

/// What is drawn with an element: its children, and what it refers to. `needs` counts those not yet added up.
struct Tally {
  std::vector<Index> drawn_by;
  std::size_t needs = 0;
  std::size_t count = 1;
};

/// Adds up from the leaves; each element once, however often it is referred to. Those in a loop keep their needs.
void add_up(std::vector<Tally>& tallies) {
  std::vector<Index> ready;
  for (Index i = 0; i < tallies.size(); ++i)
    if (tallies[i].needs == 0) ready.push_back(i);
  while (!ready.empty()) {
    const Index done = ready.back();
    ready.pop_back();
    for (const Index user : tallies[done].drawn_by) {
      // Held just above the limit: a product of nested references would overflow.
      tallies[user].count = std::min(tallies[user].count + tallies[done].count, expanded_count + 1);
      if (--tallies[user].needs == 0) ready.push_back(user);
    }
  }
}

}  // namespace

std::size_t References::add(std::optional<std::size_t> parent, std::size_t line, std::size_t column) {
  elements_.push_back({parent, {}, {}, line, column});
  return elements_.size() - 1;
}

std::optional<References::Finding> References::problem() const {
  std::map<std::string_view, Index> by_id;  // the first of a name counts, as in librsvg
  for (Index i = 0; i < elements_.size(); ++i)
    if (!elements_[i].id.empty()) by_id.emplace(elements_[i].id, i);

  std::vector<Tally> tallies(elements_.size());
  const auto draws = [&](Index user, Index drawn) {
    tallies[drawn].drawn_by.push_back(user);
    ++tallies[user].needs;
  };
  for (Index i = 0; i < elements_.size(); ++i) {
    const Element& element = elements_[i];
    if (element.parent) draws(*element.parent, i);
    if (element.target.empty()) continue;
    const auto target = by_id.find(element.target);
    if (target == by_id.end())
      return Finding{
          {"<use> of #" + element.target, "nothing in the file has that id", "Delete it, or draw what is missing"},
          element.line,
          element.column};
    draws(i, target->second);
  }
  add_up(tallies);

  for (Index i = 0; i < elements_.size(); ++i)
    if (tallies[i].needs > 0 && !elements_[i].target.empty())
      return Finding{{"<use> of #" + elements_[i].target, "what it draws leads back to itself", "Delete it"},
                     elements_[i].line,
                     elements_[i].column};
  for (Index i = elements_.size(); i-- > 0;)
    if (tallies[i].count > expanded_count)
      return Finding{{"<use> within <use>", "it unfolds to more than " + std::to_string(expanded_count) + " elements",
                      "Draw the logo with fewer copies"},
                     elements_[i].line,
                     elements_[i].column};
  return std::nullopt;
}

}  // namespace ordinatio::inline logo
