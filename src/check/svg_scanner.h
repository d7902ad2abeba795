// Of this folder alone.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "check/difference.h"

namespace ordinatio::inline check {

struct SvgAttribute {
  std::string_view name, value;  // the value as it stands, entities and all
};

struct SvgTag {
  enum class Kind { opening, closing, empty } kind = Kind::opening;
  std::string_view name;
  std::vector<SvgAttribute> attributes;
  std::size_t line = 1;
};

/// Reads the tags of a plain SVG file one after another, and refuses what such a file does not hold: comments, CDATA,
/// processing instructions, a DOCTYPE, text outside of titles, attributes given twice. Throws a Difference.
class SvgScanner {
 public:
  explicit SvgScanner(std::string_view text);

  /// The next tag; it is overwritten by the call after.
  [[nodiscard]] const SvgTag& tag() const { return tag_; }
  void next();
  [[nodiscard]] bool at_end() const { return ended_; }

  /// Whether the tag at hand opens an element of that name.
  [[nodiscard]] bool opens(std::string_view name) const;
  /// Goes past the closing tag at hand, which must be of that name.
  void close(std::string_view name);
  /// Goes past an element that holds text alone, if the tag at hand opens it. Returns the text, its entities resolved.
  std::optional<std::string> take_text(std::string_view name);
  /// The tag's attribute; refused when it is absent.
  [[nodiscard]] std::string_view value(std::string_view name) const;
  /// Refuses the tag at hand when it has attributes other than those named.
  void allow(std::initializer_list<std::string_view> names) const;
  [[noreturn]] void refuse(const std::string& what) const;

 private:
  enum class Between { blanks, text };
  void read_tag(Between before);
  void pass_until_tag(Between what);
  [[nodiscard]] std::string resolved(std::string_view text) const;
  void read_attributes();
  std::string_view read_name();
  void pass_blanks();
  void count_lines(std::size_t to);

  std::string_view text_;
  std::size_t at_ = 0, counted_ = 0;
  SvgTag tag_;
  bool ended_ = false;
};

}  // namespace ordinatio::inline check
