#include <cmath>

#include "check/check.h"
#include "check/decimal.h"
#include "check/difference.h"
#include "check/ink.h"
#include "check/svg_path.h"
#include "check/svg_scanner.h"

namespace ordinatio::inline check {
namespace {

constexpr double last_place = 0.001;  // mm: the last place of a coordinate

/// Height of the drawing in mm; its viewBox says the same numbers, so that a unit is a millimetre.
double read_height(const SvgScanner& scanner) {
  const std::string width(scanner.value("width")), height(scanner.value("height")), box(scanner.value("viewBox"));
  double mm = 0;
  const bool in_mm = width.ends_with("mm") && height.ends_with("mm");
  if (!in_mm || box != "0 0 " + width.substr(0, width.size() - 2) + " " + height.substr(0, height.size() - 2) ||
      !read_decimal(std::string_view(height).substr(0, height.size() - 2), mm)) {
    scanner.refuse("the drawing is " + width + " by " + height + " and its viewBox \"" + box + "\": not true size");
  }
  return mm;
}

void compare(const Blank& blank, const Path& found, const SvgScanner& scanner) {
  const Path expected = path_of(blank);
  const Bounds wanted = bounds_of(expected), box = bounds_of(found);
  if (std::abs(box.width() - wanted.width()) > 2 * last_place ||
      std::abs(box.height() - wanted.height()) > 2 * last_place) {
    scanner.refuse(blank.id + " is " + spoken(box.width()) + " mm by " + spoken(box.height()) + " mm, not " +
                   spoken(wanted.width()) + " mm by " + spoken(wanted.height()) + " mm");
  }
  const double area = measure(found, Measure::area).area, whole = measure(expected, Measure::area).area;
  if (std::abs(area - whole) > area_share * whole) {
    scanner.refuse(blank.id + " covers " + spoken(area) + " mm², not " + spoken(whole) + " mm²");
  }
}

/// A piece's edge, and behind it, where something is kept clear, the path of that.
void read_piece(SvgScanner& scanner, const Blank& blank, double height) {
  if (!scanner.opens("g")) scanner.refuse(blank.id + " is missing");
  scanner.next();
  if (const auto title = scanner.take_text("title"); title != blank.id) {
    scanner.refuse("\"" + title.value_or("") + "\" stands where " + blank.id + " should");
  }
  for (std::size_t path = 0; path < (blank.kept_clear.empty() ? 1 : 2); ++path) {
    if (scanner.at_end() || scanner.tag().name != "path") scanner.refuse(blank.id + " holds too few paths");
    const Path found = read_path_data(scanner.value("d"), 1, height, scanner.tag().line);
    if (path == 0) compare(blank, found, scanner);
    scanner.next();
  }
  scanner.close("g");
}

void read_drawing(std::string_view svg, const std::vector<const Blank*>& blanks) {
  SvgScanner scanner(svg);
  if (!scanner.opens("svg")) scanner.refuse("the file does not begin with <svg>");
  const double height = read_height(scanner);
  scanner.next();
  scanner.take_text("title");
  if (!scanner.opens("g")) scanner.refuse("the pieces are missing");
  scanner.next();
  scanner.take_text("title");
  for (const Blank* blank : blanks) read_piece(scanner, *blank, height);
  scanner.close("g");
  scanner.close("svg");
  if (!scanner.at_end()) scanner.refuse("something stands after the drawing");
}

}  // namespace

MaybeFault check_blanks_svg(std::string_view bytes, const std::vector<const Blank*>& blanks) {
  try {
    read_drawing(bytes, blanks);
    return std::nullopt;
  } catch (const Difference& difference) {
    return Fault{"read back, the drawing of the blanks is not what was meant",
                 "blanks.svg:" + std::to_string(difference.line), difference.what,
                 "Do not use it; report it together with the blanks' file", Fault::Cause::machine};
  }
}

}  // namespace ordinatio::inline check
