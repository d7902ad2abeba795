#include <algorithm>
#include <iterator>

#include "base/lines.h"
#include "manifest/json_field.h"
#include "manifest/manifest.h"

namespace ordinatio::inline manifest {
namespace {

using nlohmann::ordered_json;

constexpr int format_version = 1;
constexpr int depth_limit = 8;  // of values in values; a manifest has 4. More is refused, not followed.

template <class Value>
struct Word {
  std::string_view word;
  Value value;
};
constexpr Word<MarkPlan::Kind> mark_kinds[] = {
    {"cross", MarkPlan::Kind::cross}, {"ring", MarkPlan::Kind::ring}, {"target", MarkPlan::Kind::target}};
constexpr Word<CleaningNote::Weight> weights[] = {{"silent", CleaningNote::Weight::silent},
                                                  {"note", CleaningNote::Weight::note},
                                                  {"warning", CleaningNote::Weight::warning}};
constexpr Word<Jig::Datum> datums[] = {{"lower-left", Jig::Datum::lower_left},
                                       {"lower-right", Jig::Datum::lower_right},
                                       {"upper-left", Jig::Datum::upper_left},
                                       {"upper-right", Jig::Datum::upper_right}};
constexpr Word<bool> sides[] = {{"front", false}, {"back", true}};
constexpr Word<Correction::By> corrections[] = {{"marks", Correction::By::marks}, {"corners", Correction::By::corners}};
constexpr Word<Registration::Model> models[] = {{"turn", Registration::Model::rigid},
                                                {"scale", Registration::Model::similar},
                                                {"affine", Registration::Model::affine}};

template <class Value, std::size_t n>
Value value_of(const JsonField& field, const Word<Value> (&words)[n]) {
  const std::string text = field.text();
  const auto found = std::ranges::find(words, text, &Word<Value>::word);
  if (found == std::end(words)) field.refuse("a word that is known here");
  return found->value;
}

ordered_json parse(std::string_view bytes) {
  const auto watch_depth = [](int depth, ordered_json::parse_event_t, ordered_json&) {
    if (depth > depth_limit) throw Difference{"its values lie too deep in one another"};
    return true;
  };
  try {
    return ordered_json::parse(bytes, watch_depth);
  } catch (const ordered_json::parse_error& error) {
    throw Difference{"it is no JSON", line_at(bytes, error.byte)};
  } catch (const ordered_json::exception&) {
    throw Difference{"it holds a number that is out of all bounds"};
  }
}

/// The document, once its checksum is found true.
ordered_json sound_document(std::string_view bytes) {
  ordered_json document = parse(bytes);
  const JsonField root(document, "");
  if (root["ordinatio"].count() != format_version) {
    throw Difference{"it was written by another version of the program"};
  }
  const std::string checksum = root["checksum"].text();
  document.erase("checksum");
  if (sha256_hex(document.dump()) != checksum) throw Difference{"it was changed by hand after it was written"};
  return document;
}

Point read_point(const JsonField& field) {
  const auto numbers = field.list_of(2);
  return {numbers[0].number(), numbers[1].number()};
}

std::vector<Point> read_points(const JsonField& field) {
  std::vector<Point> points;
  for (const JsonField& point : field.list()) points.push_back(read_point(point));
  return points;
}

Colour read_colour(const JsonField& field) {
  const std::string text = field.text();
  const auto digit = [&](std::size_t i) {
    const auto value = std::string_view("0123456789ABCDEF").find(text[i]);
    if (value == std::string_view::npos) field.refuse("a colour");
    return value;
  };
  if (text.size() != 7 || text[0] != '#') field.refuse("a colour");
  const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(digit(i) << 4 | digit(i + 1)); };
  return {byte(1), byte(3), byte(5)};
}

constexpr int last_index = 255;  // of the DXF's colours

/// Sheets of earlier versions do not tell the indices: their files have others than files that are written now.
Palette read_palette(const JsonField& root) {
  Colours colours;
  for (const Operation operation : all_operations) {
    colours[static_cast<std::size_t>(operation)] = read_colour(root["palette"][name_of(operation)]);
  }
  Palette palette = palette_of(colours);
  const auto indices = root.find("dxf_colours");
  if (!indices) return palette;
  for (const Operation operation : all_operations) {
    const JsonField field = (*indices)[name_of(operation)];
    const int index = field.count();
    if (index < 1 || index > last_index) field.refuse("an index from 1 to 255");
    palette.indices[static_cast<std::size_t>(operation)] = index;
  }
  return palette;
}

Pocket read_pocket(const JsonField& field) {
  const double left = field["left"].number(), bottom = field["bottom"].number();
  return {field["number"].count(),
          {left, bottom, left + field["width"].size(), bottom + field["height"].size()},
          field["turned"].truth()};
}

void read_plan(Manifest& manifest, const JsonField& root) {
  BedPlan& plan = manifest.plan;
  if (const auto jig = root.find("jig")) {
    if (const auto datum = jig->find("datum")) plan.jig.datum = value_of(*datum, datums);
    if (const auto name = jig->find("name")) plan.jig.name = name->text();
  }
  plan.machine = {root["machine"]["width"].size(), root["machine"]["height"].size()};
  if (const auto spread = root["machine"].find("thickness_spread")) plan.machine.thickness_spread = spread->number();
  if (const auto name = root["machine"].find("name")) plan.machine.name = name->text();
  plan.marks.kind = value_of(root["marks"]["kind"], mark_kinds);
  plan.marks.size = root["marks"]["size"].size();
  manifest.marks = read_points(root["marks"]["places"]);
  plan.marks.places = manifest.marks;
  plan.marks.count = static_cast<int>(manifest.marks.size());
  plan.palette = read_palette(root);
  plan.scale_bar = root["scale_bar"].truth();
  for (const JsonField& pocket : root["pockets"].list()) manifest.pockets.push_back(read_pocket(pocket));
}

CleaningNote read_change(const JsonField& field) {
  CleaningNote note;
  note.weight = value_of(field["weight"], weights);
  note.line = static_cast<std::size_t>(field["line"].count());
  note.column = static_cast<std::size_t>(field["column"].count());
  note.rule = field["rule"].text();
  return note;
}

Transform read_transform(const JsonField& field) {
  const auto at = field.list_of(6);
  return {at[0].number(), at[1].number(), at[2].number(), at[3].number(), at[4].number(), at[5].number()};
}

Blank read_piece(const JsonField& field) {
  Blank piece;
  piece.id = field["id"].text();
  piece.turned = field["turned"].truth();
  piece.outline.vertices = read_points(field["outline"]);
  for (const JsonField& radius : field["radii"].list()) piece.outline.radii.push_back(radius.number());
  if (!piece.outline.radii.empty() && piece.outline.radii.size() != piece.outline.vertices.size()) {
    field["radii"].refuse("a radius for each corner, or none");
  }
  if (!is_convex(piece.outline.vertices)) field["outline"].refuse("a convex outline");
  for (const JsonField& chip : field["chips"].list()) piece.chips.push_back(read_points(chip));
  for (const JsonField& thing : field["kept_clear"].list()) {
    piece.kept_clear.push_back(
        {thing["name"].text(), read_points(thing["corners"]), thing["radius"].number(), thing["margin"].number()});
  }
  return piece;
}

Correction read_correction(const JsonField& field) {
  Correction correction;
  correction.by = value_of(field["by"], corrections);
  for (const JsonField& number : field["numbers"].list()) correction.numbers.push_back(number.count());
  Registration& registration = correction.registration;
  registration.model = value_of(field["allowed"], models);
  registration.drawn = read_points(field["drawn"]);
  registration.measured = read_points(field["measured"]);
  registration.to_bed = read_transform(field["transform"]);
  registration.residuals = read_points(field["residuals"]);
  registration.root_mean_square = field["root_mean_square"].number();
  registration.redundancy = field["redundancy"].count();
  return correction;
}

ManifestItem read_item(const JsonField& field, const std::string& date) {
  ManifestItem item;
  item.item.id = field["id"].text();
  item.item.design = field["design"].text();
  item.item.source = field["source"].text();
  item.item.inscription.original = field["original"].text();
  item.item.inscription.lines = field["lines"].texts();
  for (const JsonField& change : field["changes"].list()) {
    item.item.inscription.notes.push_back(read_change(change));
  }
  item.pocket = field["pocket"].count();
  if (const auto piece = field.find("piece")) item.piece = read_piece(*piece);
  if (const auto material = field.find("material")) item.piece.material = material->text();
  if (const auto thickness = field.find("thickness")) item.piece.thickness = thickness->size();
  if (const auto piece = field.find("set_for")) item.set_for = read_piece(*piece);
  if (const auto from_behind = field.find("from_behind")) item.from_behind = from_behind->truth();
  if (const auto number = field.find("number")) item.item.number = number->text();
  if (const auto customer = field.find("customer")) item.item.customer = customer->text();
  if (const auto forms = field.find("forms"))
    item.item.told = {(*forms)["language"].text(), (*forms)["possible"].texts(), (*forms)["guessed"].truth()};
  if (const auto wish = field.find("wish")) item.item.setting = kept_setting(wish->text());
  item.to_bed = read_transform(field["transform"]);
  item.placement = {field["size"].number(), read_point(field["shift"])};
  item.cap_height = field["cap_height"].number();
  item.x_height = field["x_height"].number();
  item.stroke = field["stroke"].number();
  item.counter = field["counter"].number();
  item.lines = field["engraved"].texts();
  item.changes = field["set"].texts();
  for (const JsonField& face : field["faces"].list()) {
    item.faces.push_back({face["name"].text(), face["sha256"].text()});
  }
  for (const auto& [operation, area] : field["areas"].members()) item.areas[operation] = area.number();
  item.hash = field["hash"].text();
  item.date = date;
  return item;
}

MachineSetting read_setting(const JsonField& field) {
  MachineSetting setting;
  setting.from_behind = value_of(field["side"], sides);
  if (const auto material = field.find("material")) setting.material = material->text();
  if (const auto thickness = field.find("thickness")) {
    const auto ends = thickness->list_of(2);
    setting.thickness = MachineSetting::Thickness{ends[0].size(), ends[1].size()};
  }
  return setting;
}

/// Whether a piece of this thickness, or of none that is known, goes with the setting.
bool goes_with(const std::optional<double>& thickness, const std::optional<MachineSetting::Thickness>& set) {
  if (!thickness || !set) return thickness.has_value() == set.has_value();
  return *thickness >= set->least && *thickness <= set->most;
}

/// One bed is one setting of the machine: what mixes is not run.
void check_setting(const Manifest& manifest) {
  const MachineSetting& setting = *manifest.setting;
  const auto refuse = [](const ManifestItem& item, const std::string& what) {
    throw Difference{"it mixes: item " + item.item.id + " has another " + what + " than the sheet"};
  };
  for (const ManifestItem& item : manifest.items) {
    if (material_key(item.piece.material) != material_key(setting.material)) refuse(item, "material");
    if (item.from_behind != setting.from_behind) refuse(item, "side");
    if (!goes_with(item.piece.thickness, setting.thickness)) refuse(item, "thickness");
  }
  if (!setting.thickness ||
      within_spread(setting.thickness->least, setting.thickness->most, manifest.plan.machine.thickness_spread))
    return;
  throw Difference{"it mixes: its pieces differ by more in thickness than the machine is to bear"};
}

Manifest read(const JsonField& root) {
  Manifest manifest;
  manifest.name = root["sheet"]["name"].text();
  manifest.number = root["sheet"]["number"].count();
  manifest.date = root["date"].text();
  manifest.remake_of = root["remake_of"].text();
  manifest.blank_width = root["blank"]["width"].size();
  manifest.blank_height = root["blank"]["height"].size();
  read_plan(manifest, root);
  for (const auto& [design, checksum] : root["designs"].members()) {
    manifest.design_checksums[design] = checksum.text();
  }
  if (const auto correction = root.find("correction")) manifest.correction = read_correction(*correction);
  for (const JsonField& item : root["items"].list()) manifest.items.push_back(read_item(item, manifest.date));
  if (const auto setting = root.find("setting")) {
    manifest.setting = read_setting(*setting);
    check_setting(manifest);
  }
  return manifest;
}

}  // namespace

Result<Manifest> read_manifest(std::string_view bytes, const std::string& where) {
  try {
    const ordered_json document = sound_document(bytes);
    return read(JsonField(document, ""));
  } catch (const Difference& difference) {
    const std::string line = difference.line > 0 ? ":" + std::to_string(difference.line) : "";
    return Fault{"the manifest cannot be used", where + line, difference.what,
                 "Use the manifest as it was written with the sheet; to correct a text, remake the item with the new "
                 "text"};
  }
}

}  // namespace ordinatio::inline manifest
