// In: the bytes of a DXF file, R12 or R2000.
// Out: what is unsound about its structure, whoever wrote it. Shares nothing with src/.
//
// Sources: "Drawing Interchange and File Formats, Release 12" (1992), sections on the HEADER, TABLES, BLOCKS and ENTITIES
// of a DXF file; "DXF Reference" of the year-2000 format (AC1015), sections on HEADER, CLASSES, TABLES, BLOCKS, ENTITIES,
// OBJECTS, object ownership and group code value types. Narrower than both, from what five readers took alike (tried
// in November 2026: ezdxf 0.18, GDAL 3.6, dime, assimp, dxflib): closed polylines of plain lines, no bulge, ASCII,
// CR LF, four fixed places, layer names of A–Z 0–9 $ _ - up to 31 characters.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace outside {

/// Empty when the file is sound.
std::vector<std::string> dxf_structure_faults(std::string_view bytes);

}  // namespace outside
