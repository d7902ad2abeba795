#include "workshop/jig_table.h"

#include <algorithm>

namespace ordinatio::inline workshop {
namespace {

constexpr std::size_t jig_name_limit = 40;  // letters; it goes into names of files
constexpr int grid_limit = 1'000;           // rows or columns; more is a slip of the pen
constexpr NumberRange any_kerf{0, 5};       // mm; a cut of that width is a saw's

constexpr std::string_view grid_keys[] = {"rows", "columns", "pitch", "first", "pocket"};
constexpr std::string_view other_keys[] = {"fill",  "gap",       "edge", "lie",  "order",
                                           "datum", "clearance", "kerf", "notch"};

constexpr Word<Jig::Lie> lie_words[] = {
    {"as-drawn", Jig::Lie::as_drawn}, {"quarter-turn", Jig::Lie::quarter_turn}, {"as-fits", Jig::Lie::as_fits}};
constexpr Word<Jig::Order> pocket_order_words[] = {{"rows-from-top", Jig::Order::rows_from_top},
                                                   {"rows-from-bottom", Jig::Order::rows_from_bottom},
                                                   {"columns-from-top", Jig::Order::columns_from_top},
                                                   {"columns-from-bottom", Jig::Order::columns_from_bottom}};
constexpr Word<Jig::Datum> datum_words[] = {{"lower-left", Jig::Datum::lower_left},
                                            {"lower-right", Jig::Datum::lower_right},
                                            {"upper-left", Jig::Datum::upper_left},
                                            {"upper-right", Jig::Datum::upper_right}};

/// Keys that have no use beside what `fill` says.
void refuse_keys(TomlTable& jig, std::span<const std::string_view> keys, const std::string& why,
                 const std::string& mend) {
  for (const std::string_view key : keys) {
    if (jig.has(key)) jig.fault(key, "has no use here", why, mend);
  }
}

void require_grid(TomlTable& jig, const Jig& into) {
  jig.require("rows", "rows = 3");
  jig.require("columns", "columns = 2");
  jig.require("first", "first = [25, 25]");
  if (into.rows > 1 || into.columns > 1) jig.require("pitch", "pitch = [180, 120]");
}

void read_jig(TomlTable& jig, Jig& into) {
  constexpr std::string_view fill_keys[] = {"gap", "edge"};
  Point pitch, pocket;
  jig.read("rows", into.rows, 1, grid_limit);
  jig.read("columns", into.columns, 1, grid_limit);
  jig.read("pitch", pitch, any_size);
  jig.read("first", into.first, any_distance);
  jig.read("pocket", pocket, any_size);
  jig.read("gap", into.gap, any_distance);
  jig.read("edge", into.edge, any_distance);
  jig.read("lie", into.lie, lie_words);
  jig.read("order", into.order, pocket_order_words);
  jig.read("datum", into.datum, datum_words);
  jig.read("clearance", into.clearance, any_distance);
  jig.read("kerf", into.kerf, any_kerf);
  jig.read("notch", into.notch, any_distance);
  into.pitch_x = pitch.x, into.pitch_y = pitch.y;
  into.pocket_width = pocket.x, into.pocket_height = pocket.y;

  into.fill_bed = std::ranges::none_of(grid_keys, [&jig](std::string_view key) { return jig.has(key); });
  jig.read("fill", into.fill_bed);
  if (into.fill_bed) {
    refuse_keys(jig, grid_keys, "fill is true: the bed is filled without a cut board",
                "Take it out, or write fill = false");
  } else {
    refuse_keys(jig, fill_keys, "the pockets of a cut board are where they are", "Take it out, or write fill = true");
    require_grid(jig, into);
  }
}

void check_name(TomlTable& jigs, const std::string& name) {
  const auto is_plain = [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' || c == '_';
  };
  if (!name.empty() && name.size() <= jig_name_limit && std::ranges::all_of(name, is_plain)) return;
  jigs.fault(name, "is no name for a board", "it stands on sheets and in names of files",
             "Take letters, digits, hyphens and low lines, " + std::to_string(jig_name_limit) + " at most");
}

}  // namespace

void read_jigs(TomlTable jigs, Shop& into) {
  for (auto& [name, table] : jigs.named_tables()) {
    check_name(jigs, name);
    Jig& jig = into.named_jigs.emplace_back();
    read_jig(table, jig);
    jig.name = name;
  }
  read_jig(jigs, into.plan.jig);
  const auto stands_there = [&jigs](std::string_view key) { return jigs.has(key); };
  into.has_plain_jig = into.named_jigs.empty() || std::ranges::any_of(grid_keys, stands_there) ||
                       std::ranges::any_of(other_keys, stands_there);
}

MaybeFault check_boards(const Shop& shop) {
  BedPlan plan = shop.plan;
  if (shop.has_plain_jig) {
    if (auto fault = check_plan(plan)) return fault;
  }
  for (const Jig& jig : shop.named_jigs) {
    plan.jig = jig;
    if (auto fault = check_plan(plan)) return fault;
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline workshop
