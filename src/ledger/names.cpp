#include <array>

#include "ledger/ledger.h"

namespace ordinatio::inline ledger {

std::string_view name_of(ItemState state) {
  constexpr std::array<std::string_view, 10> names{"received", "held",     "ready",  "proofed", "approved",
                                                   "on sheet", "engraved", "packed", "spoiled", "cancelled"};
  return names[static_cast<std::size_t>(state)];
}

bool is_waiting(ItemState state) {
  using enum ItemState;
  return state == received || state == held || state == ready || state == proofed || state == approved ||
         state == spoiled;
}

std::string_view name_of(HeldBy holder) {
  constexpr std::array<std::string_view, 4> names{"", "program", "person", "question"};
  return names[static_cast<std::size_t>(holder)];
}

bool waits_for_person(const LedgerItem& item) {
  return item.held_by == HeldBy::person || item.held_by == HeldBy::question;
}

std::string_view name_of(LedgerBlank::State state) {
  constexpr std::array<std::string_view, 4> names{"free", "reserved", "used", "spoiled"};
  return names[static_cast<std::size_t>(state)];
}

std::string_view name_of(LedgerSheet::Kind kind) {
  constexpr std::array<std::string_view, 4> names{"day", "remake", "rest", "stands"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(LedgerPlacement::State state) {
  constexpr std::array<std::string_view, 4> names{"on sheet", "engraved", "spoiled", "withdrawn"};
  return names[static_cast<std::size_t>(state)];
}

std::string_view name_of(LedgerQuestion::Kind kind) {
  constexpr std::array<std::string_view, 3> names{"edit", "change", "older"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(LedgerQuestion::State state) {
  constexpr std::array<std::string_view, 4> names{"open", "taken", "kept", "new"};
  return names[static_cast<std::size_t>(state)];
}

std::string_view name_of(LedgerHeldRow::State state) {
  constexpr std::array<std::string_view, 3> names{"open", "mended", "let go"};
  return names[static_cast<std::size_t>(state)];
}

std::string_view name_of(EntryKind kind) {
  constexpr std::array<std::string_view, 19> names{"intake",   "answer",    "correction", "cancelling", "approval",
                                                   "packing",  "engraving", "spoiling",   "letting go", "undo",
                                                   "day",      "proof",     "remake",     "stands",     "align",
                                                   "delivery", "renewal",   "recovery",   "moving"};
  return names[static_cast<std::size_t>(kind)];
}

}  // namespace ordinatio::inline ledger
