// The optical error of every awkward text, and a table of it by script: middles [folder for the texts' pictures].
#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>

#include "base/base.h"
#include "visual_middle.h"

namespace {

std::string mm(double value) {
  std::string text;
  ordinatio::append_fixed(text, value, 2);
  return std::string(text.size() < 7 ? 7 - text.size() : 0, ' ') + text;
}

struct Tally {
  double sum = 0, worst = 0, most_uneven = 1;
  int texts = 0;
};

void add(Tally& tally, const golden::MiddleError& one) {
  tally.sum += std::abs(one.error);
  tally.worst = std::max(tally.worst, std::abs(one.error));
  if (std::min(one.above, one.below) > 0.5)
    tally.most_uneven = std::max({tally.most_uneven, one.above / one.below, one.below / one.above});
  ++tally.texts;
}

void print(const std::string& script, const Tally& tally) {
  std::cout << script << std::string(10 - std::min<std::size_t>(9, script.size()), ' ') << tally.texts << "\t"
            << mm(tally.sum / tally.texts) << mm(tally.worst) << mm(tally.most_uneven) << "\n";
}

}  // namespace

int main(int count, char** arguments) {
  const auto texts = golden::awkward_texts(std::filesystem::path(TEST_FOLDER) / "golden/awkward.txt");
  if (count > 1) golden::draw_awkward_texts(texts, arguments[1]);
  std::map<std::string, Tally> by_script;
  Tally all;
  for (const golden::MiddleError& one : golden::middle_errors(texts)) {
    add(by_script[one.script], one);
    add(all, one);
    std::cout << mm(one.error) << mm(one.above) << mm(one.below) << "  " << one.name << "\n";
  }
  std::cout << "\nscript    texts    mean  worst uneven   (mm; gaps above and below, the larger by the smaller)\n";
  for (const auto& [script, tally] : by_script) print(script, tally);
  print("all", all);
}
