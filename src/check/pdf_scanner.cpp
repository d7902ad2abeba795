#include "check/pdf_scanner.h"

#include <array>
#include <string>

#include "check/decimal.h"
#include "check/difference.h"

namespace ordinatio::inline check {
namespace {

constexpr std::size_t most_operands = 64;  // no operator takes more than a few; more are damage

enum class Sort : std::uint8_t { regular, blank, delimiter };

/// ISO 32000-1, tables 1 and 2.
constexpr std::array<Sort, 256> sorts = [] {
  std::array<Sort, 256> table{};
  for (const char c : std::string_view("\0\t\n\f\r ", 6)) table[static_cast<unsigned char>(c)] = Sort::blank;
  for (const char c : std::string_view("()<>[]{}/%")) table[static_cast<unsigned char>(c)] = Sort::delimiter;
  return table;
}();

Sort sort_of(char c) { return sorts[static_cast<unsigned char>(c)]; }
bool begins_number(char c) { return (c >= '0' && c <= '9') || c == '-' || c == '+' || c == '.'; }

[[noreturn]] void refuse(const char* what) { throw Difference{std::string("it is damaged: ") + what}; }

}  // namespace

bool PdfScanner::next() {
  operands_.clear();
  for (;;) {
    pass_blanks();
    if (at_ == end_) {
      if (!operands_.empty()) refuse("its content ends before an operator");
      return false;
    }
    if (!take_operand()) break;
    if (operands_.size() > most_operands) refuse("an operator has too many operands");
  }
  name_ = take_word();
  if (name_.empty()) refuse("its content has a sign that begins nothing");
  if (name_ == "ID") pass_picture();
  return true;
}

void PdfScanner::pass_blanks() {
  while (at_ != end_) {
    if (*at_ == '%') {
      while (at_ != end_ && *at_ != '\n' && *at_ != '\r') ++at_;
    } else if (sort_of(*at_) == Sort::blank) {
      ++at_;
    } else {
      return;
    }
  }
}

/// False where an operator stands next.
bool PdfScanner::take_operand() {
  if (begins_number(*at_)) {
    if (*at_ == '+') ++at_;
    double value = 0;
    if (!take_decimal(at_, end_, value) || (at_ != end_ && sort_of(*at_) == Sort::regular)) {
      throw Difference{"a number is no plain decimal"};
    }
    operands_.push_back({PdfOperand::Kind::number, value});
    return true;
  }
  switch (*at_) {
    case '/': {
      const char* start = at_++;
      take_word();
      operands_.push_back({PdfOperand::Kind::name, 0, {start, static_cast<std::size_t>(at_ - start)}});
      return true;
    }
    case '(':
    case '<':
    case '[':
      pass_composite();
      operands_.push_back({});
      return true;
    default:
      break;
  }
  const char* start = at_;
  const std::string_view word = take_word();
  if (word == "true" || word == "false" || word == "null") {
    operands_.push_back({});
    return true;
  }
  at_ = start;
  return false;
}

std::string_view PdfScanner::take_word() {
  const char* start = at_;
  while (at_ != end_ && sort_of(*at_) == Sort::regular) ++at_;
  return {start, static_cast<std::size_t>(at_ - start)};
}

/// A string, an array or a dictionary, whatever is in it; brackets are counted, not paired.
void PdfScanner::pass_composite() {
  std::size_t open = 0;
  do {
    pass_blanks();
    if (at_ == end_) refuse("a string or an array does not end");
    const bool doubled = end_ - at_ > 1 && at_[1] == *at_;
    if (*at_ == '(') {
      pass_string();
    } else if (*at_ == '<' && !doubled) {
      pass_hex_string();
    } else if (*at_ == '[' || *at_ == '<') {
      at_ += *at_ == '<' ? 2 : 1;
      ++open;
    } else if (*at_ == ']' || (*at_ == '>' && doubled)) {
      at_ += *at_ == '>' ? 2 : 1;
      --open;
    } else if (sort_of(*at_) == Sort::regular || *at_ == '/') {
      ++at_;
      take_word();
    } else {
      refuse("an array holds a sign that begins nothing");
    }
  } while (open > 0);
}

void PdfScanner::pass_string() {
  std::size_t open = 0;
  do {
    if (at_ == end_) refuse("a string does not end");
    if (*at_ == '(') ++open;
    if (*at_ == ')') --open;
    if (*at_ == '\\' && end_ - at_ > 1) ++at_;
    ++at_;
  } while (open > 0);
}

void PdfScanner::pass_hex_string() {
  while (at_ != end_ && *at_ != '>') ++at_;
  if (at_ == end_) refuse("a string does not end");
  ++at_;
}

/// The bytes of a picture in the content itself, to its EI between blanks.
void PdfScanner::pass_picture() {
  for (; end_ - at_ >= 4; ++at_) {
    const bool ends = sort_of(at_[3]) == Sort::blank;
    if (sort_of(at_[0]) == Sort::blank && at_[1] == 'E' && at_[2] == 'I' && ends) {
      at_ += 3;
      name_ = "EI";
      return;
    }
  }
  refuse("a picture does not end");
}

}  // namespace ordinatio::inline check
