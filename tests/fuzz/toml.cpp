// Any bytes as a design and as a shop.toml: a value or a Fault with a place, never a crash, and no number that is not
// finite gets through.
#include <cmath>
#include <cstdlib>

#include "design/design_file.h"
#include "workshop/shop_file.h"

using namespace ordinatio;

namespace {

void demand(bool held) {
  if (!held) std::abort();
}

void check_fault(const Fault& fault) { demand(!fault.what.empty() && fault.where.starts_with("fuzz.toml")); }

void check_design(const Design& design) {
  demand(is_convex(design.blank.outline.vertices));
  demand(std::isfinite(design.width * design.height) && design.width > 0 && design.height > 0);
  demand(inset(design.blank.outline, design.margin).has_value());
  for (const TextPart& text : design.texts) {
    demand(text.min_cap_height > 0 && text.min_cap_height <= text.max_cap_height);
    demand(!text.look.faces.empty());
  }
  for (const BorderPart& border : design.borders) demand(border.distance >= design.margin && border.width > 0);
}

void check_shop(const Shop& shop) {
  demand(shop.plan.machine.width > 0 && std::isfinite(shop.plan.machine.width));
  demand(shop.dxf.tolerance > 0);
  const Jig& jig = shop.plan.jig;
  demand(jig.fill_bed || (jig.rows > 0 && jig.columns > 0));
  demand(shop.plan.marks.places.empty() || shop.plan.marks.places.size() >= 3);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto design = parse_design(text, "fuzz.toml", "fuzz");
  design.ok() ? check_design(*design) : check_fault(design.fault());
  const auto shop = parse_shop(text, "fuzz.toml");
  shop.ok() ? check_shop(*shop) : check_fault(shop.fault());
  return 0;
}
