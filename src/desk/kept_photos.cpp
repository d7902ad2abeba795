#include "desk/kept_photos.h"

#include <algorithm>

namespace ordinatio::inline desk {
namespace {

constexpr std::size_t photos_kept = 4;  // some megabytes each: one a window, and the one before it

}  // namespace

std::string KeptPhotos::keep(std::string jpeg) {
  if (photos_.size() == photos_kept) photos_.erase(photos_.begin());
  photos_.push_back({std::to_string(++count_), std::move(jpeg)});
  return photos_.back().name;
}

const std::string* KeptPhotos::find(const std::string& name) const {
  const auto kept = std::ranges::find(photos_, name, &Kept::name);
  return kept == photos_.end() ? nullptr : &kept->jpeg;
}

}  // namespace ordinatio::inline desk
