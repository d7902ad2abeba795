#include <nlohmann/json.hpp>

#include "base/digits.h"
#include "write/colour.h"
#include "write/write.h"
#include "write/xml.h"

namespace ordinatio::inline write {
namespace {

constexpr int places = 3;           // 0.001 mm: a hundredth of the beam
constexpr double line_width = 0.1;  // mm, of followed paths as drawn
constexpr std::size_t bytes_a_point = 15;

void append_point(std::string& out, Point p) {
  append_number(out, p.x, places);
  out += ' ';
  append_number(out, p.y, places);
}

/// The inside of a JSON string.
std::string json_text(std::string_view text) {
  const std::string quoted = nlohmann::json(text).dump(-1, ' ', true, nlohmann::json::error_handler_t::replace);
  return quoted.substr(1, quoted.size() - 2);
}

void open_operation(std::string& out, Operation operation, const Palette& palette, double scale) {
  const std::string colour = hex_of(palette[operation]);
  out += "  <g id=\"";
  out += name_of(operation);
  if (is_filled(operation)) {
    out += "\" fill=\"" + colour + "\" stroke=\"none\"";
  } else {
    out += "\" fill=\"none\" stroke=\"" + colour + '"';
    append_attribute(out, "stroke-width", line_width * scale, places);
  }
  out += ">\n    <title>";
  out += name_of(operation);
  if (operation == Operation::guide) out += ": never run";
  out += "</title>\n";
}

void append_part(std::string& out, const SheetPart& part, double height, double scale) {
  out += "    <g id=\"";
  out += name_of(part.operation);
  out += '-' + xml_id(part.id) + "\">\n      <title>" + escaped(part.title) + "</title>\n      <path d=\"";
  append_path_data(out, part.path, height, scale);
  out += "\"/>\n    </g>\n";
}

std::size_t size_guess(const Sheet& sheet) {
  std::size_t points = 0;
  for (const SheetPart& part : sheet.parts) points += part.path.points().size();
  return 4096 + sheet.parts.size() * 200 + points * bytes_a_point;
}

}  // namespace

void append_path_data(std::string& out, const Path& path, double height, double scale) {
  const Point* next = path.points().data();
  char text[3 * 2 * (most_digits + 1) + 1];  // of one command
  const auto append = [&](char letter, int points) {
    char* at = text;
    *at++ = letter;
    for (int i = 0; i < points; ++i, ++next) {
      if (i > 0) *at++ = ' ';
      at = put_number(at, scale * next->x, places);
      *at++ = ' ';
      at = put_number(at, scale * (height - next->y), places);
    }
    out.append(text, at);
  };
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        append('M', 1);
        break;
      case Path::Verb::line:
        append('L', 1);
        break;
      case Path::Verb::quad:
        append('Q', 2);
        break;
      case Path::Verb::cubic:
        append('C', 3);
        break;
      case Path::Verb::close:
        out += 'Z';
        break;
    }
  }
}

std::string write_svg(const Sheet& sheet, const SvgOptions& options) {
  const Machine& bed = sheet.frame.plan.machine;
  const double scale = options.css_pixels ? 1 / mm_per_css_px : 1;
  std::string out;
  out.reserve(size_guess(sheet));
  out +=
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"";
  append_number(out, bed.width * scale, places);
  out += options.css_pixels ? "\" height=\"" : "mm\" height=\"";
  append_number(out, bed.height * scale, places);
  out += options.css_pixels ? "\" viewBox=\"0 0 " : "mm\" viewBox=\"0 0 ";
  append_point(out, {bed.width * scale, bed.height * scale});
  out += "\">\n  <title>" + escaped(sheet.name) + "</title>\n  <metadata>{\"sheet\":\"" +
         escaped(json_text(sheet.name)) + "\",\"unit\":\"" + (options.css_pixels ? "1/96 in" : "mm") +
         "\"}</metadata>\n";
  std::optional<Operation> open;
  for (const SheetPart& part : sheet.parts) {
    if (open != part.operation) {
      if (open) out += "  </g>\n";
      open_operation(out, part.operation, sheet.frame.plan.palette, scale);
      open = part.operation;
    }
    append_part(out, part, bed.height, scale);
  }
  if (open) out += "  </g>\n";
  out += "</svg>\n";
  return out;
}

}  // namespace ordinatio::inline write
