#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct SpecimenOptions {
  std::vector<std::string> faces;   // empty: the catalogue's faces for engraving, then the workshop's own files
  std::optional<std::string> text;  // absent: the shop's sample
  std::optional<double> spot;       // mm across; absent: the machine's
  std::filesystem::path out;
};
Result<Account> run_specimen(const Shop& shop, const SpecimenOptions& options, const Progress& progress = {});

}  // namespace ordinatio::inline shop
