#include "check/difference.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline check {
namespace {

constexpr double speakable = 9e9;  // append_number's limit

}  // namespace

std::string spoken(double value) {
  if (!(std::abs(value) < speakable)) return "a number out of all bounds";
  std::string text;
  append_number(text, value, 4);
  return text;
}

std::string spoken(Point p) { return "(" + spoken(p.x) + ", " + spoken(p.y) + ")"; }

Fault fault_of(const Difference& difference, const FileKind& kind, const Sheet& sheet) {
  std::string where = sheet.name + std::string(kind.suffix);
  if (difference.line > 0) where += ":" + std::to_string(difference.line);
  return {difference.what, where,
          "read back, the " + std::string(kind.name) + " file does not hold what the sheet holds",
          "Do not run this file. Write the sheet again; if it happens again, report it together with the sheet's "
          "manifest",
          Fault::Cause::machine};
}

}  // namespace ordinatio::inline check
