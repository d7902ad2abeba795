// The peer: the same plaques as a competent programmer would set them with Pango and Cairo alone.
//   bench_peer ORDERS.csv FOLDER FONT.ttf [--scale-once]
//
// It does: one Pango context, layout and font map for the whole run; the same face, unhinted, with positions
// left unrounded and no other font to look through; centred lines at the same leading; for each order a
// bisection on the ink extents for the largest cap height on a 0.01 mm grid (so that sizes recur and the font
// caches of Pango and Cairo serve) that fits the same clear area and size limits; the ink centred in it; its
// outlines filled, the border and the blank's edge stroked, on one Cairo SVG surface a sheet. Drawn in points:
// Cairo rounds to 1/256 of a unit and FreeType to 1/64, so mm would be coarser. One thread, beside Pango's own
// that asks Fontconfig.
//
// It does not: clean the text, weld overlaps, name items in the file, write DXF or a manifest, read anything
// back.
//
// --scale-once is a better peer than most would write: ink extents scale with the size when nothing is
// hinted, so one layout at the largest size tells the size that fits, and a second one draws it.
#include <cairo-svg.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string_view>

#include "orders/orders.h"
#include "plaques.h"

namespace {

constexpr double pt = 72 / 25.4;  // a mm in PostScript points
constexpr char face_name[] = "Vollkorn SemiBold";
constexpr int sizes_per_mm = 100;  // cap heights are tried to 0.01 mm

template <auto free_it>
struct Free {
  void operator()(auto* held) const { free_it(held); }
};
using Surface = std::unique_ptr<cairo_surface_t, Free<cairo_surface_destroy>>;
using Canvas = std::unique_ptr<cairo_t, Free<cairo_destroy>>;
using FontOptions = std::unique_ptr<cairo_font_options_t, Free<cairo_font_options_destroy>>;
using Description = std::unique_ptr<PangoFontDescription, Free<pango_font_description_free>>;
using FontMetrics = std::unique_ptr<PangoFontMetrics, Free<pango_font_metrics_unref>>;
using Config = std::unique_ptr<FcConfig, Free<FcConfigDestroy>>;
using FontMap = std::unique_ptr<PangoFontMap, Free<g_object_unref>>;
using Context = std::unique_ptr<PangoContext, Free<g_object_unref>>;
using Layout = std::unique_ptr<PangoLayout, Free<g_object_unref>>;
using Attributes = std::unique_ptr<PangoAttrList, Free<pango_attr_list_unref>>;
using Font = std::unique_ptr<PangoFont, Free<g_object_unref>>;

/// Pango's units (1/1024 point) as mm.
double as_mm(int pango_units) { return pango_units / (PANGO_SCALE * pt); }

class Lettering {
 public:
  explicit Lettering(const char* font_file)
      : fonts_(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT)),
        context_(pango_font_map_create_context(fonts_.get())) {
    use_only(font_file);
    const FontOptions options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context_.get(), options.get());
    pango_cairo_context_set_resolution(context_.get(), 72);
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
    pango_context_set_language(context_.get(), pango_language_from_string("en"));
    layout_.reset(pango_layout_new(context_.get()));
    pango_layout_set_alignment(layout_.get(), PANGO_ALIGN_CENTER);
    description_.reset(pango_font_description_from_string(face_name));
    forbid_fallback();
    measure_face();
  }

  PangoLayout* layout() { return layout_.get(); }

  void set_text(const std::vector<std::string>& lines) {
    text_.clear();
    for (const std::string& line : lines) text_.append(text_.empty() ? "" : "\n").append(line);
    pango_layout_set_text(layout_.get(), text_.data(), static_cast<int>(text_.size()));
  }

  /// Size in hundredths of a mm of cap height.
  void set_size(int size) { set_em(static_cast<double>(size) / sizes_per_mm / cap_height_em_ * pt); }

  PangoRectangle ink() {
    PangoRectangle ink;
    pango_layout_get_extents(layout_.get(), &ink, nullptr);
    return ink;
  }

  /// The largest size that fits, by bisection; nothing when even the smallest does not.
  std::optional<int> bisect_size() {
    int fits = static_cast<int>(bench::least_cap_height * sizes_per_mm);
    int too_large = static_cast<int>(bench::most_cap_height * sizes_per_mm);
    if (fits_at(too_large)) return too_large;
    if (!fits_at(fits)) return {};
    while (too_large - fits > 1) {
      const int middle = (fits + too_large) / 2;
      (fits_at(middle) ? fits : too_large) = middle;
    }
    return fits;
  }

  /// The same by proportion, from the ink at the largest size.
  std::optional<int> scale_size() {
    const double most = bench::most_cap_height * sizes_per_mm;
    set_size(static_cast<int>(most));
    const PangoRectangle at_most = ink();
    const double share =
        std::min({1.0, bench::clear_width / as_mm(at_most.width), bench::clear_height / as_mm(at_most.height)});
    const int size = static_cast<int>(std::floor(share * most));
    if (size < bench::least_cap_height * sizes_per_mm) return {};
    return size;
  }

 private:
  /// Fontconfig then neither matches nor sorts all fonts of the machine for each new size, and the peer is as
  /// fast where many are installed as where few are.
  void use_only(const char* font_file) {
    const Config config(FcConfigCreate());
    if (!FcConfigAppFontAddFile(config.get(), reinterpret_cast<const FcChar8*>(font_file)))
      throw std::runtime_error(std::string("cannot read ") + font_file);
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(fonts_.get()), config.get());
  }

  void forbid_fallback() {
    const Attributes attributes(pango_attr_list_new());
    pango_attr_list_insert(attributes.get(), pango_attr_fallback_new(FALSE));
    pango_layout_set_attributes(layout_.get(), attributes.get());
  }

  bool fits_at(int size) {
    set_size(size);
    const PangoRectangle box = ink();
    return as_mm(box.width) <= bench::clear_width && as_mm(box.height) <= bench::clear_height;
  }

  void set_em(double points) {
    pango_font_description_set_absolute_size(description_.get(), points * PANGO_SCALE);
    pango_layout_set_font_description(layout_.get(), description_.get());
  }

  /// Cap height and line height at a size where an em is a whole number of Pango's units; refuses any other
  /// face.
  void measure_face() {
    constexpr double em = 1000;
    set_em(em);
    const Font font(pango_context_load_font(context_.get(), description_.get()));
    const Description found(pango_font_describe(font.get()));
    if (std::string_view(pango_font_description_get_family(found.get())) != "Vollkorn" ||
        pango_font_description_get_weight(found.get()) != PANGO_WEIGHT_SEMIBOLD)
      throw std::runtime_error("Vollkorn SemiBold is not installed (Debian: fonts-vollkorn)");
    const FontMetrics metrics(pango_font_get_metrics(font.get(), nullptr));
    const double line_height = pango_font_metrics_get_height(metrics.get()) / (em * PANGO_SCALE);
    pango_layout_set_line_spacing(layout_.get(), static_cast<float>(bench::leading_em / line_height));
    pango_layout_set_text(layout_.get(), "H", -1);
    cap_height_em_ = (pango_layout_get_baseline(layout_.get()) - ink().y) / (em * PANGO_SCALE);
  }

  FontMap fonts_;
  Context context_;
  Layout layout_;
  Description description_;
  std::string text_;
  double cap_height_em_ = 1;
};

