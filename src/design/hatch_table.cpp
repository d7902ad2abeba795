#include "design/hatch_table.h"

#include <algorithm>

namespace ordinatio::inline design {
namespace {

constexpr NumberRange any_angle{-360, 360};
constexpr NumberRange any_pitch{0.02, 50};          // mm: a fifth of a fine beam; wider rows are no fill
constexpr NumberRange any_line_width{0, 10, true};  // mm; a broad graver leaves no more
constexpr Word<Operation> line_words[] = {{"score", Operation::score}, {"mark", Operation::mark}};

}  // namespace

void read_hatch(TomlTable table, std::optional<HatchPart>& hatch) {
  if (!table.present()) return;
  HatchPart& part = hatch.emplace();
  table.require("pitch", "pitch = 0.3");
  table.read("angle", part.lines.angle, any_angle);
  table.read("pitch", part.lines.pitch, any_pitch);
  table.read("directions", part.lines.directions, 1, 2);
  table.read("spot", part.lines.spot, any_line_width);
  table.read("outline", part.lines.outline);
  table.read("operation", part.operation, line_words);
}

void hatch_by(Design& design, const std::optional<HatchPart>& shops, double machine_spot) {
  if (!design.hatch) design.hatch = shops;
  if (!design.hatch) return;
  double& spot = design.hatch->lines.spot;
  if (spot == 0) spot = machine_spot;
  for (TextPart& text : design.texts) text.beam_spot = spot;
}

MaybeFault hatch_engraving(LayerStack& layers, const HatchPart& hatch) {
  const Path ink = std::exchange(layers[Operation::engrave], {});
  if (ink.empty()) return std::nullopt;
  Result<Path> lines = hatched(ink, hatch.lines);
  if (!lines.ok()) return lines.fault();
  layers.add(hatch.operation, *lines);
  return std::nullopt;
}

}  // namespace ordinatio::inline design
