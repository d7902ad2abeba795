#include "shop/piece_lie.h"

#include <algorithm>
#include <cmath>

#include "bed/machine_setting.h"

namespace ordinatio::inline shop {
namespace {

/// Pieces whose sides differ from the design's by more than this share are meant for something else. Common practice, no
/// source: reclaimed pieces of one kind are a few millimetres apart.
constexpr double kind_slack = 0.25;

/// The piece as the design means it, where `takes` has room for it.
std::optional<Blank> as_meant(const BlankRow& row, const Design& design, bool is_named,
                              const std::function<bool(double width, double height)>& takes) {
  const auto near = [is_named](double a, double b) { return is_named || std::abs(a - b) <= kind_slack * b; };
  const auto goes = [&](double width, double height) {
    return near(width, design.width) && near(height, design.height) && takes(width, height);
  };
  const std::string& material = row.blank.material;
  const bool of_material =
      design.material.empty() || material.empty() || material_key(design.material) == material_key(material);
  if (of_material && goes(row.width, row.height)) return row.blank;
  if (of_material && goes(row.height, row.width)) return quarter_turned(row.blank);
  return std::nullopt;
}

/// The pocket that a piece is least too large for, as the design is drawn, and what it takes with its play.
Point room_for(const Station& station, double width, double height) {
  std::optional<Point> room;
  double least = 0;
  for (const Frame& bed : station.beds) {
    const Bounds& box = bed.pockets.front().box;
    const bool turned = bed.pockets.front().turned;
    const double play = play_of(bed.plan.jig);
    const Point one{(turned ? box.height() : box.width()) + play, (turned ? box.width() : box.height()) + play};
    const double over = std::max(width - one.x, height - one.y);
    if (!room || over < least) room = one, least = over;
  }
  return room.value_or(Point{});
}

}  // namespace

std::optional<Blank> as_meant(const BlankRow& row, const Design& design, bool is_named) {
  return as_meant(row, design, is_named, [](double, double) { return true; });
}

std::optional<Blank> as_wanted(const BlankRow& row, const Station& station, bool is_named) {
  return as_meant(row, station.design, is_named,
                  [&](double width, double height) { return bed_for(station.beds, width, height) != nullptr; });
}

Fault why_not(const BlankRow& row, const Station& station) {
  const std::string what = "it does not go on piece " + row.blank.id;
  const std::string &wanted = station.design.material, &material = row.blank.material;
  if (!wanted.empty() && !material.empty() && material_key(wanted) != material_key(material)) {
    return {what, "", "the piece is of " + material + ", and the design is for " + wanted, "Name another piece"};
  }
  if (const auto blank = as_wanted(row, station, true)) {
    const Result<LaidDesign> laid = laid_on(station.design, *blank);
    return laid.ok() ? Fault{what, "", "what is wished of the piece is not on it", "Name another piece"} : laid.fault();
  }
  const Point room = room_for(station, row.width, row.height);
  const auto sides = [&](double width, double height) {
    std::string text;
    if (width > room.x) text = "its width of " + mm_text(width) + " is " + mm_text(width - room.x) + " too much";
    if (height > room.y) {
      text += (text.empty() ? "its height of " : ", its height of ") + mm_text(height) + " is " +
              mm_text(height - room.y) + " too much";
    }
    return text;
  };
  return {what, "",
          "the pocket takes " + mm_text(room.x) + " by " + mm_text(room.y) + ": " + sides(row.width, row.height) +
              "; turned, " + sides(row.height, row.width),
          "Name another piece, or make the pockets larger"};
}

Fault too_large(const BlankRow& row, const Station& station, const LaidDesign& laid) {
  const Point room = room_for(station, laid.width, laid.height);
  std::string width;
  append_number(width, row.width, 2);
  return {"piece " + row.blank.id + " of " + width + " x " + mm_text(row.height) + " fits no pocket of design " +
              station.design.name,
          "", "as it is to lie it is " + excess_text(laid.width - room.x, laid.height - room.y),
          "Measure a piece that fits, or give shop.toml a board for it: [jig.NAME]"};
}

}  // namespace ordinatio::inline shop
