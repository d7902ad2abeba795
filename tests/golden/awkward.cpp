#include "awkward.h"

#include <cairo.h>

#include <cmath>
#include <memory>
#include <sstream>
#include <stdexcept>

#include "design/design.h"
#include "design/design_file.h"

namespace golden {
namespace fs = std::filesystem;
using namespace ordinatio;
namespace {

constexpr double pixels_per_mm = 4;  // a hairline of 0.1 mm is still there, in grey
constexpr const char* usual_blank = "\n[blank]\nwidth = 100\nheight = 60\n";
constexpr const char* usual_clear = "\n[clear]\nmargin = 4\n";
constexpr const char* usual_leading =
    "cap_leading = { mixed = 1.6, capitals = 1.45 }\n";  // as the shipped plaques have it

using Pen = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;
using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

[[noreturn]] void fail(const AwkwardText& text, const Fault& fault) {
  throw std::runtime_error(text.name + ": " + describe(fault));
}

/// Only the paper's white is held, so that the file is grey and small: ink takes it away.
void draw(const Artwork& artwork, const fs::path& file) {
  const Bounds box = bounds_of(path_of(artwork.blank));
  const auto across = static_cast<int>(std::ceil(box.right * pixels_per_mm)) + 2;
  const auto up = static_cast<int>(std::ceil(box.top * pixels_per_mm)) + 2;
  const Surface paper(cairo_image_surface_create(CAIRO_FORMAT_A8, across, up), cairo_surface_destroy);
  const Pen pen(cairo_create(paper.get()), cairo_destroy);
  cairo_paint(pen.get());
  cairo_translate(pen.get(), 1, up - 1);
  cairo_scale(pen.get(), pixels_per_mm, -pixels_per_mm);
  cairo_set_operator(pen.get(), CAIRO_OPERATOR_DEST_OUT);
  for (const Layer& layer : artwork.layers) trace(pen.get(), layer.path);
  cairo_fill(pen.get());
  trace(pen.get(), path_of(artwork.blank));
  for (const KeptClear& thing : artwork.kept_clear) trace(pen.get(), path_of(outline_of(thing)));
  cairo_set_source_rgba(pen.get(), 0, 0, 0, 0.5);
  cairo_set_line_width(pen.get(), 1 / pixels_per_mm);
  cairo_stroke(pen.get());
  if (cairo_surface_write_to_png(paper.get(), file.c_str()) != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error("cannot write " + file.string());
  }
}

std::string whole_design(const std::string& keys) {
  const auto without = [&keys](const char* table) { return keys.find(table) == std::string::npos; };
  return "[text]\n" + std::string(without("leading") ? usual_leading : "") + keys +
         (without("[blank]") ? usual_blank : "") + (without("[clear]") ? usual_clear : "");
}

}  // namespace

Artwork composed(const AwkwardText& text, Typesetter& typesetter) {
  const Result<Inscription> inscription = clean_inscription(text.words);
  if (!inscription.ok()) fail(text, inscription.fault());
  const Result<Design> design = parse_design(text.design, text.name + ".toml", text.name);
  if (!design.ok()) fail(text, design.fault());
  const Result<LaidDesign> laid = laid_as_drawn(*design);
  if (!laid.ok()) fail(text, laid.fault());
  const Result<Artwork> artwork = compose(*laid, {*inscription, ""}, typesetter);
  if (!artwork.ok()) fail(text, artwork.fault());
  return *artwork;
}

void trace(cairo_t* pen, const Path& path) {
  const Point* p = path.points().data();
  Point last;
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        cairo_move_to(pen, p[0].x, p[0].y);
        break;
      case Path::Verb::line:
        cairo_line_to(pen, p[0].x, p[0].y);
        break;
      case Path::Verb::quad: {  // raised to a cubic
        const Point a = 1.0 / 3 * (last + 2 * p[0]), b = 1.0 / 3 * (p[1] + 2 * p[0]);
        cairo_curve_to(pen, a.x, a.y, b.x, b.y, p[1].x, p[1].y);
        break;
      }
      case Path::Verb::cubic:
        cairo_curve_to(pen, p[0].x, p[0].y, p[1].x, p[1].y, p[2].x, p[2].y);
        break;
      case Path::Verb::close:
        cairo_close_path(pen);
    }
    constexpr int taken[] = {1, 1, 2, 3, 0};
    p += taken[static_cast<int>(verb)];
    if (verb != Path::Verb::close) last = p[-1];
  }
}

std::vector<AwkwardText> awkward_texts(const fs::path& file) {
  const Result<std::string> bytes = read_file(file);
  if (!bytes.ok()) throw std::runtime_error(describe(bytes.fault()));
  std::vector<AwkwardText> texts;
  std::istringstream lines(*bytes);
  bool in_words = false;
  std::size_t empty = 0;  // lines, which are the customer's where more of the words follow
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("= ")) {
      texts.push_back({line.substr(2), "", ""});
      in_words = false;
      empty = 0;
    } else if (in_words && line.empty()) {
      ++empty;
    } else if (texts.empty() || line.starts_with("#") || line.empty()) {
      continue;
    } else if (line == ":") {
      in_words = true;
    } else {
      AwkwardText& text = texts.back();
      if (!in_words) text.design += line + "\n";
      if (in_words) text.words += std::string(text.words.empty() ? 0 : 1 + empty, '\n') + line;
      empty = 0;
    }
  }
  for (AwkwardText& text : texts) {
    if (text.words.empty()) throw std::runtime_error(file.string() + ": " + text.name + " has no words");
    text.design = whole_design(text.design);
  }
  return texts;
}

void draw_awkward_texts(const std::vector<AwkwardText>& texts, const fs::path& folder) {
  const FontLibrary library{"none"};
  Typesetter typesetter{library};
  for (const AwkwardText& text : texts) draw(composed(text, typesetter), folder / (text.name + ".png"));
}

}  // namespace golden