void draw_inscription(cairo_t* canvas, Lettering& lettering, bench::Corner corner, int size) {
  lettering.set_size(size);
  const PangoRectangle ink = lettering.ink();
  const double left = corner.left + (bench::blank_width - as_mm(ink.width)) / 2 - as_mm(ink.x);
  const double top = corner.top + (bench::blank_height - as_mm(ink.height)) / 2 - as_mm(ink.y);
  cairo_move_to(canvas, left * pt, top * pt);
  pango_cairo_layout_path(canvas, lettering.layout());
  cairo_fill(canvas);
}

void draw_frame(cairo_t* canvas, bench::Corner corner, double inset, double width) {
  cairo_rectangle(canvas, (corner.left + inset) * pt, (corner.top + inset) * pt, (bench::blank_width - 2 * inset) * pt,
                  (bench::blank_height - 2 * inset) * pt);
  cairo_set_line_width(canvas, width * pt);
  cairo_stroke(canvas);
}

void draw_plaque(cairo_t* canvas, Lettering& lettering, bench::Corner corner, int size) {
  draw_frame(canvas, corner, 0, 0.1);
  draw_frame(canvas, corner, bench::margin + bench::border_width / 2, bench::border_width);
  draw_inscription(canvas, lettering, corner, size);
}

struct Tally {
  std::size_t plaques = 0, held = 0, sheets = 0;
  double cap_heights = 0;  // mm, summed
};

class Sheet {
 public:
  explicit Sheet(const std::filesystem::path& file)
      : surface_(cairo_svg_surface_create(file.c_str(), bench::bed_width * pt, bench::bed_height * pt)),
        canvas_(cairo_create(surface_.get())) {}

  cairo_t* canvas() { return canvas_.get(); }

  void finish() {
    canvas_.reset();
    cairo_surface_finish(surface_.get());
    if (const cairo_status_t status = cairo_surface_status(surface_.get()); status != CAIRO_STATUS_SUCCESS)
      throw std::runtime_error(cairo_status_to_string(status));
  }

 private:
  Surface surface_;
  Canvas canvas_;
};

Tally set_orders(const std::vector<bench::Order>& orders, const std::filesystem::path& folder, Lettering& lettering,
                 bool scale_once) {
  Tally tally;
  std::optional<Sheet> sheet;
  for (const bench::Order& order : orders) {
    lettering.set_text(order.lines);
    const std::optional<int> size = scale_once ? lettering.scale_size() : lettering.bisect_size();
    if (!size) {
      ++tally.held;
      continue;
    }
    if (!sheet) sheet.emplace(folder / bench::sheet_file(++tally.sheets));
    draw_plaque(sheet->canvas(), lettering, bench::plaque_corner(tally.plaques % bench::plaques_per_sheet), *size);
    tally.cap_heights += static_cast<double>(*size) / sizes_per_mm;
    if (++tally.plaques % bench::plaques_per_sheet != 0) continue;
    sheet->finish();
    sheet.reset();
  }
  if (sheet) sheet->finish();
  return tally;
}

}  // namespace

int main(int count, char** words) try {
  const bool scale_once = count == 5 && std::string_view(words[4]) == "--scale-once";
  if (count != 4 && !scale_once)
    throw std::runtime_error("usage: bench_peer ORDERS.csv FOLDER FONT.ttf [--scale-once]");
  const std::vector<bench::Order> orders = bench::read_orders(words[1]);
  Lettering lettering(words[3]);
  const Tally tally = set_orders(orders, words[2], lettering, scale_once);
  std::cout << "{\"items_set\": " << tally.plaques << ", \"held\": " << tally.held << ", \"sheets\": " << tally.sheets
            << ", \"mean_cap_height\": "
            << tally.cap_heights / static_cast<double>(std::max<std::size_t>(tally.plaques, 1)) << "}\n";
} catch (const std::exception& error) {
  std::cerr << "bench_peer: " << error.what() << "\n";
  return 3;
}
