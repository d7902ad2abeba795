// In: a face as it is known, the sample's words, the machine's spot.
// Out: the passages of its specimen: what it is, the sample at each size, its alphabets.
// Never: decides where a page ends; draws. Of this folder alone.
#pragma once

#include <string>
#include <vector>

#include "paper/page.h"
#include "paper/paper.h"

namespace ordinatio::inline paper {

/// Sets what a specimen says of one face between two margins.
class SpecimenText {
 public:
  SpecimenText(Lettering& lettering, const SpecimenPlan& plan, const CatalogueFace& face, double left, double right);

  /// Use, file, package, licence, scripts, measures, what it lacks.
  std::vector<Passage> facts();
  /// The sample at one size, labelled; it stands together.
  Result<Passage> sample(double cap_height);
  /// The letters of its scripts, and figures.
  std::vector<Passage> alphabets();

 private:
  using Facts = std::vector<std::pair<std::string, std::string>>;
  [[nodiscard]] Facts origin() const;
  [[nodiscard]] Facts nature();
  [[nodiscard]] std::string scripts();
  [[nodiscard]] std::vector<Stack> stacks_of(const Facts& facts, double x, double right);
  [[nodiscard]] std::vector<Cell> label(double cap_height);
  [[nodiscard]] Result<std::vector<ShapedLine>> lines_of(std::string_view words, double ems);
  bool draws(std::string_view text);
  [[nodiscard]] std::vector<std::string> rows_of(const std::string& letters, double ems);
  void add_alphabet(std::vector<Passage>& passages, std::string_view letters);

  Lettering& lettering_;
  const SpecimenPlan& plan_;
  const CatalogueFace& face_;
  double left_, right_;
  double capitals_ = 0;  // em
};

}  // namespace ordinatio::inline paper
