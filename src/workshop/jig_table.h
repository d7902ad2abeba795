// How [jig] and [jig.NAME] of shop.toml become boards. Of this folder alone.
#pragma once

#include "design/toml_table.h"
#include "workshop/workshop.h"

namespace ordinatio::inline workshop {

/// The plain board and the named ones, as the table [jig] and the tables in it have them.
void read_jigs(TomlTable jigs, Shop& into);
/// What is wrong with a board, or with the marks, whatever lies there.
MaybeFault check_boards(const Shop& shop);

}  // namespace ordinatio::inline workshop
