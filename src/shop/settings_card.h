#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// What is not given is as shop.toml says.
struct SettingsCardOptions {
  std::string speed, power, pitch;  // two of them: "100, 200, 400 mm/s"
  std::string size;                 // "80x60"
  std::string blank;                // a piece's id, whose size it then has
  std::filesystem::path blanks;     // the file that has it
  std::filesystem::path out;
};
/// Writes the card; items_set counts its cells.
Result<Account> run_settings_card(const Shop& shop, const SettingsCardOptions& options);

}  // namespace ordinatio::inline shop
