// Files that commands have made, to be downloaded. Of this folder alone.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "desk/exchange.h"
#include "workshop/workshop.h"

namespace ordinatio::inline desk {

/// The names of the files that a command left in its folder of out: "proofs", "jig", "panes", "specimen", "packing",
/// "loading", "plan" or "settings-card". Of any other folder there are none.
std::vector<std::string> files_in(const Shop& shop, const std::string& folder);
/// One of these. What was asked is held against the names that there are: no path is made of it.
Response made_file(const Shop& shop, const std::string& folder, const std::string& name);
/// The file's bytes, to be kept by the browser under its own name. Status 404 where it cannot be read.
Response given(const std::filesystem::path& file);
Response unknown_file();

}  // namespace ordinatio::inline desk
