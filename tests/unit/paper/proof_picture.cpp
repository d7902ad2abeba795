#include <cairo.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <memory>

#include "../write/small_sheet.h"
#include "paper/paper.h"
#include "write/write.h"

namespace ordinatio::proof_picture_test {

namespace {

const FontLibrary& fonts() {
  static const FontLibrary library("no/fonts/of/our/own");
  return library;
}

ProofPage proof(const std::string& material = "slate") {
  const Sheet sheet = small_sheet();
  ProofPage page;
  page.item = sheet.items[0].item;
  page.artwork = sheet.items[0].artwork;
  page.artwork->blank.material = material;
  return page;
}

/// A picture's pixels, read by cairo and libpng.
class Pixels {
 public:
  explicit Pixels(const std::string& png)
      : rest_(png), surface_(cairo_image_surface_create_from_png_stream(read, this), cairo_surface_destroy) {
    REQUIRE(cairo_surface_status(surface_.get()) == CAIRO_STATUS_SUCCESS);
  }
  [[nodiscard]] int width() const { return cairo_image_surface_get_width(surface_.get()); }
  [[nodiscard]] int height() const { return cairo_image_surface_get_height(surface_.get()); }
  /// 0 to 255; part: 0 blue, 1 green, 2 red, as cairo has them on a machine that counts from the low end.
  [[nodiscard]] int at(int x, int y, int part) const {
    const unsigned char* row = cairo_image_surface_get_data(surface_.get()) +
                               static_cast<std::ptrdiff_t>(y) * cairo_image_surface_get_stride(surface_.get());
    return row[4 * x + part];
  }

 private:
  static cairo_status_t read(void* from, unsigned char* to, unsigned length) {
    std::string_view& rest = static_cast<Pixels*>(from)->rest_;
    if (rest.size() < length) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(to, rest.data(), length);
    rest.remove_prefix(length);
    return CAIRO_STATUS_SUCCESS;
  }

  std::string_view rest_;
  std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface_;
};

double ink_area(const Artwork& artwork) {
  double area = 0;
  for (const Layer& layer : artwork.layers) {
    if (is_filled(layer.operation)) area += std::abs(area_of(layer.path));
  }
  return area;
}

}  // namespace

TEST_CASE("a picture to send is as wide as was asked, and the same each time") {
  for (const int width : {200, 640, 1'600}) {
    const Result<std::string> png = write_proof_png(proof(), "The Mill", fonts(), width);
    REQUIRE(png.ok());
    CHECK(Pixels(*png).width() == width);
    CHECK(*png == *write_proof_png(proof(), "The Mill", fonts(), width));
  }
  CHECK_FALSE(write_proof_png(proof(), "The Mill", fonts(), narrowest_proof - 1).ok());
  CHECK_FALSE(write_proof_png(proof(), "The Mill", fonts(), widest_proof + 1).ok());
}

TEST_CASE("a picture to send has all the ink at one scale: its pixels have its area") {
  const ProofPage page = proof();
  const Pixels pixels(*write_proof_png(page, "The Mill", fonts(), 2'000));
  const Bounds piece = bounds_of(path_of(page.artwork->blank));
  const double around = 0.09 * std::sqrt(piece.width() * piece.height());
  const double scale = pixels.width() / (piece.width() + 2 * around);  // pixels per mm
  const int red_of_piece = 0x46, red_of_ink = 0xDD;
  double covered = 0;
  const int inset = static_cast<int>(std::ceil((around + 0.5) * scale));  // inside the edge's line
  for (int y = inset; y < static_cast<int>((around + piece.height() - 0.5) * scale); ++y) {
    for (int x = inset; x < pixels.width() - inset; ++x)
      covered += std::max(0, pixels.at(x, y, 2) - red_of_piece) / static_cast<double>(red_of_ink - red_of_piece);
  }
  CHECK(covered / (scale * scale) == Approx(ink_area(*page.artwork)).epsilon(0.01));  // cairo covers by 256 steps
}

TEST_CASE("each material has its tint, by the workshop's own word") {
  CHECK(name_of(tint_of("Welsh slate")) == "slate");
  CHECK(name_of(tint_of("GLASS 4 mm")) == "glass");
  CHECK(name_of(tint_of("oak")) == "wood");
  CHECK(name_of(tint_of("")) == "other");
  CHECK(*write_proof_png(proof("slate"), "The Mill", fonts(), 400) !=
        *write_proof_png(proof("brass"), "The Mill", fonts(), 400));
}

TEST_CASE("an item that is held has no picture to send") {
  ProofPage page = proof();
  page.held = Fault{"it is too long", "", "", "Shorten it"};
  CHECK_FALSE(write_proof_png(page, "The Mill", fonts(), 400).ok());
  page.held.reset();
  page.artwork.reset();
  CHECK_FALSE(write_proof_png(page, "The Mill", fonts(), 400).ok());
}

}  // namespace ordinatio::proof_picture_test
