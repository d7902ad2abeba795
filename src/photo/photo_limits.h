// What a photo may cost, and how good it must be; each limit that is reached is a Fault, none is a crash. Of this folder alone.
#pragma once

#include <cstddef>

namespace ordinatio::inline photo {

// ---- hostile input ----
inline constexpr std::size_t photo_file_bytes = std::size_t{64} << 20;  // a phone's largest JPEG is some 30 MB
inline constexpr int photo_side = 20'000;                               // pixels: phones have 16,384 at the most
inline constexpr double photo_pixels = 120e6;                           // as decoded: phones have 108 and 50 million
inline constexpr double working_pixels = 16e6;                          // as worked on: larger ones are halved
inline constexpr std::size_t child_memory = std::size_t{1400} << 20;    // 120 million pixels twice, and their planes
inline constexpr unsigned child_cpu_seconds = 20;
inline constexpr int child_wall_seconds = 30;

// ---- what can be measured by ----
inline constexpr int least_side = 200;            // pixels: no card could be seen in less
inline constexpr double least_pixels_per_mm = 2;  // at the card: half a pixel is then a quarter of a millimetre
inline constexpr double most_blur = 0.6;          // mm, standard deviation: beyond it an edge's middle is a guess
inline constexpr double table_reach = 450;        // mm around the card; larger pieces are measured by hand
inline constexpr double table_pixels = 16e6;      // of the straightened picture
inline constexpr double least_piece = 15;         // mm: what is smaller both ways is a crumb
inline constexpr double card_margin = 4;          // mm around the card's paper where no piece is looked for

}  // namespace ordinatio::inline photo
