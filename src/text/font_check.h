// In: a font file's bytes. Out: what in them cannot be, so that a damaged file is named before anything is set in it.
// Never: demands checksums, which are wrong in many a sound font; draws. Of this folder alone.
#pragma once

#include <hb.h>

#include <string>
#include <string_view>

namespace ordinatio::inline text {

/// Why the face at `index` of the file is damaged; empty where its tables lie inside the file and agree with one another
/// (OpenType 1.9: table directory, head, maxp, hhea, hmtx, loca), and where the bytes are no font at all.
std::string damage_of_file(std::string_view bytes, unsigned index);
/// Why, of a face that HarfBuzz has opened: it leaves out a table that it cannot read, without a word.
std::string damage_of_face(hb_face_t* face);

}  // namespace ordinatio::inline text
