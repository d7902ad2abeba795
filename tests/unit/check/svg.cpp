#include <catch2/catch.hpp>

#include "check/check.h"
#include "one_file.h"
#include "sheet_by_hand.h"

namespace ordinatio::svg_test {

TEST_CASE("an SVG file that is the sheet passes, in millimetres and in pixels") {
  const Sheet sheet = sheet_by_hand();
  for (const std::string& text : {svg_by_hand(), svg_by_hand_in_pixels()}) {
    const MaybeFault fault = check_svg(text, sheet);
    INFO((fault ? describe(*fault) : "") << "\n" << text);
    CHECK_FALSE(fault);
  }
}

TEST_CASE("each kind of damage to an SVG file is told, with the item, the operation and the line") {
  struct Damage {
    const char *name, *from, *to, *told;
  };
  const Damage table[] = {
      {"25.4 times too large", "width=\"200mm\" height=\"120mm\"", "width=\"5080mm\" height=\"3048mm\"", "5080mm"},
      {"unitless millimetres", "width=\"200mm\" height=\"120mm\"", "width=\"200\" height=\"120\"", "200 by 120"},
      {"a viewBox of another scale", "0 0 200 120", "0 0 20 12", "scale"},
      {"a viewBox that is shifted", "viewBox=\"0 0", "viewBox=\"1 0", "scale"},
      {"sides swapped", "width=\"200mm\" height=\"120mm\"", "width=\"120mm\" height=\"200mm\"", "120mm"},
      {"another version", "version=\"1.1\"", "version=\"2.0\"", "1.1"},
      {"another namespace", "2000/svg", "2001/svg", "namespace"},
      {"a transform", "<g id=\"score\"", "<g transform=\"scale(2)\" id=\"score\"", "transform"},
      {"a mirrored item", "M16 104L50 104C58 104 64 98 64 90L64 76L16 76ZM22 98L22 90L40 90L40 98Z",
       "M64 104L30 104C22 104 16 98 16 90L16 76L64 76ZM58 98L58 90L40 90L40 98Z", "1042-1, engrave"},
      {"an item mirrored about its start", "M130 100L130 60Q110 60 110 100Z", "M130 100L130 60Q150 60 150 100Z",
       "1042-2, engrave"},
      {"a missing item",
       "    <g id=\"engrave-1042-2\">\n      <title>item 1042-2, pocket 2</title>\n      <path d=\"M130 100L130 "
       "60Q110 60 110 100Z\"/>\n    </g>\n",
       "", "item 1042-2, engrave: missing"},
      {"an id that is another's", "engrave-1042-2", "engrave-1042-3", "1042-2, engrave"},
      {"a missing operation",
       "  <g id=\"guide\" fill=\"none\" stroke=\"#999999\" stroke-width=\"0.1\">\n    <title>guide: never "
       "run</title>\n    <g id=\"guide-blank-1\">\n      <title>outline of the blank in pocket 1</title>\n      <path "
       "d=\"M10 110L70 110L70 70L10 70Z\"/>\n    </g>\n  </g>\n",
       "", "blank-1, guide: missing"},
      {"an operation under another name", "<g id=\"score\"", "<g id=\"cut\"", "cut, not score"},
      {"an operation in another colour", "#E69F00", "#E69F01", "#E69F00"},
      {"a followed path that is filled", "fill=\"none\" stroke=\"#E69F00\"", "fill=\"#E69F00\" stroke=\"none\"",
       "painted"},
      {"a hole left out", "ZM22 98L22 90L40 90L40 98Z", "Z", "1 of 2 contours"},
      {"a hole filled, turned the other way round", "M22 98L22 90L40 90L40 98Z", "M22 98L40 98L40 90L22 90Z",
       "ink area"},
      {"a contour left open", "L40 90L40 98Z", "L40 90L40 98L22 98", "open"},
      {"an area 0.2 % too large", "L64 76L16 76Z", "L64 75.949L16 75.949Z", "ink area"},
      {"a curve made a line", "C58 104 64 98 64 90", "L64 90", "ink area"},
      {"a control point moved", "C58 104 64 98 64 90", "C59 104 64 98 64 90", "ink area"},
      {"an item moved by 0.05 mm", "M130 100L130 60Q110 60 110 100Z", "M130.05 100L130.05 60Q110.05 60 110.05 100Z",
       "contour 1 starts"},
      {"a scored line 0.2 % too long", "M134 104V56H106V104Z", "M134 104V55.848H106V104Z", "runs"},
      {"a mark that is turned", "M146 20L154 20M150 24L150 16", "M146 20L146 12M150 24L158 24", "mark-1"},
      {"an exponent", "M150 24", "M1.5e2 24", "no plain decimal"},
      {"a decimal comma", "M150 24L150 16", "M150,0 24,0L150 16", "mark-1"},
      {"a number that is none", "Q110 60", "Qnan 60", "no plain decimal"},
      {"an infinite number", "Q110 60", "Qinf 60", "no plain decimal"},
      {"a relative command", "L130 60Q", "l0 -40Q", "command"},
      {"an arc", "Q110 60 110 100Z", "A5 5 0 0 1 110 100Z", "command"},
      {"a path that goes on after Z", "L16 76Z", "L16 76ZL3 3", "must begin"},
      {"a second path in an item", "60Q110 60 110 100Z\"/>", "60Q110 60 110 100Z\"/><path d=\"M1 1L2 2\"/>", "should"},
      {"a style", "<path d=\"M134", "<path style=\"x\" d=\"M134", "style"},
      {"an attribute twice", "<path d=\"M134", "<path d=\"M0 0\" d=\"M134", "twice"},
      {"a comment", "<g id=\"score\"", "<!-- x --><g id=\"score\"", "plain files"},
      {"text between elements", "<g id=\"score\"", "x<g id=\"score\"", "text stands"},
      {"a title that is another's", "<title>item 1042-1, pocket 1", "<title>item 1042-2, pocket 1", "the title is"},
      {"a title that is not UTF-8", "<title>score", "<title>sc\xF3re", "not UTF-8"},
      {"a control character", "<title>score", "<title>sc\x01re", "control character"},
      {"a surrogate", "<title>score", "<title>\xED\xA0\x80", "not UTF-8"},
      {"an overlong slash", "<title>score", "<title>\xC0\xAF", "not UTF-8"},
      {"a bare ampersand", "<title>score", "<title>R&D score", "&"},
      {"an unclosed group", "  </g>\n</svg>", "</svg>", "</g>"},
      {"something after the end", "</svg>\n", "</svg>\n<svg/>", "after the drawing"},
  };
  const Sheet sheet = sheet_by_hand();
  for (const Damage& damage : table) {
    const MaybeFault fault = check_svg(damaged(svg_by_hand(), damage.from, damage.to), sheet);
    INFO(damage.name << ": " << (fault ? describe(*fault) : "passed"));
    REQUIRE(fault);
    CHECK(describe(*fault).find(damage.told) != std::string::npos);
    CHECK(fault->where.starts_with("sheet-001.svg:"));
    CHECK_FALSE(fault->mend.empty());
  }
}

TEST_CASE("a title may hold any order's number, escaped") {
  Sheet sheet = sheet_by_hand();
  sheet.parts[4].title = "№ <7> & \"𝄞\"";
  const std::string text =
      damaged(svg_by_hand(), "outline of the blank in pocket 1", "№ &lt;7&gt; &amp; &quot;𝄞&quot;");
  CHECK_FALSE(check_svg(text, sheet));
}

TEST_CASE("a file cut off anywhere is refused") {
  const Sheet sheet = sheet_by_hand();
  const std::string whole = svg_by_hand();
  for (std::size_t length = 0; length + 1 < whole.size(); ++length) {  // without its last line end it is whole
    INFO(whole.substr(0, length));
    REQUIRE(check_svg(std::string_view(whole).substr(0, length), sheet));
  }
}

TEST_CASE("the line of what is wrong is the file's") {
  const MaybeFault fault = check_svg(damaged(svg_by_hand(), "V56H106", "V57H106"), sheet_by_hand());
  REQUIRE(fault);
  CHECK(fault->where == "sheet-001.svg:19");
  CHECK(fault->cause == Fault::Cause::machine);  // no order is to blame
}

}  // namespace ordinatio::svg_test
