// In: a folder of expected files and one of files just made.
// Out: what differs, in words, with pictures of it; or the expected files renewed.
// Never: knows how the files were made.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace golden {

/// Text is compared byte for byte; a picture may differ in this share of its ink, for a drawing library that rounds
/// otherwise. Dropping one dot of an i is ten times that.
inline constexpr double picture_slack = 0.002;
inline constexpr std::uintmax_t size_limit = 20 * 1024;  // bytes of an expected file

/// Empty when nothing differs. A file without its expected one counts, and so does one that was not made. `report`
/// receives what was made, and for pictures expected | difference | actual.
std::vector<std::string> differences(const std::filesystem::path& expected, const std::filesystem::path& made,
                                     const std::filesystem::path& report);

/// Makes `expected` what `made` is; gives the names of the files that changed.
std::vector<std::string> renew(const std::filesystem::path& expected, const std::filesystem::path& made);

}  // namespace golden
