#include "paper/proof_text.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline paper {
namespace {

constexpr std::size_t hash_shown = 16;  // characters: whole it stands in the file's properties
constexpr double number_room = 5;       // mm, for a line\'s number before the line

std::string names_of(const std::vector<UsedFace>& faces) {
  std::string names;
  for (const UsedFace& face : faces) names += (names.empty() ? "" : ", ") + face.name;
  return names;
}

std::string width_text(const Gauge& gauge) { return std::isfinite(gauge.width) ? mm_text(gauge.width) : "none"; }

std::vector<std::pair<std::string, std::string>> facts_of(const Item& item, const Artwork& artwork) {
  const std::string x_height = artwork.x_height > 0 ? ", x-height " + mm_text(artwork.x_height, 1) : "";
  const std::string piece = artwork.blank.id.empty() ? "" : ", on piece " + artwork.blank.id;
  return {{"Design", item.design + piece + (artwork.from_behind ? ", seen through the glass" : "")},
          {"Capitals", mm_text(artwork.cap_height, 1) + " tall" + x_height},
          {"Thinnest stroke", width_text(artwork.stroke) + ", counter " + width_text(artwork.counter)},
          {"Faces", names_of(artwork.faces)},
          {"Artwork", artwork.hash.substr(0, hash_shown)}};
}

/// One rule of cleaning and all the places where it was followed.
struct NoteGroup {
  const CleaningNote* note = nullptr;
  std::vector<const CleaningNote*> places;
};

std::vector<NoteGroup> groups_of(const std::vector<CleaningNote>& notes, bool warnings) {
  std::vector<NoteGroup> groups;
  for (const CleaningNote& note : notes) {
    if ((note.weight == CleaningNote::Weight::warning) != warnings) continue;
    auto group = std::ranges::find_if(groups, [&](const NoteGroup& g) { return g.note->rule == note.rule; });
    if (group == groups.end()) group = groups.insert(group, {&note, {}});
    group->places.push_back(&note);
  }
  return groups;
}

/// "line 1, characters 4, 9; line 2, character 3"
std::string places_of(const NoteGroup& group) {
  std::string text;
  for (std::size_t i = 0; i < group.places.size(); ++i) {
    const CleaningNote& note = *group.places[i];
    const bool on_same_line = i > 0 && group.places[i - 1]->line == note.line;
    if (!on_same_line) {
      const bool several = i + 1 < group.places.size() && group.places[i + 1]->line == note.line;
      text += i > 0 ? "; line " : "line ";
      text += std::to_string(note.line);
      text += several ? ", characters " : ", character ";
    }
    if (on_same_line) text += ", ";
    text += std::to_string(note.column);
  }
  return text;
}

void append(std::vector<Passage>& passages, std::vector<Passage> more) {
  passages.insert(passages.end(), std::move_iterator(more.begin()), std::move_iterator(more.end()));
}

void keep_together(std::vector<Passage>& passages) {
  for (std::size_t i = 0; i + 1 < passages.size(); ++i) passages[i].with_next = true;
}

/// The lines as they read when they are engraved: what glues two words (U+00A0, U+202F) looks like a space.
std::vector<std::string> as_read(std::vector<std::string> lines) {
  for (std::string& line : lines) {
    for (const std::string_view glue : {"\u00A0", "\u202F"}) {
      for (std::size_t at = line.find(glue); at != std::string::npos; at = line.find(glue))
        line.replace(at, glue.size(), " ");
    }
  }
  return lines;
}

}  // namespace

std::vector<Passage> ProofText::of_artwork(const Item& item, const Artwork& artwork) {
  std::vector<Passage> passages;
  add_words(passages, item.inscription.original, artwork.lines, "As it is engraved");
  add_notes(passages, item.inscription.notes, artwork.changes);
  return passages;
}

std::vector<Passage> ProofText::of_illegible(const Item& item, const Artwork& artwork, const Fault& reason) {
  std::vector<Passage> passages;
  add_reason(passages, item, reason);
  add_words(passages, item.inscription.original, artwork.lines, "As it would be engraved");
  add_notes(passages, item.inscription.notes, artwork.changes);
  return passages;
}

std::vector<Passage> ProofText::of_held(const Item& item, const Fault& reason) {
  std::vector<Passage> passages;
  add_reason(passages, item, reason);
  add_words(passages, item.inscription.original, item.inscription.lines,
            item.inscription.lines.empty() ? "Not engraved" : "Cleaned, not engraved");
  add_notes(passages, item.inscription.notes, {});
  return passages;
}

std::vector<Passage> ProofText::facts(const Item& item, const Artwork& artwork) {
  const double pitch = column_pitch(left_, right_);
  std::vector<Stack> stacks;
  for (const auto& [name, value] : facts_of(item, artwork)) {
    if (stacks.size() == columns) break;  // the artwork's hash stands where the customer says yes
    const double x = left_ + pitch * static_cast<double>(stacks.size());
    Stack stack{cell(x, name, small_size, grey)};
    for (Cell& line : column(x, pitch - gutter, value, body_size, black)) stack.push_back(std::move(line));
    stacks.push_back(std::move(stack));
  }
  std::vector<Passage> lines = beside(stacks, grid);
  keep_together(lines);
  return lines;
}

Passage ProofText::facts_aside(double x, const Item& item, const Artwork& artwork) {
  Passage passage;
  passage.lines = 0;
  const auto add = [&passage](Cell line) {
    line.line = ++passage.lines;
    passage.cells.push_back(std::move(line));
  };
  for (const auto& [name, value] : facts_of(item, artwork)) {
    add(cell(x, name, small_size, grey));
    for (Cell& line : column(x, right_ - x, value, body_size, black)) add(std::move(line));
    ++passage.lines;
  }
  return passage;
}

