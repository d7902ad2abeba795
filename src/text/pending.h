#pragma once
#include <string>
#include <vector>
#include "geometry/thickness.h"
namespace ordinatio {
enum class LetterCase { as_typed, upper, lower, title };
std::string in_case(std::string_view line, LetterCase letter_case, std::string_view language);
struct BreakPlace {
  std::size_t end, begin;
  int penalty;
};
std::string_view joint_of(std::string_view above, std::string_view below);
struct LineGauges {
  Gauge stroke, gap;
};
}
