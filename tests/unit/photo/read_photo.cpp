// Pictures as phones write them, hostile ones and damaged ones.
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>

#include "photo/formats.h"
#include "photo/photo_limits.h"
#include "picture_files.h"

namespace ordinatio::read_photo_test {

namespace {

/// The corners' colours, clockwise from the upper left: r, g, b, or "." for grey.
std::string corners_of(const Photo& photo) {
  const auto letter = [&](double across, double down) {
    const std::uint8_t* rgb = photo.at(static_cast<int>(across * photo.width), static_cast<int>(down * photo.height));
    if (rgb[0] > rgb[1] + 60 && rgb[0] > rgb[2] + 60) return 'r';
    if (rgb[1] > rgb[0] + 60 && rgb[1] > rgb[2] + 60) return 'g';
    if (rgb[2] > rgb[0] + 60 && rgb[2] > rgb[1] + 60) return 'b';
    return '.';
  };
  return {letter(0.1, 0.1), letter(0.9, 0.1), letter(0.9, 0.9), letter(0.1, 0.9)};
}

Photo read(const std::string& bytes) {
  const auto photo = read_photo(bytes, "photo");
  if (!photo.ok()) FAIL(describe(photo.fault()));
  return *photo;
}

Fault refused(const std::string& bytes) {
  const auto photo = read_photo(bytes, "IMG_1");
  REQUIRE_FALSE(photo.ok());
  CHECK(photo.fault().what == "the photo cannot be read");
  CHECK(photo.fault().where == "IMG_1");
  CHECK_FALSE(photo.fault().why.empty());
  CHECK_FALSE(photo.fault().mend.empty());
  return photo.fault();
}

double mean_difference(const Photo& a, const Photo& b) {
  REQUIRE(a.rgb.size() == b.rgb.size());
  double sum = 0;
  for (std::size_t i = 0; i < a.rgb.size(); ++i) sum += std::abs(a.rgb[i] - b.rgb[i]);
  return sum / static_cast<double>(a.rgb.size());
}

}  // namespace

TEST_CASE("JPEG, PNG and HEIC come back as the picture they hold") {
  const Photo picture = corners_picture(120, 90);
  const std::map<std::string, std::pair<std::string, double>> files{
      {"JPEG", {jpeg_of(picture, 95), 3}}, {"PNG", {png_of(picture), 0}}, {"HEIC", {heic_of(picture), 3}}};
  for (const auto& [name, file] : files) {
    INFO(name);
    const Photo back = read(file.first);
    REQUIRE((back.width == 120 && back.height == 90));
    CHECK(mean_difference(back, picture) <= file.second);
    CHECK(corners_of(back) == "rg.b");
  }
}

// TIFF 6.0, tag 274: 1 the first row is the top and the first column the left side, 2 top and right, 3 bottom and right, 4
// bottom and left, 5 left and top, 6 right and top, 7 right and bottom, 8 left and bottom.
TEST_CASE("a picture is turned as its EXIF says") {
  const Photo picture = corners_picture(120, 90);
  const std::map<int, std::string> upright{{1, "rg.b"}, {2, "grb."}, {3, ".brg"}, {4, "b.gr"},
                                           {5, "rb.g"}, {6, "brg."}, {7, ".grb"}, {8, "g.br"}};
  for (const auto& [orientation, corners] : upright) {
    for (const bool big_endian : {false, true}) {
      INFO(orientation);
      const Photo back = read(with_orientation(jpeg_of(picture), orientation, big_endian));
      CHECK(back.width == (orientation < 5 ? 120 : 90));
      CHECK(back.height == (orientation < 5 ? 90 : 120));
      CHECK(corners_of(back) == corners);
    }
    CHECK(corners_of(read(png_with_orientation(png_of(picture), orientation))) == corners);
  }
  for (const int nonsense : {0, 9, 65'535})
    CHECK(corners_of(read(with_orientation(jpeg_of(picture), nonsense))) == "rg.b");
}

TEST_CASE("what was turned by a turn and turned back by its opposite is as it was") {
  const Photo picture = corners_picture(31, 20);
  const std::pair<int, int> pairs[]{{1, 1}, {2, 2}, {3, 3}, {4, 4}, {5, 5}, {6, 8}, {7, 7}, {8, 6}};
  for (const auto& [turn, back] : pairs) {
    INFO(turn);
    CHECK(turned(turned(picture, turn), back).rgb == picture.rgb);
  }
}

TEST_CASE("a picture that is cut off anywhere is a fault, and so is one of nothing") {
  const Photo picture = corners_picture(160, 120);
  for (const std::string& file : {jpeg_of(picture), png_of(picture), heic_of(picture)}) {
    for (const double share : {0.02, 0.3, 0.6, 0.9, 0.97}) {
      INFO(share);
      refused(file.substr(0, static_cast<std::size_t>(share * static_cast<double>(file.size()))));
    }
  }
  for (const std::string& nothing :
       {std::string(), std::string("GIF89a"), std::string(1000, '\0'), std::string("<svg/>")})
    CHECK(refused(nothing).why == "it is no JPEG, PNG or HEIC");
}

TEST_CASE("a picture with more pixels or bytes than the limits is refused before it is decoded") {
  const std::string png = png_of(corners_picture(40, 30));
  std::string wide = png;
  wide.replace(16, 4, std::string("\x00\x00\x75\x30", 4));  // 30,000 pixels
  CHECK_FALSE(refused(wide).why.empty());
  std::string jpeg = jpeg_of(corners_picture(40, 30));
  const std::size_t frame = jpeg.find("\xFF\xC0");
  REQUIRE(frame != std::string::npos);
  jpeg.replace(frame + 5, 4, "\x4E\x20\x4E\x20");  // 20,000 × 20,000
  CHECK(refused(jpeg).why.starts_with("it has more than 120 million pixels"));
  CHECK(refused(std::string(photo_file_bytes + 1, 'x')).why == "it has more than 64 MiB");
}

TEST_CASE("a picture in colours for print is refused by name") {
  std::string jpeg = jpeg_of(corners_picture(40, 30));
  const std::size_t frame = jpeg.find("\xFF\xC0"), scan = jpeg.find("\xFF\xDA");
  REQUIRE((frame != std::string::npos && scan != std::string::npos));
  // A fourth component, in frame and scan.
  jpeg.insert(scan + 11, std::string("\x04\x11", 2));
  jpeg[scan + 4] = 4, jpeg[scan + 3] = 14;
  jpeg.insert(frame + 19, std::string("\x04\x11\x01", 3));
  jpeg[frame + 9] = 4, jpeg[frame + 3] = 20;
  CHECK(refused(jpeg).why == "its colours are meant for print (CMYK)");
}

TEST_CASE("a large picture is halved until it can be worked on") {
  const Photo large = corners_picture(5000, 3600);  // 18 million pixels
  const Photo back = read(jpeg_of(large));
  CHECK((back.width == 2500 && back.height == 1800));
  CHECK(corners_of(back) == "rg.b");
}

TEST_CASE("damaged files cost a fault or another picture, never a crash") {
  constexpr unsigned seed = 1839;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const Photo picture = corners_picture(64, 48);
  for (const std::string& file : {jpeg_of(picture), png_of(picture), heic_of(picture)}) {
    for (int i = 0; i < 25; ++i) {
      std::string changed = file;
      for (int k = 0; k < 3; ++k) changed[random() % changed.size()] = static_cast<char>(random());
      const auto photo = read_photo(changed, "photo");
      if (photo.ok())
        CHECK(photo->rgb.size() ==
              3 * static_cast<std::size_t>(photo->width) * static_cast<std::size_t>(photo->height));
      if (!photo.ok()) CHECK_FALSE(photo.fault().mend.empty());
    }
  }
}

}  // namespace ordinatio::read_photo_test
