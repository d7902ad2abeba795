// Any bytes as an SVG logo: the scan of its markup alone, which is all that runs outside the child. What must hold for
// all of them is checked here.
#include <cstdlib>

#include "logo/drawing.h"

using namespace ordinatio;

namespace {

void must(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view svg(reinterpret_cast<const char*>(data), size);
  const auto fault = logo::scan(svg, "logo.svg");
  if (fault) {
    must(!fault->what.empty() && fault->where.starts_with("logo.svg") && !fault->why.empty() && !fault->mend.empty());
  } else {
    must(svg.find("svg") != std::string_view::npos || svg.find('\0') != std::string_view::npos);  // or in UTF-16
  }
  const auto again = logo::scan(svg, "logo.svg");
  must(again.has_value() == fault.has_value() && (!fault || again->why == fault->why));
  return 0;
}
