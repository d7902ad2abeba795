// In: a cutting plan.
// Out: what a person at the saw reads: the cuts in order, what the pane is, what to mind. Of this folder alone.
// Never: sets or draws.
#pragma once

#include <string>
#include <vector>

#include "paper/cutting_pdf.h"

namespace ordinatio::inline paper {

/// Cuts that are made at one setting of the fence.
struct CuttingStep {
  std::size_t first = 1, last = 1;  // of the plan's cuts, from 1
  std::string words;
};
/// Parts that are cut further have letters, from A on, in the order in which they come off.
std::vector<CuttingStep> cutting_steps(const CuttingPlan& plan);

/// Paragraphs: the pane, what it yields, how to measure, what the drawing's lines mean, the cautions.
std::vector<std::string> cutting_remarks(const CuttingPage& page);

}  // namespace ordinatio::inline paper
