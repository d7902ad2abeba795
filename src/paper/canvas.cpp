#include "paper/canvas.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <new>

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ORDINATIO_LEAKS_ARE_SOUGHT
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define ORDINATIO_LEAKS_ARE_SOUGHT
#endif
#ifdef ORDINATIO_LEAKS_ARE_SOUGHT
#include <sanitizer/lsan_interface.h>
#endif

namespace ordinatio::inline paper {
namespace {

constexpr const char* fixed_date = "2000-01-01T00:00:00Z";  // the same input gives the same bytes, on any day

cairo_status_t take_bytes(void* closure, const unsigned char* data, unsigned length) {
  try {  // no exception may pass through C
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  } catch (const std::bad_alloc&) {
    return CAIRO_STATUS_NO_MEMORY;
  }
}

void set_colour(cairo_t* context, Colour colour) {
  cairo_set_source_rgb(context, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0);
}

void leave_glyphs_as_drawn(cairo_t* context) {
  const std::unique_ptr<cairo_font_options_t, decltype(&cairo_font_options_destroy)> options(
      cairo_font_options_create(), cairo_font_options_destroy);
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(context, options.get());
}

bool is_finite(const Path& path) {
  return std::all_of(path.points().begin(), path.points().end(),
                     [](Point p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

bool reaches_far(const Path& path) {
  return std::any_of(path.points().begin(), path.points().end(),
                     [](Point p) { return std::abs(p.x) > farthest_point || std::abs(p.y) > farthest_point; });
}

/// Cairo 1.16 loses 768 bytes with every face of CID-keyed outlines (Han, kana, Hangul) that it embeds. It does so here,
/// where nothing of ours is made, so that the leaks that are sought elsewhere stay found.
void finish_surface(cairo_surface_t* surface) {
#ifdef ORDINATIO_LEAKS_ARE_SOUGHT
  const __lsan::ScopedDisabler not_here;
#endif
  cairo_surface_finish(surface);
}

bool is_length(double mm) { return mm > 0 && mm <= longest_page; }  // false for NaN too

}  // namespace

void CairoRelease::operator()(_cairo* context) const { cairo_destroy(context); }
void CairoRelease::operator()(_cairo_surface* surface) const { cairo_surface_destroy(surface); }
void CairoRelease::operator()(_cairo_font_face* face) const { cairo_font_face_destroy(face); }

Canvas Canvas::pdf(const std::string& title) {
  Canvas canvas;
  canvas.is_pdf_ = true;
  canvas.surface_.reset(cairo_pdf_surface_create_for_stream(take_bytes, canvas.bytes_.get(), 1, 1));
  canvas.page_ = {CairoContext(cairo_create(canvas.surface_.get())), 1 / mm_per_point};
  leave_glyphs_as_drawn(canvas.page_.context.get());
  canvas.set_metadata(title);
  return canvas;
}

Canvas Canvas::picture(double width, double height, double below, double pixels_per_mm) {
  Canvas canvas;
  canvas.height_ = height;
  const double columns = std::round(width * pixels_per_mm), rows = std::round((height + below) * pixels_per_mm);
  const bool possible = columns >= 1 && rows >= 1 && columns * rows <= most_pixels && columns < 32'768 && rows < 32'768;
  if (!possible) canvas.refuse("a picture has 1 to 32,767 pixels each way, and no more than 200 million");
  canvas.surface_.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, possible ? static_cast<int>(columns) : 1,
                                                   possible ? static_cast<int>(rows) : 1));
  canvas.page_ = {CairoContext(cairo_create(canvas.surface_.get())), pixels_per_mm};
  leave_glyphs_as_drawn(canvas.page_.context.get());
  set_colour(canvas.page_.context.get(), {255, 255, 255});
  cairo_paint(canvas.page_.context.get());
  return canvas;
}

void Canvas::set_metadata(const std::string& title) {
  cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATE_DATE, fixed_date);
  cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_MOD_DATE, fixed_date);
}

void Canvas::start_page(double width, double height) {
  close_page();
  if (!is_length(width) || !is_length(height)) return refuse("a PDF page is at most 5080 mm long");
  height_ = height;
  page_open_ = true;
  ++pages_;
  cairo_pdf_surface_set_size(surface_.get(), width / mm_per_point, height / mm_per_point);
  paths_.emplace_back();
}

void Canvas::name_page(const std::string& name, bool in_contents, const std::string& chapter) {
  cairo_pdf_surface_set_page_label(surface_.get(), name.c_str());
  if (!in_contents) return;
  const std::string place = "page=" + std::to_string(pages_) + " pos=[0 0]";
  const auto add = [&](int above, const std::string& title) {
    return cairo_pdf_surface_add_outline(surface_.get(), above, title.c_str(), place.c_str(),
                                         CAIRO_PDF_OUTLINE_FLAG_OPEN);
  };
  if (chapter != chapter_ && !chapter.empty()) chapter_place_ = add(CAIRO_PDF_OUTLINE_ROOT, chapter);
  chapter_ = chapter;
  add(chapter.empty() ? CAIRO_PDF_OUTLINE_ROOT : chapter_place_, name);
}

