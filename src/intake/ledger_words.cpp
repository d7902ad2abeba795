#include "intake/ledger_words.h"

#include "bed/item_number.h"
#include "csv/shown.h"

namespace ordinatio::inline intake {

std::string words_in_line(std::string_view words) { return shown(words); }

std::string named_with_words(const LedgerItem& item) {
  return with_check(item.number) + " " + words_in_line(item.words);
}

std::string take_off_sheet(Ledger& ledger, const LedgerPlacement& placement, const std::string& reason) {
  const std::string place = ledger.sheet(placement.sheet)->name + ", pocket " + std::to_string(placement.pocket);
  ledger.withdraw(placement, reason, BlankFate::free);
  return ledger.item(placement.item)->number + " comes off " + place + ": do not engrave it there";
}

}  // namespace ordinatio::inline intake
