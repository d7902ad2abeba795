// Pictures as files, written by hand or by encoders: PNG and HEIC, and EXIF as a phone puts it before a JPEG.
#pragma once

#include <string>

#include "photo/photo.h"

namespace ordinatio {

/// 8-bit RGB, by libpng.
std::string png_of(const Photo& photo);
/// By x265, as libheif packs it.
std::string heic_of(const Photo& photo, int quality = 90);

/// An APP1 segment with one tag, Orientation, put after the JPEG's first marker (EXIF 2.3, 4.5.4; TIFF 6.0).
std::string with_orientation(const std::string& jpeg, int orientation, bool big_endian = false);
/// The same as PNG's chunk eXIf (PNG extensions 1.5.0, 3.7), before its end.
std::string png_with_orientation(const std::string& png, int orientation);

/// Stripes and corners by which every turn is told: red upper left, green upper right, blue lower left, grey elsewhere.
Photo corners_picture(int width, int height);

}  // namespace ordinatio
