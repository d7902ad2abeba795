// A piece measured from its photograph beside the printed card: photo/photo.h says how, and what cannot be known.
#pragma once

#include "base/account.h"
#include "photo/photo.h"
#include "shop/shelf.h"

namespace ordinatio::inline shop {

/// The table as seen from straight above, to be looked at, and the piece on it.
struct PieceSight {
  std::string jpeg;
  int width = 0, height = 0;  // of the picture, pixels
  Transform to_piece;         // from its pixels, y down, to the piece's mm, y up
  Polygon outline;            // as proposed; a piece of the nominal size beside the card where none was found
  std::string doubt;          // why a person is to look twice; empty: no reason
};
/// Faults: no picture, none that can be measured by.
Result<PieceSight> look_at_photo(std::string_view bytes, const std::string& name, double nominal_width,
                                 double nominal_height);

struct MeasureOptions {
  LedgerCall call;
  std::filesystem::path photo;
  BlankCells words;    // id, material, …: cells that a photograph does not tell; an empty one says nothing
  bool add = false;    // puts the row into the file of pieces
  bool again = false;  // the piece has a row: what it says of its shape is changed
};
/// The row that says what the photograph shows. Faults: no picture, no piece on it, a row that would be held.
Result<Account> run_measure(const Shop& shop, const MeasureOptions& options);

/// The card to print, as PDF. paper: "letter", or A4.
Result<std::string> card_pdf(const Shop& shop, std::string_view paper);
/// The same as card.pdf in a folder.
Result<Account> run_card(const Shop& shop, std::string_view paper, const std::filesystem::path& out);

}  // namespace ordinatio::inline shop
