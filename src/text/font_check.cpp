#include "text/font_check.h"

#include <hb-ot.h>

#include <cstdint>
#include <map>
#include <memory>
#include <optional>

#include "text/face.h"

namespace ordinatio::inline text {
namespace {

/// Big-endian numbers, as a font's tables have them; nothing beyond the end.
std::optional<std::uint32_t> number_at(std::string_view bytes, std::size_t at, std::size_t size) {
  if (at > bytes.size() || bytes.size() - at < size) return std::nullopt;
  std::uint32_t number = 0;
  for (std::size_t i = 0; i < size; ++i) number = number << 8 | static_cast<unsigned char>(bytes[at + i]);
  return number;
}
std::uint32_t number_or_0(std::string_view bytes, std::size_t at, std::size_t size) {
  return number_at(bytes, at, size).value_or(0);
}

/// A tag's letters; what a damaged one has in their place reaches no terminal.
std::string readable(std::string_view tag) {
  std::string text;
  for (const char c : tag) text += c > ' ' && c <= '~' ? std::string(1, c) : c == ' ' ? "" : "?";
  return text;
}

using Tables = std::map<std::string_view, std::string_view>;

/// Where the face's directory begins: a collection lists its faces'. Nothing where the bytes are no font.
std::optional<std::size_t> directory_at(std::string_view bytes, unsigned index) {
  const std::string_view tag = bytes.substr(0, 4);
  if (tag == "ttcf") return number_at(bytes, 12 + std::size_t{4} * index, 4);
  const bool known = tag == std::string_view("\0\1\0\0", 4) || tag == "OTTO" || tag == "true";
  return known ? std::optional<std::size_t>(0) : std::nullopt;
}

std::string read_tables(std::string_view bytes, std::size_t directory, Tables& tables) {
  const auto count = number_at(bytes, directory + 4, 2);
  if (!count) return "its table directory lies beyond its end";
  for (std::size_t i = 0; i < *count; ++i) {
    const std::size_t record = directory + 12 + 16 * i;
    const auto offset = number_at(bytes, record + 8, 4), length = number_at(bytes, record + 12, 4);
    if (!offset || !length) return "its table directory reaches beyond its end";
    const std::string_view tag = bytes.substr(record, 4);
    if (*offset > bytes.size() || bytes.size() - *offset < *length) {
      return "its table " + readable(tag) + " reaches beyond its end: the file is not whole";
    }
    tables[tag] = bytes.substr(*offset, *length);
  }
  return "";
}

constexpr std::uint32_t head_magic = 0x5F0F3CF5;
constexpr std::uint32_t least_units = 16, most_units = 16'384;  // an em, by the format

std::string damage_of_numbers(const Tables& tables) {
  for (const char* needed : {"head", "maxp", "cmap", "hhea", "hmtx"}) {
    if (!tables.contains(needed)) return "it has no table " + std::string(needed);
  }
  const std::string_view head = tables.at("head");
  const std::uint32_t units = number_or_0(head, 18, 2);
  if (number_or_0(head, 12, 4) != head_magic) return "its table head does not begin as the format says";
  if (units < least_units || units > most_units) return "its em has " + std::to_string(units) + " units";
  const std::uint32_t glyphs = number_or_0(tables.at("maxp"), 4, 2);
  if (glyphs == 0) return "it has no glyph";
  const std::uint32_t widths = number_or_0(tables.at("hhea"), 34, 2);
  const bool has_widths = widths > 0 && widths <= glyphs && tables.at("hmtx").size() >= std::size_t{4} * widths;
  return has_widths ? "" : "its table hmtx does not hold the widths that hhea counts";
}

/// Of a TrueType face: where each glyph's outline begins, ascending, within glyf.
std::string damage_of_outlines(const Tables& tables) {
  if (tables.contains("CFF ") || tables.contains("CFF2")) return "";
  if (!tables.contains("loca") || !tables.contains("glyf")) return "it has no outlines";
  const std::string_view places = tables.at("loca");
  const std::size_t size = number_or_0(tables.at("head"), 50, 2) == 0 ? 2 : 4;
  const std::size_t count = number_or_0(tables.at("maxp"), 4, 2) + std::size_t{1};
  if (places.size() < count * size) return "its table loca has fewer places than it has glyphs";
  std::uint32_t before = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const std::uint32_t place = number_or_0(places, i * size, size) * (size == 2 ? 2U : 1U);
    if (place < before || place > tables.at("glyf").size()) return "its table loca points outside the glyphs' outlines";
    before = place;
  }
  return "";
}

bool has_table(hb_face_t* face, hb_tag_t tag) {
  const std::unique_ptr<hb_blob_t, Destroyer<hb_blob_destroy>> table(hb_face_reference_table(face, tag));
  return hb_blob_get_length(table.get()) > 0;
}

/// Whether the file itself has the table, before HarfBuzz has judged it.
bool lost(hb_face_t* face, hb_tag_t tag, bool is_read) { return has_table(face, tag) && !is_read; }

}  // namespace

std::string damage_of_file(std::string_view bytes, unsigned index) {
  const auto directory = directory_at(bytes, index);
  if (!directory) return "";
  Tables tables;
  if (std::string why = read_tables(bytes, *directory, tables); !why.empty()) return why;
  if (std::string why = damage_of_numbers(tables); !why.empty()) return why;
  return damage_of_outlines(tables);
}

std::string damage_of_face(hb_face_t* face) {
  const std::unique_ptr<hb_set_t, Destroyer<hb_set_destroy>> characters(hb_set_create());
  hb_face_collect_unicodes(face, characters.get());
  if (hb_set_is_empty(characters.get())) return "its table cmap leads from no character to a glyph";
  if (lost(face, HB_OT_TAG_GSUB, hb_ot_layout_has_substitution(face))) return "its table GSUB cannot be read";
  if (lost(face, HB_OT_TAG_GPOS, hb_ot_layout_has_positioning(face))) return "its table GPOS cannot be read";
  return "";
}

}  // namespace ordinatio::inline text
