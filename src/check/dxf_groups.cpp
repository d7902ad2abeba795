#include "check/dxf_groups.h"

#include <charconv>
#include <cstring>

#include "check/decimal.h"

namespace ordinatio::inline check {
namespace {

std::string_view without_leading_blanks(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  return text;
}

/// Group codes are short, and there is one for every number in the file: the general reader is left to the rest.
bool read_integer(std::string_view text, int& value) {
  if (!text.empty() && text.size() <= 4 && text.find_first_not_of("0123456789") == std::string_view::npos) {
    value = 0;
    for (const char digit : text) value = 10 * value + (digit - '0');
    return true;
  }
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  return error == std::errc{} && stop == end;
}

}  // namespace

std::string_view DxfGroups::next_line() {
  const void* found = std::memchr(at_, '\n', static_cast<std::size_t>(end_ - at_));
  ++lines_read_;
  if (found == nullptr) throw Difference{"the file ends in the middle of a line", lines_read_};
  const char *start = at_, *stop = static_cast<const char*>(found);
  at_ = stop + 1;
  if (stop != start && stop[-1] == '\r') --stop;
  return {start, static_cast<std::size_t>(stop - start)};
}

DxfGroup DxfGroups::next() {
  line_ = lines_read_ + 1;
  if (at_end()) refuse("the file ends too early");
  DxfGroup group;
  const std::string_view code = without_leading_blanks(next_line());
  if (!read_integer(code, group.code)) refuse("\"" + std::string(code) + "\" is no group code");
  if (at_end()) refuse("the file ends after a group code");
  group.value = next_line();
  return group;
}

bool DxfGroups::pass(std::string_view lines, std::size_t count) {
  if (!follows(lines)) return false;
  at_ += lines.size();
  lines_read_ += count;
  return true;
}

bool DxfGroups::pass_decimal(double& value) {
  const char* at = at_;
  if (!take_decimal(at, end_, value) || end_ - at < 2 || at[0] != '\r' || at[1] != '\n') return false;
  at_ = at + 2;
  ++lines_read_;
  return true;
}

double decimal_of(const DxfGroups& groups, const DxfGroup& group) {
  double value = 0;
  if (!read_decimal(without_leading_blanks(group.value), value)) {
    groups.refuse("\"" + std::string(group.value) + "\" is no plain decimal");
  }
  return value;
}

int integer_of(const DxfGroups& groups, const DxfGroup& group) {
  int value = 0;
  if (!read_integer(without_leading_blanks(group.value), value)) {
    groups.refuse("\"" + std::string(group.value) + "\" is no whole number");
  }
  return value;
}

}  // namespace ordinatio::inline check
