#include "design/stroke_text.h"

#include <algorithm>

#include "design/layers.h"
#include "design/spacing.h"
#include "strokes/alphabet.h"

namespace ordinatio::inline design {
namespace {

bool is_of_lines(const std::string& face) { return stroke_face(face) != nullptr; }

template <class Part>
auto looks_of(Part& part) {
  std::vector<decltype(&part.look)> looks{&part.look};
  for (auto& role : part.roles) looks.push_back(&role.look);
  return looks;
}

bool all_are(const TextPart& part, bool of_lines) {
  for (const LineLook* look : looks_of(part)) {
    if (std::ranges::any_of(look->faces, [&](const std::string& face) { return is_of_lines(face) != of_lines; }))
      return false;
  }
  return part.sturdier.empty() || is_of_lines(part.sturdier) == of_lines;
}

bool narrow(SettingArea& area, double distance) {
  auto within = drawn_in(area.area, distance, kept_clear_sagitta);
  if (!within) return false;
  area.area = *std::move(within);
  area.widths = widths_of(area.area.region);
  for (HalfPlane& edge : area.neighbours) edge.offset -= distance;
  return true;
}

}  // namespace

bool is_in_strokes(const TextPart& part) { return is_of_lines(part.look.faces.front()); }

void check_strokes(TomlTable& table, TextPart& part) {
  const bool in_strokes = is_in_strokes(part);
  if (!all_are(part, in_strokes)) {
    table.fault("font", "is mixed with faces of the other kind",
                "letters of a stroke face are lines to be followed, those of others are areas to be filled",
                "Name stroke faces alone in this text (stroke, stroke-slanted), or none");
  } else if (in_strokes && table.has("operation") && is_filled(part.operation)) {
    table.fault("operation", "cannot be engrave", "a stroke face has nothing to fill", "Write \"score\" or \"mark\"");
  }
  if (in_strokes && is_filled(part.operation)) part.operation = Operation::score;
}

void settle_strokes(TextPart& part) {
  const bool in_strokes = is_in_strokes(part);
  const std::string face = part.look.faces.front();
  for (LineLook* look : looks_of(part)) {
    if (is_of_lines(look->faces.front()) != in_strokes) {
      look->faces.front() = face;
      look->axes.clear(), look->features.clear();
    }
    std::erase_if(look->faces, [&](const std::string& other) { return is_of_lines(other) != in_strokes; });
  }
  if (!part.sturdier.empty() && is_of_lines(part.sturdier) != in_strokes) part.sturdier.clear();
  if (in_strokes && is_filled(part.operation)) part.operation = Operation::score;
}

Result<TextRoom> room_for_line(const TextPart& part, const TextRoom& room) {
  TextRoom narrowed = room;
  if (!narrow(narrowed.area, part.beam_spot / 2)) {
    return Fault{"there is no room for lettering", "", "the line's width of " + mm_text(part.beam_spot) + " fills it",
                 "Choose a design with more room"};
  }
  if (narrowed.airy && !narrow(*narrowed.airy, part.beam_spot / 2)) narrowed.airy.reset();
  return narrowed;
}

}  // namespace ordinatio::inline design
