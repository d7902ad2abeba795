#include "text/face.h"

#include <hb-ot.h>

#include <algorithm>

#include "cleaning/invisibles.h"
#include "text/face_limits.h"
#include "text/font_check.h"
#include "text/glyph_check.h"
#include "text/measured_glyphs.h"
#include "text/stroke_font.h"

namespace ordinatio::inline text {
namespace {

/// Collects one glyph's contours in ems; of what goes on beyond the limit no more than shows that it does.
struct Pen {
  Path path;
  double scale;
  [[nodiscard]] Point at(float x, float y) const { return {double{x} * scale, double{y} * scale}; }
  [[nodiscard]] bool is_full() const { return path.points().size() > face_limits::glyph_points; }
};

Pen& pen_of(void* data) { return *static_cast<Pen*>(data); }

using State = hb_draw_state_t;
void move_to(hb_draw_funcs_t*, void* data, State*, float x, float y, void*) {
  if (!pen_of(data).is_full()) pen_of(data).path.move_to(pen_of(data).at(x, y));
}
void line_to(hb_draw_funcs_t*, void* data, State*, float x, float y, void*) {
  if (!pen_of(data).is_full()) pen_of(data).path.line_to(pen_of(data).at(x, y));
}
void quad_to(hb_draw_funcs_t*, void* data, State*, float cx, float cy, float x, float y, void*) {
  if (!pen_of(data).is_full()) pen_of(data).path.quad_to(pen_of(data).at(cx, cy), pen_of(data).at(x, y));
}
void cubic_to(hb_draw_funcs_t*, void* data, State*, float ax, float ay, float bx, float by, float x, float y, void*) {
  const Pen& pen = pen_of(data);
  if (!pen.is_full()) pen_of(data).path.cubic_to(pen.at(ax, ay), pen.at(bx, by), pen.at(x, y));
}
void close_path(hb_draw_funcs_t*, void* data, State*, void*) {
  if (!pen_of(data).is_full()) pen_of(data).path.close();
}

hb_draw_funcs_t* make_draw_functions() {
  hb_draw_funcs_t* functions = hb_draw_funcs_create();
  hb_draw_funcs_set_move_to_func(functions, move_to, nullptr, nullptr);
  hb_draw_funcs_set_line_to_func(functions, line_to, nullptr, nullptr);
  hb_draw_funcs_set_quadratic_to_func(functions, quad_to, nullptr, nullptr);
  hb_draw_funcs_set_cubic_to_func(functions, cubic_to, nullptr, nullptr);
  hb_draw_funcs_set_close_path_func(functions, close_path, nullptr, nullptr);
  hb_draw_funcs_make_immutable(functions);
  return functions;
}

std::string tag_text(hb_tag_t tag) {
  char letters[4];
  hb_tag_to_string(tag, letters);
  return {letters, 4};
}

std::string number_text(float value) {
  std::string text;
  append_number(text, double{value}, 2);
  return text;
}

/// Faults say what the face's axes are.
MaybeFault check_axis(hb_face_t* face, const hb_variation_t& wanted, const std::string& text) {
  unsigned count = hb_ot_var_get_axis_count(face);
  std::vector<hb_ot_var_axis_info_t> axes(count);
  hb_ot_var_get_axis_infos(face, 0, &count, axes.data());
  std::string known;
  for (const hb_ot_var_axis_info_t& axis : axes) {
    const bool inside = wanted.value >= axis.min_value && wanted.value <= axis.max_value;
    if (axis.tag == wanted.tag && inside) return std::nullopt;
    known += (known.empty() ? "" : ", ") + tag_text(axis.tag) + " from " + number_text(axis.min_value) + " to " +
             number_text(axis.max_value);
  }
  return Fault{"the axis \"" + text + "\" cannot be set", "",
               known.empty() ? "the face is not variable" : "its axes are " + known,
               known.empty() ? "Take it out, or name a variable face" : "Write one of these, and a value inside it"};
}

/// Sets the axes of a font; remembers them in the face's name, since they make another face of it.
MaybeFault set_axes(hb_font_t* font, const std::vector<std::string>& axes, FontFile& file) {
  std::vector<hb_variation_t> variations;
  for (const std::string& axis : axes) {
    hb_variation_t variation;
    if (!hb_variation_from_string(axis.data(), static_cast<int>(axis.size()), &variation)) {
      return Fault{"\"" + axis + "\" is no axis", file.name, "an axis has a tag of four letters and a value",
                   "Write, for example, \"wght=650\""};
    }
    if (auto fault = check_axis(hb_font_get_face(font), variation, axis)) {
      fault->where = "face " + file.name;
      return fault;
    }
    variations.push_back(variation);
    file.name += " " + axis;
  }
  hb_font_set_variations(font, variations.data(), static_cast<unsigned>(variations.size()));
  return std::nullopt;
}

Fault damaged_file(const std::string& path, const std::string& why) {
  return {"the font's file is damaged", path, why, "Put the font in anew, from where it came from"};
}

// An overlap smaller than (100 · 1e-5 em)² is 0.0004 mm² on letters of 20 mm: no beam shows it.
constexpr double overlap_tolerance = 1e-5;  // em

}  // namespace

Face::Face(FontFile file, HbFont font, unsigned units_per_em)
    : file_(std::move(file)), font_(std::move(font)), units_per_em_(units_per_em) {}

Result<std::unique_ptr<Face>> Face::open(const FontFile& file, const std::vector<std::string>& axes) {
  if (file.strokes != nullptr) {
    HbFont lines = stroke_font(*file.strokes);
    FontFile named = file;
    if (auto fault = set_axes(lines.get(), axes, named)) return *std::move(fault);
    return std::unique_ptr<Face>(new Face(std::move(named), std::move(lines), stroke_units_per_em));
  }
  const std::unique_ptr<hb_blob_t, Destroyer<hb_blob_destroy>> blob(
      hb_blob_create_from_file_or_fail(file.path.c_str()));
  if (!blob) {
    return Fault{"cannot open the font", file.path.string(), "the file is missing or cannot be read",
                 "Put the font file back, or name another face in the design"};
  }
  const std::unique_ptr<hb_face_t, Destroyer<hb_face_destroy>> face(hb_face_create(blob.get(), file.index));
  unsigned size = 0;
  const char* bytes = hb_blob_get_data(blob.get(), &size);
  std::string damage = damage_of_file({bytes, size}, file.index);
  if (!damage.empty()) return damaged_file(file.path.string(), damage);
  if (file.index >= hb_face_count(blob.get()) || hb_face_get_glyph_count(face.get()) == 0) {
    return Fault{"this is no font", file.path.string(), "no TrueType or OpenType face was found in the file",
                 "Replace it with a .ttf or .otf file"};
  }
  damage = damage_of_face(face.get());
  if (!damage.empty()) return damaged_file(file.path.string(), damage);
  const unsigned units_per_em = hb_face_get_upem(face.get());
  HbFont font(hb_font_create(face.get()));
  hb_font_set_scale(font.get(), static_cast<int>(units_per_em), static_cast<int>(units_per_em));
  FontFile named = file;
  if (auto fault = set_axes(font.get(), axes, named)) return *std::move(fault);
  return std::unique_ptr<Face>(new Face(std::move(named), std::move(font), units_per_em));
}

hb_codepoint_t Face::glyph_of(char32_t character) const {
  hb_codepoint_t glyph = 0;
  return hb_font_get_nominal_glyph(font_.get(), character, &glyph) ? glyph : 0;
}

bool Face::is_sans() const {
  // OpenType, OS/2: panose at 32; family type 2 is Latin text, serif styles 11 to 15 are the sans ones.
  constexpr unsigned family_type = 32, serif_style = 33;
  using Blob = std::unique_ptr<hb_blob_t, Destroyer<hb_blob_destroy>>;
  const Blob table(hb_face_reference_table(hb_font_get_face(font_.get()), HB_TAG('O', 'S', '/', '2')));
  unsigned length = 0;
  const auto* bytes = reinterpret_cast<const unsigned char*>(hb_blob_get_data(table.get(), &length));
  return length > serif_style && bytes[family_type] == 2 && bytes[serif_style] >= 11 && bytes[serif_style] <= 15;
}

bool Face::draws(char32_t character) const {
  // HarfBuzz sets a face's space for a glue that it lacks, for U+202F a narrower one.
  return glyph_of(character) != 0 || (is_glue(character) && glyph_of(' ') != 0);
}

const GlyphOutline& Face::outline(hb_codepoint_t glyph) {
  if (const auto known = outlines_.find(glyph); known != outlines_.end()) return known->second;
  if (file_.strokes != nullptr) return outlines_.emplace(glyph, stroke_outline(*file_.strokes, glyph)).first->second;
  static hb_draw_funcs_t* const functions = make_draw_functions();
  Pen pen{{}, 1 / units_per_em_};
  hb_font_get_glyph_shape(font_.get(), glyph, functions, &pen);
  if (std::string damage = damage_of_outline(pen.path); !damage.empty()) {
    damages_.emplace(glyph, std::move(damage));
    pen.path = {};
  }
  GlyphOutline outline;
  // TrueType turns outer contours clockwise, PostScript counter-clockwise: here it is always the latter.
  outline.path = area_of(pen.path) < 0 ? reversed(pen.path) : std::move(pen.path);
  outline.ink = bounds_of(outline.path);
  outline.hull = hull_of(outline.path, hull_tolerance);
  const auto overlaps = [&outline] { return contours_overlap(outline.path, overlap_tolerance); };
  outline.overlaps = measured_ == nullptr ? overlaps() : *measured_->overlaps.of(name_, glyph, overlaps);
  outline.area = area_of(outline.path);
  outline.centroid = centroid_of(outline.path);
  return outlines_.emplace(glyph, std::move(outline)).first->second;
}

std::string Face::damage_of(hb_codepoint_t glyph) const {
  const auto known = damages_.find(glyph);
  return known == damages_.end() ? "" : known->second;
}

Fault Face::damaged(const std::string& why) const { return damaged_file(file_.path.string(), why); }

FaceHeights Face::metrics() {
  const auto top_of = [this](char32_t letter, hb_ot_metrics_tag_t tag, double otherwise) {
    const hb_codepoint_t glyph = glyph_of(letter);
    if (glyph != 0 && !outline(glyph).ink.empty()) return outline(glyph).ink.top;
    hb_position_t height = 0;
    return hb_ot_metrics_get_position(font_.get(), tag, &height) && height > 0 ? em(height) : otherwise;
  };
  // Where neither a letter nor the font's own table tells: common proportions, no source.
  return {top_of(U'H', HB_OT_METRICS_TAG_CAP_HEIGHT, 0.7), top_of(U'x', HB_OT_METRICS_TAG_X_HEIGHT, 0.5)};
}

bool Face::has_feature(hb_tag_t tag) const {
  for (const hb_tag_t table : {HB_OT_TAG_GSUB, HB_OT_TAG_GPOS}) {
    hb_face_t* face = hb_font_get_face(font_.get());
    unsigned count = hb_ot_layout_table_get_feature_tags(face, table, 0, nullptr, nullptr);
    std::vector<hb_tag_t> tags(count);
    hb_ot_layout_table_get_feature_tags(face, table, 0, &count, tags.data());
    if (std::ranges::find(tags, tag) != tags.end()) return true;
  }
  return false;
}

/// A collection's faces are of one file, which may be of tens of megabytes: it is read once for all of them.
const Result<std::string>& Face::checksum() {
  if (checksum_) return *checksum_;
  if (file_.strokes != nullptr) return checksum_.emplace(std::string(stroke_face_checksum(file_.name)));
  const auto read = [this]() -> std::optional<Result<std::string>> {
    const Result<std::string> bytes = read_file(file_.path);
    if (!bytes.ok()) return bytes.fault();
    return sha256_hex(*bytes);
  };
  checksum_ = measured_ == nullptr ? read() : *measured_->checksums.of(file_.path.string(), read);
  return *checksum_;
}

}  // namespace ordinatio::inline text
