#include "blanks/blank_cells.h"
#include "csv/cells.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

/// `centre x, y, radius` or `left, bottom, width, height`, and perhaps `margin`, behind the name.
Result<KeptClear> read_places(std::span<const std::string> words, KeptClear thing, std::string_view part) {
  const bool round = !words.empty() && words.front() == "round";
  if (round) words = words.subspan(1);
  if (words.size() >= 2 && words[words.size() - 2] == "margin") {
    const auto margin = read_length(words.back(), "margin", any_distance);
    if (!margin.ok()) return margin.fault();
    thing.margin = *margin;
    words = words.first(words.size() - 2);
  }
  if (words.size() != (round ? 3 : 4)) {
    return Fault{"the place of " + shown(part) + " cannot be told", "",
                 round ? "behind round stand its centre's x, its y, and its radius"
                       : "behind its name stand left, bottom, width and height",
                 "Write it as in: stamp 20 30 25 12; hole round 15 15 3; scratch 5 60 30 4 margin 1"};
  }
  std::vector<double> n;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool is_size = i >= 2;
    const auto length = read_length(words[i], is_size ? "size" : "place",
                                    is_size ? NumberRange{least_measure, length_limit} : any_place);
    if (!length.ok()) return length.fault();
    n.push_back(*length);
  }
  thing.corners = round ? Polygon{{n[0], n[1]}} : polygon_of_box({n[0], n[1], n[0] + n[2], n[1] + n[3]});
  thing.radius = round ? n[2] : 0;
  return thing;
}

Result<KeptClear> read_thing(std::string_view part) {
  std::vector<std::string> words = words_in(part);
  KeptClear thing;
  std::size_t at = 0;
  for (; at < words.size() && lower_case(words[at]) != "round" && !number_in(words[at]); ++at) {
    thing.name += (at == 0 ? "" : " ") + words[at];
  }
  std::vector<std::string> places;
  for (; at < words.size(); ++at) {
    if (const std::string word = lower_case(words[at]); word != "mm") places.push_back(word);
  }
  return read_places(places, std::move(thing), part);
}

std::string called(const KeptClear& thing) { return thing.name.empty() ? "a thing without a name" : shown(thing.name); }

/// Whether a point of the box around the thing is farther out than a slip of the rule.
bool reaches_beyond(const Polygons& covered, const Bounds& piece) {
  for (const Polygon& polygon : covered) {
    for (const Point p : polygon) {
      if (p.x < piece.left - rule_slack || p.x > piece.right + rule_slack || p.y < piece.bottom - rule_slack ||
          p.y > piece.top + rule_slack) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

Result<std::vector<KeptClear>> read_things(std::string_view cell) {
  std::vector<KeptClear> things;
  for (const std::string_view part : parts_in(cell)) {
    auto thing = read_thing(part);
    if (!thing.ok()) return thing.fault();
    if (things.size() == part_limit) return too_many_parts();
    things.push_back(*std::move(thing));
  }
  return things;
}

MaybeFault check_places(const std::vector<KeptClear>& things, const Blank& blank) {
  constexpr double tolerance = 0.01;  // mm; a fiftieth of what a rule shows
  constexpr double least_share = 0.01;
  const Polygons piece = polygons_of(path_of(blank), tolerance);
  const Bounds box = bounds_of(path_of(blank.outline));
  for (const KeptClear& thing : things) {
    const Polygons covered = outline_of(thing);
    const bool beside = area_of(intersection(covered, piece, piece_grid)) < least_share * area_of(covered);
    if (!beside && !reaches_beyond(covered, box)) continue;
    return Fault{called(thing) + (beside ? " is beside the piece" : " reaches beyond the piece"), "",
                 "the piece reaches from 0 to " + mm_text(box.width()) + " across and from 0 to " +
                     mm_text(box.height()) + " up",
                 beside ? "Measure from the lower-left corner of the box around the piece"
                        : "Measure again; what is broken out at the edge is a chip"};
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline blanks
