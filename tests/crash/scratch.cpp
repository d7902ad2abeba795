#include "scratch.h"

#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <system_error>

namespace ordinatio::crash {
namespace fs = std::filesystem;
namespace {

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

/// Where two texts part, with some of what follows.
std::string parting(const std::string& expected, const std::string& found) {
  std::size_t at = 0;
  while (at < expected.size() && at < found.size() && expected[at] == found[at]) ++at;
  constexpr std::size_t shown = 60;
  return "differs at byte " + std::to_string(at) + ": \"" + expected.substr(at, shown) + "\" is \"" +
         found.substr(at, shown) + '"';
}

}  // namespace

Scratch::Scratch() {
  const fs::path memory = "/dev/shm";
  const fs::path place = ::access(memory.c_str(), W_OK | X_OK) == 0 ? memory : fs::temp_directory_path();
  std::string name = place / "ordinatio-XXXXXX";
  if (::mkdtemp(name.data()) == nullptr) throw std::system_error(errno, std::generic_category(), "mkdtemp");
  folder_ = name;
}

Scratch::~Scratch() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void Scratch::become(const fs::path& model) const {
  for (const auto& entry : fs::directory_iterator(folder_)) fs::remove_all(entry.path());
  fs::copy(model, folder_, fs::copy_options::recursive);
}

FolderImage image_of(const fs::path& folder) {
  FolderImage image;
  if (!fs::exists(folder)) return image;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string name = entry.path().lexically_relative(folder).generic_string();
    if (entry.is_directory()) {
      image[name + "/"];
    } else {
      image[name] = bytes_of(entry.path());
    }
  }
  return image;
}

std::string difference(const FolderImage& expected, const FolderImage& found) {
  std::string text;
  for (const auto& [name, bytes] : expected) {
    const auto other = found.find(name);
    if (other == found.end()) {
      text += name + " is missing\n";
    } else if (other->second != bytes) {
      text += name + " " + parting(bytes, other->second) + "\n";
    }
  }
  for (const auto& [name, bytes] : found) {
    if (!expected.contains(name)) text += name + " should not be there\n";
  }
  return text;
}

}  // namespace ordinatio::crash
