// In: a design's name with what a customer chose besides, as orders, the ledger and manifests have it: `slate, face script,
// size 150x100`. Out: the design in that face or size.
// Never: changes the file of a design.
#pragma once

#include "design/design.h"

namespace ordinatio::inline design {

struct DesignVariant {
  std::string base;           // the design's own name
  std::string face;           // of the customer's words; empty: the design's
  std::optional<Point> size;  // of the blank, mm across and up; absent: the design's
  [[nodiscard]] bool is_plain() const { return face.empty() && !size; }
  friend bool operator==(const DesignVariant& a, const DesignVariant& b) {
    return a.base == b.base && a.face == b.face && a.size.has_value() == b.size.has_value() &&
           (!a.size || (a.size->x == b.size->x && a.size->y == b.size->y));
  }
};

/// "slate, face script, size 150x100"
std::string name_of(const DesignVariant& variant);
/// What such a name says; a name that says nothing of the kind is the base.
DesignVariant variant_named(std::string_view name);
/// "150x100", mm.
std::string size_text(Point size);
std::optional<Point> size_named(std::string_view text);

/// The design as the variant has it, called by its name, with a checksum of its own. Texts that have the customer's words
/// change their face, and roles that have the same one; boxes keep their share of width and height, as on a measured
/// piece. Faults: no room on a blank of that size.
Result<LaidDesign> varied(LaidDesign design, const DesignVariant& variant);

}  // namespace ordinatio::inline design
