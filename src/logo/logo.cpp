#include "logo/logo.h"

#include "base/child.h"
#include "logo/drawing.h"

namespace ordinatio::inline logo {

std::string resolve(std::string_view svg) {
  const auto page = draw(svg);
  if (!page.ok()) return pack(page.fault());
  const auto drawing = read_page(*page);
  if (!drawing.ok()) return pack(drawing.fault());
  return pack(ink_of(*drawing));
}

namespace {

Fault placed(Fault fault, const std::filesystem::path& svg) {
  if (fault.where.empty()) fault.where = svg.string();
  if (fault.mend.empty()) fault.mend = "Simplify it. Save it as SVG that holds nothing but filled shapes";
  return fault;
}

}  // namespace

Result<Logo> read_logo(const std::filesystem::path& svg) {
  const auto bytes = read_file(svg, logo::file_bytes);
  if (!bytes.ok()) return bytes.fault();
  if (auto fault = logo::scan(*bytes, svg.string())) return *std::move(fault);
  // All that a hostile drawing can make slow or large happens in the child.
  // fork copies the calling thread alone: read logos before worker threads start.
  static const ChildWords words{"the logo could not be drawn", "draws it", "the drawing library", "its outlines are"};
  const auto packed = run_in_child([&] { return logo::resolve(*bytes); }, words, {.answer = packed_bytes});
  if (!packed.ok()) return placed(packed.fault(), svg);
  auto result = logo::unpack(*packed);
  if (!result.ok()) return placed(result.fault(), svg);
  return result;
}

}  // namespace ordinatio::inline logo
