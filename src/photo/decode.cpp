#include "photo/brightness.h"
#include "photo/formats.h"
#include "photo/photo_limits.h"

namespace ordinatio::inline photo {
namespace {

constexpr std::string_view jpeg_start{"\xFF\xD8\xFF", 3}, png_start{"\x89PNG\r\n\x1A\n", 8};

/// A PNG's chunk eXIf, with the head that a JPEG has before it; empty where there is none.
std::string exif_of_png(std::string_view bytes) {
  for (std::size_t at = png_start.size(); at + 12 <= bytes.size();) {
    std::size_t size = 0;
    for (std::size_t i = at; i < at + 4; ++i) size = size << 8 | static_cast<std::uint8_t>(bytes[i]);
    if (size > bytes.size() - at - 12) return {};
    if (bytes.substr(at + 4, 4) == "eXIf") return std::string("Exif\0\0", 6) + std::string(bytes.substr(at + 8, size));
    at += size + 12;
  }
  return {};
}

Result<Photo> as_meant(Result<Photo> photo, std::string_view exif) {
  if (!photo.ok() || exif.empty()) return photo;
  return turned(*std::move(photo), turn_in_exif(exif));
}

}  // namespace

bool is_heic(std::string_view bytes) {
  if (bytes.size() < 12 || bytes.substr(4, 4) != "ftyp") return false;
  const std::string_view brand = bytes.substr(8, 4);
  return brand == "heic" || brand == "heix" || brand == "heim" || brand == "heis" || brand == "mif1" || brand == "msf1";
}

bool is_within_limits(double width, double height) {
  return width >= 1 && height >= 1 && width <= photo_side && height <= photo_side && width * height <= photo_pixels;
}

Fault unreadable(std::string why, std::string mend) {
  return {"the photo cannot be read", {}, std::move(why), std::move(mend)};
}
Fault too_large() {
  return unreadable("it has more than " + std::to_string(static_cast<int>(photo_pixels / 1e6)) +
                        " million pixels, or a side of more than " + std::to_string(photo_side),
                    "Take it in the phone's ordinary resolution");
}
Fault damaged(const std::string& by_whom) {
  return unreadable("it is damaged or cut off (" + by_whom + ")", "Send it from the phone once more");
}

Result<Photo> decoded(std::string_view bytes) {
  Result<Photo> photo = unreadable("it is no JPEG, PNG or HEIC", "Send the photo as the phone keeps it");
  if (bytes.starts_with(jpeg_start)) photo = as_meant(read_jpeg(bytes), bytes);
  if (bytes.starts_with(png_start)) photo = as_meant(read_png(bytes), exif_of_png(bytes));
  if (is_heic(bytes)) photo = read_heic(bytes);
  while (photo.ok() && static_cast<double>(photo->width) * photo->height > working_pixels) photo = halved(*photo);
  return photo;
}

}  // namespace ordinatio::inline photo
