#include <cstdio>  // before jpeglib.h, which asks for FILE

#include <jpeglib.h>

#include <jerror.h>

#include <csetjmp>
#include <cstdlib>
#include <stdexcept>

#include "photo/formats.h"
#include "photo/photo_limits.h"

namespace ordinatio::inline photo {
namespace {

/// libjpeg's errors leave by longjmp: no exception may pass through C. So nothing with a destructor lives in the functions that it
/// leaves, but what the caller owns.
struct JpegErrors {
  jpeg_error_mgr manager{};
  std::jmp_buf leave{};
  std::array<char, JMSG_LENGTH_MAX> message{};
  bool cut_off = false;
};

JpegErrors& errors_of(j_common_ptr common) { return *reinterpret_cast<JpegErrors*>(common->err); }

[[noreturn]] void leave(j_common_ptr common) {
  JpegErrors& errors = errors_of(common);
  errors.manager.format_message(common, errors.message.data());
  std::longjmp(errors.leave, 1);
}

/// Of what libjpeg puts up with, the end that comes too soon is ours to refuse: it paints the rest grey.
void take_warning(j_common_ptr common, int level) {
  if (level >= 0) return;
  JpegErrors& errors = errors_of(common);
  const int code = errors.manager.msg_code;
  if (code == JWRN_JPEG_EOF || code == JWRN_HIT_MARKER || code == JWRN_HUFF_BAD_CODE) errors.cut_off = true;
}

void set_up(JpegErrors& errors) {
  jpeg_std_error(&errors.manager);
  errors.manager.error_exit = leave;
  errors.manager.emit_message = take_warning;
  errors.manager.output_message = [](j_common_ptr) {};
}

enum class JpegEnd { whole, broken, too_large, not_rgb };

JpegEnd decode(std::string_view bytes, Photo& photo, JpegErrors& errors) {
  jpeg_decompress_struct jpeg{};
  jpeg.err = &errors.manager;
  if (setjmp(errors.leave) != 0) {
    jpeg_destroy_decompress(&jpeg);
    return JpegEnd::broken;
  }
  jpeg_create_decompress(&jpeg);
  jpeg_mem_src(&jpeg, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  jpeg_read_header(&jpeg, TRUE);
  JpegEnd end = JpegEnd::whole;
  if (!is_within_limits(jpeg.image_width, jpeg.image_height)) end = JpegEnd::too_large;
  if (jpeg.jpeg_color_space == JCS_CMYK || jpeg.jpeg_color_space == JCS_YCCK) end = JpegEnd::not_rgb;
  if (end == JpegEnd::whole) {
    jpeg.out_color_space = JCS_RGB;
    jpeg_start_decompress(&jpeg);
    photo.width = static_cast<int>(jpeg.output_width), photo.height = static_cast<int>(jpeg.output_height);
    const std::size_t row = 3 * static_cast<std::size_t>(photo.width);
    photo.rgb.resize(row * static_cast<std::size_t>(photo.height));
    while (jpeg.output_scanline < jpeg.output_height) {
      JSAMPROW next = &photo.rgb[row * jpeg.output_scanline];
      jpeg_read_scanlines(&jpeg, &next, 1);
    }
    jpeg_finish_decompress(&jpeg);
  }
  jpeg_destroy_decompress(&jpeg);
  return end;
}

void encode(const Photo& photo, int quality, JpegErrors& errors, unsigned char*& bytes, unsigned long& size) {
  jpeg_compress_struct jpeg{};
  jpeg.err = &errors.manager;
  if (setjmp(errors.leave) != 0) {
    jpeg_destroy_compress(&jpeg);
    size = 0;
    return;
  }
  jpeg_create_compress(&jpeg);
  jpeg_mem_dest(&jpeg, &bytes, &size);
  jpeg.image_width = static_cast<JDIMENSION>(photo.width), jpeg.image_height = static_cast<JDIMENSION>(photo.height);
  jpeg.input_components = 3, jpeg.in_color_space = JCS_RGB;
  jpeg_set_defaults(&jpeg);
  jpeg_set_quality(&jpeg, quality, TRUE);
  jpeg_start_compress(&jpeg, TRUE);
  while (jpeg.next_scanline < jpeg.image_height) {
    auto* row = const_cast<JSAMPROW>(photo.at(0, static_cast<int>(jpeg.next_scanline)));
    jpeg_write_scanlines(&jpeg, &row, 1);
  }
  jpeg_finish_compress(&jpeg);
  jpeg_destroy_compress(&jpeg);
}

}  // namespace

Result<Photo> read_jpeg(std::string_view bytes) {
  JpegErrors errors;
  set_up(errors);
  Photo photo;
  switch (decode(bytes, photo, errors)) {
    case JpegEnd::too_large:
      return too_large();
    case JpegEnd::not_rgb:
      return unreadable("its colours are meant for print (CMYK)", "Save it as an ordinary JPEG, in sRGB");
    case JpegEnd::broken:
      return damaged(errors.message.data());
    case JpegEnd::whole:
      break;
  }
  if (errors.cut_off) return damaged("its end is missing");
  return photo;
}

std::string jpeg_of(const Photo& photo, int quality) {
  JpegErrors errors;
  set_up(errors);
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  encode(photo, quality, errors, bytes, size);
  std::string result(reinterpret_cast<const char*>(bytes), size);
  std::free(bytes);
  if (result.empty())
    throw std::runtime_error(std::string("the picture cannot be packed as JPEG: ") + errors.message.data());
  return result;
}

}  // namespace ordinatio::inline photo
