// Exports that were dropped on the page, kept in the workshop's folder `exports`. Of this folder alone.
#pragma once

#include <filesystem>
#include <string>

#include "base/base.h"

namespace ordinatio::inline desk {

/// The export's bytes as a file in the workshop's folder `exports`, under the name that it came with: what was taken in can
/// be looked up later. Another file of that name stays; this one then has a number.
/// Faults: no name that can be kept; the folder takes no file.
Result<std::filesystem::path> kept_export(const std::filesystem::path& folder, const std::string& came_as,
                                          const std::string& bytes);
/// One that was kept, by its file's name. Faults: there is none.
Result<std::filesystem::path> export_called(const std::filesystem::path& folder, const std::string& name);

}  // namespace ordinatio::inline desk
