// Pockets of a sheet as they are typed. Of this folder alone.
#pragma once

#include "base/base.h"
#include "ledger/ledger.h"

namespace ordinatio::inline bookkeeping {

/// What lies in these pockets of the sheet and is not settled yet. Faults: nothing lies there, or it is settled.
Result<std::vector<LedgerPlacement>> placements_in(Ledger& ledger, const LedgerSheet& sheet, std::string_view pockets,
                                                   const std::string& option);

}  // namespace ordinatio::inline bookkeeping
