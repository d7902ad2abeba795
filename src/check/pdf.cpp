#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include "check/check.h"
#include "check/comparison.h"
#include "check/pdf_content.h"
#include "check/tracing.h"
#include "geometry/contour_order.h"

namespace ordinatio::inline check {
namespace {

constexpr double page_slack = 0.01 * mm_per_point;  // mm: 0.01 pt
constexpr double pdf_place = 0.0015;  // mm: the library that draws pages rounds to 1/256 pt at the coarsest

/// Ink of one colour, filled or stroked, in one pocket (0: outside of all). Two operations of one colour count as one.
struct Heap {
  bool filled;
  std::uint32_t colour;
  int pocket;
  auto operator<=>(const Heap&) const = default;
};

std::uint32_t packed(Colour colour) {
  return std::uint32_t{colour.red} << 16 | std::uint32_t{colour.green} << 8 | colour.blue;
}

struct Tally {
  Ink ink;                // without its contours
  std::size_t count = 0;  // contours, specks left out
  std::string name;       // of what is expected
  bool is_ink = true;     // all of it is items' ink, and so must lie in the clear area
};

class PdfCheck {
 public:
  PdfCheck(const PdfPage& page, const Expectation& expectation) : page_(page), expectation_(expectation) {}

  void run() {
    const Machine& bed = expectation_.sheet.frame.plan.machine;
    if (!(std::abs(page_.width - bed.width) <= page_slack && std::abs(page_.height - bed.height) <= page_slack)) {
      throw Difference{"the page is " + spoken(page_.width) + " mm by " + spoken(page_.height) + " mm, the bed is " +
                       spoken(bed.width) + " mm by " + spoken(bed.height) + " mm"};
    }
    if (expectation_.is_sound && is_drawn_point_by_point()) return;
    expect_parts();
    for (const PaintedPath& painted : page_.painted) find(painted);
    for (const auto& [heap, wanted] : expected_) compare(heap, wanted, found_[heap]);
  }

 private:
  /// Whether what is painted in the operations' colours is the sheet's parts, one by one, and nothing more.
  [[nodiscard]] bool is_drawn_point_by_point() const {
    auto part = expectation_.parts.begin();
    for (const PaintedPath& painted : page_.painted) {
      if (!operation_of(painted)) continue;
      if (part == expectation_.parts.end() || !paints_like(painted, part->part->operation)) return false;
      if (!is_traced(painted.path, part->part->path, pdf_place)) return false;
      ++part;
    }
    return part == expectation_.parts.end();
  }

  [[nodiscard]] bool paints_like(const PaintedPath& painted, Operation operation) const {
    return is_filled(operation) == painted.filled &&
           packed(expectation_.sheet.frame.plan.palette[operation]) == packed(painted.colour);
  }

  void expect_parts() {
    for (const ExpectedPart& expected : expectation_.parts) {
      const Operation operation = expected.part->operation;
      const std::uint32_t colour = packed(expectation_.sheet.frame.plan.palette[operation]);
      for (const Path& contour : contours_of(expected.part->path)) {
        const Ink ink = measure(contour, needed(is_filled(operation)));
        Tally& tally = expected_[heap_of(is_filled(operation), colour, ink.bounds)];
        tally.name = std::string(name_of(operation));
        tally.is_ink = tally.is_ink && expected.item && operation != Operation::guide;
        add(tally, ink);
      }
    }
  }

  /// Contours in an operation's colour count; what is painted in another colour is there for people.
  void find(const PaintedPath& painted) {
    const std::optional<Operation> operation = operation_of(painted);
    if (!operation) return;
    for (const Path& contour : contours_of(painted.path)) {
      const Ink ink = measure(contour, needed(painted.filled));
      const Heap heap = heap_of(painted.filled, packed(painted.colour), ink.bounds);
      const auto wanted = expected_.find(heap);
      if (wanted == expected_.end()) {
        throw Difference{std::string(name_of(*operation)) + ": something is painted at " + spoken(ink.bounds.centre()) +
                         ", where the sheet has nothing"};
      }
      if (wanted->second.is_ink) require_clear(heap, contour, ink);
      add(found_[heap], ink);
    }
  }

