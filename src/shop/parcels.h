// In: the ledger, and what of it a person named.
// Out: items that are ready for their parcels, with their artwork as it was engraved.
// Never: books anything. Of this folder alone.
#pragma once

#include "ledger/ledger.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// The items that were typed, each once; where none were, all that are engraved and not packed yet, order by order as these
/// came. Faults: no such item, a wrong check character.
Result<std::vector<LedgerItem>> items_to_pack(Ledger& ledger, const std::vector<std::string>& typed);
/// The orders that have an item engraved and not packed yet, as they came.
std::vector<std::string> orders_to_pack(Ledger& ledger);

/// The item as it is on its piece, from its sheet's manifest. Faults: no sheet has it; it does not come out as it was.
Result<Artwork> artwork_of(Workroom& workroom, Typesetter& typesetter, Ledger& ledger, const LedgerItem& item);

}  // namespace ordinatio::inline shop
