// Of this folder alone.
#pragma once

#include <string_view>

#include "check/difference.h"

namespace ordinatio::inline check {

/// A group code and its value: two lines of a DXF file.
struct DxfGroup {
  int code = 0;
  std::string_view value;
  [[nodiscard]] bool is(int wanted, std::string_view text) const { return code == wanted && value == text; }
};

/// The groups of an ASCII DXF file, one after another. Throws a Difference for what is no group.
class DxfGroups {
 public:
  explicit DxfGroups(std::string_view text) : at_(text.data()), end_(text.data() + text.size()) {}

  /// The next group; the file may not end here.
  DxfGroup next();
  /// Passes over whole lines that stand next in just these bytes; false, and nothing passed, when they do not.
  bool pass(std::string_view lines, std::size_t count);
  [[nodiscard]] bool follows(std::string_view bytes) const {
    return std::string_view(at_, static_cast<std::size_t>(end_ - at_)).starts_with(bytes);
  }
  /// A plain decimal that is the whole of the next line; false, and nothing passed, when it is not.
  bool pass_decimal(double& value);
  [[nodiscard]] bool at_end() const { return at_ == end_; }
  /// The line on which the last group's code stands.
  [[nodiscard]] std::size_t line() const { return line_; }
  [[noreturn]] void refuse(const std::string& what) const { throw Difference{what, line_}; }

 private:
  std::string_view next_line();
  const char *at_, *end_;
  std::size_t line_ = 0, lines_read_ = 0;
};

double decimal_of(const DxfGroups& groups, const DxfGroup& group);
int integer_of(const DxfGroups& groups, const DxfGroup& group);

}  // namespace ordinatio::inline check
