#include "base/child.h"
#include "base/wire.h"
#include "photo/formats.h"
#include "photo/photo_limits.h"

namespace ordinatio::inline photo {
namespace {

constexpr char has_photo = 'P', has_fault = 'F';

std::string pack(const Result<Photo>& photo) {
  std::string out;
  if (!photo.ok()) {
    out += has_fault;
    put(out, photo.fault());
    return out;
  }
  out.reserve(photo->rgb.size() + 32);
  out += has_photo;
  put(out, static_cast<std::uint64_t>(photo->width));
  put(out, static_cast<std::uint64_t>(photo->height));
  put(out, std::string_view(reinterpret_cast<const char*>(photo->rgb.data()), photo->rgb.size()));
  return out;
}

/// Takes nothing on trust: the child has read what a stranger wrote.
Result<Photo> unpack(std::string_view packed) {
  const Fault garbled = damaged("the decoder broke off");
  if (packed.empty()) return garbled;
  Taker taker(packed.substr(1));
  if (packed.front() == has_fault) {
    Fault fault = take_fault(taker);
    return taker.at_end() ? fault : garbled;
  }
  const auto width = taker.value<std::uint64_t>(), height = taker.value<std::uint64_t>();
  const std::string_view rgb = taker.take(taker.value<std::uint64_t>());
  if (packed.front() != has_photo || !taker.at_end() || width < 1 || height < 1 || width > photo_side ||
      height > photo_side || rgb.size() != 3 * width * height)
    return garbled;
  return Photo{static_cast<int>(width), static_cast<int>(height), {rgb.begin(), rgb.end()}};
}

}  // namespace

Result<Photo> read_photo(std::string_view bytes, const std::string& name) {
  const auto placed = [&](Fault fault) {
    fault.where = name;
    if (fault.mend.empty()) fault.mend = "Send it from the phone once more, or take another";
    return fault;
  };
  if (bytes.size() > photo_file_bytes)
    return placed(unreadable("it has more than " + std::to_string(photo_file_bytes >> 20) + " MiB", ""));
  static const ChildWords words{"the photo cannot be read", "decodes it", "the decoder", "its pixels are"};
  const ChildLimits limits{.wall = std::chrono::seconds(child_wall_seconds),
                           .cpu_seconds = child_cpu_seconds,
                           .memory = child_memory,
                           .answer = static_cast<std::size_t>(3 * working_pixels) + 1024,
                           .may_start_threads = is_heic(bytes)};  // libde265 works in threads of its own, or not at all
  const auto packed = run_in_child([&] { return pack(decoded(bytes)); }, words, limits);
  if (!packed.ok()) return placed(packed.fault());
  auto photo = unpack(*packed);
  if (!photo.ok()) return placed(photo.fault());
  return photo;
}

}  // namespace ordinatio::inline photo
