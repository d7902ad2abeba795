// In: orders whose pieces are ready: what goes into each parcel, and what of it is missing.
// Out: a list to pack by, with a box to tick and a picture for every piece.
// Never: decides what goes into a parcel.
#pragma once

#include "paper/paper.h"

namespace ordinatio::inline paper {

/// What a packing list says of whom a parcel is for, where the export has it.
struct ParcelHead {
  bool name = true, address = true;
};
struct ParcelItem {
  std::string number;  // with its check character
  std::string words;   // a line each
  std::string stand;   // that goes with it, in words; empty: none
  std::optional<Artwork> artwork = {};
  std::string no_picture = {};  // why there is none
};
/// A piece of the same order that does not go into this parcel.
struct MissingItem {
  std::string number, words, why;
  bool was_packed = false;  // then nobody waits for it
};
struct Parcel {
  std::string order, customer;     // the latter may be empty
  std::vector<std::string> notes;  // the customer's, to the workshop
  std::vector<ParcelItem> items;
  std::vector<MissingItem> missing;
  std::vector<std::string> addresses = {};  // more than one is told
};
struct PackingList {
  std::string pdf;
  std::vector<double> ink;  // mm² of what is filled on each page
};

// ---- packing_list.cpp ----
/// Order by order; one is parted only where it is longer than a page. Faults: no parcels.
Result<PackingList> write_packing_list(const std::vector<Parcel>& parcels, const std::string& shop_name,
                                       const FontLibrary& fonts, PaperSize size);

}  // namespace ordinatio::inline paper
