// An item set for its proof. Of this folder alone.
#pragma once

#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// An item that is to be shown.
struct ProvedItem {
  const Order* order = nullptr;
  std::string id;
  SetOrder set;
  MaybeFault no_bed = {};  // why no sheet can take it, until that is mended; a proof needs no bed
};

}  // namespace ordinatio::inline shop
