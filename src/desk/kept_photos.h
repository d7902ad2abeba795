// Straightened photographs that the page shows, while a piece is drawn on them. Of this folder alone.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace ordinatio::inline desk {

/// The latest few, in memory alone: nobody asked for them on the disk.
class KeptPhotos {
 public:
  /// Gives the name by which it is asked for.
  std::string keep(std::string jpeg);
  /// None of that name, or no longer: nothing.
  [[nodiscard]] const std::string* find(const std::string& name) const;

 private:
  struct Kept {
    std::string name, jpeg;
  };
  std::vector<Kept> photos_;  // the oldest first
  std::uint64_t count_ = 0;
};

}  // namespace ordinatio::inline desk
