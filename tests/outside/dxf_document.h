// In: the bytes of an ASCII DXF file.
// Out: its tags, as sections of records. Shares nothing with src/.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace outside {

struct DxfTag {
  int code = 0;
  std::string_view value;
  std::size_t line = 0;  // of the code, from 1
};

/// A tag of code 0 and what follows it up to the next.
struct DxfRecord {
  std::string_view type;
  std::size_t line = 0;
  std::vector<DxfTag> tags;
  [[nodiscard]] std::optional<std::string_view> first(int code) const;
  [[nodiscard]] bool has(int code) const { return first(code).has_value(); }
};

struct DxfSection {
  std::string_view name;
  std::vector<DxfTag> variables;  // tags before the first record: those of HEADER
  std::vector<DxfRecord> records;
};

struct DxfDocument {
  std::vector<DxfSection> sections;
  bool ended = false;               // by EOF, and nothing behind it
  std::vector<std::string> faults;  // of the text itself: line ends, characters, codes, numbers, sections
  [[nodiscard]] const DxfSection* section(std::string_view name) const;
};

/// The bytes must outlive the document.
DxfDocument read_dxf(std::string_view bytes);

std::string at_line(std::size_t line, const std::string& what);

}  // namespace outside