  /// The operation that paints like this; none for what is there for people alone.
  [[nodiscard]] std::optional<Operation> operation_of(const PaintedPath& painted) const {
    for (const ExpectedPart& expected : expectation_.parts) {
      if (paints_like(painted, expected.part->operation)) return expected.part->operation;
    }
    return std::nullopt;
  }

  /// What is filled is compared by its area.
  static Measure needed(bool filled) { return filled ? Measure::area : Measure::area_and_length; }

  [[nodiscard]] Heap heap_of(bool filled, std::uint32_t colour, const Bounds& bounds) const {
    const Point p = expectation_.to_drawn(bounds.centre());
    for (const Pocket& pocket : expectation_.sheet.frame.pockets) {
      const Bounds& box = pocket.box;
      if (p.x > box.left && p.x < box.right && p.y > box.bottom && p.y < box.top) {
        return {filled, colour, pocket.number};
      }
    }
    return {filled, colour, 0};
  }

  static void add(Tally& tally, const Ink& ink) {
    tally.ink.area += ink.area;
    tally.ink.length += ink.length;
    tally.ink.edge_squares += ink.edge_squares;
    tally.ink.edges += ink.edges;
    tally.ink.bounds.add(ink.bounds);
    if (!ink.contours.empty() && ink.contours.front().reach > 2 * pdf_place) ++tally.count;
  }

  void require_clear(const Heap& heap, const Path& contour, const Ink& ink) const {
    const std::vector<SheetItem>& items = expectation_.sheet.items;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i].pocket != heap.pocket) continue;
      // A contour alone does not tell whether it is filled or a hole: what crosses an obstacle's edge is seen.
      const double out = excess(contour, ink.bounds, expectation_.clear_areas[i], place_slack, false);
      if (out > place_slack) {
        throw Difference{"item " + items[i].item.id + " leaves its clear area by " + spoken(out) + " mm"};
      }
    }
  }

  static void compare(const Heap& heap, const Tally& wanted, const Tally& found) {
    const std::string name =
        wanted.name + (heap.pocket == 0 ? " outside the pockets" : " in pocket " + std::to_string(heap.pocket));
    if (found.count != wanted.count) {
      throw Difference{name + ": " + std::to_string(found.count) + " contours, not " + std::to_string(wanted.count)};
    }
    const InkRange range{wanted.ink, wanted.ink.area, wanted.ink.length};
    compare_ink(name, heap.filled, range, found.ink, {"PDF", ".pdf", pdf_place, 0}, 0);
  }

  const PdfPage& page_;
  const Expectation& expectation_;
  std::map<Heap, Tally> expected_, found_;
};

/// Pages after the bed's bear words for people: nothing that a machine could take for its work.
void require_words_alone(const PdfPage& page, std::size_t number, const Palette& palette) {
  for (const PaintedPath& painted : page.painted) {
    if (std::ranges::find(palette.colours, painted.colour) == palette.colours.end()) continue;
    throw Difference{"page " + std::to_string(number) + " paints something in an operation's colour"};
  }
}

}  // namespace

MaybeFault check_pdf(std::string_view bytes, const SheetModel& model) {
  return checked({"PDF", ".pdf", pdf_place, 0}, model.sheet(), [&] {
    const Expectation& expectation = expectation_of(model);
    const std::vector<PdfPage> pages = read_pdf_pages(bytes);
    if (pages.empty()) throw Difference{"it has no pages"};
    PdfCheck(pages.front(), expectation).run();
    const Palette& palette = model.sheet().frame.plan.palette;
    for (std::size_t i = 1; i < pages.size(); ++i) require_words_alone(pages[i], i + 1, palette);
  });
}

}  // namespace ordinatio::inline check
