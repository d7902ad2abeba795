#include "visual_middle.h"

#include <cairo.h>
#include <unicode/unistr.h>
#include <unicode/uscript.h>

#include <cmath>
#include <memory>

namespace golden {
using namespace ordinatio;
namespace {

constexpr double pixels_per_mm = 8;

/// Of the first letter that has one of its own.
std::string script_of(const std::string& words) {
  const std::string language = told_language({words});
  const auto units = icu::UnicodeString::fromUTF8(words);
  for (std::int32_t at = 0; at < units.length(); at = units.moveIndex32(at, 1)) {
    UErrorCode status = U_ZERO_ERROR;
    const UScriptCode script = uscript_getScript(units.char32At(at), &status);
    if (script == USCRIPT_COMMON || script == USCRIPT_INHERITED) continue;
    return uscript_getShortName(script) + std::string(language == "ur" ? " ur" : "");
  }
  return "signs";
}

/// Or a hair narrower at one end.
bool is_rectangle(const Polygon& room, const Bounds& box) { return area_of(room) > 0.99 * box.width() * box.height(); }

Path inscription_of(const Artwork& artwork) {
  Path ink;
  for (const Layer& layer : artwork.layers) ink.append(layer.path);
  return ink;
}

}  // namespace

double visual_middle(const Path& ink) {
  const Bounds box = bounds_of(ink);
  const auto across = static_cast<int>(std::ceil(box.width() * pixels_per_mm)) + 2;
  const auto up = static_cast<int>(std::ceil(box.height() * pixels_per_mm)) + 2;
  const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> paper(
      cairo_image_surface_create(CAIRO_FORMAT_A8, across, up), cairo_surface_destroy);
  const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> pen(cairo_create(paper.get()), cairo_destroy);
  cairo_translate(pen.get(), 1 - box.left * pixels_per_mm, 1 - box.bottom * pixels_per_mm);
  cairo_scale(pen.get(), pixels_per_mm, pixels_per_mm);  // upside down: rows count from the bottom
  trace(pen.get(), ink);
  cairo_fill(pen.get());
  cairo_surface_flush(paper.get());
  double moment = 0, weight = 0;
  for (int row = 0; row < up; ++row) {
    const unsigned char* pixels =
        cairo_image_surface_get_data(paper.get()) + row * cairo_image_surface_get_stride(paper.get());
    double covered = 0;
    for (int x = 0; x < across; ++x) covered += pixels[x];
    weight += std::sqrt(covered);
    moment += std::sqrt(covered) * (row + 0.5 - 1);
  }
  return box.bottom + moment / weight / pixels_per_mm;
}

std::vector<MiddleError> middle_errors(const std::vector<AwkwardText>& texts) {
  const FontLibrary library{"none"};
  Typesetter typesetter{library};
  std::vector<MiddleError> errors;
  for (const AwkwardText& text : texts) {
    const Artwork artwork = composed(text, typesetter);
    if (!artwork.clear_area.obstacles.empty()) continue;
    const Polygon room = polygon_of(artwork.clear_area.region);
    Bounds around;
    for (const Point p : room) around.add(p);
    if (!is_rectangle(room, around)) continue;
    const Path ink = inscription_of(artwork);
    const Bounds box = bounds_of(ink);
    MiddleError error{text.name, script_of(text.words), visual_middle(ink) - around.centre().y};
    error.above = around.top - box.top, error.below = box.bottom - around.bottom, error.em = artwork.placement.size;
    if (error.above + error.below >= free_room) errors.push_back(std::move(error));
  }
  return errors;
}

}  // namespace golden
