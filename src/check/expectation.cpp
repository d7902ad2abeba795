#include "check/expectation.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "check/check.h"
#include "check/comparison.h"
#include "check/cut_order.h"
#include "check/followed.h"
#include "check/laying.h"
#include "check/overlap.h"

namespace ordinatio::inline check {
namespace {

const Layer* layer_of(const SheetItem& item, Operation operation) {
  for (const Layer& layer : item.artwork.layers) {
    if (layer.operation == operation) return &layer;
  }
  return nullptr;
}

/// A blank is mirrored exactly if it is engraved from behind, and must lie in its pocket, or where it was measured to lie.
void require_place(const Sheet& sheet, const SheetItem& item, const Transform& to_drawn) {
  const std::string name = "item " + item.item.id;
  const Transform place = then(item.to_bed, to_drawn);
  const double handedness = item.artwork.from_behind ? -1 : 1;
  if (!(std::abs(place.determinant() - handedness) <= same_place)) {
    throw Difference{name + " is mirrored or scaled on its way to the bed"};
  }
  if (item.artwork.clear_area.region.edges.empty()) throw Difference{name + " has no clear area"};
  if (is_laid_by_hand(sheet, item)) return;
  const auto pocket = std::find_if(sheet.frame.pockets.begin(), sheet.frame.pockets.end(),
                                   [&](const Pocket& p) { return p.number == item.pocket; });
  if (pocket == sheet.frame.pockets.end()) throw Difference{name + " lies in a pocket that the jig does not have"};
  Bounds lies;
  for (const Point corner : item.artwork.blank.outline.vertices) lies.add(place(corner));
  // A piece that is larger than its pocket reaches beyond it by no more than that.
  const double across = place_slack + std::max(0.0, lies.width() - pocket->box.width());
  const double up = place_slack + std::max(0.0, lies.height() - pocket->box.height());
  const Bounds room{pocket->box.left - across, pocket->box.bottom - up, pocket->box.right + across,
                    pocket->box.top + up};
  for (const Point corner : item.artwork.blank.outline.vertices) {
    const Point p = place(corner);
    if (!(p.x >= room.left && p.x <= room.right && p.y >= room.bottom && p.y <= room.top)) {
      throw Difference{name + ": its blank's corner " + spoken(p) + " is outside pocket " +
                       std::to_string(item.pocket)};
    }
  }
}

/// Whether the path is the wanted one, moved.
bool is_drawn(const Path& drawn, const Path& wanted, const Transform& to_bed) {
  bool same = std::ranges::equal(drawn.verbs(), wanted.verbs());
  for (std::size_t i = 0; same && i < wanted.points().size(); ++i) {
    same = in_one_place(drawn.points()[i], to_bed(wanted.points()[i]));
  }
  return same;
}

/// The part must be the artwork's layer, moved to the bed; what is followed, in an order that suits the machine.
void require_layer(const ExpectedPart& expected, const SheetItem& item, const Layer& layer) {
  std::optional<Path> turned;  // contours turn as ever
  if (item.to_bed.determinant() < 0) turned = reversed(layer.path);
  const Path& wanted = turned ? *turned : layer.path;
  const bool same = is_filled(layer.operation) ? is_drawn(expected.part->path, wanted, item.to_bed)
                                               : is_followed(expected.part->path, wanted, item.to_bed);
  if (!same) throw Difference{name_of(expected) + ": the sheet does not draw the artwork at the item's place"};
}

using ItemsById = std::map<std::string_view, std::size_t>;

ItemsById items_by_id(const Sheet& sheet) {
  ItemsById items;
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    const std::string& id = sheet.items[i].item.id;
    if (!items.emplace(id, i).second) throw Difference{"item " + id + " is on the sheet twice"};
  }
  return items;
}

/// Looks at the sheet's own ink as at that of a file.
bool is_sound(const Expectation& expectation) {
  try {
    InkApart apart(expectation);
    for (const ExpectedPart& expected : expectation.parts) {
      const Path& path = expected.part->path;
      if (is_filled(expected.part->operation) && !(expected.ink.area > 0)) return false;
      if (expected.part->operation == Operation::cut) require_inner_first(name_of(expected), path, 0);
      compare_place(expectation, expected, path, expected.ink, 0);
      apart.take(expected, path, expected.ink.area, 0);
    }
    return true;
  } catch (const Difference&) {
    return false;  // said of each file, with the line
  }
}

}  // namespace

Measure needed_of(const SheetPart& part) {
  return is_filled(part.operation) ? Measure::area : Measure::area_and_length;
}

std::string name_of(const ExpectedPart& expected) {
  const std::string operation(name_of(expected.part->operation));
  return (expected.item ? "item " : "") + expected.part->id + ", " + operation;
}

Expectation expectation_of(const Sheet& sheet) {
  Expectation expectation{sheet, {}, {}, drawn_from(sheet), false};
  require_furniture(sheet);
  std::size_t layers = 0;
  for (const SheetItem& item : sheet.items) {
    require_place(sheet, item, expectation.to_drawn);
    expectation.clear_areas.push_back(moved(item.artwork.clear_area, item.to_bed));
    layers += item.artwork.layers.size();
  }
  const ItemsById items = items_by_id(sheet);
  for (const SheetPart& part : sheet.parts) {
    ExpectedPart expected{&part, std::nullopt, {}};
    if (const auto found = items.find(part.id); found != items.end()) {
      const SheetItem& item = sheet.items[found->second];
      if (const Layer* layer = layer_of(item, part.operation)) {
        expected.item = found->second;
        require_layer(expected, item, *layer);
        --layers;
      }
    }
    if (!expectation.parts.empty() && part.operation < expectation.parts.back().part->operation) {
      throw Difference{name_of(expected) + ": the parts are not in the operations' order"};
    }
    expected.ink = measure(part.path, needed_of(part));
    expected.ink.area = area_of(part.path);  // geometry's, so that one slip in measure() does not cancel on both sides
    expectation.parts.push_back(std::move(expected));
  }
  if (layers != 0) throw Difference{"the sheet leaves out, or draws twice, a layer of an item's artwork"};
  expectation.is_sound = is_sound(expectation);
  return expectation;
}

const Expectation& expectation_of(const SheetModel& model) {
  if (const auto* difference = std::get_if<Difference>(&model.known().expectation)) throw *difference;
  return std::get<Expectation>(model.known().expectation);
}

namespace {

std::variant<Expectation, Difference> expectation_or_why_not(const Sheet& sheet) {
  try {
    return expectation_of(sheet);
  } catch (const Difference& difference) {
    return difference;
  }
}

}  // namespace

SheetModel::SheetModel(const Sheet& sheet) : sheet_(sheet), known_(new Known{expectation_or_why_not(sheet)}) {}
SheetModel::~SheetModel() = default;

}  // namespace ordinatio::inline check
