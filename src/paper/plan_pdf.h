// In: a workshop's plan. Out: a page of it, with a bar for each station. Never: plans anything.
#pragma once

#include "paper/paper.h"
#include "plan/plan.h"

namespace ordinatio::inline paper {

struct PlanPaper {
  std::string pdf;
  std::vector<double> ink;  // mm² of what is filled on each page
};

// ---- plan_pdf.cpp ----
/// A page; of very many stations more.
Result<PlanPaper> write_plan_pdf(const PlanTask& task, const Plan& plan, const std::string& shop_name,
                                 const FontLibrary& fonts, PaperSize size);

}  // namespace ordinatio::inline paper
