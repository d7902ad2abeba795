#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <map>
#include <random>

#include "text/face_limits.h"
#include "text/text.h"

namespace ordinatio::damaged_fonts_test {
namespace fs = std::filesystem;

namespace {

constexpr const char* words = "Ada & Bø 174";

/// A face of the workshop's own, whose file the test writes.
class OwnFont {
 public:
  OwnFont() : folder_(fs::temp_directory_path() / ("ordinatio-damaged-" + std::to_string(::getpid()))) {
    fs::create_directories(folder_);
  }
  ~OwnFont() { fs::remove_all(folder_); }
  void write(const std::string& bytes) const { std::ofstream(file(), std::ios::binary) << bytes; }
  [[nodiscard]] fs::path file() const { return folder_ / "own.ttf"; }
  [[nodiscard]] const fs::path& folder() const { return folder_; }

 private:
  fs::path folder_;
};

std::string bytes_of(const std::string& face) { return *read_file(FontLibrary("none").find(face)->path); }

std::size_t number_at(const std::string& bytes, std::size_t at, std::size_t size) {
  std::size_t number = 0;
  for (std::size_t i = 0; i < size; ++i) number = number << 8 | static_cast<unsigned char>(bytes[at + i]);
  return number;
}

struct Table {
  std::size_t record, offset, length;
};
std::map<std::string, Table> tables_of(const std::string& bytes) {
  std::map<std::string, Table> tables;
  for (std::size_t i = 0; i < number_at(bytes, 4, 2); ++i) {
    const std::size_t record = 12 + 16 * i;
    tables[bytes.substr(record, 4)] = {record, number_at(bytes, record + 8, 4), number_at(bytes, record + 12, 4)};
  }
  return tables;
}

/// What came of the words in the workshop's own face, in words; empty when they could be set.
std::string set_in_own(const OwnFont& font, const std::string& text = words) {
  const FontLibrary library(font.folder());
  Typesetter typesetter(library);
  const TextStyle style{{"own.ttf"}, "en", ""};
  if (const auto fault = typesetter.check_style(style)) return describe(*fault);
  const auto metrics = typesetter.metrics(style);
  if (!metrics.ok()) return describe(metrics.fault());
  const auto line = typesetter.shape(text, style);
  if (!line.ok()) return describe(line.fault());
  const LineGauges gauges = typesetter.gauges(*line);
  Path ink;
  typesetter.append_ink(ink, *line, 10, {0, 0}, 0.01);
  CHECK_FALSE(ink.empty());
  CHECK_FALSE(std::isnan(gauges.stroke.width));
  CHECK(line->glyphs.size() <= face_limits::shaped_glyphs(text.size()));
  for (const Point p : ink.points()) {
    if (std::isfinite(p.x) && std::isfinite(p.y)) continue;
    FAIL("ink that is no number");
  }
  return "";
}

bool names_the_file(const std::string& message) { return message.find("own.ttf") != std::string::npos; }

/// Bits turned round in one table, few or many; or the file cut off.
std::string damaged(std::string bytes, std::mt19937& random) {
  const auto tables = tables_of(bytes);
  const auto below = [&random](std::size_t limit) { return static_cast<std::size_t>(random()) % limit; };
  if (below(8) == 0) return bytes.substr(0, below(bytes.size()));
  std::vector<Table> drawn;
  for (const char* tag :
       {"glyf", "loca", "cmap", "hmtx", "hhea", "head", "maxp", "GPOS", "GSUB", "CFF ", "gvar", "fvar"}) {
    if (const auto table = tables.find(tag); table != tables.end()) drawn.push_back(table->second);
  }
  const Table table = drawn[below(drawn.size())];
  const std::size_t most = std::min<std::size_t>(table.length, below(2) == 0 ? table.length : 400);
  for (std::size_t flips = std::size_t{1} << below(10); flips > 0; --flips) {
    char& byte = bytes[table.offset + below(most)];
    byte = static_cast<char>(byte ^ (1 << below(8)));
  }
  return bytes;
}

}  // namespace

TEST_CASE(
    "a font damaged anywhere is set, or refused by its file's name, and never more is done than the limits allow") {
  const unsigned seed = 20270;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const OwnFont font;
  std::size_t refused = 0, set = 0;
  for (const char* face : {"serif", "sans", "variable", "even-stroke"}) {
    const std::string sound = bytes_of(face);
    for (int i = 0; i < 60; ++i) {
      INFO(face << ", damage " << i);
      font.write(damaged(sound, random));
      const std::string message = set_in_own(font);
      INFO(message);
      CHECK((message.empty() || names_the_file(message)));
      ++(message.empty() ? set : refused);
    }
  }
  CHECK(refused > 60);  // else the damage is none
  CHECK(set > 20);
}

TEST_CASE("half a font says that its file is damaged") {
  const OwnFont font;
  for (const char* face : {"serif", "sans", "variable"}) {
    const std::string sound = bytes_of(face);
    INFO(face);
    font.write(sound);
    CHECK(set_in_own(font).empty());
    font.write(sound.substr(0, sound.size() / 2));
    const std::string message = set_in_own(font);
    CHECK(message.find("the font's file is damaged") != std::string::npos);
    CHECK(names_the_file(message));
  }
}

TEST_CASE("a glyph with an endless outline is refused, not measured") {
  const OwnFont font;
  std::string bytes = bytes_of("serif");
  const auto tables = tables_of(bytes);
  // All coordinates of all glyphs at random: outlines that reach everywhere and cross themselves at every turn.
  std::mt19937 random(7);
  const Table glyf = tables.at("glyf");
  for (std::size_t i = 0; i < glyf.length; ++i) bytes[glyf.offset + i] = static_cast<char>(random() & 0x7F);
  font.write(bytes);
  const std::string message = set_in_own(font);
  INFO(message);
  CHECK(message.find("the font's file is damaged") != std::string::npos);
}

TEST_CASE("a face that draws none of a script that it claims is not stood in for") {
  const OwnFont font;
  std::string bytes = bytes_of("serif");
  const Table cmap = tables_of(bytes).at("cmap");
  const std::string sound = bytes;
  std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(cmap.offset + 4), cmap.length - 4, '\0');
  font.write(bytes);
  CHECK(set_in_own(font).find("leads from no character to a glyph") != std::string::npos);

