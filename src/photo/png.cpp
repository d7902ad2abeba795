#include <png.h>

#include <memory>

#include "photo/formats.h"

namespace ordinatio::inline photo {

Result<Photo> read_png(std::string_view bytes) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  const std::unique_ptr<png_image, decltype(&png_image_free)> freed(&image, png_image_free);
  if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0) return damaged(image.message);
  if (!is_within_limits(image.width, image.height)) return too_large();
  image.format = PNG_FORMAT_RGB;
  Photo photo{static_cast<int>(image.width), static_cast<int>(image.height),
              std::vector<std::uint8_t>(PNG_IMAGE_SIZE(image))};
  const png_color white{255, 255, 255};
  const bool read = png_image_finish_read(&image, &white, photo.rgb.data(), 0, nullptr) != 0;
  if (!read) return damaged(image.message);
  return photo;
}

}  // namespace ordinatio::inline photo
