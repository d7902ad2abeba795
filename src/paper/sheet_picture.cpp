#include <algorithm>
#include <cmath>

#include "paper/kept_clear.h"
#include "paper/page.h"
#include "paper/paper.h"
#include "paper/paragraphs.h"
#include "paper/sheet_labels.h"
#include "paper/sheet_words.h"

namespace ordinatio::inline paper {
namespace {

constexpr double hairline = 0.1;  // mm, for whatever is followed and not filled
constexpr Colour label_ink{0x33, 0x33, 0x33};
constexpr double strip_margin = 4;                        // mm around what stands below a picture
constexpr double heading_size = 5, cautions_title = 5.5;  // mm per em

/// What is there for people is in no operation's colour.
Colour ink_beside(const Palette& palette) {
  Colour ink = label_ink;
  while (std::ranges::find(palette.colours, ink) != palette.colours.end()) ++ink.blue;
  return ink;
}

std::vector<Paragraph> paragraphs_of(const SheetLabels& labels, double factor) {
  std::vector<Paragraph> paragraphs;
  if (!labels.cautions.empty()) paragraphs.push_back({"Cautions", cautions_title * factor});
  for (const std::string& caution : labels.cautions) {
    paragraphs.push_back({caution, caution_size * factor, caution_leading});
  }
  for (const std::string& remark : labels.remarks) paragraphs.push_back({remark, body_size * factor});
  return paragraphs;
}

void draw_bed(Canvas& canvas, Lettering& lettering, const Sheet& sheet, const SheetLabels& labels) {
  const Palette& palette = sheet.frame.plan.palette;
  for (const SheetPart& part : sheet.parts) {
    const Colour colour = palette[part.operation];
    if (is_filled(part.operation)) {
      canvas.fill(part.path, colour);
    } else {
      canvas.stroke(part.path, {hairline, colour, {}});
    }
  }
  const Colour ink = ink_beside(palette);
  for (const SheetItem& item : sheet.items) {
    draw_kept_clear(canvas, lettering, item.artwork.kept_clear, item.to_bed, ink);
  }
  for (const PlacedLabel& placed : labels.placed) draw_label(canvas, lettering, placed.label, placed.lower_left, ink);
}

/// What found no room on the bed, on A4: that is what it is printed on, at true size.
void draw_further_pages(Canvas& canvas, Lettering& lettering, const Sheet& sheet, const SheetLabels& labels) {
  const double width = a4.right() - a4.left();
  std::vector<Label> rest = set_paragraphs(lettering, paragraphs_of(labels, 1), width);
  while (!rest.empty()) {
    canvas.start_page(a4.width, a4.height);
    std::vector<Label> head = set_paragraphs(lettering, {{heading_of(sheet), heading_size}}, width);
    const double top = a4.height - top_margin - height_of(head) - 2 * heading_size;
    draw_down(canvas, lettering, std::move(head), a4.left(), a4.height - top_margin, 0,
              ink_beside(sheet.frame.plan.palette));
    rest = draw_down(canvas, lettering, std::move(rest), a4.left(), top, foot_margin,
                     ink_beside(sheet.frame.plan.palette));
  }
}

bool has_measures(const Machine& bed) {
  return std::isfinite(bed.width) && std::isfinite(bed.height) && bed.width > 0 && bed.height > 0;
}

/// None on a bed without measures: the canvas refuses it.
SheetLabels labels_of(Lettering& lettering, const Sheet& sheet, const std::vector<std::string>& remarks) {
  return has_measures(sheet.frame.plan.machine) ? place_labels(lettering, sheet, remarks) : SheetLabels{};
}

}  // namespace

Result<std::string> write_sheet_pdf(const Sheet& sheet, Lettering& lettering, const std::vector<std::string>& remarks) {
  Canvas canvas = Canvas::pdf(make_visible(sheet.name, " ").text);
  canvas.start_page(sheet.frame.plan.machine.width, sheet.frame.plan.machine.height);
  if (MaybeFault fault = canvas.first_fault()) return *std::move(fault);
  const SheetLabels labels = labels_of(lettering, sheet, remarks);
  draw_bed(canvas, lettering, sheet, labels);
  draw_further_pages(canvas, lettering, sheet, labels);
  return canvas.finish();
}

Result<std::string> write_sheet_png(const Sheet& sheet, const FontLibrary& fonts, double pixels_per_mm,
                                    const std::vector<std::string>& remarks) {
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  const Machine& bed = sheet.frame.plan.machine;
  const SheetLabels labels = labels_of(*lettering, sheet, remarks);
  std::vector<Label> below =
      set_paragraphs(*lettering, paragraphs_of(labels, enlargement_for(bed)), bed.width - 2 * strip_margin);
  const double strip = below.empty() ? 0 : height_of(below) + 2 * strip_margin;
  Canvas canvas = Canvas::picture(bed.width, bed.height, strip, pixels_per_mm);
  draw_bed(canvas, *lettering, sheet, labels);
  draw_down(canvas, *lettering, std::move(below), strip_margin, -strip_margin, -strip,
            ink_beside(sheet.frame.plan.palette));
  return canvas.finish();
}

}  // namespace ordinatio::inline paper
