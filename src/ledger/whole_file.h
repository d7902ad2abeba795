// A database that is moved to its place when it is whole. Of this folder alone.
#pragma once

#include "base/base.h"

namespace ordinatio {

std::filesystem::path folder_of(const std::filesystem::path& file);

/// Renames a file that is whole to its place, so that it is there after the power fails, or is not.
MaybeFault move_whole(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace ordinatio
