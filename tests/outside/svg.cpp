// SVG files by what others hold them against. Sources: the SVG 1.1 (Second Edition) document type, W3C Recommendation of
// 16 August 2011, from Debian's w3c-sgml-lib by way of the system's XML catalogue, with libxml2's xmllint; librsvg 2.54
// (Debian: librsvg2-bin) for the size; one inch is 25.4 mm, one CSS px 1/96 inch (CSS Values and Units, section 6.2).
#include <catch2/catch.hpp>
#include <cmath>

#include "composed_sheet.h"
#include "picture.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;
using golden::Picture;

namespace {

/// The file names no document type, since some readers fetch what it names; a copy for the check does.
std::string with_document_type(const std::string& svg) {
  const std::size_t root = svg.find("<svg");
  return svg.substr(0, root) +
         "<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\">\n" +
         svg.substr(root);
}

/// What xmllint complains of; empty when the file is valid.
std::string complaint_about(const std::string& svg) {
  const Scratch scratch;
  save(scratch / "sheet.svg", with_document_type(svg));
  try {
    return output_of("xmllint --nonet --valid --noout " + quoted(scratch / "sheet.svg"));
  } catch (const std::runtime_error& error) {
    return error.what();
  }
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

Picture rendered(const std::string& svg, double dots_per_inch) {
  const Scratch scratch;
  save(scratch / "sheet.svg", svg);
  std::string dpi;
  append_number(dpi, dots_per_inch, 3);
  output_of("rsvg-convert --dpi-x " + dpi + " --dpi-y " + dpi + " -o " + quoted(scratch / "sheet.png") + " " +
            quoted(scratch / "sheet.svg"));
  return golden::read_png(scratch / "sheet.png");
}

/// Where pixels are not paper: from the outer edges of the first and last, in pixels from the top left.
Bounds inked(const Picture& picture) {
  Bounds bounds;
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      if (picture.at(x, y) == 0xFFFFFF) continue;
      bounds.add(Point{double(x), double(y)});
      bounds.add(Point{double(x + 1), double(y + 1)});
    }
  }
  return bounds;
}

Bounds bounds_of_model(const Sheet& sheet) {
  Bounds bounds;
  for (const SheetPart& part : sheet.parts) bounds.add(bounds_of(part.path));
  return bounds;
}

}  // namespace

TEST_CASE("a sheet is valid SVG 1.1, in millimetres and in CSS pixels") {
  for (const Sheet& sheet : {rich_sheet(), asymmetric_sheet()}) {
    CHECK(complaint_about(write_svg(sheet)) == "");
    CHECK(complaint_about(write_svg(sheet, {true})) == "");
  }
}

TEST_CASE("xmllint does hold the file against the document type") {
  const std::string svg = write_svg(asymmetric_sheet());
  CHECK(complaint_about(replaced(svg, "<path d", "<path data-pocket=\"1\" d")) != "");
  CHECK(complaint_about(replaced(svg, "<path d", "<route d")) != "");
  CHECK(complaint_about(replaced(svg, "id=\"engrave-1042-1\"", "id=\"engrave-1041-1\"")) != "");
  CHECK(complaint_about(replaced(svg, "id=\"engrave-1042-1\"", "id=\"1042-1\"")) != "");
  CHECK(complaint_about(replaced(svg, "</svg>", "")) != "");
}

TEST_CASE("a sheet is valid whatever an order's number holds") {
  Sheet sheet = asymmetric_sheet();
  const std::pair<const char*, const char*> numbers[] = {{"A&B<1>", "\"q\" 'q'"}, {"№ 7", "7/8"}, {"-", "."}};
  for (const auto& [first, second] : numbers) {
    INFO(first << " and " << second);
    std::size_t at = 0;
    for (SheetPart& part : sheet.parts) {
      if (part.operation != Operation::engrave) continue;
      part.id = std::string(at++ == 0 ? first : second) + "-1";
      part.title = "item " + part.id;
    }
    REQUIRE(at == 2);
    CHECK(complaint_about(write_svg(sheet)) == "");
  }
}

