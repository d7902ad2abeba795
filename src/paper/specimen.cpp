#include <array>
#include <cmath>

#include "paper/paper.h"
#include "paper/specimen_text.h"

namespace ordinatio::inline paper {
namespace {

constexpr std::array cap_heights{3.5, 5.0, 7.0, 10.0, 14.0, 20.0};  // mm: ISO 3098-1, from what is read at arm's length

Result<std::vector<Passage>> passages_of(SpecimenText& text) {
  std::vector<Passage> passages{blank_lines(1)};
  for (Passage& passage : text.facts()) passages.push_back(std::move(passage));
  passages.push_back(blank_lines(1));
  for (Passage& passage : text.alphabets()) passages.push_back(std::move(passage));
  passages.push_back(blank_lines(1));
  for (const double cap_height : cap_heights) {
    Result<Passage> sample = text.sample(cap_height);
    if (!sample.ok()) return sample.fault();
    passages.push_back(blank_lines(1));
    passages.push_back(std::move(*sample));
    // The largest does not stand alone on a page.
    if (cap_height == cap_heights.back()) (passages.end() - 2)->with_next = (passages.end() - 3)->with_next = true;
  }
  return passages;
}

double ink_on(const FlowedPage& page) {
  double area = 0;
  for (const FlowedPassage& flowed : page) {
    for (const InkCell& cell : flowed.passage.inks) area += area_of(cell.ink);
  }
  return area;
}

}  // namespace

Result<Specimen> write_specimen_pdf(const std::vector<CatalogueFace>& faces, const SpecimenPlan& plan,
                                    const FontLibrary& fonts) {
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  std::string kind = "Specimen for a spot of ";
  kind += mm_text(plan.spot, 3);
  Canvas canvas = Canvas::pdf(make_visible("Specimen · " + plan.shop_name, " ").text);
  Specimen specimen;
  for (const CatalogueFace& face : faces) {
    SpecimenText text(*lettering, plan, face, a4.left(), a4.right());
    const Result<std::vector<Passage>> passages = passages_of(text);
    if (!passages.ok()) return passages.fault();
    const std::vector<FlowedPage> pages = flow(*passages, a4.lines(), a4.lines());
    for (std::size_t i = 0; i < pages.size(); ++i) {
      canvas.start_page(a4.width, a4.height);
      canvas.name_page(make_visible(face.name, " ").text, i == 0);
      Page page(canvas, *lettering, a4);
      page.draw_head({plan.shop_name, i == 0 ? kind : kind + ", continued", face.name});
      page.draw(pages[i]);
      page.draw_foot({face.name, i + 1, pages.size()});
      specimen.ink.push_back(ink_on(pages[i]));
    }
  }
  Result<std::string> pdf = canvas.finish();
  if (!pdf.ok()) return pdf.fault();
  specimen.pdf = std::move(*pdf);
  return specimen;
}

}  // namespace ordinatio::inline paper