std::vector<Passage> ProofText::from_order(const ProofPage& proof) {
  constexpr double name_room = 30;  // mm, for "Note to the maker"
  std::vector<Passage> passages;
  const auto add = [&](const char* name, const std::string& text) {
    if (text.empty()) return;
    if (passages.empty()) passages.push_back(blank_lines(1));
    Stack lines;
    for (const std::string_view line : lines_as_typed(text)) {
      for (Cell& part : column(left_ + name_room, right_ - left_ - name_room, line, body_size, black)) {
        lines.push_back(std::move(part));
      }
    }
    append(passages, beside({{cell(left_, name, small_size, grey)}, lines}, grid));
  };
  add("Ordered by", proof.item.customer);
  add("Ordered on", proof.ordered);
  add("Note to the maker", proof.note);
  return passages;
}

Passage ProofText::yes(const std::string& hash) {
  const double name_end = left_ + 0.64 * (right_ - left_), date_start = name_end + gutter;
  Passage passage;
  passage.lines = 5;
  passage.rules = {{left_, name_end, 3}, {date_start, right_, 3}};
  passage.cells = {cell(left_, "Every word is right. Please engrave it as it is shown here.", body_size, black),
                   cell(left_, "Name", small_size, grey), cell(date_start, "Date", small_size, grey),
                   cell(left_, "Artwork " + hash.substr(0, hash_shown), small_size, grey)};
  passage.cells[1].line = passage.cells[2].line = 4;
  passage.cells[3].line = 5;
  return passage;
}

Cell ProofText::cell(double x, std::string_view text, double size, Colour colour) {
  return {x, lettering_.set(text, size), {colour, alarm}, 1};
}

Stack ProofText::column(double x, double width, std::string_view text, double size, Colour colour) {
  Stack stack;
  for (SetLine& line : lettering_.set_column(text, size, width)) {
    const double start = line.right_to_left ? x + width - line.width() : x;
    stack.push_back({start, std::move(line), {colour, alarm}, 1});
  }
  return stack;
}

void ProofText::add_heading(std::vector<Passage>& passages, const std::vector<std::pair<double, std::string>>& heads) {
  if (!passages.empty()) passages.push_back(blank_lines(1));
  Passage heading;
  for (const auto& [x, text] : heads) heading.cells.push_back(cell(x, text, small_size, grey));
  heading.with_next = true;
  passages.push_back(std::move(heading));
}

void ProofText::add_reason(std::vector<Passage>& passages, const Item& item, const Fault& reason) {
  passages.push_back(blank_lines(1));
  append(passages, beside({column(left_, right_ - left_, reason.what, large_size, black)}, grid));
  passages.push_back(blank_lines(1));
  const std::vector<std::pair<std::string, std::string>> parts{
      {"Where", reason.where}, {"Why", reason.why}, {"Mend", reason.mend}, {"Order", item.source}};
  constexpr double name_room = 22;
  for (const auto& [name, text] : parts) {
    if (text.empty()) continue;
    append(passages, beside({{cell(left_, name, small_size, grey)},
                             column(left_ + name_room, right_ - left_ - name_room, text, body_size, black)},
                            grid));
  }
}

template <class Lines>
void ProofText::add_numbered(std::vector<Stack>& stacks, double x, double width, const Lines& lines) {
  Stack numbers, words;
  std::size_t number = 0;
  for (const auto& line : lines) {
    numbers.push_back(cell(x, std::to_string(++number), small_size, grey));
    for (Cell& part : column(x + number_room, width - number_room, line, body_size, black)) {
      words.push_back(std::move(part));
    }
    while (numbers.size() < words.size()) numbers.push_back(cell(x, "", small_size, grey));
  }
  stacks.push_back(std::move(numbers));
  stacks.push_back(std::move(words));
}

void ProofText::add_words(std::vector<Passage>& passages, const std::string& original,
                          const std::vector<std::string>& lines, const std::string& head) {
  const double width = (right_ - left_ - gutter) / 2, second = left_ + width + gutter;
  add_heading(passages, {{left_, "As it was typed"}, {second, head}});
  std::vector<Stack> stacks;
  add_numbered(stacks, left_, width, lines_as_typed(original));
  add_numbered(stacks, second, width, as_read(lines));
  append(passages, beside(stacks, grid));
}

void ProofText::add_notes(std::vector<Passage>& passages, const std::vector<CleaningNote>& notes,
                          const std::vector<std::string>& changes) {
  const double place_width = (right_ - left_ - gutter) / 2, rule_start = left_ + place_width + gutter;
  for (const bool warnings : {true, false}) {
    const std::vector<NoteGroup> groups = groups_of(notes, warnings);
    if (groups.empty() && (warnings || changes.empty())) continue;
    add_heading(passages, {{left_, warnings ? "Please look at this twice" : "What was changed"}});
    for (const NoteGroup& group : groups) {
      append(passages, beside({column(left_, place_width, places_of(group), body_size, warnings ? alarm : black),
                               column(rule_start, right_ - rule_start, group.note->rule, body_size, black)},
                              grid));
    }
    if (warnings) continue;
    for (const std::string& change : changes) {
      append(passages, beside({column(left_, right_ - left_, change, body_size, black)}, grid));
    }
  }
  if (notes.empty() && changes.empty()) add_heading(passages, {{left_, "Nothing was changed."}});
  passages.back().with_next = false;
}

}  // namespace ordinatio::inline paper