TEST_CASE("a sheet's picture has the bed's size at every resolution, in millimetres and in CSS pixels") {
  const Sheet sheet = asymmetric_sheet();
  const Machine& bed = sheet.frame.plan.machine;
  for (const double dpi : {96.0, 127.0, 254.0, 300.0}) {
    INFO(dpi);
    const Picture picture = rendered(write_svg(sheet), dpi);
    // A picture has whole pixels: librsvg rounds up or to the nearest.
    CHECK(std::abs(picture.width - bed.width * dpi / 25.4) < 1);
    CHECK(std::abs(picture.height - bed.height * dpi / 25.4) < 1);
  }
  // A CSS pixel is a pixel at 96 to the inch, and the resolution does not count.
  for (const double dpi : {96.0, 300.0}) {
    const Picture picture = rendered(write_svg(sheet, {true}), dpi);
    CHECK(std::abs(picture.width - bed.width * 96 / 25.4) < 1);
    CHECK(std::abs(picture.height - bed.height * 96 / 25.4) < 1);
  }
}

TEST_CASE("ink is where the model has it, at true size") {
  const double line = 0.05;  // mm: half the width that marks and guides are drawn with
  for (const Sheet& sheet : {rich_sheet(), asymmetric_sheet()}) {
    const Bounds model = bounds_of_model(sheet);
    for (const double dpi : {127.0, 254.0}) {
      const double pixel = 25.4 / dpi;
      const Bounds ink = inked(rendered(write_svg(sheet), dpi));
      const double top = sheet.frame.plan.machine.height;
      CHECK(std::abs(ink.left * pixel - (model.left - line)) <= pixel);
      CHECK(std::abs(ink.right * pixel - (model.right + line)) <= pixel);
      CHECK(std::abs(ink.bottom * pixel - (top - model.top - line)) <= pixel);
      CHECK(std::abs(ink.top * pixel - (top - model.bottom + line)) <= pixel);
    }
  }
}

TEST_CASE("rows as wide as they are apart cover what a filled sheet's ink covers, as librsvg draws both") {
  const auto black_share = [](std::string svg, const std::string& from, const std::string& to) {
    for (std::size_t at = svg.find(from); at != std::string::npos; at = svg.find(from, at))
      svg.replace(at, from.size(), to);
    const Picture picture = rendered(svg, 508);
    double dark = 0;
    for (int y = 0; y < picture.height; ++y) {
      for (int x = 0; x < picture.width; ++x) {
        dark += 1 - double(picture.at(x, y) & 0xFF) / 255;
      }
    }
    return dark;
  };
  // Nothing but the item's own ink: what is furniture is on both.
  const auto svg_of = [](Sheet sheet) {
    std::erase_if(sheet.parts, [](const SheetPart& part) { return !part.id.starts_with("1041"); });
    sheet.frame.plan.palette.colours.fill(Colour{0, 0, 0});
    return write_svg(sheet);
  };
  const std::string thin = "stroke-width=\"0.1\"", wide = "stroke-width=\"0.2\"";
  const double filled = black_share(svg_of(lines_sheet(false)), thin, wide);
  CHECK(black_share(svg_of(lines_sheet()), thin, wide) == Approx(filled).epsilon(0.02));
  CHECK(black_share(svg_of(lines_sheet()), thin, "stroke-width=\"0.15\"") < 0.95 * filled);
}

TEST_CASE("holes stay holes by either fill rule") {
  const std::string svg = write_svg(rich_sheet());
  const Picture nonzero = rendered(svg, 254);
  const Picture evenodd = rendered(replaced(svg, "stroke=\"none\"", "stroke=\"none\" fill-rule=\"evenodd\""), 254);
  CHECK(golden::ink_difference(nonzero, evenodd) < 1e-4);
}
