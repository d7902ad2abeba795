#include <cmath>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "base/harmless.h"
#include "bed/machine_setting.h"
#include "write/colour.h"
#include "write/write.h"

namespace ordinatio::inline write {
namespace {

using Json = nlohmann::ordered_json;

std::string_view name_of(MarkPlan::Kind kind) {
  constexpr std::string_view names[] = {"cross", "ring", "target"};
  return names[static_cast<int>(kind)];
}

std::string_view name_of(Jig::Lie lie) {
  constexpr std::string_view names[] = {"as-drawn", "quarter-turn", "as-fits"};
  return names[static_cast<int>(lie)];
}

std::string_view name_of(Jig::Datum datum) {
  constexpr std::string_view names[] = {"lower-left", "lower-right", "upper-left", "upper-right"};
  return names[static_cast<int>(datum)];
}

std::string_view name_of(Registration::Model model) {
  constexpr std::string_view names[] = {"turn", "scale", "affine"};
  return names[static_cast<int>(model)];
}

Json json_of(Point p) { return Json::array({p.x, p.y}); }
Json json_of(const Transform& t) { return {t.xx, t.yx, t.xy, t.yy, t.dx, t.dy}; }
Json json_of(const std::vector<Point>& points) {
  Json list = Json::array();
  for (const Point p : points) list.push_back(json_of(p));
  return list;
}

Json json_of(const Correction& correction) {
  const Registration& r = correction.registration;
  return {{"by", correction.by == Correction::By::marks ? "marks" : "corners"},
          {"allowed", name_of(r.model)},
          {"numbers", correction.numbers},
          {"drawn", json_of(r.drawn)},
          {"measured", json_of(r.measured)},
          {"transform", json_of(r.to_bed)},
          {"residuals", json_of(r.residuals)},
          {"root_mean_square", r.root_mean_square},
          {"redundancy", r.redundancy}};
}

Json json_of(const Machine& machine) {
  Json json{{"width", machine.width}, {"height", machine.height}, {"thickness_spread", machine.thickness_spread}};
  if (!machine.name.empty()) json["name"] = machine.name;
  return json;
}

Json json_of(const WorkedOut& estimate) {
  Json json = Json::object(), items = Json::object();
  for (const auto& [name, figure] : estimate.of_sheet) json[name] = figure;
  for (const auto& [item, figure] : estimate.of_items) items[item] = figure;
  json["items"] = std::move(items);
  return json;
}

/// A name is written, and a datum that is not the lower left; without one it is.
Json json_of(const Jig& jig) {
  Json json{{"lie", name_of(jig.lie)}};
  if (!jig.name.empty()) json["name"] = jig.name;
  if (jig.datum != Jig::Datum::lower_left) json["datum"] = name_of(jig.datum);
  return json;
}

/// What the machine is set to for all of the sheet. A sheet that mixes is never built, see build_sheet.
Json json_of(const Result<MachineSetting>& setting) {
  if (!setting.ok()) throw std::logic_error("a manifest is written of a sheet that mixes");
  Json json{{"side", setting->from_behind ? "back" : "front"}};
  if (!setting->material.empty()) json["material"] = setting->material;
  if (setting->thickness) json["thickness"] = {setting->thickness->least, setting->thickness->most};
  return json;
}

/// A measured piece, as it must be known to engrave on it again.
Json json_of(const Blank& blank) {
  Json chips = Json::array(), things = Json::array();
  for (const Polygon& chip : blank.chips) chips.push_back(json_of(chip));
  for (const KeptClear& thing : blank.kept_clear) {
    things.push_back({{"name", thing.name},
                      {"corners", json_of(thing.corners)},
                      {"radius", thing.radius},
                      {"margin", thing.margin}});
  }
  return {{"id", blank.id},
          {"turned", blank.turned},
          {"outline", json_of(blank.outline.vertices)},
          {"radii", blank.outline.radii},
          {"chips", chips},
          {"kept_clear", things}};
}

Json json_of(const Pocket& pocket) {
  return {{"number", pocket.number},     {"left", pocket.box.left},       {"bottom", pocket.box.bottom},
          {"width", pocket.box.width()}, {"height", pocket.box.height()}, {"turned", pocket.turned}};
}

Json json_of(const CleaningNote& note) {
  constexpr std::string_view weights[] = {"silent", "note", "warning"};
  return {{"line", note.line},
          {"column", note.column},
          {"weight", weights[static_cast<int>(note.weight)]},
          {"rule", note.rule}};
}

/// A width in mm, 0 where there is none.
double or_none(double width) { return std::isfinite(width) ? width : 0; }

Json json_of(const SheetItem& placed) {
  const Artwork& artwork = placed.artwork;
  Json faces = Json::array(), areas = Json::object(), changes = Json::array();
  for (const UsedFace& face : artwork.faces) faces.push_back({{"name", face.name}, {"sha256", face.checksum}});
  for (const Layer& layer : artwork.layers) {
    if (is_filled(layer.operation)) areas[std::string(name_of(layer.operation))] = area_of(layer.path);
  }
  for (const CleaningNote& note : placed.item.inscription.notes) changes.push_back(json_of(note));
  Json json{{"id", placed.item.id},
            {"design", placed.item.design},
            {"pocket", placed.pocket},
            {"original", placed.item.inscription.original},
            {"lines", placed.item.inscription.lines},
            {"changes", changes},
            {"source", placed.item.source},
            {"transform", json_of(placed.to_bed)},
            {"size", artwork.placement.size},
            {"shift", json_of(artwork.placement.shift)},
            {"cap_height", artwork.cap_height},
            {"x_height", artwork.x_height},
            {"stroke", or_none(artwork.stroke.width)},
            {"counter", or_none(artwork.counter.width)},
            {"engraved", artwork.lines},
            {"set", artwork.changes},
            {"faces", faces},
            {"areas", areas},
            {"hash", artwork.hash}};
  // Only what is not as usual: a measured piece, what it is of, an engraving from behind, a serial number, a name, a setting
  // of its own.
  if (!artwork.blank.id.empty()) json["piece"] = json_of(artwork.blank);
  if (!artwork.blank.material.empty()) json["material"] = artwork.blank.material;
  if (artwork.blank.thickness) json["thickness"] = *artwork.blank.thickness;
  if (artwork.set_for) json["set_for"] = json_of(*artwork.set_for);
  if (artwork.from_behind) json["from_behind"] = true;
  if (!placed.item.number.empty()) json["number"] = placed.item.number;
  if (!placed.item.customer.empty()) json["customer"] = placed.item.customer;
  if (const ToldLanguage& told = placed.item.told; !told.language.empty())
    json["forms"] = {{"language", told.language}, {"possible", told.possible}, {"guessed", told.guessed}};
  if (!placed.item.setting.is_plain()) json["wish"] = setting_text(placed.item.setting);
  return json;
}

Json json_of(const Palette& palette) {
  Json colours = Json::object();
  for (const Operation operation : all_operations)
    colours[std::string(name_of(operation))] = hex_of(palette[operation]);
  return colours;
}

Json indices_of(const Palette& palette) {
  Json indices = Json::object();
  for (const Operation operation : all_operations)
    indices[std::string(name_of(operation))] = palette.index_of(operation);
  return indices;
}

}  // namespace

std::string write_manifest(const Sheet& sheet, const WorkedOut& estimate) {
  const BedPlan& plan = sheet.frame.plan;
  Json pockets = Json::array(), items = Json::array();
  for (const Pocket& pocket : sheet.frame.pockets) pockets.push_back(json_of(pocket));
  for (const SheetItem& placed : sheet.items) items.push_back(json_of(placed));
  Json manifest{
      {"ordinatio", 1},
      {"sheet", {{"name", sheet.name}, {"number", sheet.number}}},
      {"machine", json_of(plan.machine)},
      {"setting", json_of(setting_for(plan.machine, sheet.items))},
      {"jig", json_of(plan.jig)},
      {"blank", {{"width", sheet.frame.blank_width}, {"height", sheet.frame.blank_height}}},
      {"pockets", pockets},
      {"marks",
       {{"kind", name_of(plan.marks.kind)}, {"size", plan.marks.size}, {"places", json_of(sheet.frame.marks)}}},
      {"scale_bar", plan.scale_bar},
      {"palette", json_of(plan.palette)},
      {"dxf_colours", indices_of(plan.palette)},
      {"designs", sheet.designs},
      {"date", sheet.date},
      {"remake_of", sheet.remake_of},
      {"items", items}};
  if (sheet.correction) manifest["correction"] = json_of(*sheet.correction);
  if (!estimate.of_sheet.empty()) manifest["estimate"] = json_of(estimate);
  manifest["checksum"] = sha256_hex(manifest.dump());
  return with_escaped_marks(manifest.dump(1)) + "\n";  // it may be shown on a terminal, too
}

}  // namespace ordinatio::inline write