void Canvas::set_keywords(const std::string& keywords) {
  cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_KEYWORDS, keywords.c_str());
}

void Canvas::begin_element(const char* role) {
  role_ = role;
  if (is_pdf_) cairo_tag_begin(page_.context.get(), role, nullptr);
}

void Canvas::end_element() {
  if (is_pdf_) cairo_tag_end(page_.context.get(), role_);
}

void Canvas::close_page() {
  if (!page_open_) return;
  cairo_show_page(page_.context.get());
  page_open_ = false;
}

void Canvas::trace(const Path& path) {
  cairo_t* context = page_.context.get();
  cairo_new_path(context);
  auto next = path.points().begin();
  Point at;  // where the pen is
  const auto take = [&] { return on(page_, *next++); };
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        at = take();
        cairo_move_to(context, at.x, at.y);
        break;
      case Path::Verb::line:
        at = take();
        cairo_line_to(context, at.x, at.y);
        break;
      case Path::Verb::quad: {  // the same curve as a cubic
        const Point control = take(), end = take();
        const Point first = at + 2.0 / 3 * (control - at), second = end + 2.0 / 3 * (control - end);
        cairo_curve_to(context, first.x, first.y, second.x, second.y, end.x, end.y);
        at = end;
        break;
      }
      case Path::Verb::cubic: {
        const Point first = take(), second = take();
        at = take();
        cairo_curve_to(context, first.x, first.y, second.x, second.y, at.x, at.y);
        break;
      }
      case Path::Verb::close:
        cairo_close_path(context);
        break;
    }
  }
}

/// Nothing after the first fault: without a page not even the scale is known.
bool Canvas::takes(const Path& path) {
  if (!is_finite(path)) refuse("a path holds a number that is not finite");
  if (is_pdf_ && reaches_far(path)) refuse("a path reaches far beyond every page");
  if (is_pdf_ && !page_open_) refuse("a path is drawn before there is a page");
  return !fault_;
}

void Canvas::fill(const Path& path, Colour colour) {
  if (!takes(path)) return;
  if (is_pdf_) return paths_.back().fill(path, colour);
  trace(path);
  set_colour(page_.context.get(), colour);
  cairo_fill(page_.context.get());
}

void Canvas::stroke(const Path& path, const Pen& pen) {
  if (!takes(path)) return;
  if (is_pdf_) return paths_.back().stroke(path, pen);
  trace(path);
  const Plane& plane = page_;
  std::vector<double> dashes = pen.dashes;
  for (double& dash : dashes) dash *= plane.units_per_mm;
  cairo_set_dash(plane.context.get(), dashes.data(), static_cast<int>(dashes.size()), 0);
  cairo_set_line_width(plane.context.get(), pen.width * plane.units_per_mm);
  set_colour(plane.context.get(), pen.colour);
  cairo_stroke(plane.context.get());
}

void Canvas::show(const GlyphRun& run, _cairo_font_face* face, double size, Colour colour) {
  cairo_t* page = page_.context.get();
  cairo_set_font_face(page, face);
  cairo_set_font_size(page, size * page_.units_per_mm);
  set_colour(page, colour);
  std::vector<cairo_glyph_t> glyphs;
  for (const GlyphRun::Glyph& glyph : run.glyphs) {
    const Point at = on(page_, glyph.origin);
    glyphs.push_back({glyph.number, at.x, at.y});
  }
  std::vector<cairo_text_cluster_t> clusters;
  for (const GlyphRun::Cluster& cluster : run.clusters) clusters.push_back({cluster.bytes, cluster.glyphs});
  cairo_show_text_glyphs(page, run.text.data(), static_cast<int>(run.text.size()), glyphs.data(),
                         static_cast<int>(glyphs.size()), clusters.data(), static_cast<int>(clusters.size()),
                         run.right_to_left ? CAIRO_TEXT_CLUSTER_FLAG_BACKWARD : cairo_text_cluster_flags_t{});
}

Result<std::string> Canvas::finish() {
  if (is_pdf_) {
    close_page();
    if (pages_ == 0) refuse("it has no pages");
    finish_surface(surface_.get());
  } else if (cairo_surface_write_to_png_stream(surface_.get(), take_bytes, bytes_.get()) != CAIRO_STATUS_SUCCESS) {
    refuse("the picture could not be packed as PNG");
  }
  if (MaybeFault fault = first_fault()) return *fault;
  return is_pdf_ ? with_paths(*bytes_, paths_) : std::move(*bytes_);
}

void Canvas::refuse(const std::string& why) {
  if (fault_) return;
  fault_ = Fault{is_pdf_ ? "the PDF cannot be drawn" : "the picture cannot be drawn", "", why, ""};
}

MaybeFault Canvas::first_fault() const {
  if (fault_) return fault_;
  for (const cairo_status_t status : {cairo_status(page_.context.get()), cairo_surface_status(surface_.get())}) {
    // A context on a finished surface says so; that is no error.
    if (status == CAIRO_STATUS_SUCCESS || status == CAIRO_STATUS_SURFACE_FINISHED) continue;
    return Fault{is_pdf_ ? "the PDF cannot be drawn" : "the picture cannot be drawn", "",
                 cairo_status_to_string(status), ""};
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline paper
