// What taking back says. Of this folder alone.
#pragma once

#include "ledger/ledger.h"

namespace ordinatio {

/// Kinds of entries about an item that waits and that can be taken back.
inline constexpr std::string_view waiting_kinds = " correction approval packing spoiling cancelling ";

Fault cannot_undo(const std::string& name, const std::string& why);

}  // namespace ordinatio
