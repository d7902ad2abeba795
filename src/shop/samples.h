// The invented orders that a new workshop comes with.
#pragma once

#include "orders/orders.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// Faults: the orders hold some of those, nobody asked for them by --samples, and no person says that they are meant.
MaybeFault refuse_samples(const Orders& orders, const std::string& file, const LedgerCall& call);

}  // namespace ordinatio::inline shop
