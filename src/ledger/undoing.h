// What taking back says. Of this folder alone.
#pragma once

#include "ledger/ledger.h"

namespace ordinatio::inline ledger {

/// Kinds of entries about an item that waits and that can be taken back.
inline constexpr EntryKind waiting_kinds[] = {EntryKind::correction, EntryKind::approval, EntryKind::packing,
                                              EntryKind::spoiling, EntryKind::cancelling};
/// Their names with a space before and behind each, for a query that asks whether one is among them.
std::string words_of(std::span<const EntryKind> kinds);

Fault cannot_undo(const std::string& name, const std::string& why);

}  // namespace ordinatio::inline ledger
