#include "check/svg_path.h"

#include "check/decimal.h"
#include "check/difference.h"

namespace ordinatio::inline check {
namespace {

class PathReader {
 public:
  PathReader(std::string_view data, double scale, double height, std::size_t line)
      : at_(data.data()), end_(data.data() + data.size()), scale_(scale), height_(height), line_(line) {}

  Path read() {
    while (pass_separators(), at_ != end_) {
      if (!starts_number(*at_)) {
        command_ = *at_++;
      } else if (command_ == 'M') {
        command_ = 'L';  // SVG 1.1, 8.3.2: pairs that follow a move are lines
      } else if (command_ == 'Z') {
        refuse("numbers follow a Z");
      }
      run_command();
    }
    return std::move(path_);
  }

 private:
  void run_command() {
    if (command_ != 'M' && !drawing_) refuse("path data must begin, and go on after each Z, with M");
    switch (command_) {
      case 'M':
        path_.move_to(here_ = point());
        drawing_ = true;
        break;
      case 'L':
        path_.line_to(here_ = point());
        break;
      case 'H':
        here_.x = x();
        path_.line_to(here_);
        break;
      case 'V':
        here_.y = y();
        path_.line_to(here_);
        break;
      case 'Q': {
        const Point control = point();
        path_.quad_to(control, here_ = point());
        break;
      }
      case 'C': {
        const Point first = point(), second = point();
        path_.cubic_to(first, second, here_ = point());
        break;
      }
      case 'Z':
        path_.close();
        drawing_ = false;
        break;
      default:
        refuse("path data has a command that plain files do not have: " + std::string(1, command_));
    }
  }

  static bool starts_number(char c) { return (c >= '0' && c <= '9') || c == '-' || c == '.'; }
  void pass_separators() {
    while (at_ != end_ && (*at_ == ' ' || *at_ == ',' || *at_ == '\n' || *at_ == '\r' || *at_ == '\t')) ++at_;
  }
  double number() {
    pass_separators();
    double value = 0;
    if (!take_decimal(at_, end_, value)) refuse("path data has a number that is no plain decimal");
    return value;
  }
  double x() { return number() * scale_; }
  double y() { return height_ - number() * scale_; }
  Point point() { return {x(), y()}; }  // a braced list is evaluated from left to right
  [[noreturn]] void refuse(const std::string& what) const { throw Difference{what, line_}; }

  const char *at_, *end_;
  double scale_, height_;
  std::size_t line_;
  char command_ = 0;
  bool drawing_ = false;
  Point here_;
  Path path_;
};

}  // namespace

Path read_path_data(std::string_view data, double scale, double height, std::size_t line) {
  return PathReader(data, scale, height, line).read();
}

}  // namespace ordinatio::inline check
