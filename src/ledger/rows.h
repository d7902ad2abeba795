// The rows of a query as values. Of this folder alone.
#pragma once

#include "ledger/database.h"

namespace ordinatio::inline ledger {

/// read: what one row says.
template <class Read>
auto all_of(Statement& rows, Read read) {
  std::vector<decltype(read(rows))> all;
  while (rows.step()) all.push_back(read(rows));
  rows.clear();
  return all;
}

/// The first row's, or nothing where there is none.
template <class Read>
auto first_of(Statement& rows, Read read) {
  std::optional<decltype(read(rows))> first;
  if (rows.step()) first = read(rows);
  rows.clear();
  return first;
}

}  // namespace ordinatio::inline ledger
