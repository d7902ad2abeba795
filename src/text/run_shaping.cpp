#include "text/run_shaping.h"

#include <algorithm>

namespace ordinatio::inline text {

void shape_into(hb_buffer_t* buffer, hb_font_t* font, const RunRequest& request) {
  hb_buffer_clear_contents(buffer);
  hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_GRAPHEMES);
  hb_buffer_add_utf8(buffer, request.line.data(), static_cast<int>(request.line.size()),
                     static_cast<unsigned>(request.begin), static_cast<int>(request.end - request.begin));
  hb_buffer_set_direction(buffer, request.right_to_left ? HB_DIRECTION_RTL : HB_DIRECTION_LTR);
  hb_buffer_set_script(buffer, hb_script_from_string(script_tag(request.script).c_str(), -1));
  const std::string language(request.language.empty() ? "und" : request.language);
  hb_buffer_set_language(buffer, hb_language_from_string(language.c_str(), -1));
  hb_shape(font, buffer, request.features.data(), static_cast<unsigned>(request.features.size()));
}

std::vector<hb_feature_t> features_of(const TextStyle& style, bool spaced) {
  std::vector<hb_feature_t> features;
  const auto add = [&features](std::string_view text) {
    hb_feature_t feature;
    if (hb_feature_from_string(text.data(), static_cast<int>(text.size()), &feature)) features.push_back(feature);
  };
  if (spaced) {
    for (const char* ligatures : {"-liga", "-clig"}) add(ligatures);
  }
  const auto is_of_figures = [](std::string_view feature) {
    return feature.starts_with("onum") || feature.starts_with("lnum") || feature.starts_with("-lnum");
  };
  if (std::ranges::none_of(style.features, is_of_figures)) add("lnum");
  for (const std::string& feature : style.features) add(feature);
  return features;
}

}  // namespace ordinatio::inline text
