#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "logo/drawing.h"

namespace ordinatio::inline logo {
namespace {

constexpr std::array numeric_attributes{"points",
                                        "x",
                                        "y",
                                        "x1",
                                        "y1",
                                        "x2",
                                        "y2",
                                        "cx",
                                        "cy",
                                        "r",
                                        "rx",
                                        "ry",
                                        "width",
                                        "height",
                                        "refX",
                                        "refY",
                                        "viewBox",
                                        "transform",
                                        "stroke-width",
                                        "stroke-dasharray",
                                        "stroke-dashoffset"};

constexpr std::string_view separators = " \t\r\n,";

/// Walks over path data or a list of numbers.
class Numbers {
 public:
  explicit Numbers(std::string_view text) : rest_(text) {}

  void skip_separators() { rest_.remove_prefix(std::min(rest_.find_first_not_of(separators), rest_.size())); }
  [[nodiscard]] bool at_end() const { return rest_.empty(); }
  [[nodiscard]] char peek() const { return rest_.front(); }
  [[nodiscard]] bool at_number() const {
    return !rest_.empty() && std::string_view("0123456789+-.").find(rest_.front()) != std::string_view::npos;
  }
  [[nodiscard]] std::string_view rest() const { return rest_; }
  char take() {
    const char c = rest_.front();
    rest_.remove_prefix(1);
    return c;
  }
  /// A number of SVG 1.1: from_chars takes no plus sign, but it takes nan and inf.
  std::optional<double> number() {
    std::string_view text = rest_;
    if (text.starts_with('+')) text.remove_prefix(1);
    const bool minus = text.starts_with('-') && text.data() == rest_.data();
    if (text.find_first_of("0123456789.") != (minus ? 1U : 0U)) return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error == std::errc::invalid_argument) return std::nullopt;
    if (error == std::errc::result_out_of_range) value = HUGE_VAL;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    return value;
  }

 private:
  std::string_view rest_;
};

Refusal bad_number(std::string_view attribute, std::string_view at, std::string_view why) {
  return {std::string(attribute) + "=\"" + std::string(at.substr(0, 20)) + "…\"", std::string(why),
          "Draw it again, or open the file and save it anew"};
}

constexpr std::string_view too_large = "the number is too large to be drawn";

/// How many numbers a command of path data takes at a time (SVG 1.1, section 8.3); none for what is no command.
std::optional<int> arguments_of(char command) {
  switch (command | 0x20) {
    case 'm':
    case 'l':
    case 't':
      return 2;
    case 'h':
    case 'v':
      return 1;
    case 'c':
      return 6;
    case 's':
    case 'q':
      return 4;
    case 'a':
      return 7;
    case 'z':
      return 0;
    default:
      return std::nullopt;
  }
}

/// The flags of an arc are one digit, and nothing need part them from what follows.
std::optional<double> arc_flag(Numbers& numbers) {
  if (numbers.at_end() || (numbers.peek() != '0' && numbers.peek() != '1')) return std::nullopt;
  return numbers.take() - '0';
}

/// One set of a command's arguments. Nothing when it is sound.
std::optional<Refusal> bad_arguments(Numbers& numbers, char command, int count) {
  for (int i = 0; i < count; ++i) {
    numbers.skip_separators();
    const std::string_view at = numbers.rest();
    const bool flag = (command | 0x20) == 'a' && (i == 3 || i == 4);
    const auto value = flag ? arc_flag(numbers) : numbers.number();
    if (!value) return bad_number("d", at, std::string("path data breaks off in the command ") + command);
    if (!(std::abs(*value) <= largest_number)) return bad_number("d", at, too_large);
  }
  return std::nullopt;
}

/// Viewers draw a damaged path up to the damage; an engraving with half a shape is worse than none.
std::optional<Refusal> refused_path(std::string_view data) {
  Numbers numbers(data);
  bool first = true;
  for (numbers.skip_separators(); !numbers.at_end(); numbers.skip_separators()) {
    const std::string_view at = numbers.rest();
    const char command = numbers.take();
    const auto count = arguments_of(command);
    if (!count || (first && (command | 0x20) != 'm')) return bad_number("d", at, "no command of path data");
    first = false;
    if (*count == 0) continue;
    do {
      if (auto bad = bad_arguments(numbers, command, *count)) return bad;
      numbers.skip_separators();
    } while (numbers.at_number());
  }
  return std::nullopt;
}

/// Numbers among other things, such as units and the names of transforms.
std::optional<Refusal> refused_list(std::string_view name, std::string_view value) {
  for (Numbers numbers(value); !numbers.at_end();) {
    const std::string_view at = numbers.rest();
    if (at.starts_with("nan") || at.starts_with("NaN") || at.starts_with("inf") || at.starts_with("Inf"))
      return bad_number(name, at, "that is no number");
    const auto number = numbers.number();
    if (number && !(std::abs(*number) <= largest_number)) return bad_number(name, at, too_large);
    if (!number) numbers.take();
  }
  return std::nullopt;
}

}  // namespace

std::optional<Refusal> refused_numbers(std::string_view name, std::string_view value) {
  if (name == "d") return refused_path(value);
  if (std::ranges::find(numeric_attributes, name) == numeric_attributes.end()) return std::nullopt;
  return refused_list(name, value);
}

}  // namespace ordinatio::inline logo
