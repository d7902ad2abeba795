#include <algorithm>
#include <cmath>

#include "paper/artwork_picture.h"
#include "paper/page.h"
#include "paper/paper.h"
#include "paper/sample_layout.h"

namespace ordinatio::inline paper {
namespace {

// Of the PNG, mm.
constexpr double sheet_margin = 12, head_height = 14, sheet_row_gap = 12;
constexpr double fine_pixels = 4, most_picture_pixels = 40e6;  // a mm; in all: more is slow to look at

Transform to_page(const PlacedSample& placed) {
  const Bounds box = piece_box(*placed.artwork);
  const double scale = 1 / placed.reduction;
  return then(scale_by(scale), shift_by({placed.at.x - scale * box.left, placed.at.y - scale * box.top}));
}

/// A line of at most `width` mm, smaller where it would be longer.
SetLine fitted(Lettering& lettering, const std::string& text, double size, double width) {
  SetLine line = lettering.set(text, size);
  line.size *= std::min(1.0, width / std::max(line.width(), 1e-9));
  return line;
}

class DesignPages {
 public:
  DesignPages(Lettering& lettering, std::string shop_name)
      : canvas_(Canvas::pdf(make_visible("Designs · " + shop_name, " ").text)),
        lettering_(lettering),
        shop_name_(std::move(shop_name)) {}

  void add(const DesignSamples& design) {
    const std::vector<PlacedSample> placed = lay_samples(design.artworks);
    canvas_.start_page(a4.width, a4.height);
    canvas_.name_page(make_visible(design.name, " ").text, true);
    Page page(canvas_, lettering_, a4);
    page.draw_head({shop_name_, "Specimen of a design", design.name});
    const double width = a4.right() - a4.left();
    lettering_.draw(canvas_, fitted(lettering_, design.about, body_size, width), {a4.left(), a4.baseline(1)}, black);
    lettering_.draw(canvas_, fitted(lettering_, design.facts, small_size, width), {a4.left(), a4.baseline(2)}, grey);
    double& ink = ink_.emplace_back(0);
    for (const PlacedSample& one : placed) {
      draw_artwork(canvas_, lettering_, *one.artwork, to_page(one));
      const double below = one.at.y - piece_box(*one.artwork).height() / one.reduction - sample_caption_below;
      page.write(caption_of(one), {one.at.x, below}, small_size, grey);
      ink += ink_of(*one.artwork) / (one.reduction * one.reduction);
    }
    page.draw_foot({design.name, 1, 1});
  }

  Result<std::string> finish() { return canvas_.finish(); }
  [[nodiscard]] const std::vector<double>& ink() const { return ink_; }

 private:
  static std::string caption_of(const PlacedSample& placed) {
    std::string scale;
    append_number(scale = "1:", placed.reduction, 0);
    const std::string capitals = mm_text(placed.artwork->cap_height, 1);
    return (placed.reduction == 1 ? "True size" : scale) + ", smallest capitals " + capitals;
  }

  Canvas canvas_;
  Lettering& lettering_;
  std::string shop_name_;
  std::vector<double> ink_;
};

/// How large a design's row is on the picture of all of them.
Point row_size(const DesignSamples& design) {
  Point size{-sample_gap, 0};
  for (const Artwork& artwork : design.artworks) {
    const Bounds box = piece_box(artwork);
    size = {size.x + box.width() + sample_gap, std::max(size.y, box.height())};
  }
  return size;
}

Result<std::string> picture_of(const std::vector<DesignSamples>& designs, Lettering& lettering) {
  Point size{0, 2 * sheet_margin - sheet_row_gap};
  for (const DesignSamples& design : designs) {
    const Point row = row_size(design);
    size = {std::max(size.x, row.x), size.y + head_height + row.y + sheet_row_gap};
  }
  size.x += 2 * sheet_margin;
  const double pixels = std::min(fine_pixels, std::sqrt(most_picture_pixels / (size.x * size.y)));
  Canvas canvas = Canvas::picture(size.x, size.y, 0, pixels);
  double top = size.y - sheet_margin;
  for (const DesignSamples& design : designs) {
    const double width = size.x - 2 * sheet_margin;
    const SetLine name = fitted(lettering, design.name, title_size, width / 2);
    const SetLine about = fitted(lettering, design.about, large_size, width - name.width() - sample_gap);
    lettering.draw(canvas, name, {sheet_margin, top - title_size}, black);
    lettering.draw(canvas, about, {sheet_margin + name.width() + sample_gap, top - title_size}, grey);
    Point at{sheet_margin, top - head_height};
    for (const Artwork& artwork : design.artworks) {
      draw_artwork(canvas, lettering, artwork, to_page({&artwork, 1, at}));
      at.x += piece_box(artwork).width() + sample_gap;
    }
    top -= head_height + row_size(design).y + sheet_row_gap;
  }
  return canvas.finish();
}

}  // namespace

Result<DesignSpecimen> write_design_specimen(const std::vector<DesignSamples>& designs, const std::string& shop_name,
                                             const FontLibrary& fonts) {
  if (designs.empty()) return Fault{"there is no design to show", "", "each of them is held", "Mend the designs"};
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  DesignPages pages(*lettering, shop_name);
  for (const DesignSamples& design : designs) pages.add(design);
  Result<std::string> pdf = pages.finish(), png = picture_of(designs, *lettering);
  if (!pdf.ok()) return pdf.fault();
  if (!png.ok()) return png.fault();
  return DesignSpecimen{std::move(*pdf), std::move(*png), pages.ink()};
}

}  // namespace ordinatio::inline paper
