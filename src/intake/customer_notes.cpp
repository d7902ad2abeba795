#include "intake/customer_notes.h"

#include <algorithm>

#include "base/account.h"
#include "bed/item_number.h"
#include "csv/shown.h"
#include "orders/order_rows.h"

namespace ordinatio::inline intake {

void CustomerNotes::add(const std::string& order, const std::string& item, const std::string& note) {
  if (trimmed(note).empty()) return;
  const auto [at, is_new] = known_.emplace(std::pair(order, note), notes_.size());
  if (is_new) {
    notes_.push_back({order, note, item});
  } else {
    ++notes_[at->second].more;
  }
}

void CustomerNotes::tell(Account& account) const {
  for (const Note& note : notes_) {
    const std::string more = note.more == 0 ? "" : " and " + std::to_string(note.more) + " more of its order";
    std::string text = with_check(note.first_item) + more + ": the customer notes " + shown_whole(note.note);
    // A day that takes an export in has said it already.
    if (std::ranges::find(account.warnings, text) == account.warnings.end())
      account.warnings.push_back(std::move(text));
  }
}

}  // namespace ordinatio::inline intake
