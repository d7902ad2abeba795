#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>

#include "text/text.h"

namespace ordinatio::fonts_test {
namespace fs = std::filesystem;

namespace {

const CatalogueFace& face_called(const FontLibrary& library, const std::string& name) {
  const auto face = std::ranges::find(library.catalogue(), name, &CatalogueFace::name);
  REQUIRE(face != library.catalogue().end());
  return *face;
}

}  // namespace

TEST_CASE("the catalogue tells of each face for engraving what a workshop must know") {
  const FontLibrary library("none");
  std::vector<std::string> names;
  for (const CatalogueFace& face : library.catalogue()) {
    INFO(face.name);
    for (const std::string* word : {&face.name, &face.file, &face.package, &face.licence, &face.use}) {
      CHECK_FALSE(word->empty());
    }
    CHECK(face.sha256.size() == 64);
    CHECK_FALSE(face.scripts.empty());
    if (!face.is_for_engraving()) continue;
    names.push_back(face.name);
    CHECK(face.counter > 0);
    CHECK(face.least_cap_height >= smallest_lettering);
  }
  CHECK(names == std::vector<std::string>{"serif", "sans", "slab", "script", "condensed", "capitals", "stencil",
                                          "blackletter", "even-stroke", "variable"});
}

TEST_CASE("the catalogue says which face is joined, which has capitals only, which varies") {
  const FontLibrary library("none");
  CHECK(face_called(library, "script").joined);
  CHECK_FALSE(face_called(library, "serif").joined);
  CHECK(face_called(library, "capitals").capitals_only);
  CHECK_FALSE(face_called(library, "condensed").capitals_only);
  const CatalogueFace& variable = face_called(library, "variable");
  REQUIRE(variable.axes.size() == 1);
  CHECK(variable.axes[0].tag == "wght");
  CHECK(variable.axes[0].least == 100);
  CHECK(variable.axes[0].standard == 400);
  CHECK(variable.axes[0].most == 900);
  CHECK(face_called(library, "serif").axes.empty());
}

TEST_CASE("a face of capitals only draws small letters as it draws capitals") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  for (const CatalogueFace& face : library.catalogue()) {
    if (!face.is_for_engraving()) continue;
    INFO(face.name);
    const auto metrics = typesetter.metrics(face.name);
    REQUIRE(metrics.ok());
    CHECK((metrics->x_height > 0.9 * metrics->cap_height) == face.capitals_only);
  }
}

TEST_CASE("the least height of capitals follows from the narrowest stroke or counter and the spot") {
  CHECK(least_cap_height({0.7, 0.02, 0.1}, 0.1) == Approx(3.5));
  CHECK(least_cap_height({0.7, 0.1, 0.02}, 0.1) == Approx(3.5));
  CHECK(least_cap_height({0.7, 0.019, 0.1}, 0.1) == Approx(3.7));  // 3.684, up to the next tenth
  CHECK(least_cap_height({0.7, 0.02, 0.1}, 0.2) == Approx(7));
  CHECK(least_cap_height({0.7, 0.2, 0.2}, 0.1) == smallest_lettering);
  CHECK(least_cap_height({0.7, 0, 0}, 0.1) == smallest_lettering);  // not measured
  const FontLibrary library("none");
  Typesetter typesetter(library);
  for (const CatalogueFace& face : library.catalogue()) {
    if (!face.is_for_engraving()) continue;
    INFO(face.name);
    const auto metrics = typesetter.metrics(face.name);
    REQUIRE(metrics.ok());
    CHECK(face.least_cap_height ==
          Approx(least_cap_height({metrics->cap_height, face.thinnest, face.counter}, catalogue_spot)));
  }
}

TEST_CASE("a face draws what it has, whatever stands in for the rest") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  CHECK(*typesetter.draws("sans", "Mill & Quay 1874"));
  CHECK_FALSE(*typesetter.draws("sans", "Łęcka"));
  CHECK(*typesetter.draws("serif", "Łęcka"));
  CHECK_FALSE(typesetter.draws("no-such", "a").ok());
}

TEST_CASE("the font files of the workshop's own folder are found by name, whatever else lies there") {
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-fonts-" + std::to_string(::getpid()));
  fs::create_directories(folder / "folder.ttf");
  for (const char* name : {"b.otf", "a.TTF", "c.ttc", "README.txt", "d.otf.part"}) std::ofstream(folder / name) << "x";
  CHECK(FontLibrary(folder).own_names() == std::vector<std::string>{"a.TTF", "b.otf", "c.ttc"});
  CHECK(FontLibrary(folder / "none").own_names().empty());
  fs::remove_all(folder);
}

TEST_CASE(
    "a sans is stood in for by a sans first, a serif by a serif, a face of the workshop's own by what it says it is") {
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-own-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  fs::copy_file(FontLibrary("none").find("sans")->path, folder / "mill.otf");
  const FontLibrary library(folder);
  CHECK(library.fallback_names("en", "sans").at(0) == "noto-sans");
  CHECK(library.fallback_names("en", "serif").at(0) == "noto-serif");
  CHECK(library.fallback_names("en").at(0) == "noto-serif");
  CHECK(library.fallback_names("ur", "sans").at(0) == "noto-nastaliq");
  std::vector<std::string> names = library.fallback_names("ja", "sans");
  std::ranges::sort(names);
  CHECK(std::ranges::adjacent_find(names) == names.end());  // none is tried twice
  for (const CatalogueFace& face : library.catalogue()) {
    INFO(face.name);
    CHECK((face.style.empty() || face.style == "serif" || face.style == "sans"));
  }
  Typesetter typesetter(library);
  const auto stand_in = [&](const std::string& face) {
    const auto line = typesetter.shape("\u1E1E\u1E1F", {{face}, "", ""});
    return line.ok() ? typesetter.file(line->glyphs.front().face).name : line.fault().what;
  };
  CHECK(stand_in("sans") == "noto-sans");
  CHECK(stand_in("mill.otf") == "noto-sans");
  CHECK(stand_in("serif") == "noto-serif");
  fs::remove_all(folder);
}

}  // namespace ordinatio::fonts_test
