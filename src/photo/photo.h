// In: the photo of a piece beside the printed card (card.h), as a phone writes it: JPEG, PNG or HEIC, not to be trusted.
// Out: the table as seen from straight above, to a known scale, and a proposal for the piece's outline in mm.
// Never: decodes a picture in this process; takes its proposal for the truth: a person looks at it and says yes.
//
// The way of a photo: read_photo (in a child process with limits) → find_card (four marks, to sub-pixel) → straighten (homography)
// → propose_piece (background, largest thing, straight edges).
//
// What it cannot know, and the printed card tells people (src/paper/card.cpp):
// - The lens is taken for one that keeps straight lines straight. A phone's main camera comes to some tenths of a percent near
//   the middle of its picture, worse at the edges; wide-angle lenses are not fit for this.
// - All is measured in the plane of the card's face. A piece whose face is h above it looks larger by h / (height of the camera)
//   and slides outward by h · tan(tilt): the card must lie level with the face, on something as thick as the piece.
//
// Why no library of computer vision: OpenCV's core, imgproc and calib3d (Debian 12: 4.6) are 10 MB and nine packages more for
// whoever installs this, in return for what are some hundred lines here, each step held to a bound by a test. Its finder of marks
// brings patterns of its own, and it knows nothing of what a piece is: the outline would be ours to find all the same.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "geometry/geometry.h"
#include "photo/homography.h"

namespace ordinatio::inline photo {

/// A picture in 8-bit sRGB, row by row from the top. Places in it: pixels, x to the right, y down, the origin at the outer corner of
/// the first pixel, whose middle is (0.5, 0.5): a picture at half the size has half the coordinates.
struct Photo {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;

  [[nodiscard]] const std::uint8_t* at(int x, int y) const {
    return &rgb[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x))];
  }
};

// ---- read_photo.cpp ----
/// Decodes in a child process, turns the picture as its EXIF says, and halves it until it is small enough to work on
/// (photo_limits.h). name: the file as people know it. Faults: what no phone writes, what is cut off, what is over a limit.
Result<Photo> read_photo(std::string_view bytes, const std::string& name);

/// Where the card lies in a photo.
struct CardView {
  Homography to_photo, to_card;  // card.h has the card's coordinates
  std::array<Point, 4> marks;    // as found, pixels
  double pixels_per_mm = 0;      // at the card, in the direction in which it is least
  double blur = 0;               // mm on the card: the standard deviation of what a point is smeared to
};

// ---- find_card.cpp ----
/// Faults: no card, a mark hidden, a card too small or too blurred to measure by, two cards, a photo as in a mirror.
Result<CardView> find_card(const Photo& photo);

/// The plane of the card's face as seen from straight above. Where the photo shows nothing it is grey and not `seen`.
struct TablePicture {
  Photo picture;
  std::vector<std::uint8_t> seen;  // of each pixel: 1 where the photo shows it
  double pixels_per_mm = 0;
  Bounds box;  // what it shows, in the card's coordinates: mm, y up

  [[nodiscard]] Point to_mm(Point pixel) const {
    return {box.left + pixel.x / pixels_per_mm, box.top - pixel.y / pixels_per_mm};
  }
  [[nodiscard]] Point to_pixel(Point mm) const {
    return {(mm.x - box.left) * pixels_per_mm, (box.top - mm.y) * pixels_per_mm};
  }
};
inline constexpr double table_pixels_per_mm = 4;  // a quarter of a millimetre: edges are found to a fraction of a pixel

// ---- straighten.cpp ----
/// Bilinear; where the photo is finer, each pixel is the mean of several places. Within `table_reach` of the card and no larger than
/// `table_pixels` (photo_limits.h): what is beyond the one is not shown, by the other the scale grows coarser.
TablePicture straighten(const Photo& photo, const CardView& card, double pixels_per_mm = table_pixels_per_mm);

/// What is proposed as the piece, beside the card.
struct PieceProposal {
  /// mm, counter-clockwise, the lower-left corner of its box at the origin, turned (by 45° at most) so that its sides lie
  /// along the axes as far as they can. Simplified to `outline_tolerance`.
  Polygon outline;
  Transform
      to_card;  // from there to where it lies: to the card's coordinates, and by TablePicture::to_pixel onto the picture
  std::string
      doubt;  // empty: none. Otherwise why the outline is the box of what was found, or may be wrong, in words for people
};
inline constexpr double outline_tolerance = 0.3;  // mm: how far an edge that was found may lie from the outline

// ---- propose_piece.cpp ----
/// Faults: nothing lies beside the card that stands out from the table.
Result<PieceProposal> propose_piece(const TablePicture& table);

/// All of it. The table is there where no piece was found: then a person draws the outline.
struct PhotoSurvey {
  CardView card;
  TablePicture table;
  Result<PieceProposal> piece;
};

// ---- photo.cpp ----
Result<PhotoSurvey> survey_photo(std::string_view bytes, const std::string& name);

// ---- jpeg.cpp ----
/// The picture as JPEG, for a page that shows it. Throws where it has no pixels.
std::string jpeg_of(const Photo& photo, int quality = 90);

}  // namespace ordinatio::inline photo
