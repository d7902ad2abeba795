// An item that is to be set otherwise than its design says. Of this folder alone.
#pragma once

#include "bookkeeping/bookkeeping.h"
#include "ledger/ledger.h"

namespace ordinatio::inline bookkeeping {

/// Writes down what is wished for the item's setting. Faults: it is made already, the design cannot do it, its words would be
/// held for it.
MaybeFault set_item(const Shop& shop, Ledger& ledger, const CorrectionOptions& options, Account& account);

}  // namespace ordinatio::inline bookkeeping
