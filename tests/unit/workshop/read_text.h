// What shop.toml's reader makes of a text.
#pragma once

#include <catch2/catch.hpp>

#include "workshop/shop_file.h"

namespace ordinatio {

inline Shop shop_of(const std::string& text) {
  auto shop = parse_shop(text, "shop.toml");
  if (!shop.ok()) FAIL(describe(shop.fault()));
  return *std::move(shop);
}

/// Empty where it is read.
inline std::string message_of(const std::string& text) {
  const auto shop = parse_shop(text, "shop.toml");
  return shop.ok() ? "" : describe(shop.fault());
}

}  // namespace ordinatio
