// In: the bytes of a content stream, decoded. Out: its operators, one after another, with their operands.
// Never: makes an object of each number, as general readers do: there are a million on a sheet. Of this folder alone.
#pragma once

#include <string_view>
#include <vector>

namespace ordinatio::inline check {

struct PdfOperand {
  enum class Kind {
    number,
    name,
    other
  } kind = Kind::other;  // other: strings, arrays, dictionaries, null and the like
  double number = 0;
  std::string_view text = {};  // of a name, with its slash
};

/// ISO 32000-1, 7.2 and 7.3, as far as operands need it. Throws a Difference for what does not end, for a number that is no
/// plain decimal, and for bytes that no token begins with.
class PdfScanner {
 public:
  explicit PdfScanner(std::string_view content) : at_(content.data()), end_(at_ + content.size()) {}

  /// Goes to the next operator; false at the end.
  bool next();
  [[nodiscard]] std::string_view name() const { return name_; }
  [[nodiscard]] const std::vector<PdfOperand>& operands() const { return operands_; }

 private:
  void pass_blanks();
  bool take_operand();
  void pass_string();
  void pass_hex_string();
  void pass_composite();
  void pass_picture();
  std::string_view take_word();

  const char *at_, *end_;
  std::string_view name_;
  std::vector<PdfOperand> operands_;
};

}  // namespace ordinatio::inline check
