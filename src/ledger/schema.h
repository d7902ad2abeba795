// The tables of the ledger, version by version. Of this folder alone.
#pragma once

#include <span>

#include "ledger/database.h"

namespace ordinatio::inline ledger {

/// Marks the file as a ledger of this program: PRAGMA application_id.
inline constexpr int ledger_application = 0x4F726469;  // "Ordi"

/// What takes a ledger from version n to n + 1, for n = 0, 1, …; the last is the version that this program writes.
std::span<const char* const> ledger_steps();
/// Takes the open database from version `from` to version `to` within the transaction that is open.
void take_steps(Database& database, int from, int to);

}  // namespace ordinatio::inline ledger
