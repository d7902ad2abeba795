// In: a run of one script, level and face. Out: what HarfBuzz makes of it, in a buffer. Never: chooses the face. Of this
// folder alone.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "text/itemise.h"

namespace ordinatio::inline text {

/// How a run is to be shaped.
struct RunRequest {
  std::string_view line;           // all of it: letters join across a change of face as they would within one
  std::size_t begin = 0, end = 0;  // bytes of the run
  bool right_to_left = false;
  int script = 0;
  std::string_view language;  // BCP 47; empty: not known
  std::span<const hb_feature_t> features;
};

/// `buffer` is emptied first. Clusters are graphemes' first bytes in the line.
void shape_into(hb_buffer_t* buffer, hb_font_t* font, const RunRequest& request);

/// The style's features; spaced letters take no ligatures, whose letters could not be spaced. Figures are lining where the
/// face has them (1893 must not read I893) unless the style says otherwise.
std::vector<hb_feature_t> features_of(const TextStyle& style, bool spaced);

}  // namespace ordinatio::inline text
