#include "paper/canvas.h"

#define POINTERHOLDER_TRANSITION 4

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#define JSON_HH
class JSON;
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

namespace ordinatio::canvas_test {

namespace {

Path square(double size) {
  Path path;
  path.add_rectangle({0, 0, size, size});
  return path;
}

std::vector<std::string> contents_of(const std::string& bytes) {
  QPDF pdf;
  pdf.processMemoryFile("PDF", bytes.data(), bytes.size());
  std::vector<std::string> contents;
  for (QPDFObjectHandle page : pdf.getAllPages()) {
    std::string& content = contents.emplace_back();
    for (QPDFObjectHandle& stream : page.getPageContents()) {
      const auto buffer = stream.getStreamData();
      content.append(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
    }
  }
  return contents;
}

/// A number of four bytes, most significant first, as PNG has it (ISO/IEC 15948, 7.1).
std::uint32_t number_at(const std::string& png, std::size_t place) {
  std::uint32_t number = 0;
  for (std::size_t i = place; i < place + 4; ++i) number = number << 8 | static_cast<unsigned char>(png[i]);
  return number;
}

}  // namespace

TEST_CASE("what is not finite is refused, never drawn") {
  for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity()}) {
    for (const bool filled : {true, false}) {
      Canvas canvas = Canvas::pdf("x");
      canvas.start_page(50, 50);
      Path path = square(10);
      path.line_to({bad, 1});
      if (filled) canvas.fill(path, {});
      if (!filled) canvas.stroke(path, {});
      const Result<std::string> pdf = canvas.finish();
      REQUIRE_FALSE(pdf.ok());
      CHECK(pdf.fault().why == "a path holds a number that is not finite");
    }
  }
}

TEST_CASE("a PDF's paths stand in its pages as they are, in whole tenths of a micrometre") {
  const auto draw = [] {
    Canvas canvas = Canvas::pdf("x");
    canvas.start_page(50, 40);
    Path path = square(10);
    path.move_to({1, 2});
    path.quad_to({4, 5.00004}, {7, 2});
    canvas.fill(path, {255, 0, 51});
    canvas.start_page(50, 40);
    canvas.stroke(square(3), {0.25, {0, 0, 255}, {1, 0.5}});
    return canvas.finish();
  };
  const Result<std::string> pdf = draw();
  REQUIRE(pdf.ok());
  CHECK(*pdf == *draw());  // no clock, and no chance
  // As qpdf, which packs and unpacks them, has them.
  const std::vector<std::string> pages = contents_of(*pdf);
  REQUIRE(pages.size() == 2);
  CHECK(pages[0].find("1 0 0.2 rg\n0 0 m\n100000 0 l\n100000 100000 l\n0 100000 l\nh\n"
                      "10000 20000 m\n30000 40000 50000 40000 70000 20000 c\nf\n") != std::string::npos);
  CHECK(pages[1].find("0 0 1 RG\n2500 w\n[10000 5000 ] 0 d\n0 0 m\n30000 0 l\n") != std::string::npos);
}

TEST_CASE("a path that reaches far beyond every page is refused") {
  Canvas canvas = Canvas::pdf("x");
  canvas.start_page(50, 50);
  canvas.fill(square(2e5), {});
  const Result<std::string> pdf = canvas.finish();
  REQUIRE_FALSE(pdf.ok());
  CHECK(pdf.fault().why == "a path reaches far beyond every page");
}

TEST_CASE("a page that no PDF can have is refused") {
  for (const double length : {0.0, -1.0, 5081.0, std::nan("")}) {
    for (const bool wide : {true, false}) {
      Canvas canvas = Canvas::pdf("x");
      canvas.start_page(wide ? length : 10, wide ? 10 : length);
      canvas.fill(square(1), {});
      CHECK_FALSE(canvas.finish().ok());
    }
  }
  CHECK_FALSE(Canvas::pdf("no pages").finish().ok());
  Canvas longest = Canvas::pdf("x");
  longest.start_page(5080, 10);
  CHECK(longest.finish().ok());
}

TEST_CASE("a picture has as many pixels as the millimetres say, and one that is too large is refused") {
  const Result<std::string> png = Canvas::picture(30, 20.04, 0, 10).finish();
  REQUIRE(png.ok());
  CHECK(png->substr(1, 3) == "PNG");
  CHECK(number_at(*png, 16) == 300);  // width and height come first (ISO/IEC 15948, 11.2.2)
  CHECK(number_at(*png, 20) == 200);
  for (const double pixels_per_mm : {0.0, -1.0, 0.001, 1e4, 1e300, std::nan("")}) {
    CHECK_FALSE(Canvas::picture(30, 20, 0, pixels_per_mm).finish().ok());
  }
  CHECK_FALSE(Canvas::picture(20'000, 20'000, 0, 1).finish().ok());
}

TEST_CASE("clusters that do not cover their text are an error, not a file") {
  Canvas canvas = Canvas::pdf("x");
  canvas.start_page(50, 50);
  GlyphRun run;
  run.text = "ab";
  run.glyphs = {{1, {1, 1}}};
  run.clusters = {{1, 1}};
  canvas.show(run, nullptr, 3, {});
  CHECK_FALSE(canvas.finish().ok());
}

}  // namespace ordinatio::canvas_test
