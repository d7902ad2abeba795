// In: the bytes of a picture, not to be trusted. Out: its pixels as they are stored, or a Fault without a place.
// Never: is called outside a child process, but by tests. Of this folder alone.
#pragma once

#include <string>
#include <string_view>

#include "photo/photo.h"

namespace ordinatio::inline photo {

// ---- jpeg.cpp ----
Result<Photo> read_jpeg(std::string_view bytes);

// ---- png.cpp ----
/// What is transparent is taken for white.
Result<Photo> read_png(std::string_view bytes);

// ---- heic.cpp ----
/// Turned as the file says: HEIC has turns of its own, and its EXIF's is a copy that does not count.
Result<Photo> read_heic(std::string_view bytes);

// ---- turn.cpp ----
/// The EXIF tag Orientation, 1 to 8, of a JPEG's bytes or of an EXIF block; 1 where there is none or it is nonsense.
int turn_in_exif(std::string_view bytes);
/// The picture as it is meant to be seen.
Photo turned(Photo photo, int orientation);

// ---- decode.cpp ----
/// By its first bytes: decoded, turned, halved to working_pixels.
Result<Photo> decoded(std::string_view bytes);
/// ISO/IEC 14496-12: a file-type box comes first; of its brands those of ISO/IEC 23008-12 are pictures in HEVC.
bool is_heic(std::string_view bytes);
bool is_within_limits(double width, double height);
Fault too_large();
Fault damaged(const std::string& by_whom);
Fault unreadable(std::string why, std::string mend);

}  // namespace ordinatio::inline photo
