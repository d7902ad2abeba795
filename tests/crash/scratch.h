// A folder of a test's own, and all that lies in a folder, to be compared.
#pragma once

#include <filesystem>
#include <map>
#include <string>

namespace ordinatio::crash {

/// An empty folder, in memory where the system has such a place; it goes with this object.
class Scratch {
 public:
  Scratch();
  ~Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  /// Empties it, and puts a copy of all that lies in `model` into it.
  void become(const std::filesystem::path& model) const;

 private:
  std::filesystem::path folder_;
};

/// What lies in a folder and below: path within it → bytes; a folder's path ends in "/" and has none.
using FolderImage = std::map<std::string, std::string>;
FolderImage image_of(const std::filesystem::path& folder);
/// What tells two images apart, a line each; empty where nothing does.
std::string difference(const FolderImage& expected, const FolderImage& found);

}  // namespace ordinatio::crash
