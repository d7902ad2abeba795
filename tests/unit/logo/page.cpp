// What a drawing's page would cut off.
#include "logo/logo.h"
#include "logo_drawing.h"

namespace ordinatio::page_test {
using Catch::Matchers::Contains;

namespace {

std::string refused(const std::string& svg) {
  const LogoFile file(svg);
  const auto logo = read_logo(file.path());
  return logo.ok() ? "" : describe(logo.fault());
}

}  // namespace

TEST_CASE("a drawing that reaches past its page is refused, with how far on which side") {
  struct Case {
    const char* body;
    const char* over;
  };
  const Case cases[] = {
      {"<rect x='-12' y='10' width='40' height='20'/>", "by 12 mm on the left: "},
      {"<rect x='80' y='10' width='40' height='20'/>", "by 20 mm on the right: "},
      {"<rect x='10' y='90' width='40' height='13.5'/>", "by 3.5 mm below: "},
      {"<rect x='10' y='-7' width='40' height='20'/>", "by 7 mm above: "},
      {"<rect x='-2' y='-3' width='104' height='107'/>",
       "by 2 mm on the left, 2 mm on the right, 4 mm below, 3 mm above: "},
      {"<rect x='10' y='10' width='40' height='20'/><circle cx='150' cy='50' r='10'/>", "by 60 mm on the right: "},
      {"<g transform='translate(-30 0)'><path d='M10 10h30v30h-30z'/></g>", "by 20 mm on the left: "},
      // A clip of the page's size is the page.
      {"<clipPath id='c'><rect width='100' height='100'/></clipPath><rect x='-20' width='140' height='100' "
       "clip-path='url(#c)'/>",
       "by 20 mm on the left, 20 mm on the right: "},
      // A stroke reaches half its width beyond its line.
      {"<rect x='2' y='2' width='96' height='96' fill='none' stroke='black' stroke-width='10'/>",
       "by 3 mm on the left, 3 mm on the right, 3 mm below, 3 mm above: "},
  };
  for (const auto& [body, over] : cases) {
    INFO(body);
    const std::string message = refused(page_with(body));
    CHECK_THAT(message, Contains("the drawing reaches past its page: ") && Contains(over) &&
                            Contains("Make the page as large as the drawing"));
  }
}

TEST_CASE("a viewBox that shows a part of the drawing cuts it too, and millimetres are the page's") {
  // Half of the drawing, twice as large: 30 units are 60 mm.
  CHECK_THAT(
      refused(svg_with("width='100mm' height='100mm' viewBox='30 0 50 50'", "<path d='M0 10 L70 10 L70 40 L0 40 Z'/>")),
      Contains("by 60 mm on the left"));
}

TEST_CASE("ink within the page, its author's own clips, and white beyond it are no fault") {
  for (const char* body :
       {"<rect width='100' height='100'/>", "<rect x='-0.1' width='100.2' height='100'/>",
        "<rect x='-50' y='-50' width='200' height='200' fill='white'/><rect x='10' y='10' width='5' height='5'/>",
        "<clipPath id='c'><circle cx='50' cy='50' r='20'/></clipPath><rect x='-20' width='140' height='100' "
        "clip-path='url(#c)'/>",
        "<clipPath id='c'><rect width='60' height='100'/></clipPath><rect x='-20' width='140' height='100' "
        "clip-path='url(#c)'/>",
        "<svg x='10' y='10' width='20' height='20'><circle r='50'/></svg>"}) {
    INFO(body);
    CHECK(refused(page_with(body)).empty());
  }
}

}  // namespace ordinatio::page_test
