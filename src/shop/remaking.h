// An item that is made again, as it was made before. Of this folder alone.
#pragma once

#include "manifest/manifest.h"
#include "shop/remake.h"

namespace ordinatio::inline shop {

struct ToRemake {
  Manifest manifest;
  ManifestItem before;                 // of the manifest
  std::string called;                  // its number as messages name it
  std::optional<std::string> words{};  // absent: exactly as it was
  bool is_numbered = true;             // it has an order's number
  std::int64_t item = 0;               // of the ledger
  std::optional<int> sheet{};          // of the ledger, that it was made on
};

}  // namespace ordinatio::inline shop
