#include "dxf_document.h"

#include <algorithm>
#include <charconv>

namespace outside {
namespace {

bool is_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Four places, no exponent: what every reader that was tried takes alike, under any locale.
bool is_fixed(std::string_view text) {
  if (text.starts_with('-')) text.remove_prefix(1);
  const std::size_t point = text.find('.');
  return point != std::string_view::npos && is_digits(text.substr(0, point)) && is_digits(text.substr(point + 1)) &&
         text.size() - point == 5;
}

bool is_integer(std::string_view text) {
  if (text.starts_with('-')) text.remove_prefix(1);
  return is_digits(text);
}

bool is_handle(std::string_view text) {
  return !text.empty() && text.size() <= 16 &&
         std::all_of(text.begin(), text.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'F'); });
}

/// Kinds of value by group code: DXF Reference, "Group Code Value Types".
bool value_suits(int code, std::string_view value) {
  const auto in = [&](int from, int to) { return code >= from && code <= to; };
  if (in(10, 59) || in(140, 149) || in(210, 239)) return is_fixed(value);
  if (in(60, 79) || in(90, 99) || in(170, 179) || in(270, 289) || in(370, 389)) return is_integer(value);
  if (code == 5 || code == 105 || in(320, 369) || in(390, 399)) return is_handle(value);
  return true;
}

class Reader {
 public:
  explicit Reader(std::string_view bytes) : rest_(bytes) {}

  DxfDocument read() {
    while (!rest_.empty() && document_.faults.size() < most_faults) {
      if (const auto tag = next_tag()) place(*tag);
    }
    if (in_section_) fault("the file ends inside a section");
    return std::move(document_);
  }

 private:
  static constexpr std::size_t most_faults = 20;  // a file of the wrong kind has one a line

  void fault(const std::string& what) { document_.faults.push_back(at_line(line_, what)); }

  std::string_view next_line() {
    ++line_;
    const std::size_t end = rest_.find('\n');
    std::string_view line = rest_.substr(0, end);
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    if (end == std::string_view::npos || !line.ends_with('\r')) {
      fault("the line does not end in CR LF");
    } else {
      line.remove_suffix(1);
    }
    if (std::any_of(line.begin(), line.end(), [](char c) { return c < ' ' || c > '~'; })) fault("not plain ASCII");
    return line;
  }

  std::optional<DxfTag> next_tag() {
    DxfTag tag;
    std::string_view code = next_line();
    tag.line = line_;
    while (code.starts_with(' ')) code.remove_prefix(1);
    const auto [end, error] = std::from_chars(code.data(), code.data() + code.size(), tag.code);
    if (error != std::errc{} || end != code.data() + code.size() || tag.code < 0) {
      fault("no group code");
      return std::nullopt;
    }
    if (rest_.empty()) {
      fault("a group code without a value");
      return std::nullopt;
    }
    tag.value = next_line();
    if (!value_suits(tag.code, tag.value)) {
      fault("\"" + std::string(tag.value) + "\" is no value for group " + std::to_string(tag.code));
    }
    return tag;
  }

  void place(const DxfTag& tag) {
    if (document_.ended) return fault("something stands after EOF");
    if (!in_section_) return place_outside(tag);
    DxfSection& section = document_.sections.back();
    if (tag.code == 2 && section.name.empty()) {
      section.name = tag.value;
    } else if (tag.code == 0 && tag.value == "ENDSEC") {
      in_section_ = false;
    } else if (tag.code == 0 && (tag.value == "SECTION" || tag.value == "EOF")) {
      fault("a section does not end");
    } else if (tag.code == 0) {
      section.records.push_back({tag.value, tag.line, {}});
    } else {
      (section.records.empty() ? section.variables : section.records.back().tags).push_back(tag);
    }
  }

  void place_outside(const DxfTag& tag) {
    if (tag.code == 0 && tag.value == "SECTION") {
      document_.sections.emplace_back();
      in_section_ = true;
    } else if (tag.code == 0 && tag.value == "EOF") {
      document_.ended = true;
    } else {
      fault("something stands between the sections");
    }
  }

  std::string_view rest_;
  std::size_t line_ = 0;
  bool in_section_ = false;
  DxfDocument document_;
};

}  // namespace

std::optional<std::string_view> DxfRecord::first(int code) const {
  for (const DxfTag& tag : tags) {
    if (tag.code == code) return tag.value;
  }
  return std::nullopt;
}

const DxfSection* DxfDocument::section(std::string_view name) const {
  for (const DxfSection& section : sections) {
    if (section.name == name) return &section;
  }
  return nullptr;
}

DxfDocument read_dxf(std::string_view bytes) { return Reader(bytes).read(); }

std::string at_line(std::size_t line, const std::string& what) { return "line " + std::to_string(line) + ": " + what; }

}  // namespace outside
