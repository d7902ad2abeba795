// Of this folder alone.
#pragma once

#include <string>
#include <string_view>

#include "base/base.h"
#include "base/lines.h"
#include "bed/bed.h"

namespace ordinatio::inline check {

/// The kind of a file, and how far it may differ from the model without being wrong.
struct FileKind {
  std::string_view name, suffix;  // "SVG", ".svg"
  double step = 0.001;            // mm, the last place of a coordinate
  double chord = 0;               // mm, how far off the curve its chords may run; 0: curves are kept
};

/// "12.345", for messages.
std::string spoken(double value);
std::string spoken(Point p);
Fault fault_of(const Difference& difference, const FileKind& kind, const Sheet& sheet);

/// Runs a check; a Difference becomes the Fault.
template <class Check>
MaybeFault checked(const FileKind& kind, const Sheet& sheet, const Check& check) {
  try {
    check();
    return std::nullopt;
  } catch (const Difference& difference) {
    return fault_of(difference, kind, sheet);
  }
}

}  // namespace ordinatio::inline check
