#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct DesignSpecimenOptions {
  std::vector<std::string> designs;  // empty: all of the workshop's
  std::optional<std::string> text;   // absent: each design's own samples, or the shop's
  std::filesystem::path out;
};
/// Every design with its samples: designs.pdf and designs.png. A sample that cannot be engraved is held.
Result<Account> run_design_specimen(const Shop& shop, const DesignSpecimenOptions& options,
                                    const Progress& progress = {});

}  // namespace ordinatio::inline shop
