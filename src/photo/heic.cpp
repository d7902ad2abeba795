#include <libheif/heif.h>

#include <cstring>
#include <memory>

#include "photo/formats.h"

namespace ordinatio::inline photo {
namespace {

using Context = std::unique_ptr<heif_context, decltype(&heif_context_free)>;
using Handle = std::unique_ptr<const heif_image_handle, decltype(&heif_image_handle_release)>;
using Image = std::unique_ptr<const heif_image, decltype(&heif_image_release)>;

}  // namespace

Result<Photo> read_heic(std::string_view bytes) {
  const Context context(heif_context_alloc(), heif_context_free);
  heif_context_set_max_decoding_threads(context.get(), 0);  // tiles one by one: the child has its CPU time to itself
  heif_error error = heif_context_read_from_memory_without_copy(context.get(), bytes.data(), bytes.size(), nullptr);
  if (error.code != heif_error_Ok) return damaged(error.message);
  heif_image_handle* found = nullptr;
  error = heif_context_get_primary_image_handle(context.get(), &found);
  const Handle handle(found, heif_image_handle_release);
  if (error.code != heif_error_Ok) return damaged(error.message);
  if (!is_within_limits(heif_image_handle_get_width(found), heif_image_handle_get_height(found))) return too_large();

  heif_image* decoded_image = nullptr;
  error = heif_decode_image(found, &decoded_image, heif_colorspace_RGB, heif_chroma_interleaved_RGB, nullptr);
  const Image image(decoded_image, heif_image_release);
  if (error.code != heif_error_Ok) return damaged(error.message);
  const int width = heif_image_get_width(decoded_image, heif_channel_interleaved);
  const int height = heif_image_get_height(decoded_image, heif_channel_interleaved);
  if (!is_within_limits(width, height)) return too_large();  // what was decoded need not be what was announced
  int stride = 0;
  const std::uint8_t* rows = heif_image_get_plane_readonly(decoded_image, heif_channel_interleaved, &stride);
  const std::size_t row = 3 * static_cast<std::size_t>(width);
  if (rows == nullptr || stride < 0 || static_cast<std::size_t>(stride) < row) return damaged("no pixels");
  Photo photo{width, height, std::vector<std::uint8_t>(row * static_cast<std::size_t>(height))};
  for (int y = 0; y < height; ++y) {
    std::memcpy(&photo.rgb[row * static_cast<std::size_t>(y)], rows + static_cast<std::ptrdiff_t>(stride) * y, row);
  }
  return photo;
}

}  // namespace ordinatio::inline photo
