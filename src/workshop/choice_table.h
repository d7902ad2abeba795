// In: the tables [[orders.choice]] of shop.toml. Out: which words of an option stand for which design, face or size.
// Never: looks whether there is such a design. Of this folder alone.
#pragma once

#include "design/toml_table.h"
#include "orders/orders.h"
#include "workshop/workshop.h"

namespace ordinatio::inline workshop {

/// Reads them once the labels are known: a label by which a design is chosen stands in no list besides.
void read_choices(TomlTable& orders, OrderFormat& format);

}  // namespace ordinatio::inline workshop
