#include "picture_files.h"

#include <libheif/heif.h>
#include <png.h>
#include <zlib.h>

#include <cstring>
#include <memory>
#include <stdexcept>

namespace ordinatio {
namespace {

std::string number(std::uint32_t value, int bytes, bool big_endian) {
  std::string text;
  for (int i = 0; i < bytes; ++i) text += static_cast<char>(value >> 8 * (big_endian ? bytes - 1 - i : i));
  return text;
}

std::string tiff_with_orientation(int orientation, bool big) {
  std::string tiff = big ? "MM" : "II";
  tiff += number(42, 2, big) + number(8, 4, big);                                              // the first directory
  tiff += number(1, 2, big) + number(0x0112, 2, big) + number(3, 2, big) + number(1, 4, big);  // one SHORT
  tiff += number(static_cast<std::uint32_t>(orientation), 2, big) + number(0, 2, big) + number(0, 4, big);
  return tiff;
}

void must(heif_error error) {
  if (error.code != heif_error_Ok) throw std::runtime_error(error.message);
}

}  // namespace

std::string png_of(const Photo& photo) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(photo.width), image.height = static_cast<png_uint_32>(photo.height);
  image.format = PNG_FORMAT_RGB;
  png_alloc_size_t size = 0;
  png_image_write_to_memory(&image, nullptr, &size, 0, photo.rgb.data(), 0, nullptr);
  std::string bytes(size, '\0');
  if (png_image_write_to_memory(&image, bytes.data(), &size, 0, photo.rgb.data(), 0, nullptr) == 0)
    throw std::runtime_error(image.message);
  bytes.resize(size);
  return bytes;
}

std::string heic_of(const Photo& photo, int quality) {
  const std::unique_ptr<heif_context, decltype(&heif_context_free)> context(heif_context_alloc(), heif_context_free);
  heif_encoder* encoder = nullptr;
  must(heif_context_get_encoder_for_format(context.get(), heif_compression_HEVC, &encoder));
  const std::unique_ptr<heif_encoder, decltype(&heif_encoder_release)> released(encoder, heif_encoder_release);
  must(heif_encoder_set_lossy_quality(encoder, quality));
  heif_image* image = nullptr;
  must(heif_image_create(photo.width, photo.height, heif_colorspace_RGB, heif_chroma_interleaved_RGB, &image));
  const std::unique_ptr<heif_image, decltype(&heif_image_release)> freed(image, heif_image_release);
  must(heif_image_add_plane(image, heif_channel_interleaved, photo.width, photo.height, 8));
  int stride = 0;
  std::uint8_t* rows = heif_image_get_plane(image, heif_channel_interleaved, &stride);
  for (int y = 0; y < photo.height; ++y)
    std::memcpy(rows + static_cast<std::ptrdiff_t>(stride) * y, photo.at(0, y),
                3 * static_cast<std::size_t>(photo.width));
  must(heif_context_encode_image(context.get(), image, encoder, nullptr, nullptr));
  std::string bytes;
  heif_writer writer{1, [](heif_context*, const void* data, std::size_t size, void* out) {
                       static_cast<std::string*>(out)->append(static_cast<const char*>(data), size);
                       return heif_error{heif_error_Ok, heif_suberror_Unspecified, ""};
                     }};
  must(heif_context_write(context.get(), &writer, &bytes));
  return bytes;
}

std::string with_orientation(const std::string& jpeg, int orientation, bool big_endian) {
  const std::string exif = std::string("Exif\0\0", 6) + tiff_with_orientation(orientation, big_endian);
  return jpeg.substr(0, 2) + "\xFF\xE1" + number(static_cast<std::uint32_t>(exif.size() + 2), 2, true) + exif +
         jpeg.substr(2);
}

std::string png_with_orientation(const std::string& png, int orientation) {
  const std::string tiff = tiff_with_orientation(orientation, true), named = "eXIf" + tiff;
  const auto sum = static_cast<std::uint32_t>(
      crc32(0, reinterpret_cast<const Bytef*>(named.data()), static_cast<uInt>(named.size())));
  const std::string chunk = number(static_cast<std::uint32_t>(tiff.size()), 4, true) + named + number(sum, 4, true);
  return png.substr(0, png.size() - 12) + chunk + png.substr(png.size() - 12);
}

Photo corners_picture(int width, int height) {
  Photo photo{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const bool left = x < width / 3, right = x >= width - width / 3, upper = y < height / 3,
                 lower = y >= height - height / 3;
      const std::array<std::uint8_t, 3> grey{128, 128, 128}, red{200, 40, 40}, green{40, 180, 40}, blue{40, 40, 200};
      const auto& rgb = left && upper ? red : right && upper ? green : left && lower ? blue : grey;
      photo.rgb.insert(photo.rgb.end(), rgb.begin(), rgb.end());
    }
  }
  return photo;
}

}  // namespace ordinatio
