#include <cmath>

#include "cleaning/cleaning.h"
#include "text/text.h"

namespace ordinatio::inline text {

Result<FaceGauges> gauge_face(Typesetter& typesetter, const std::string& face_name) {
  const Result<FaceHeights> metrics = typesetter.metrics(face_name);
  if (!metrics.ok()) return metrics.fault();
  FaceGauges measures{metrics->cap_height, 0, 0};
  const auto take_less = [](double& least, double width) {
    if (width > 0 && std::isfinite(width) && (least == 0 || width < least)) least = width;
  };
  for (const std::string_view letter : graphemes_of(gauged_letters)) {
    const Result<bool> draws = typesetter.draws(face_name, letter);
    if (!draws.ok() || !*draws) continue;
    const Result<ShapedLine> line = typesetter.shape(letter, {{face_name}, "", ""});
    if (!line.ok()) continue;
    const LineGauges gauges = typesetter.gauges(*line);
    take_less(measures.thinnest, gauges.stroke.width);
    take_less(measures.counter, gauges.gap.width);
  }
  return measures;
}

}  // namespace ordinatio::inline text
