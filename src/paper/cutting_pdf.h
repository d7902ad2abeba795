// In: cutting plans of panes, and what is known of each pane.
// Out: a PDF for whoever stands at the saw: A4 pages, each pane drawn to scale beside its cuts in order.
// Never: decides a cut; says more of a saw than its manual does.
#pragma once

#include <string>
#include <vector>

#include "bed/cutting.h"
#include "text/text.h"

namespace ordinatio::inline paper {

struct CuttingPage {
  CuttingPlan plan;
  std::string material, note;       // may be empty
  std::optional<double> thickness;  // mm
};
/// Faults: no plans, no face to write with.
Result<std::string> write_cutting_pdf(const std::vector<CuttingPage>& pages, const std::string& shop_name,
                                      const FontLibrary& fonts);

}  // namespace ordinatio::inline paper
