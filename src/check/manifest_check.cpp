#include <algorithm>
#include <cmath>

#include "check/check.h"
#include "check/difference.h"
#include "manifest/manifest.h"

namespace ordinatio::inline check {
namespace {

void require(bool same, const std::string& what) {
  if (!same) throw Difference{what + " is not the sheet's"};
}

// A box goes into the manifest as corner and size, and its far corner is their sum: it may come out an ulp away.
constexpr double ulps = 1e-9;  // mm
bool same_box(const Bounds& a, const Bounds& b) {
  return a.left == b.left && a.bottom == b.bottom && std::abs(a.right - b.right) <= ulps &&
         std::abs(a.top - b.top) <= ulps;
}

bool same_pocket(const Pocket& a, const Pocket& b) {
  return a.number == b.number && a.turned == b.turned && same_box(a.box, b.box);
}

void compare_plan(const Manifest& manifest, const Sheet& sheet) {
  const BedPlan &found = manifest.plan, &wanted = sheet.frame.plan;
  require(found.machine.width == wanted.machine.width && found.machine.height == wanted.machine.height,
          "the bed's size");
  require(found.machine.name == wanted.machine.name, "the machine");
  require(found.marks.kind == wanted.marks.kind && found.marks.size == wanted.marks.size, "the marks' kind or size");
  require(manifest.marks == sheet.frame.marks, "the marks' places");
  require(found.jig.datum == wanted.jig.datum, "the pockets' datum corner");
  require(found.jig.name == wanted.jig.name, "the board");
  require(found.machine.thickness_spread == wanted.machine.thickness_spread, "how far thicknesses may differ");
  require(found.scale_bar == wanted.scale_bar, "whether there is a scale bar");
  require(found.palette == wanted.palette, "the palette");
  require(std::ranges::equal(manifest.pockets, sheet.frame.pockets, same_pocket), "a pocket");
}

bool same_change(const CleaningNote& a, const CleaningNote& b) {
  return a.weight == b.weight && a.line == b.line && a.column == b.column && a.rule == b.rule;
}

void compare_areas(const std::string& name, const ManifestItem& found, const Artwork& artwork) {
  std::size_t filled = 0;
  for (const Layer& layer : artwork.layers) {
    if (!is_filled(layer.operation)) continue;
    const auto area = found.areas.find(std::string(name_of(layer.operation)));
    const double wanted = area_of(layer.path);
    require(area != found.areas.end() && std::abs(area->second - wanted) <= area_share * wanted,
            name + ": its ink area");
    ++filled;
  }
  require(found.areas.size() >= filled, name + ": its ink areas");
}

/// A width that is infinite, there being none, is written as 0.
bool is_width(double found, double wanted) { return found == (std::isfinite(wanted) ? wanted : 0); }

bool same_thing(const KeptClear& a, const KeptClear& b) {
  return a.name == b.name && a.corners == b.corners && a.radius == b.radius && a.margin == b.margin;
}

/// Of the nominal piece nothing is told.
bool same_piece(const Blank& found, const Blank& wanted) {
  if (wanted.id.empty()) return found.id.empty();
  return found.id == wanted.id && found.turned == wanted.turned && found.outline.vertices == wanted.outline.vertices &&
         found.outline.radii == wanted.outline.radii && found.chips == wanted.chips &&
         std::ranges::equal(found.kept_clear, wanted.kept_clear, same_thing);
}

void compare_item(const ManifestItem& found, const SheetItem& wanted) {
  const std::string name = "item " + wanted.item.id;
  const Artwork& artwork = wanted.artwork;
  require(found.item.id == wanted.item.id, name + ": its id, " + found.item.id + ",");
  require(found.item.design == wanted.item.design, name + ": its design");
  require(found.item.source == wanted.item.source, name + ": its source");
  require(found.item.number == wanted.item.number, name + ": its serial number");
  require(found.item.customer == wanted.item.customer, name + ": its customer");
  require(found.item.told == wanted.item.told, name + ": in whose forms it is set");
  require(found.item.setting == wanted.item.setting, name + ": its own setting");
  require(found.item.inscription.original == wanted.item.inscription.original, name + ": its original text");
  require(found.item.inscription.lines == wanted.item.inscription.lines, name + ": its lines");
  require(std::ranges::equal(found.item.inscription.notes, wanted.item.inscription.notes, same_change),
          name + ": what was changed in its text");
  require(found.pocket == wanted.pocket, name + ": its pocket");
  require(same_piece(found.piece, artwork.blank), name + ": its piece");
  require(found.piece.material == artwork.blank.material, name + ": its material");
  require(found.piece.thickness == artwork.blank.thickness, name + ": its thickness");
  require(found.set_for.has_value() == artwork.set_for.has_value() &&
              (!artwork.set_for || same_piece(*found.set_for, *artwork.set_for)),
          name + ": the piece that it was set for");
  require(found.from_behind == artwork.from_behind, name + ": its side");
  require(found.to_bed == wanted.to_bed, name + ": its place on the bed");
  require(found.placement.size == artwork.placement.size && found.placement.shift == artwork.placement.shift,
          name + ": its size or place");
  require(found.cap_height == artwork.cap_height, name + ": its cap height");
  require(found.x_height == artwork.x_height, name + ": its x-height");
  require(is_width(found.stroke, artwork.stroke.width), name + ": its thinnest stroke");
  require(is_width(found.counter, artwork.counter.width), name + ": its narrowest counter");
  require(found.lines == artwork.lines, name + ": its lines as engraved");
  require(found.changes == artwork.changes, name + ": what was done to set it");
  require(found.faces == artwork.faces, name + ": its faces");
  require(found.hash == artwork.hash, name + ": its hash");
  compare_areas(name, found, artwork);
}

/// By the items of the sheet itself, each with each: what the sheet says of its setting is not taken for granted.
void compare_setting(const Manifest& manifest, const Sheet& sheet) {
  require(manifest.setting.has_value(), "what the machine is set to");
  const MachineSetting& setting = *manifest.setting;
  std::optional<MachineSetting::Thickness> thickness;
  for (const SheetItem& item : sheet.items) {
    const Blank& blank = item.artwork.blank;
    const bool alike = material_key(blank.material) == material_key(setting.material) &&
                       item.artwork.from_behind == setting.from_behind &&
                       blank.thickness.has_value() == setting.thickness.has_value();
    if (!alike) throw Difference{"item " + item.item.id + " needs another setting of the machine than the sheet"};
    if (!blank.thickness) continue;
    if (!thickness) thickness = MachineSetting::Thickness{*blank.thickness, *blank.thickness};
    thickness->least = std::min(thickness->least, *blank.thickness);
    thickness->most = std::max(thickness->most, *blank.thickness);
  }
  require(setting.thickness == thickness, "the thickness of its pieces");
}

void compare_correction(const std::optional<Correction>& found, const std::optional<Correction>& wanted) {
  require(found.has_value() == wanted.has_value(), "whether it was laid to what was measured");
  if (!found) return;
  const Registration &a = found->registration, &b = wanted->registration;
  require(found->by == wanted->by && found->numbers == wanted->numbers, "which marks or corners were measured");
  require(a.drawn == b.drawn && a.measured == b.measured, "a measured place");
  require(a.model == b.model && a.to_bed == b.to_bed, "the correction");
  require(a.residuals == b.residuals && a.root_mean_square == b.root_mean_square && a.redundancy == b.redundancy,
          "a residual of the correction");
}

void compare(const Manifest& manifest, const Sheet& sheet) {
  require(manifest.name == sheet.name && manifest.number == sheet.number, "the sheet's name or number");
  require(manifest.remake_of == sheet.remake_of, "the sheet that it is remade from");
  require(manifest.date == sheet.date, "the date");
  compare_correction(manifest.correction, sheet.correction);
  require(manifest.blank_width == sheet.frame.blank_width && manifest.blank_height == sheet.frame.blank_height,
          "the blanks' size");
  compare_plan(manifest, sheet);
  compare_setting(manifest, sheet);
  require(manifest.items.size() == sheet.items.size(), "the number of items");
  for (std::size_t i = 0; i < sheet.items.size(); ++i) compare_item(manifest.items[i], sheet.items[i]);
  require(manifest.design_checksums == sheet.designs, "a design's checksum");
}

}  // namespace

MaybeFault check_manifest(std::string_view bytes, const Sheet& sheet) {
  const FileKind kind{"manifest", ".json"};
  const Result<Manifest> manifest = read_manifest(bytes, sheet.name + std::string(kind.suffix));
  if (!manifest.ok()) return manifest.fault();
  return checked(kind, sheet, [&] { compare(*manifest, sheet); });
}

}  // namespace ordinatio::inline check
