// One sheet as SVG, DXF, PDF and PNG is one picture, and not its mirror image. Drawn by others: SVG by librsvg 2.54
// (Debian: librsvg2-bin), PDF by poppler 22.12 (Debian: poppler-utils), DXF as ezdxf 0.18 reads it (Debian:
// python3-ezdxf) and librsvg fills it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "../unit/paper/sheet_pdf.h"
#include "composed_sheet.h"
#include "dxf_drawing.h"
#include "paper/paper.h"
#include "picture.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;
using golden::blank_picture;
using golden::ink_difference;
using golden::Picture;

namespace {

constexpr double limit = 0.01;        // of the ink may differ: edges are smoothed by different hands
constexpr double pixels_per_mm = 10;  // 254 to the inch
constexpr const char* resolution = "254";

Picture drawn_by_librsvg(const std::string& svg) {
  const Scratch scratch;
  save(scratch / "sheet.svg", svg);
  output_of(std::string("rsvg-convert --dpi-x ") + resolution + " --dpi-y " + resolution + " -o " +
            quoted(scratch / "sheet.png") + " " + quoted(scratch / "sheet.svg"));
  return golden::read_png(scratch / "sheet.png");
}

/// A page whose length in points is rounded up may make one pixel too many: the bed's are taken, from the upper left.
Picture drawn_by_poppler(const std::string& pdf, const Machine& bed) {
  const Scratch scratch;
  save(scratch / "sheet.pdf", pdf);
  const auto pixels = [](double mm) { return std::to_string(std::lround(mm * pixels_per_mm)); };
  output_of(std::string("pdftocairo -png -singlefile -r ") + resolution + " -x 0 -y 0 -W " + pixels(bed.width) +
            " -H " + pixels(bed.height) + " " + quoted(scratch / "sheet.pdf") + " " + quoted(scratch / "sheet"));
  return golden::read_png(scratch / "sheet.png");
}

void append_point(std::string& out, char letter, Point p, double height) {
  out += letter;
  append_number(out, p.x, 4);
  out += ' ';
  append_number(out, height - p.y, 4);
}

/// The contours that ezdxf found on one layer, in the bed's corner as a machine would lay them.
std::string path_on(const DxfDrawing& drawing, const std::string& layer, double height) {
  std::string path = "<path d=\"";
  for (const DrawnContour& contour : drawing.contours) {
    if (contour.layer != layer) continue;
    for (std::size_t i = 0; i < contour.points.size(); ++i) {
      append_point(path, i == 0 ? 'M' : 'L', contour.points[i], height);
    }
    if (contour.closed) path += 'Z';
  }
  return path + "\" ";
}

/// Filled where the layer is engraved, else drawn 0.1 mm wide, by the even-odd rule: a DXF file has no other.
Picture drawn_from_dxf(const std::string& dxf, const Machine& bed) {
  const Scratch scratch;
  save(scratch / "sheet.dxf", dxf);
  const DxfDrawing drawing = read_by_ezdxf(scratch / "sheet.dxf");
  std::string width, height;
  append_number(width, bed.width, 4);
  append_number(height, bed.height, 4);
  return drawn_by_librsvg("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width + "mm\" height=\"" + height +
                          "mm\" viewBox=\"0 0 " + width + " " + height + "\">" +
                          path_on(drawing, "ENGRAVE", bed.height) + "fill-rule=\"evenodd\" fill=\"#00FFFF\"/>" +
                          path_on(drawing, "MARK", bed.height) +
                          "fill=\"none\" stroke-width=\"0.1\" stroke=\"#FF00FF\"/></svg>");
}

/// Only the ink of one colour: cyan takes red from the paper, magenta green, and what is grey takes red and green alike.
enum class Ink { cyan, magenta };
Picture only(Ink ink, const Picture& picture) {
  Picture result = blank_picture(picture.width, picture.height);
  std::ranges::transform(picture.pixels, result.pixels.begin(), [ink](std::uint32_t pixel) {
    const auto red = static_cast<int>(pixel >> 16 & 0xFF), green = static_cast<int>(pixel >> 8 & 0xFF);
    const int taken = std::max(0, ink == Ink::cyan ? green - red : red - green);
    return static_cast<std::uint32_t>(255 - taken) * 0x010101;
  });
  return result;
}

Picture mirrored(Picture picture) {
  for (auto row = picture.pixels.begin(); row != picture.pixels.end(); row += picture.width) {
    std::reverse(row, row + picture.width);
  }
  return picture;
}

Picture turned_half(Picture picture) {
  std::ranges::reverse(picture.pixels);
  return picture;
}

Picture turned_quarter(const Picture& picture) {
  Picture result = blank_picture(picture.width, picture.height);
  // About the lower left, and what falls off the sheet is gone.
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.height; ++x) {
      const int up = picture.height - 1 - y;
      result.pixels[static_cast<std::size_t>((picture.height - 1 - x) * picture.width + picture.height - 1 - up)] =
          picture.at(x, y);
    }
  }
  return result;
}

/// Moved up by one pixel: 0.1 mm.
Picture moved(Picture picture) {
  std::rotate(picture.pixels.begin(), picture.pixels.begin() + picture.width, picture.pixels.end());
  return picture;
}

