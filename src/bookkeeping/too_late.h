// What is said where an item is beyond correction. Of this folder alone.
#pragma once

#include "ledger/ledger.h"

namespace ordinatio::inline bookkeeping {

/// It is made, packed or cancelled.
Fault too_late(Ledger& ledger, const LedgerItem& item);
/// It waits.
Fault not_on_sheet(const LedgerItem& item);

}  // namespace ordinatio::inline bookkeeping