  // The Latin letters' segment lost and all else there: found by its first and last character in the table's format 4.
  bytes = sound;
  const std::size_t subtables = number_at(bytes, cmap.offset + 2, 2);
  std::size_t lost = 0;
  for (std::size_t i = 0; i < subtables; ++i) {
    const std::size_t at = cmap.offset + number_at(bytes, cmap.offset + 8 + 8 * i, 4);
    const std::size_t format = number_at(bytes, at, 2);
    if (format == 4) {
      const std::size_t segments = number_at(bytes, at + 6, 2) / 2, ends = at + 14, starts = ends + 2 * segments + 2;
      for (std::size_t s = 0; s < segments; ++s) {
        if (number_at(bytes, starts + 2 * s, 2) > 'a' || number_at(bytes, ends + 2 * s, 2) < 'A') continue;
        bytes[starts + 2 * s] = bytes[ends + 2 * s], bytes[starts + 2 * s + 1] = bytes[ends + 2 * s + 1];
        ++lost;
      }
    } else {
      bytes[cmap.offset + 5 + 8 * i] = 9;  // no platform: format 4 is all there is
    }
  }
  REQUIRE(lost > 0);
  font.write(bytes);
  const std::string message = set_in_own(font, "Ada Miller");
  INFO(message);
  CHECK(message.find("claims Latin letters and draws none") != std::string::npos);
  CHECK(names_the_file(message));
}

TEST_CASE("what a sound face lacks comes from another: single letters, and scripts that it does not claim") {
  const OwnFont font;
  font.write(bytes_of("sans"));
  CHECK(set_in_own(font, "Ł").empty());
  CHECK(set_in_own(font, "טחנה").empty());
  font.write(bytes_of("noto-naskh"));  // it has Latin figures and points
  CHECK(set_in_own(font, "Ada").empty());
}

TEST_CASE("no glyph of the catalogue's faces comes near the limits") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  for (const CatalogueFace& face : library.catalogue()) {
    if (face.name.starts_with("cjk-") && face.name != "cjk-jp") continue;  // one file draws for all five
    const auto letter = face.name == "cjk-jp" ? "水" : "";
    if (!face.is_for_engraving() && *letter == '\0') continue;
    INFO(face.name);
    const auto line = typesetter.shape(*letter == '\0' ? "A1" : letter, {{face.name}, "", ""});
    REQUIRE(line.ok());
    const FaceId id = line->glyphs.front().face;
    for (std::uint32_t glyph = 1; glyph < 150; ++glyph) {
      const Path& path = typesetter.outline(id, glyph).path;
      if (path.points().size() > face_limits::glyph_points / 3) FAIL("glyph " << glyph << ": " << path.points().size());
    }
  }
}

}  // namespace ordinatio::damaged_fonts_test
