#include <libexif/exif-data.h>

#include <memory>

#include "photo/formats.h"

namespace ordinatio::inline photo {

int turn_in_exif(std::string_view bytes) {
  const std::unique_ptr<ExifData, decltype(&exif_data_unref)> exif(
      exif_data_new_from_data(reinterpret_cast<const unsigned char*>(bytes.data()),
                              static_cast<unsigned>(bytes.size())),
      exif_data_unref);
  if (!exif) return 1;
  const ExifEntry* entry = exif_content_get_entry(exif->ifd[EXIF_IFD_0], EXIF_TAG_ORIENTATION);
  if (entry == nullptr || entry->format != EXIF_FORMAT_SHORT || entry->components != 1 || entry->size < 2) return 1;
  const int turn = exif_get_short(entry->data, exif_data_get_byte_order(exif.get()));
  return turn >= 1 && turn <= 8 ? turn : 1;
}

/// TIFF 6.0, tag 274: which sides of the scene the picture's first row and first column are. From 5 on rows are columns.
Photo turned(Photo photo, int orientation) {
  if (orientation <= 1 || orientation > 8) return photo;
  const bool lies = orientation >= 5;
  const bool from_right = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
  const bool from_below = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
  Photo result{lies ? photo.height : photo.width, lies ? photo.width : photo.height, {}};
  result.rgb.reserve(photo.rgb.size());
  for (int y = 0; y < result.height; ++y) {
    for (int x = 0; x < result.width; ++x) {
      const int across = lies ? y : x, down = lies ? x : y;
      const std::uint8_t* rgb =
          photo.at(from_right ? photo.width - 1 - across : across, from_below ? photo.height - 1 - down : down);
      result.rgb.insert(result.rgb.end(), rgb, rgb + 3);
    }
  }
  return result;
}

}  // namespace ordinatio::inline photo
