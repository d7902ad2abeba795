#include <cairo-svg.h>
#include <librsvg/rsvg.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "logo/drawing.h"

namespace ordinatio::inline logo {
namespace {

// Of Cairo's vector outputs, SVG keeps paths, clips, groups and opacities as they are. In Cairo 1.16 its script output
// fails on shapes of straight upright edges, PostScript needs a file and hides opacity, PDF puts groups elsewhere.

constexpr double page_units = 100'000;  // of the longer side: 1/256 unit is 4e-8 of it, and a reach of 80 boxes is left
constexpr double survey_units = 64;     // the same drawing, small enough to see what lies 100,000 boxes away
constexpr double survey_margin = 4'000'000;
constexpr double speck = 1e-6;  // px; a box narrower than this has no size

using Handle = std::unique_ptr<RsvgHandle, decltype(&g_object_unref)>;
using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

struct Size {
  double width, height;  // CSS px
};

Fault fault(std::string why, std::string mend) {
  return {"the logo cannot be engraved", {}, std::move(why), std::move(mend)};
}

std::string taken(GError* error) {
  std::string message = error ? error->message : "no reason given";
  g_clear_error(&error);
  return message;
}

/// The SVG's own width and height, or else its viewBox, one unit a pixel.
Result<Size> size_of(RsvgHandle* handle) {
  gboolean has_box = FALSE;
  RsvgRectangle box{};
  rsvg_handle_get_intrinsic_dimensions(handle, nullptr, nullptr, nullptr, nullptr, &has_box, &box);
  Size size{};
  if (!rsvg_handle_get_intrinsic_size_in_pixels(handle, &size.width, &size.height)) {
    if (!has_box) return fault("the SVG says no size", "Give <svg> a width and height, or a viewBox");
    size = {box.width, box.height};
  }
  const bool flat_box = has_box && !(box.width > 0 && box.height > 0);
  if (flat_box || !(size.width > speck && size.height > speck) || !std::isfinite(size.width * size.height))
    return fault("its page has no size", "Give <svg> a width, height and viewBox above zero");
  return size;
}

cairo_status_t append_bytes(void* out, const unsigned char* bytes, unsigned count) {
  auto& text = *static_cast<std::string*>(out);
  if (text.size() + count > page_bytes) return CAIRO_STATUS_WRITE_ERROR;
  text.append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

Result<Page> drawn(RsvgHandle* handle, Size size, double scale, double margin) {
  std::string svg;
  const double width = std::ceil(size.width * scale) + 2 * margin;
  const double height = std::ceil(size.height * scale) + 2 * margin;
  const Surface surface{cairo_svg_surface_create_for_stream(append_bytes, &svg, width, height), cairo_surface_destroy};
  const Context context{cairo_create(surface.get()), cairo_destroy};
  cairo_translate(context.get(), margin, margin);
  cairo_scale(context.get(), scale, scale);
  const RsvgRectangle viewport{0, 0, size.width, size.height};
  GError* error = nullptr;
  if (!rsvg_handle_render_document(handle, context.get(), &viewport, &error))
    return fault("the drawing library refuses it: " + taken(error),
                 "Save it as SVG that holds nothing but filled shapes");
  cairo_surface_finish(surface.get());
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS)
    return fault("its outlines are longer than " + std::to_string(page_bytes) + " bytes", "Simplify the drawing");

  const double mm = mm_per_css_px / scale;
  const Transform to_mm{mm, 0, 0, -mm, -margin * mm, (margin + size.height * scale) * mm};
  return Page{std::move(svg), to_mm, {0, 0, size.width * mm_per_css_px, size.height * mm_per_css_px}};
}

/// Cairo's coordinates wrap round 8.4 million units; a shape that far out would come back somewhere in the page.
MaybeFault too_far_out(const Page& survey) {
  const auto drawing = read_page(survey);
  if (!drawing.ok()) return drawing.fault();
  Bounds ink;
  for (const Paint& paint : drawing->paints) ink.add(bounds_of(transformed(paint.path, paint.to_mm)));
  const Bounds& box = survey.box;
  const double far = reach * std::max(box.width(), box.height());
  if (ink.empty() || (ink.left > -far && ink.bottom > -far && ink.right < far && ink.top < far)) return std::nullopt;
  return fault("something is drawn more than 60 pages away from the page", "Delete what lies outside the page");
}

/// What the page would cut off in silence.
MaybeFault past_the_page(const Page& survey) {
  const auto drawing = read_page(survey);
  if (!drawing.ok()) return drawing.fault();
  const auto reach = reach_of(*drawing);
  if (!reach.ok()) return reach.fault();
  if (reach->empty()) return std::nullopt;
  const Bounds& page = drawing->box;
  const double slack = page_slack * std::max(page.width(), page.height());
  const std::pair<const char*, double> sides[] = {{" on the left", page.left - reach->left},
                                                  {" on the right", reach->right - page.right},
                                                  {" below", page.bottom - reach->bottom},
                                                  {" above", reach->top - page.top}};
  std::string over;
  for (const auto& [side, by] : sides) {
    if (by > slack) over += (over.empty() ? "by " : ", ") + mm_text(by, 1) + side;
  }
  if (over.empty()) return std::nullopt;
  return Fault{
      "the drawing reaches past its page",
      {},
      over + ": what is past the page would be cut off, and all places would shift",
      "Make the page as large as the drawing (width, height and viewBox of <svg>), or move the drawing onto it"};
}

}  // namespace

Result<Page> draw(std::string_view svg) {
  GError* error = nullptr;
  // No base file and no stream: librsvg then refuses every reference out of the file.
  const Handle handle{rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error),
                      g_object_unref};
  if (!handle)
    return fault("the drawing library refuses it: " + taken(error),
                 "Save it as SVG that holds nothing but filled shapes");
  rsvg_handle_set_dpi(handle.get(), mm_per_inch / mm_per_css_px);
  const auto size = size_of(handle.get());
  if (!size.ok()) return size.fault();
  const double longer = std::max(size->width, size->height);
  const auto survey = drawn(handle.get(), *size, survey_units / longer, survey_margin);
  if (!survey.ok()) return survey.fault();
  if (auto far = too_far_out(*survey)) return *std::move(far);
  if (auto past = past_the_page(*survey)) return *std::move(past);
  return drawn(handle.get(), *size, page_units / longer, 0);
}

}  // namespace ordinatio::inline logo
