// In: what a person wishes of one item's setting, as it is typed, and as the ledger and manifests keep it.
// Out: the same as a value, and as text again.
// Never: knows which designs there are, or what one of them allows.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline design {

/// How one item is to be set, beside what its design says. What is not wished is as the design has it.
struct SettingWish {
  std::string design{};          // another design's name, with its face and size (variant.h); empty: the order's own
  std::optional<double> size{};  // mm, which the largest capitals do not exceed
  std::optional<Point> nudge{};  // mm, from where the block of the customer's words would stand, as the piece is seen
  bool lines_kept = false;       // lines end where they were typed to end
  std::string unread{};          // a text that was kept and cannot be read: the item is held for it
  [[nodiscard]] bool is_plain() const { return *this == SettingWish{}; }
  friend bool operator==(const SettingWish&, const SettingWish&) = default;
};

// A slip of the pen beyond these; the design and the piece set narrower bounds.
inline constexpr double largest_wished_size = 1000;      // mm, as in designs
inline constexpr double furthest_nudge = 1000;           // mm, either way
inline constexpr int wish_decimals = 3;                  // mm: what a file of the bed has; more is rounded
inline constexpr std::size_t longest_design_name = 300;  // bytes

// ---- setting_wish.cpp ----
/// "8.5": mm. Faults: no such number, out of bounds. `where` is the Fault's place.
Result<double> wished_size(std::string_view text, const std::string& where);
/// "1.5,-2": mm to the right and up.
Result<Point> wished_nudge(std::string_view text, const std::string& where);
/// "slate, face script". Faults: empty, too long.
Result<std::string> wished_design(std::string_view text, const std::string& where);

/// "size 8.5; nudge 1.5,-2; lines kept; design slate, face script"; empty where nothing is wished.
std::string setting_text(const SettingWish& wish);
/// What setting_text wrote. Faults: anything else.
Result<SettingWish> parse_setting(std::string_view text, const std::string& where);
/// The same, of what was kept: where it cannot be read, the wish says so.
SettingWish kept_setting(std::string_view text);

/// What was wished before, and in its place what is wished now. A nudge by nothing takes the one before back.
SettingWish with_changes(SettingWish before, const SettingWish& now);

}  // namespace ordinatio::inline design
