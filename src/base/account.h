// In: what a command did. Out: its account: what people are told, in the order in which it is said. Never: prints.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "base/base.h"

namespace ordinatio::inline base {

struct HeldItem {
  std::string id;  // "1042-2", "1042" for a whole order, or "line 12" where the row has no number
  Fault fault;
  bool is_item = false;  // the id is an item's number: people read it with its check character
};
struct Account {
  std::vector<std::string> told;             // what was done or found, in words; first of all that is said
  std::vector<std::filesystem::path> files;  // written, in order
  std::size_t sheets = 0, items_set = 0;
  std::vector<HeldItem> held;
  std::vector<std::string> warnings;  // set all the same, but worth a look before it is engraved
  std::vector<std::string> notes;     // how the orders were read
  double smallest_cap_height = 0;     // mm; 0 when nothing was set
  std::string smallest_item;          // its number; or the design, the face
  bool smallest_is_numbered = false;  // it is an item's number
  std::vector<std::int64_t> entries;  // of the ledger, of which the person hears by this account
};
/// Called now and then with items done and items in all.
using Progress = std::function<void(std::size_t done, std::size_t all)>;

}  // namespace ordinatio::inline base
