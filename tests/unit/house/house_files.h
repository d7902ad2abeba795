// The project's files, as the house rules look at them.
#pragma once

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace fs = std::filesystem;

inline const fs::path project = PROJECT_FOLDER;
inline const std::set<std::string> sources{".cpp", ".h"};

inline std::vector<fs::path> files_below(const std::string& folder, const std::set<std::string>& endings) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(project / folder)) {
    if (entry.is_regular_file() && endings.contains(entry.path().extension().string())) files.push_back(entry.path());
  }
  std::ranges::sort(files);
  return files;
}
