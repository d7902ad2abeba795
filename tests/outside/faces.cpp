// The catalogue's faces against their own files, as fontTools 4.38 reads them (Debian: python3-fonttools): bounds of every
// glyph, heights of the OS/2 table, axes, letters; and against Debian 12: checksums of the files, licences of the packages.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "composed_sheet.h"
#include "text/text.h"

using namespace ordinatio;
using namespace outside;
using Json = nlohmann::json;

namespace {

// What the catalogue counts as having a script: its letters as English, modern Greek and Russian write them.
const std::map<std::string, std::string> letters_of_script{
    {"Latn", "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"},
    {"Grek", "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρσςτυφχψωΆΈΉΊΌΎΏάέήίόύώ"},
    {"Cyrl", "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯабвгдеёжзийклмнопрстуфхцчшщъыьэюя"}};

std::vector<CatalogueFace> faces_for_engraving() {
  std::vector<CatalogueFace> faces;
  std::ranges::copy_if(fonts().catalogue(), std::back_inserter(faces), &CatalogueFace::is_for_engraving);
  return faces;
}

Json read_by_fonttools(const CatalogueFace& face) {
  std::string command =
      std::string(PYTHON " " TEST_FOLDER "/outside/read_face.py ") + quoted(fonts().find(face.name)->path);
  for (const auto& [script, letters] : letters_of_script) command += " " + letters;
  return Json::parse(output_of(command));
}

/// The licence that Debian's copyright file (copyright-format 1.0) names for all files of the package.
std::string debian_licence(const std::string& package) {
  std::istringstream text(read("/usr/share/doc/" + package + "/copyright"));
  bool for_all = false;
  for (std::string line; std::getline(text, line);) {
    if (line.starts_with("Files:")) for_all = line.find_last_of('*') == line.size() - 1 && line.find('/') == line.npos;
    if (for_all && line.starts_with("License:")) return line.substr(line.find_first_not_of(' ', 8));
  }
  return "";
}

}  // namespace

TEST_CASE("every glyph of the faces for engraving has the bounds that fontTools finds") {
  // HarfBuzz hands coordinates over in single precision: a hundred-millionth of an em of 2816 units, times some rounding.
  constexpr double slack = 1e-6;  // em
  Typesetter typesetter(fonts());
  for (const CatalogueFace& face : faces_for_engraving()) {
    const Json file = read_by_fonttools(face);
    const double units = file["units_per_em"];
    const auto line = typesetter.shape("H", {{face.name}, "", ""});
    REQUIRE(line.ok());
    const FaceId id = line->glyphs.front().face;
    REQUIRE(typesetter.file(id).name == face.name);
    for (std::uint32_t glyph = 0; glyph < file["bounds"].size(); ++glyph) {
      const Json& expected = file["bounds"][glyph];
      const Bounds ink = typesetter.outline(id, glyph).ink;
      INFO(face.name << ", glyph " << glyph);
      if (expected.is_null()) {
        CHECK(ink.empty());
        continue;
      }
      CHECK(std::abs(ink.left - expected[0].get<double>() / units) <= slack);
      CHECK(std::abs(ink.bottom - expected[1].get<double>() / units) <= slack);
      CHECK(std::abs(ink.right - expected[2].get<double>() / units) <= slack);
      CHECK(std::abs(ink.top - expected[3].get<double>() / units) <= slack);
    }
  }
}

TEST_CASE("heights of capitals and small letters are those of the OS/2 table") {
  // Serifs, pens and rounding put the drawn H and x a hair off the round figures of a table.
  constexpr double slack = 0.0035;  // em
  // Blankenburg's H is drawn 8 thousandths lower than its table says.
  const std::map<std::string, double> tables_off{{"blackletter", 0.0085}};
  Typesetter typesetter(fonts());
  for (const CatalogueFace& face : faces_for_engraving()) {
    const Json file = read_by_fonttools(face);
    const double units = file["units_per_em"];
    const auto metrics = typesetter.metrics(face.name);
    REQUIRE(metrics.ok());
    const double off_by = tables_off.contains(face.name) ? tables_off.at(face.name) : slack;
    INFO(face.name << ": H " << metrics->cap_height << ", x " << metrics->x_height);
    CHECK(metrics->cap_height == Approx(file["cap_height"].get<double>() / units).margin(off_by));
    CHECK(metrics->x_height == Approx(file["x_height"].get<double>() / units).margin(slack));
  }
}

TEST_CASE("the catalogue names the scripts whose letters a face has, and no other") {
  for (const CatalogueFace& face : faces_for_engraving()) {
    const Json file = read_by_fonttools(face);
    std::size_t at = 0;
    for (const auto& [script, letters] : letters_of_script) {
      const std::string lacking = file["lacking"][at++];
      INFO(face.name << " lacks of " << script << ": " << lacking);
      CHECK(lacking.empty() == (std::ranges::find(face.scripts, script) != face.scripts.end()));
    }
  }
}

TEST_CASE("the catalogue's axes are those of the file") {
  for (const CatalogueFace& face : faces_for_engraving()) {
    Json axes = Json::array();
    for (const FaceAxis& axis : face.axes) axes.push_back({axis.tag, axis.least, axis.standard, axis.most});
    INFO(face.name);
    CHECK(axes == read_by_fonttools(face)["axes"]);
  }
}

TEST_CASE("every installed file is the one whose checksum the catalogue names") {
  for (const CatalogueFace& face : fonts().catalogue()) {
    INFO(face.name);
    const auto file = fonts().find(face.name);
    REQUIRE(file.ok());
    CHECK(output_of("sha256sum " + quoted(file->path)).substr(0, 64) == face.sha256);
  }
}

TEST_CASE("the catalogue's licences are those that Debian names, by their SPDX names") {
  // SPDX License List 3.20: OFL-1.1, Apache-2.0. Debian's own short names are freer.
  const std::map<std::string, std::string> spdx{{"OFL-1.1", "OFL-1.1"},
                                                {"SIL-OFL-1.1", "OFL-1.1"},
                                                {"SIL-1.1", "OFL-1.1"},
                                                {"Apache-2.0", "Apache-2.0"},
                                                // Inter: the font is under the OFL, as its name table says; the
                                                // programs beside it are under Apache's licence.
                                                {"OFL-1.1 and Apache-2.0", "OFL-1.1"}};
  std::size_t read = 0;
  for (const CatalogueFace& face : fonts().catalogue()) {  // those for engraving, and all that stand in for them
    const std::string named = debian_licence(face.package);
    INFO(face.name << ": " << named);
    REQUIRE(spdx.contains(named));
    CHECK(spdx.at(named) == face.licence);
    ++read;
  }
  CHECK(read == 54);  // as many tables as fonts/catalogue.toml has
}
