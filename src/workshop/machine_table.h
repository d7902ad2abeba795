// How [machine] and [[machines]] of shop.toml become machines. Of this folder alone.
#pragma once

#include "design/toml_table.h"
#include "workshop/workshop.h"

namespace ordinatio::inline workshop {

/// The only machine, [machine], or several, [[machines]]; sheets are made for the first.
void read_machines(TomlTable& root, Shop& into);

}  // namespace ordinatio::inline workshop
