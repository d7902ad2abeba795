#include <algorithm>
#include <array>

#include "blanks/panes.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

std::vector<std::string_view> spaced_words(std::string_view text) {
  std::vector<std::string_view> words;
  while (!(text = trimmed(text)).empty()) {
    const std::size_t end = std::min(text.find_first_of(" \t\r\n"), text.size());
    words.push_back(text.substr(0, end));
    text.remove_prefix(end);
  }
  return words;
}

constexpr std::array<std::string_view, 4> side_names{"left", "bottom", "right", "top"};

bool* side_named(Sides& sides, std::string_view name) {
  const std::array<bool*, 4> all{&sides.left, &sides.bottom, &sides.right, &sides.top};
  const auto found = std::find(side_names.begin(), side_names.end(), name);
  return found == side_names.end() ? nullptr : all[static_cast<std::size_t>(found - side_names.begin())];
}

Fault unreadable_thing(std::string_view entry, const std::string& why) {
  return {"the thing " + shown(entry) + " cannot be read", "", why,
          "Write clear or whole, left, bottom, width, height, name, as in: clear 10 20 30 15 scratch"};
}

Result<PaneThing> read_pane_thing(std::string_view entry) {
  const std::vector<std::string_view> words = spaced_words(entry);
  if (words.size() < 5) return unreadable_thing(entry, "a kind and four measures are wanted");
  PaneThing thing;
  if (words[0] == "whole") {
    thing.kind = PaneThing::Kind::whole;
  } else if (words[0] != "clear") {
    return unreadable_thing(entry, shown(words[0]) + " is neither clear nor whole");
  }
  std::array<double, 4> measures{};
  for (std::size_t i = 0; i < measures.size(); ++i) {
    const std::optional<double> measure = parse_number(words[i + 1]);
    if (!measure) return unreadable_thing(entry, shown(words[i + 1]) + " is no number of millimetres");
    measures[i] = *measure;
  }
  thing.box = {measures[0], measures[1], measures[0] + measures[2], measures[1] + measures[3]};
  for (std::size_t i = 5; i < words.size(); ++i) thing.name += (i == 5 ? "" : " ") + std::string(words[i]);
  if (thing.name.empty()) thing.name = words[0];
  return thing;
}

}  // namespace

std::string words_for(const Sides& sides) {
  std::string words;
  const std::array all{sides.left, sides.bottom, sides.right, sides.top};
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i]) continue;
    if (!words.empty()) words += ' ';
    words += side_names[i];
  }
  return words;
}

Result<Sides> read_sides(std::string_view cell) {
  Sides sides;
  for (const std::string_view word : spaced_words(cell)) {
    if (bool* side = side_named(sides, word)) {
      *side = true;
      continue;
    }
    const auto nearest = nearest_word(word, side_names);
    return Fault{"there is no edge " + shown(word), "", "the edges are left, bottom, right and top",
                 nearest ? "Did you mean " + *nearest + "?" : "Write those that are the factory's, parted by spaces"};
  }
  return sides;
}

Result<std::vector<PaneThing>> read_pane_things(std::string_view cell) {
  std::vector<PaneThing> things;
  while (!cell.empty()) {
    const std::size_t end = std::min(cell.find(';'), cell.size());
    const std::string_view entry = trimmed(cell.substr(0, end));
    cell.remove_prefix(std::min(end + 1, cell.size()));
    if (entry.empty()) continue;
    Result<PaneThing> thing = read_pane_thing(entry);
    if (!thing.ok()) return thing.fault();
    things.push_back(std::move(*thing));
  }
  return things;
}

}  // namespace ordinatio::inline blanks
