// Any bytes as a blanks file. Whatever it says, every piece that is taken is one that a design can be laid on.
#include <cmath>
#include <cstdlib>

#include "base/account.h"
#include "blanks/blanks.h"
#include "csv/csv.h"

using namespace ordinatio;

namespace {

void must(bool holds) {
  if (!holds) std::abort();
}

/// A drawing for any name, so that outlines from drawings are met too; a fourth of the names have none.
Result<Logo> drawing(const std::string& name) {
  const std::size_t corners = name.size() % 8;
  if (corners < 2) return Fault{"no drawing", name, "", ""};
  Path path;
  for (std::size_t i = 0; i < corners; ++i) {
    const auto byte = static_cast<unsigned char>(name[i]);
    const Point p{static_cast<double>(byte % 16) * 11, static_cast<double>(byte / 16) * 9};
    i == 0 ? path.move_to(p) : path.line_to(p);
  }
  path.close();
  return Logo{path, {0, 0, 200, 200}};
}

void check_row(const BlankRow& row) {
  const Blank& blank = row.blank;
  const Bounds box = bounds_of(path_of(blank.outline));
  must(!blank.id.empty() && !row.source.empty());
  must(is_convex(blank.outline.vertices) && corners_fit(blank.outline));
  must(std::abs(box.left) < 1e-3 && std::abs(box.bottom) < 1e-3);
  must(std::abs(box.right - row.width) < 1e-3 && std::abs(box.top - row.height) < 1e-3);
  must(row.width <= 2e4 && row.height <= 2e4);
  const double whole = area_of(path_of(blank.outline)), left = area_of(blank);
  must(left > 0 && left <= whole * (1 + 1e-6) + 1e-3);
  for (const Polygon& chip : blank.chips) must(area_of(chip) > 0 && !crossing_edges(chip));
  for (const KeptClear& thing : blank.kept_clear) must(!obstacles_of(thing).empty() && thing.margin >= 0);
  must(!row.blank.thickness || *row.blank.thickness > 0);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto decoded = decode_text({reinterpret_cast<const char*>(data), size}, "", "fuzz.csv");
  if (!decoded.ok()) return 0;
  const auto blanks =
      parse_blanks(decoded->text, "fuzz.csv", 150, 100, rectangle_outline(150, 100, Corner::cut, 8), drawing);
  if (!blanks.ok()) {
    must(!blanks.fault().what.empty() && !blanks.fault().where.empty());
    return 0;
  }
  for (const BlankRow& row : blanks->rows) check_row(row);
  for (const HeldItem& item : blanks->held) {
    must(!item.id.empty() && !item.fault.what.empty() && item.fault.where.starts_with("fuzz.csv:"));
  }
  return 0;
}