/// Share of the inked pixels of one picture that lie more than a pixel from all ink of the other.
double share_astray(const Picture& a, const Picture& b) {
  const auto is_inked = [](const Picture& picture, int x, int y) {
    return x >= 0 && y >= 0 && x < picture.width && y < picture.height && (picture.at(x, y) & 0xFF) < 0xE0;
  };
  double inked = 0, astray = 0;
  for (int y = 0; y < a.height; ++y) {
    for (int x = 0; x < a.width; ++x) {
      if (!is_inked(a, x, y)) continue;
      bool near = false;
      for (int i = 0; i < 9 && !near; ++i) near = is_inked(b, x + i % 3 - 1, y + i / 3 - 1);
      ++inked, astray += near ? 0 : 1;
    }
  }
  return inked > 0 ? astray / inked : 1;
}
double strayed(const Picture& a, const Picture& b) { return std::max(share_astray(a, b), share_astray(b, a)); }

/// The bed alone: a picture has the cautions below it.
Picture bed_of(const Picture& picture, const Machine& bed) {
  const auto width = static_cast<int>(std::lround(bed.width * pixels_per_mm)),
             height = static_cast<int>(std::lround(bed.height * pixels_per_mm));
  REQUIRE(picture.width == width);
  REQUIRE(picture.height > height);
  Picture result = blank_picture(width, height);
  std::copy_n(picture.pixels.begin(), result.pixels.size(), result.pixels.begin());
  return result;
}

struct Rendering {
  std::string name;
  Picture picture;
};

std::vector<Rendering> renderings_of(const Sheet& sheet) {
  const Machine& bed = sheet.frame.plan.machine;
  const Scratch scratch;
  save(scratch / "sheet.png", *write_sheet_png(sheet, fonts(), pixels_per_mm));
  return {{"SVG", drawn_by_librsvg(write_svg(sheet))},
          {"PDF", drawn_by_poppler(*write_sheet_pdf(sheet, fonts()), bed)},
          {"DXF R12", drawn_from_dxf(write_dxf(sheet, {DxfVersion::r12, curve_tolerance}), bed)},
          {"DXF R2000", drawn_from_dxf(write_dxf(sheet, {DxfVersion::r2000, curve_tolerance}), bed)},
          {"PNG", bed_of(golden::read_png(scratch / "sheet.png"), bed)}};
}

/// The sheet with the colours that can be told apart.
Sheet in_plain_colours(Sheet sheet) {
  sheet.frame.plan.palette = asymmetric_sheet().frame.plan.palette;
  return sheet;
}

}  // namespace

TEST_CASE("a sheet is one picture as SVG, PDF, DXF and PNG") {
  for (const Sheet& sheet : {asymmetric_sheet(), in_plain_colours(rich_sheet())}) {
    const std::vector<Rendering> renderings = renderings_of(sheet);
    for (const Rendering& a : renderings) {
      CHECK(a.picture.width == sheet.frame.plan.machine.width * pixels_per_mm);
      CHECK(a.picture.height == sheet.frame.plan.machine.height * pixels_per_mm);
      for (const Rendering& b : renderings) {
        if (a.name <= b.name) continue;
        INFO(a.name << " beside " << b.name);
        CHECK(ink_difference(only(Ink::cyan, a.picture), only(Ink::cyan, b.picture)) < limit);
        // Poppler puts a line as thin as a pixel onto whole pixels, so marks are asked for their places.
        CHECK(strayed(only(Ink::magenta, a.picture), only(Ink::magenta, b.picture)) < limit);
      }
    }
  }
}

TEST_CASE("a page has the bed's size, as poppler tells it") {
  for (const Sheet& sheet : {asymmetric_sheet(), rich_sheet()}) {
    const Scratch scratch;
    save(scratch / "sheet.pdf", *write_sheet_pdf(sheet, fonts()));
    const std::string told = output_of("pdfinfo " + quoted(scratch / "sheet.pdf"));
    const auto size = numbers_after(told, "Page size:", 2);
    const Machine& bed = sheet.frame.plan.machine;
    CHECK(std::abs(size[0] * 25.4 / 72 - bed.width) < 0.005);  // pdfinfo tells six digits
    CHECK(std::abs(size[1] * 25.4 / 72 - bed.height) < 0.005);
    CHECK(told.find("Pages:           2\n") != std::string::npos);  // the second has the cautions
  }
}

TEST_CASE("a sheet mirrored, turned or moved by a hair would not pass for itself, by its ink or by its marks") {
  const Sheet sheet = asymmetric_sheet();
  for (const Rendering& rendering : renderings_of(sheet)) {
    for (const Ink ink : {Ink::cyan, Ink::magenta}) {
      INFO(rendering.name << (ink == Ink::cyan ? ", engraved" : ", marks"));
      const Picture picture = only(ink, rendering.picture);
      CHECK(ink_difference(picture, picture) == 0);
      CHECK(ink_difference(picture, mirrored(picture)) > 50 * limit);
      CHECK(ink_difference(picture, turned_half(mirrored(picture))) > 50 * limit);  // mirrored top to bottom
      CHECK(ink_difference(picture, turned_half(picture)) > 50 * limit);
      CHECK(ink_difference(picture, turned_quarter(picture)) > 50 * limit);
      CHECK(ink_difference(picture, moved(picture)) > 2 * limit);
      CHECK(strayed(picture, picture) == 0);
      for (const Picture& other :
           {mirrored(picture), turned_half(mirrored(picture)), turned_half(picture), turned_quarter(picture)}) {
        CHECK(strayed(picture, other) > 20 * limit);
      }
      CHECK(strayed(picture, moved(moved(moved(picture)))) > 2 * limit);
    }
  }
}
