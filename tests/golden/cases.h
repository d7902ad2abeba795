// The small workshops of tests/golden/cases, and how each is set to work.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace golden {

struct Case {
  std::string name;  // its folder of expected files
  std::string shop;  // the workshop's folder
  enum class Work { day, stands, remake, correction } work = Work::day;
};
std::vector<Case> all_cases();

std::filesystem::path shop_folder(const Case& one);
std::filesystem::path expected_folder(const Case& one);

/// Does the work and leaves in `out` what is approved: SVG, DXF and manifest as they are, each PDF as a picture.
/// Throws std::runtime_error when the work cannot be done.
void make(const Case& one, const std::filesystem::path& out);

/// An empty folder of this name for the test that runs now.
std::filesystem::path fresh_folder(const std::string& name);

}  // namespace golden
