#pragma once

#include "base/account.h"
#include "paper/paper.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct ProofOptions {
  std::filesystem::path orders, out;
  std::filesystem::path blanks;    // empty: as shop.toml says
  std::vector<std::string> items;  // empty: all
  std::string date;
  LedgerCall call{};
  bool pictures = false;      // one to send of each item, too: proof-1042-2.png
  int picture_width = 1'600;  // pixels
  PaperSize paper = PaperSize::fitting;
  bool contact_sheet = false;  // all of them small, many to a page, too: proof-contact.pdf
};
Result<Account> run_proof(const Shop& shop, const ProofOptions& options, const Progress& progress = {});
/// The file of an item's picture: "proof-1042-2.png".
std::string proof_picture_name(const std::string& item);

}  // namespace ordinatio::inline shop
