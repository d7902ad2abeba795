#include "text/text.h"
namespace ordinatio {
std::string in_case(std::string_view line, LetterCase, std::string_view) { return std::string(line); }
std::string_view joint_of(std::string_view, std::string_view) { return " "; }
std::vector<BreakPlace> Typesetter::break_places(std::string_view t, const TextStyle&) {
  std::vector<BreakPlace> r;
  for (std::size_t i = 0; i < t.size(); ++i) if (t[i] == ' ') r.push_back({i, i + 1, 0});
  return r;
}
LineGauges Typesetter::gauges(const ShapedLine&) { return {{{}, 1}, {{}, 1}}; }
}
