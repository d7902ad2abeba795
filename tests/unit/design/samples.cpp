// What a design says of its air, and the words that its specimen shows.
#include <catch2/catch.hpp>

#include "design/design_file.h"

namespace ordinatio::samples_test {
using Catch::Matchers::Contains;

namespace {

Result<Design> parsed(const std::string& rest) {
  return parse_design("[blank]\nwidth = 100\nheight = 60\n" + rest, "d.toml", "d");
}
std::string fault_of(const std::string& rest) {
  const auto design = parsed(rest);
  return design.ok() ? "" : describe(design.fault());
}

}  // namespace

TEST_CASE("a design has the samples that it gives, line by line, and none where it gives none") {
  const auto design = parsed("[text]\n[[sample]]\nlines = [\"Ada\", \"Wren\"]\n[[sample]]\nlines = [\"Mill\"]\n");
  REQUIRE(design.ok());
  CHECK(design->samples == std::vector<std::string>{"Ada\nWren", "Mill"});
  CHECK(parsed("[text]\n")->samples.empty());
}

TEST_CASE("samples that cannot be shown are refused") {
  CHECK_THAT(fault_of("[text]\n[[sample]]\n"), Contains("sample.lines is missing"));
  CHECK_THAT(fault_of("[text]\n[[sample]]\nlines = [\"\"]\n"), Contains("d.toml:6:9: sample.lines holds no words"));
  CHECK_THAT(fault_of("[text]\nlines = [\"Mill\"]\n[[sample]]\nlines = [\"Ada\"]\n"), Contains("sample has no use"));
  std::string many = "[text]\n";
  for (int i = 0; i < 12; ++i) many += "[[sample]]\nlines = [\"Ada\"]\n";
  CHECK(parsed(many).ok());
  CHECK_THAT(fault_of(many + "[[sample]]\nlines = [\"Ada\"]\n"), Contains("no more than 12"));
}

TEST_CASE("air is a share, and never half of the room") {
  CHECK_THAT(fault_of("[text]\nair = 0.5\n"), Contains("d.toml:5:7: text.air must be from 0 to 0.4"));
  CHECK_THAT(fault_of("[text]\nair = -0.1\n"), Contains("text.air must be from 0 to 0.4"));
  CHECK(parsed("[text]\nair = 0.4\n")->texts.front().air == 0.4);
  CHECK(parsed("[text]\n")->texts.front().air == 0);
}

}  // namespace ordinatio::samples_test
