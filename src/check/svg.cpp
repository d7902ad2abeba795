#include <algorithm>
#include <cmath>

#include "check/check.h"
#include "check/comparison.h"
#include "check/decimal.h"
#include "check/overlap.h"
#include "check/svg_path.h"
#include "check/svg_scanner.h"
#include "check/tracing.h"

namespace ordinatio::inline check {
namespace {

constexpr double svg_place = 0.001;  // user units: the last place of a coordinate

double decimal(const SvgScanner& scanner, std::string_view text) {
  double value = 0;
  if (!read_decimal(text, value)) scanner.refuse("\"" + std::string(text) + "\" is no plain decimal");
  return value;
}

/// "600mm" or, with one unit 1/96 inch, "2267.717": mm.
double size_in_mm(const SvgScanner& scanner, std::string_view text) {
  if (!text.ends_with("mm")) return decimal(scanner, text) * mm_per_css_px;
  text.remove_suffix(2);
  return decimal(scanner, text);
}

/// True size: width and height are the bed's, and the viewBox says the same numbers. Returns mm a user unit.
double read_scale(const SvgScanner& scanner, const Machine& bed) {
  const std::string_view width = scanner.value("width"), height = scanner.value("height");
  const bool in_mm = width.ends_with("mm") && height.ends_with("mm");
  const double scale = in_mm ? 1 : mm_per_css_px;
  const auto is_bed = [&](double w, double h) {
    return std::abs(w - bed.width) <= svg_place && std::abs(h - bed.height) <= svg_place;
  };
  if (!is_bed(size_in_mm(scanner, width), size_in_mm(scanner, height))) {
    scanner.refuse("the drawing is " + std::string(width) + " by " + std::string(height) + ", the bed is " +
                   spoken(bed.width) + " mm by " + spoken(bed.height) + " mm");
  }
  const std::string_view box = scanner.value("viewBox");
  const char *at = box.data(), *end = at + box.size();
  double numbers[4];
  for (double& number : numbers) {
    while (at != end && *at == ' ') ++at;
    if (!take_decimal(at, end, number)) scanner.refuse("the viewBox is not four plain decimals");
  }
  if (at != end || numbers[0] != 0 || numbers[1] != 0 || !is_bed(numbers[2] * scale, numbers[3] * scale)) {
    scanner.refuse("the viewBox \"" + std::string(box) + "\" is not the drawing's size: the scale would be wrong");
  }
  return scale;
}

void append_hex(std::string& out, std::uint8_t byte) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  out += digits[byte >> 4];
  out += digits[byte & 15];
}

std::string hex_of(Colour colour) {
  std::string text = "#";
  for (const std::uint8_t byte : {colour.red, colour.green, colour.blue}) append_hex(text, byte);
  return text;
}

/// What stands for an id in XML, where only letters, digits, - and . go through; all else is _ and two hex digits.
std::string xml_id(std::string_view id) {
  std::string text;
  for (const char c : id) {
    const bool plain =
        (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' || c == '.';
    text += plain ? c : '_';
    if (!plain) append_hex(text, static_cast<std::uint8_t>(c));
  }
  return text;
}

/// The file draws a part otherwise than point by point.
struct NotTraced {};

/// The SVG file of one sheet, element by element, beside the parts that it must hold. By points: each path is held against
/// the part's; else its ink is measured. Throws NotTraced.
class SvgCheck {
 public:
  enum class By { points, ink };
  SvgCheck(std::string_view bytes, const Expectation& expectation, By by)
      : scanner_(bytes), expectation_(expectation), by_(by), apart_(expectation) {}

  void run() {
    if (!scanner_.opens("svg")) scanner_.refuse("the file does not begin with <svg>");
    scanner_.allow({"xmlns", "version", "width", "height", "viewBox"});
    if (scanner_.value("xmlns") != "http://www.w3.org/2000/svg") scanner_.refuse("the namespace is not SVG's");
    if (scanner_.value("version") != "1.1") scanner_.refuse("the version is not SVG 1.1");
    kind_.step = svg_place * (scale_ = read_scale(scanner_, expectation_.sheet.frame.plan.machine));
    scanner_.next();
    take_words();
    while (scanner_.opens("g")) read_operation();
    if (next_ != expectation_.parts.size()) missing();
    scanner_.close("svg");
    if (!scanner_.at_end()) scanner_.refuse("something stands after the drawing");
  }

 private:
  /// Title, description and metadata; returns the title.
  std::string take_words() {
    std::string title = scanner_.take_text("title").value_or("");
    scanner_.take_text("desc");
    scanner_.take_text("metadata");
    return title;
  }

  [[noreturn]] void missing() const { scanner_.refuse(name_of(expectation_.parts[next_]) + ": missing from the file"); }

  [[nodiscard]] const ExpectedPart& expected(const std::string& found) const {
    if (next_ == expectation_.parts.size()) scanner_.refuse("\"" + found + "\" is not on the sheet");
    return expectation_.parts[next_];
  }

  void read_operation() {
    const std::string id(scanner_.value("id"));
    const Operation operation = expected(id).part->operation;
    if (id != name_of(operation)) {
      scanner_.refuse("the operation is " + id + ", not " + std::string(name_of(operation)));
    }
    require_paint(operation);
    scanner_.next();
    take_words();
    while (scanner_.opens("g")) read_part(operation);
    if (next_ != expectation_.parts.size() && expectation_.parts[next_].part->operation == operation) missing();
    scanner_.close("g");
  }

  /// Engraved paths are filled in their colour, all others are followed in it.
  void require_paint(Operation operation) const {
    const std::string colour = hex_of(expectation_.sheet.frame.plan.palette[operation]);
    const bool filled = is_filled(operation);
    if (filled) {
      scanner_.allow({"id", "fill", "stroke"});
    } else {
      scanner_.allow({"id", "fill", "stroke", "stroke-width"});
    }
    const std::string_view fill = scanner_.value("fill"), stroke = scanner_.value("stroke");
    if (fill != (filled ? colour : "none") || stroke != (filled ? "none" : colour)) {
      scanner_.refuse(std::string(name_of(operation)) + " is painted with fill " + std::string(fill) + " and stroke " +
                      std::string(stroke) + "; its colour is " + colour);
    }
    if (!filled) decimal(scanner_, scanner_.value("stroke-width"));
  }

  void read_part(Operation operation) {
    scanner_.allow({"id"});
    const std::string id(scanner_.value("id"));
    const ExpectedPart& part = expected(id);
    if (part.part->operation != operation || id != std::string(name_of(operation)) + "-" + xml_id(part.part->id)) {
      scanner_.refuse("\"" + id + "\" stands where " + name_of(part) + " should");
    }
    scanner_.next();
    if (const std::string title = take_words(); title != part.part->title) {
      scanner_.refuse(name_of(part) + ": the title is \"" + title + "\", not \"" + part.part->title + "\"");
    }
    read_path(part);
    scanner_.close("g");
    ++next_;
  }

  void read_path(const ExpectedPart& part) {
    const SvgTag& tag = scanner_.tag();
    if (scanner_.at_end() || tag.kind != SvgTag::Kind::empty || tag.name != "path") {
      scanner_.refuse(name_of(part) + " holds no path");
    }
    scanner_.allow({"d"});
    const double height = expectation_.sheet.frame.plan.machine.height;
    const std::string_view data = scanner_.value("d");
    if (by_ == By::ink) {
      measure_path(part, read_path_data(data, scale_, height, tag.line), tag.line);
    } else if (!spells(data, part.part->path, scale_, height, kind_.step)) {
      throw NotTraced();
    }
    scanner_.next();
  }

  void measure_path(const ExpectedPart& part, const Path& path, std::size_t line) {
    const double area = compare_part(expectation_, part, path, kind_, line);
    apart_.take(part, path, area, line);
  }

  SvgScanner scanner_;
  const Expectation& expectation_;
  By by_;
  InkApart apart_;
  FileKind kind_{"SVG", ".svg", svg_place, 0};
  double scale_ = 1;
  std::size_t next_ = 0;  // the part that must come next
};

void check(std::string_view bytes, const Expectation& expectation) {
  if (expectation.is_sound) {
    try {
      return SvgCheck(bytes, expectation, SvgCheck::By::points).run();
    } catch (const NotTraced&) {
    }
  }
  SvgCheck(bytes, expectation, SvgCheck::By::ink).run();
}

}  // namespace

MaybeFault check_svg(std::string_view bytes, const SheetModel& model) {
  return checked({"SVG", ".svg"}, model.sheet(), [&] { check(bytes, expectation_of(model)); });
}

}  // namespace ordinatio::inline check
