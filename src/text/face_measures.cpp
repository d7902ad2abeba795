#include <cmath>

#include "text/text.h"

namespace ordinatio {

Result<FaceMeasures> measure_letters(Typesetter& typesetter, const std::string& face_name) {
  const Result<FaceMetrics> metrics = typesetter.metrics(face_name);
  if (!metrics) return metrics.fault();
  FaceMeasures measures{metrics->cap_height, 0, 0};
  const auto take_less = [](double& least, double width) {
    if (width > 0 && std::isfinite(width) && (least == 0 || width < least)) least = width;
  };
  for (const std::string_view letter : graphemes_of(measured_letters)) {
    const Result<bool> draws = typesetter.draws(face_name, letter);
    if (!draws || !*draws) continue;
    const Result<ShapedLine> line = typesetter.shape(letter, {{face_name}, "", ""});
    if (!line) continue;
    const LineGauges gauges = typesetter.gauges(*line);
    take_less(measures.thinnest, gauges.stroke.width);
    take_less(measures.counter, gauges.gap.width);
  }
  return measures;
}

}  // namespace ordinatio
