// How [[stations]] and [plan] of shop.toml become the workshop's stations. Of this folder alone.
#pragma once

#include "design/toml_table.h"
#include "workshop/workshop.h"

namespace ordinatio::inline workshop {

void read_stations(std::vector<TomlTable> stations, TomlTable plan, Shop& into);

}  // namespace ordinatio::inline workshop
