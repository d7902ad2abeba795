// In: a sheet and what is to be said of it.
// Out: where each word stands on the bed's picture: on nothing that is drawn; and what found no room there.
// Never: draws; makes cautions smaller so that they fit. Of this folder alone.
#pragma once

#include "bed/bed.h"
#include "paper/label.h"

namespace ordinatio::inline paper {

struct PlacedLabel {
  Label label;
  Point lower_left;  // bed mm
};
struct SheetLabels {
  std::vector<PlacedLabel> placed;
  /// What stands on a page of its own instead, in the order in which it is read there.
  std::vector<std::string> cautions, remarks;
};

/// How much larger than true size a page's words must be, so that they can be read where the page is printed on A4, as
/// most are: 1 for a page that is no larger.
double enlargement_for(const Machine& bed);

/// remarks: what else is to be said of the sheet, a line each.
SheetLabels place_labels(Lettering& lettering, const Sheet& sheet, const std::vector<std::string>& remarks);

}  // namespace ordinatio::inline paper
