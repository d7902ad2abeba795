// Items of the ledger in words, and what every command that takes one off its sheet must say.
#pragma once

#include "ledger/ledger.h"

namespace ordinatio::inline intake {

/// Takes an item that is not engraved yet off its sheet, its blank free again, and gives what is to be said of that.
std::string take_off_sheet(Ledger& ledger, const LedgerPlacement& placement, const std::string& reason);
/// `1042-2/K "Rose Cottage"`
std::string named_with_words(const LedgerItem& item);
/// Its words in quotes, in one line, cut where they are long.
std::string words_in_line(std::string_view words);

}  // namespace ordinatio::inline intake
