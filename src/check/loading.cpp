#include <algorithm>
#include <cmath>

#include "check/check.h"
#include "check/difference.h"
#include "check/pdf_content.h"

namespace ordinatio::inline check {
namespace {

constexpr double loading_slack = 0.02;  // mm on the page: sizes are given in points, places to 0.0001 mm

Fault loading_fault(const std::string& what, const std::string& why) {
  return {what, "loading sheet", why, "Do not load the bed by it; report it together with the sheet",
          Fault::Cause::machine};
}

/// Boxes of what is followed and not filled.
std::vector<Bounds> lines_on(const PdfPage& page) {
  std::vector<Bounds> boxes;
  for (const PaintedPath& painted : page.painted) {
    if (!painted.filled) boxes.push_back(bounds_of(painted.path));
  }
  return boxes;
}

bool is_near(const Bounds& a, const Bounds& b) {
  return std::abs(a.left - b.left) <= loading_slack && std::abs(a.bottom - b.bottom) <= loading_slack &&
         std::abs(a.right - b.right) <= loading_slack && std::abs(a.top - b.top) <= loading_slack;
}

/// The bed on the page: the largest box that has its shape.
std::optional<Bounds> bed_among(const std::vector<Bounds>& boxes, const Machine& bed) {
  std::optional<Bounds> found;
  for (const Bounds& box : boxes) {
    if (std::abs(box.width() * bed.height - box.height() * bed.width) > loading_slack * (bed.width + bed.height))
      continue;
    if (!found || box.width() > found->width()) found = box;
  }
  return found;
}

}  // namespace

MaybeFault check_loading(std::string_view bytes, const Sheet& sheet, double width, double height) {
  try {
    const std::vector<PdfPage> pages = read_pdf_pages(bytes);
    for (const PdfPage& page : pages) {
      if (std::abs(page.width - width) > loading_slack || std::abs(page.height - height) > loading_slack)
        return loading_fault("read back, a page has not its size", "");
    }
    if (pages.empty()) return loading_fault("read back, the file has no page", "");
    const std::vector<Bounds> boxes = lines_on(pages.front());
    const std::optional<Bounds> bed = bed_among(boxes, sheet.frame.plan.machine);
    if (!bed) return loading_fault("read back, the bed is not on it", "");
    const double scale = bed->width() / sheet.frame.plan.machine.width;
    const Transform to_page = then(scale_by(scale), shift_by({bed->left, bed->bottom}));
    for (const SheetItem& item : sheet.items) {
      const Bounds wanted = bounds_of(transformed(path_of(item.artwork.blank), then(item.to_bed, to_page)));
      if (std::ranges::any_of(boxes, [&](const Bounds& box) { return is_near(box, wanted); })) continue;
      return loading_fault("read back, the piece of item " + item.item.id + " is not in its place", "");
    }
    return std::nullopt;
  } catch (const Difference& difference) {
    return loading_fault("read back, the file is not whole", difference.what);
  }
}

}  // namespace ordinatio::inline check
