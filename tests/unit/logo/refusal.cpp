// What is no logo to engrave, and the message that says so.
#include "logo/drawing.h"
#include "logo/logo.h"
#include "logo_drawing.h"

namespace ordinatio::refusal_test {

namespace {

struct Case {
  std::string svg;
  const char* place;  // line:column
  const char* what;   // in the message
  const char* mend;
};

const std::string head =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
    "width=\"10mm\" height=\"10mm\">\n";
/// The element stands in line 2.
std::string with(const std::string& body) { return head + body + "\n<rect width=\"1\" height=\"1\"/></svg>"; }

void check(const Case& bad) {
  const auto fault = logo::scan(bad.svg, "a.svg");
  INFO(bad.svg.substr(0, 300));
  REQUIRE(fault);
  const std::string message = describe(*fault);
  INFO(message);
  CHECK(fault->where == "a.svg:" + std::string(bad.place));
  CHECK(message.find(bad.what) != std::string::npos);
  CHECK(fault->mend.find(bad.mend) != std::string::npos);
  CHECK_FALSE(fault->why.empty());
}

std::string repeated(const std::string& text, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

}  // namespace

TEST_CASE("what has no outline is refused by name and line, with the mend") {
  const Case cases[] = {
      {with("<g>\n <text x=\"1\">Mill</text></g>"), "3:2", "<text>", "Turn its letters into shapes"},
      {with("<tspan/>"), "2:1", "<tspan>", "Turn its letters into shapes"},
      {with("<textPath/>"), "2:1", "<textPath>", "Turn its letters into shapes"},
      {with("<image href=\"#a\"/>"), "2:1", "<image>", "Redraw it as paths"},
      {with("<filter id=\"f\"/>"), "2:1", "<filter>", "Delete it"},
      {with("<mask id=\"m\"/>"), "2:1", "<mask>", "clip path"},
      {with("<defs><linearGradient id=\"g\"/></defs>"), "2:7", "<linearGradient>", "plain fill"},
      {with("<radialGradient/>"), "2:1", "<radialGradient>", "plain fill"},
      {with("<meshgradient/>"), "2:1", "<meshgradient>", "plain fill"},
      {with("<pattern/>"), "2:1", "<pattern>", "plain fill"},
      {with("<foreignObject/>"), "2:1", "<foreignObject>", "Redraw it"},
      {with("<script>a()</script>"), "2:1", "<script>", "Delete it"},
      {with("<animate/>"), "2:1", "<animate>", "Delete it"},
      {with("<svg:text xmlns:svg=\"http://www.w3.org/2000/svg\"/>"), "2:1", "<text>", "Turn its letters"},
  };
  for (const Case& bad : cases) check(bad);
}

TEST_CASE("half-tones are refused by name and line") {
  const Case cases[] = {
      {with("<g opacity=\"0.5\"/>"), "2:1", "opacity: 0.5", "fully opaque"},
      {with("<g opacity=\"50%\"/>"), "2:1", "opacity: 50%", "fully opaque"},
      {with("<g fill-opacity=\".9\"/>"), "2:1", "fill-opacity: .9", "fully opaque"},
      {with("<g style=\"fill:red; stroke-opacity : 0.3 !important\"/>"), "2:1", "stroke-opacity: 0.3", "fully opaque"},
      {with("<g fill=\"#12345678\"/>"), "2:1", "fill: #12345678", "fully opaque"},
      {with("<g stroke=\"#1238\"/>"), "2:1", "stroke: #1238", "fully opaque"},
      {with("<g fill=\"rgba(0,0,0,.5)\"/>"), "2:1", "rgba(0,0,0,.5)", "fully opaque"},
      {with("<g fill=\"rgb(0 0 0 / 50%)\"/>"), "2:1", "rgb(0 0 0 / 50%)", "fully opaque"},
      {with("<style><g/>\n.b{opacity:.5}</style>"), "3:1", "opacity: .5", "fully opaque"},
      {with("<style>\n.a{fill:red}\n.b{opacity:.5}</style>"), "4:1", "opacity: .5", "fully opaque"},
      {with("<style>/* opacity:.1;\n\n*/ .b{fill:red;opacity:.5}</style>"), "4:1", "opacity: .5", "fully opaque"},
      {with("<g style=\"mix-blend-mode:multiply\"/>"), "2:1", "mix-blend-mode", "Delete it"},
      {with("<g filter=\"blur(2)\"/>"), "2:1", "filter: blur(2)", "Delete it"},
  };
  for (const Case& bad : cases) check(bad);
}

TEST_CASE("what leads outside the file is refused") {
  const Case cases[] = {
      {with("<use href=\"other.svg#a\"/>"), "2:1", "other.svg#a", "Keep everything in the file"},
      {with("<use xlink:href=\"file:///etc/passwd\"/>"), "2:1", "file:///etc/passwd", "Keep everything"},
      {with("<use href=\"data:image/svg+xml,x\"/>"), "2:1", "data:image", "Keep everything"},
      {with("<a href=\"http://example.org/\"/>"), "2:1", "http://example.org/", "Keep everything"},
      {with("<g fill=\"url(http://example.org/#a)\"/>"), "2:1", "url(http", "Keep everything"},
      {with("<g style=\"fill: url( 'b.svg#a' )\"/>"), "2:1", "url( 'b.svg#a' )", "Keep everything"},
      {with("<style>@import \"a.css\";</style>"), "2:1", "@import", "Keep everything"},
      {with("<style>\n.a{fill:url(a.svg#b)}</style>"), "3:1", "url(a.svg#b)", "Keep everything"},
      {with("<style>@font-face{font-family:a}</style>"), "2:1", "@font-face", "Delete it"},
      {"<?xml-stylesheet href=\"a.css\"?>\n" + with(""), "1:1", "xml-stylesheet", "<style>"},
      {with("<xi:include xmlns:xi=\"http://www.w3.org/2001/XInclude\" href=\"#a\"/>"), "2:1", "<include>", "Keep"},
      {with("<g xml:base=\"http://example.org/\"/>"), "2:1", "xml:base", "Delete"},
      {with("<g onload=\"a()\"/>"), "2:1", "onload", "Delete"},
      {with("<rect\n onclick=\"a()\"/>"), "2:1", "onclick", "Delete"},
  };
  for (const Case& bad : cases) check(bad);
}

TEST_CASE("entities never unfold: the declaration itself is refused") {
  std::string laughs = "<?xml version=\"1.0\"?>\n<!DOCTYPE svg [\n<!ENTITY a0 \"ha\">\n";
  for (int i = 1; i < 10; ++i)
    laughs += "<!ENTITY a" + std::to_string(i) + " \"" + repeated("&a" + std::to_string(i - 1) + ";", 10) + "\">\n";
  laughs += "]>\n<svg xmlns=\"http://www.w3.org/2000/svg\">&a9;</svg>";
  check({laughs, "2:1", "DOCTYPE", "<!DOCTYPE"});
  check({"<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/svg11.dtd\">\n<svg/>", "1:1", "DOCTYPE",
         "<!DOCTYPE"});
  check({"<!DOCTYPE svg [<!ENTITY x SYSTEM \"file:///etc/passwd\">]><svg/>", "1:1", "DOCTYPE", "<!DOCTYPE"});
}

TEST_CASE("references that loop, unfold without bound or lead nowhere are refused") {
  check({with("<g id=\"a\">\n<use href=\"#a\"/></g>"), "3:1", "leads back to itself", "Delete"});
  check({with("<g id=\"a\"><use href=\"#b\"/></g>\n<g id=\"b\"><use href=\"#a\"/></g>"), "2:11", "leads back to itself",
         "Delete"});
  check({with("<use id=\"a\" xlink:href=\"#a\"/>"), "2:1", "leads back to itself", "Delete"});
  check({with("<use href=\"#nobody\"/>"), "2:1", "#nobody", "draw what is missing"});

  std::string bomb = "<defs><rect id=\"a0\" width=\"1\" height=\"1\"/>";
  for (int i = 1; i <= 9; ++i) {
    const std::string use = "<use href=\"#a" + std::to_string(i - 1) + "\"/>";
    bomb += "<g id=\"a" + std::to_string(i) + "\">" + repeated(use, 10) + "</g>";
  }
  const std::string bombed = with(bomb + "</defs>\n<use href=\"#a9\"/>");  // 10⁹ squares in 2 KiB
  CHECK(bombed.size() < 2500);
  check({bombed, "3:1", "unfolds to more than 200000", "fewer copies"});
  // As many again as are allowed, in one step.
  CHECK_FALSE(
      logo::scan(with("<g id=\"a\">" + repeated("<g/>", 300) + "</g>" + repeated("<use href=\"#a\"/>", 600)), "a"));
}

TEST_CASE("sizes are limited") {
  check({with(repeated("<g>", 200)), "2:598", "nested elements", "Simplify"});
  check({with(repeated("<g/>", logo::element_count)), "2:199997", "too many elements", "Simplify"});
  std::string attributes;
  for (std::size_t i = 0; i <= logo::attribute_count; ++i) attributes += " a" + std::to_string(i) + "=\"\"";
  check({with("<g" + attributes + "/>"), "2:1", "too many attributes", "Simplify"});
  check({with("<path d=\"M0 0" + repeated("L1 1", logo::attribute_bytes / 4) + "\"/>"), "2:1", "bytes in an attribute",
         "Simplify"});
  const auto large = logo::scan(std::string(logo::file_bytes + 1, ' '), "a.svg");
  REQUIRE(large);
  CHECK(large->why.find("larger than 8388608 bytes") != std::string::npos);
  // Within the limits all is well.
  CHECK_FALSE(logo::scan(with(repeated("<g>", 199) + repeated("</g>", 199)), "a.svg"));
}

TEST_CASE("numbers that cannot be drawn are refused") {
  const Case cases[] = {
      {with("<path d=\"M0 0L nan 3 L3 3\"/>"), "2:1", "d=\"nan 3", "Draw it again"},
      {with("<path d=\"M0 0L inf 3\"/>"), "2:1", "breaks off in the command L", "Draw it again"},
      {with("<path d=\"M0 0L1e999 3\"/>"), "2:1", "too large", "Draw it again"},
      {with("<path d=\"M0 0L20000000 3\"/>"), "2:1", "too large", "Draw it again"},
      {with("<path d=\"M0 0L1\"/>"), "2:1", "breaks off in the command L", "Draw it again"},
      {with("<path d=\"M0 0C1 2 3 4 5\"/>"), "2:1", "breaks off in the command C", "Draw it again"},
      {with("<path d=\"L1 2\"/>"), "2:1", "no command", "Draw it again"},
      {with("<path d=\"M0 0 X3\"/>"), "2:1", "no command of path data", "Draw it again"},
      {with("<path d=\"M0 0A1 1 0 2 0 5 5\"/>"), "2:1", "breaks off in the command A", "Draw it again"},
      {with("<rect width=\"NaN\" height=\"2\"/>"), "2:1", "width=\"NaN", "Draw it again"},
      {with("<circle r=\"1e9\"/>"), "2:1", "too large", "Draw it again"},
      {with("<g transform=\"translate(inf 0)\"/>"), "2:1", "that is no number", "Draw it again"},
      {with("<polygon points=\"0,0 1,nan 2,2\"/>"), "2:1", "that is no number", "Draw it again"},
  };
  for (const Case& bad : cases) check(bad);
}

TEST_CASE("sound numbers of every form are taken") {
  for (const char* const data : {"M0 0L1 1", "m.5.5l-1-1", "M1,2,3,4", "M0 0h1v2H3V4zm1 1", "M1e1 1E-1L+3 -4",
                                 "M0 0a1 1 0 01.5.5", "M0 0A1,1,0,1,1,5,5", "M0 0c1 2 3 4 5 6 7 8 9 10 11 12",
                                 "M0 0q1 2 3 4t5 6s1 2 3 4", "  M 0\n0\tL 1 , 1 ", "", "M1.5 2.L3 4z"}) {
    INFO(data);
    CHECK_FALSE(logo::refused_numbers("d", data));
  }
  CHECK_FALSE(logo::refused_numbers("transform", "translate(3,4) rotate(-30)"));
  CHECK_FALSE(logo::refused_numbers("width", "25.4mm"));
  CHECK_FALSE(logo::refused_numbers("class", "nan 1e99"));
}

TEST_CASE("what viewers show and the drawing library does not know is refused") {
  const Case cases[] = {
      {with("<g transform-origin=\"5 5\"/>"), "2:1", "transform-origin", "without"},
      {with("<g style=\"fill:var(--ink)\"/>"), "2:1", "var(--ink)", "Write the value"},
      {with("<g clip-path=\"circle(3px)\"/>"), "2:1", "circle(3px)", "Clip with a path"},
      {with("<g vector-effect=\"non-scaling-stroke\"/>"), "2:1", "non-scaling-stroke",
       "Draw the line's outline instead"},
      {with("<clipPath clipPathUnits=\"objectBoundingBox\"/>"), "2:1", "objectBoundingBox", "drawn in place"},
      {with("<clipPath clip-path=\"url(#a)\"/>"), "2:1", "clip-path within <clipPath>", "nest the groups"},
      {with("<clipPath id=\"a\">\n<g style=\"clip-path:url(#b)\"/></clipPath>"), "3:1", "clip-path within", "nest"},
      {with("<style>@media print{.a{fill:red}}</style>"), "2:1", "@media", "without @"},
  };
  for (const Case& bad : cases) check(bad);
}

TEST_CASE("harmless labels of drawing programs are let through") {
  CHECK_FALSE(
      logo::scan(with("<g id=\"text\" class=\"image\" data-name=\"url(x) var(y)\" aria-label=\"a\" style=\"opacity:1;"
                      "fill-opacity:1.0;mix-blend-mode:normal;filter:none;mask:none\"/>"),
                 "a"));
  CHECK_FALSE(
      logo::scan(with("<v:view xmlns:v=\"http://example.org/v\" v:pageopacity=\"0.5\" opacity=\"0.5\"/>"), "a"));
  CHECK_FALSE(
      logo::scan(with("<metadata><w xmlns=\"http://example.org/w\"><text/></w></metadata><title>text</title>"), "a"));
  CHECK_FALSE(logo::scan(with("<a href=\"#x\"><rect id=\"x\" opacity=\"0\" fill=\"#1230\"/></a>"), "a"));
  CHECK_FALSE(logo::scan(with("<clipPath id=\"c\"/><g clip-path=\"url(#c)\" style=\"fill:url( '#c' )\"/>"), "a"));
  CHECK_FALSE(logo::scan(with("<clipPath id=\"c\"><g/></clipPath><g clip-path=\"url(#c)\"/>"), "a"));
  CHECK_FALSE(logo::scan("<?xml version=\"1.0\" encoding=\"UTF-8\"?><!-- <text> --><svg><rect/></svg>", "a"));
}

TEST_CASE("damaged files and files of another kind are refused") {
  check({"<html><body/></html>", "1:1", "<html>", "Save it as SVG that holds nothing but filled shapes"});
  check({"<svg xmlns=\"http://example.org/\"/>", "1:1", "the file is no SVG",
         "Save it as SVG that holds nothing but filled shapes"});
  check({"\x89PNG\r\n\x1a\n", "1:1", "no well-formed XML", "Save it as SVG that holds nothing but filled shapes"});
  check({with("<g></h>"), "2:6", "no well-formed XML", "Save it as SVG that holds nothing but filled shapes"});
  check({with("<g a=\"1\" a=\"2\"/>"), "2:10", "no well-formed XML",
         "Save it as SVG that holds nothing but filled shapes"});
  const auto empty = logo::scan("", "a.svg");
  REQUIRE(empty);
  CHECK(empty->why == "the file is empty");
}

TEST_CASE("a logo cut short at any byte is refused") {
  const auto whole = read_file(PROJECT_FOLDER "/templates/watermill/logo.svg");
  REQUIRE(whole.ok());
  CHECK_FALSE(logo::scan(*whole, "logo.svg"));
  for (std::size_t size = 0; size < whole->rfind("</svg>") + 6; ++size)
    CHECK(logo::scan(whole->substr(0, size), "logo.svg"));
}

TEST_CASE("a logo without size or ink is refused, with the file's name") {
  struct Bad {
    std::string svg;
    const char* why;
  };
  const std::string rect = "<rect width='5' height='4'/>";
  const Bad cases[] = {
      {svg_with("", rect), "the SVG says no size"},
      {svg_with("width='100%' height='100%'", rect), "the SVG says no size"},
      {svg_with("width='0' height='10'", rect), "its page has no size"},
      {svg_with("width='10' height='10' viewBox='0 0 0 0'", rect), "its page has no size"},
      {page_with(""), "there is no dark ink"},
      {page_with("<rect width='5' height='4' fill='none'/>"), "there is no dark ink"},
      {page_with("<rect width='5' height='4' fill='white'/>"), "there is no dark ink"},
      {page_with("<rect x='200' width='5' height='4'/>"), "by 105 mm on the right"},
      {page_with("<rect width='5' height='4'/><rect width='6' height='6' fill='white'/>"), "there is no dark ink"},
      {page_with("<rect width='9e6' height='4'/>"), "more than 60 pages away"},
      {page_with("<rect transform='scale(1000)' width='5e3' height='4'/>"), "more than 60 pages away"},
      {page_with("<rect width='5' height='4' style='\\6fpacity:.5'/>"), "partly transparent"},
      {page_with("<path d='" + repeated("M0 10h100", 20) + "' stroke='black' stroke-dasharray='.002'/>"), "dashes"},
  };
  for (const Bad& bad : cases) {
    INFO(bad.svg);
    const LogoFile file(bad.svg);
    const auto logo = read_logo(file.path());
    REQUIRE_FALSE(logo.ok());
    INFO(describe(logo.fault()));
    CHECK(logo.fault().why.find(bad.why) != std::string::npos);
    CHECK(logo.fault().where == file.path().string());
    CHECK_FALSE(logo.fault().mend.empty());
  }
}

TEST_CASE("a logo that is not there, or a folder, is a fault") {
  CHECK_FALSE(read_logo("/no/such/logo.svg").ok());
  CHECK_FALSE(read_logo(std::filesystem::temp_directory_path()).ok());
}

}  // namespace ordinatio::refusal_test
