#include <cmath>

#include "check/check.h"
#include "check/difference.h"
#include "check/ink.h"
#include "check/pdf_content.h"

namespace ordinatio::inline check {
namespace {

constexpr double paper_slack = 0.01;  // mm: pages are given in points, to some digits

Fault specimen_fault(const std::string& what, const std::string& why) {
  return {what, "specimen", why, "Do not show it; report it together with the words and the faces",
          Fault::Cause::machine};
}

bool is_of(const PdfPage& page, double width, double height) {
  return std::abs(page.width - width) <= paper_slack && std::abs(page.height - height) <= paper_slack;
}

double filled_on(const PdfPage& page) {
  double area = 0;
  for (const PaintedPath& painted : page.painted) {
    if (painted.filled) area += std::abs(measure(painted.path, Measure::area).area);
  }
  return area;
}

}  // namespace

MaybeFault check_specimen(std::string_view bytes, const std::vector<double>& ink, double width, double height) {
  try {
    const std::vector<PdfPage> pages = read_pdf_pages(bytes);
    if (pages.size() != ink.size()) {
      return specimen_fault("read back, the file does not show every face",
                            std::to_string(pages.size()) + " pages, not " + std::to_string(ink.size()));
    }
    for (std::size_t i = 0; i < pages.size(); ++i) {
      const std::string page = "page " + std::to_string(i + 1);
      if (!is_of(pages[i], width, height)) return specimen_fault("read back, " + page + " has not its size", "");
      if (std::abs(filled_on(pages[i]) - ink[i]) <= area_share * ink[i]) continue;
      return specimen_fault("read back, " + page + " is not at true size", "its ink covers another area");
    }
    return std::nullopt;
  } catch (const Difference& difference) {
    return specimen_fault("read back, the file is not whole", difference.what);
  }
}

}  // namespace ordinatio::inline check
