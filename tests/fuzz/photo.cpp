// Any bytes as a photo. JPEG, PNG and EXIF are decoded here, where a sanitizer watches what we do with libjpeg, libpng and libexif;
// HEIC in its child, as the program does, since faults of its decoder are not ours. A small picture is then looked at for a card,
// straightened and searched for a piece. What must hold of all of them is checked here.
#include <cmath>
#include <cstdlib>

#include "photo/card.h"
#include "photo/formats.h"

using namespace ordinatio;

namespace {

constexpr int largest_side = 640;  // more is slow and shows no more

void must(bool holds) {
  if (!holds) std::abort();
}

void must_say(const Fault& fault) { must(!fault.what.empty() && !fault.why.empty()); }

void must_be_sound(const PieceProposal& piece) {
  Bounds box;
  for (const Point p : piece.outline) {
    must(std::isfinite(p.x) && std::isfinite(p.y));
    box.add(p);
  }
  must(piece.outline.size() >= 3 && area_of(piece.outline) > 0);
  must(std::abs(box.left) < 1e-6 && std::abs(box.bottom) < 1e-6);
}

/// The card where the whole picture would be its paper: what follows find_card is tried on every picture.
CardView whole_picture(const Photo& photo) {
  const double per_mm = photo.width / card_paper.width();
  CardView view;
  view.to_photo = {{per_mm / 2, 0, photo.width / 3.0, 0, -per_mm / 2, photo.height / 1.5, 0, 1e-5, 1}};
  view.to_card = *inverse_of(view.to_photo);
  return view;
}

void measure(const Photo& photo) {
  const auto card = find_card(photo);
  if (!card.ok()) must_say(card.fault()), must(!card.fault().mend.empty());
  const TablePicture table = straighten(photo, card.ok() ? *card : whole_picture(photo), 1);
  must(table.seen.size() * 3 == table.picture.rgb.size());
  const auto piece = propose_piece(table);
  if (piece.ok()) must_be_sound(*piece);
  if (!piece.ok()) must_say(piece.fault());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const bool in_child = bytes.size() > 8 && bytes.substr(4, 4) == "ftyp";
  const auto photo = in_child ? read_photo(bytes, "photo") : decoded(bytes);
  if (!photo.ok()) {
    must_say(photo.fault());
    return 0;
  }
  must(photo->width >= 1 && photo->height >= 1);
  must(photo->rgb.size() == 3 * static_cast<std::size_t>(photo->width) * static_cast<std::size_t>(photo->height));
  if (photo->width <= largest_side && photo->height <= largest_side) measure(*photo);
  return 0;
}
