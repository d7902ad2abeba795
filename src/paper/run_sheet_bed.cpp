#include <algorithm>

#include "paper/loading_words.h"
#include "paper/paper.h"
#include "paper/run_sheet.h"
#include "write/write.h"

namespace ordinatio::inline paper {
namespace {

constexpr double screen_scale =
    0.25;  // mm of the bed become quarter units: to 0.001 of these ink is sharper than any print
constexpr double number_share = 0.24, largest_number = 8;  // of a piece's shorter side, at its upper left; units

void add_number(std::string& out, const char* name, double value) {
  out += ' ';
  out += name;
  out += "=\"";
  append_number(out, value, 2);
  out += '"';
}

/// Draws a bed as SVG. No element has an id: many beds stand on one page.
class BedSvg {
 public:
  explicit BedSvg(const Sheet& sheet) : sheet_(sheet), height_(screen_scale * sheet.frame.plan.machine.height) {}

  std::string draw() {
    const Machine& bed = sheet_.frame.plan.machine;
    svg_ = "<svg class=\"bed\" role=\"img\" aria-label=\"" + html_text(label()) + "\" viewBox=\"-1 -1";
    for (const double side : {bed.width, bed.height}) {
      svg_ += ' ';
      append_number(svg_, screen_scale * side + 2, 2);
    }
    svg_ += "\">\n";
    box("table", {0, 0, bed.width, bed.height});
    for (const Pocket& pocket : sheet_.frame.pockets) box("pocket", pocket.box);
    for (const SheetItem& item : sheet_.items) draw_item(item);
    for (const SheetPart& part : sheet_.parts) {
      if (part.operation == Operation::mark && part.id.starts_with("mark-")) path("mark", part.path);
    }
    for (const SheetItem& item : sheet_.items) number(item);
    return svg_ + "</svg>\n";
  }

 private:
  [[nodiscard]] std::string label() const {
    return sheet_.name + " as you stand before the bed: " + heading_for_loading(sheet_);
  }

  void draw_item(const SheetItem& item) {
    svg_ += "<g class=\"" + std::string(name_of(tint_of(item.artwork.blank.material))) + "\">";
    path("piece", transformed(path_of(item.artwork.blank), item.to_bed));
    for (const Layer& layer : item.artwork.layers) {
      if (layer.operation == Operation::guide) continue;
      path(is_filled(layer.operation) ? "ink" : "line", transformed(layer.path, item.to_bed));
    }
    svg_ += "</g>\n";
  }

  void path(const char* kind, const Path& path) {
    if (path.empty()) return;
    svg_ += std::string("<path class=\"") + kind + "\" d=\"";
    append_path_data(svg_, transformed(path, scale_by(screen_scale)), height_);
    svg_ += "\"/>";
  }

  void box(const char* kind, const Bounds& box) {
    svg_ += std::string("<rect class=\"") + kind + '"';
    add_number(svg_, "x", screen_scale * box.left);
    add_number(svg_, "y", height_ - screen_scale * box.top);
    add_number(svg_, "width", screen_scale * box.width());
    add_number(svg_, "height", screen_scale * box.height());
    svg_ += "/>";
  }

  void number(const SheetItem& item) {
    if (item.pocket == 0) return;
    const Bounds box = box_on_bed(item);
    const double size = std::min(largest_number, screen_scale * number_share * std::min(box.width(), box.height()));
    svg_ += "<text";
    add_number(svg_, "x", screen_scale * box.left + 0.3 * size);
    add_number(svg_, "y", height_ - screen_scale * box.top + 0.9 * size);
    add_number(svg_, "font-size", size);
    svg_ += '>' + std::to_string(item.pocket) + "</text>";
  }

  const Sheet& sheet_;
  double height_;
  std::string svg_;
};

std::string pockets_of(const Sheet& sheet) {
  std::string html = "<ul class=\"pockets\">\n";
  for (const LoadingLine& line : loading_lines(sheet)) {
    html +=
        "<li><span class=\"tick\" aria-hidden=\"true\"></span><span class=\"pocket-number\"><span class=\"unseen\">";
    html +=
        line.pocket == 0 ? "laid by </span>hand</span>" : "pocket </span>" + std::to_string(line.pocket) + "</span>";
    html += "<div><p><b class=\"number\">" + html_text(line.item) + "</b> <bdi class=\"words\">" +
            html_text(line.words) + "</bdi></p>";
    if (!line.lie.empty()) html += "<p class=\"by\">" + html_text(line.lie) + "</p>";
    if (!line.watch.empty()) html += "<p class=\"watch\">Watch: " + html_text(line.watch) + "</p>";
    html += "</div></li>\n";
  }
  return html + "</ul>\n";
}

}  // namespace

std::string run_sheet_bed(const RunBed& bed) {
  std::string html = "<section class=\"bed-part\"><h3>" + html_text(bed.name) + "</h3>\n<p class=\"by\">" +
                     html_text(bed.facts) + "</p>\n";
  if (!bed.stale.empty()) html += "<p class=\"watch\">" + html_text(bed.stale) + "</p>\n";
  if (!bed.cannot.empty()) html += "<p class=\"watch\">It cannot be drawn: " + html_text(bed.cannot) + "</p>\n";
  if (bed.sheet) {
    html += "<div class=\"bed-row\"><figure>" + BedSvg(*bed.sheet).draw() + "<figcaption>";
    html += html_text(datum_words(*bed.sheet)) + " " + html_text(kept_on_all(*bed.sheet)) + "</figcaption></figure>\n";
    html += pockets_of(*bed.sheet) + "</div>\n";
  }
  if (bed.files.empty()) return html + "</section>\n";
  html += "<p class=\"files\">Files: ";
  for (const RunLink& file : bed.files) {
    html += "<a href=\"" + html_address(file.address) + "\">" + html_text(file.name) + "</a> ";
  }
  return html + "</p></section>\n";
}

}  // namespace ordinatio::inline paper
