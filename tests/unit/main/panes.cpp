// Cutting plans, by the program as a person runs it.
#include <nlohmann/json.hpp>

#include "workshop.h"

namespace ordinatio::panes_test {
using Catch::Matchers::Contains;

TEST_CASE("reclaimed panes become a cutting sheet and blanks, and tempered glass is held") {
  const Workshop workshop;
  workshop.write("panes.csv", "id,width,height,glass\nS1,500,250,\nG2,900,600,tempered\n");
  const Run plain = workshop.run("panes --piece 150x100 --breakage 0.05");
  CHECK(plain.code == 1);
  CHECK_THAT(plain.out, Contains("6 blanks planned, 1 held.") && Contains("neither cut nor engraved") &&
                            Contains("6 pieces at the most") && Contains("5 pieces to expect"));
  CHECK(fs::exists(workshop.shop() / "out/panes/cutting.pdf"));
  CHECK(workshop.read("out/panes/blanks.csv").starts_with("id,material,glass,width"));
  const auto before = workshop.files();
  const auto account = nlohmann::json::parse(workshop.run("panes panes.csv --piece 150x100 --json").out);
  CHECK(account["items_set"] == 6);
  CHECK(workshop.files() == before);
}

TEST_CASE("without a size, pieces are the blanks of the shop's design; a bad option changes nothing") {
  const Workshop workshop;
  workshop.write("panes.csv", "id,width,height\nS1,320,110\n");
  const auto before = workshop.files();
  for (const char* bad : {"--piece wide", "--kerf -1", "--breakage 1", "--kerf x", "no-such.csv"}) {
    const Run run = workshop.run(std::string("panes ") + bad);
    INFO(bad);
    CHECK(run.code == 2);
    CHECK_FALSE(run.err.empty());
  }
  CHECK(workshop.files() == before);
  const Run run = workshop.run("panes");
  CHECK(run.code == 0);
  CHECK_THAT(run.out, Contains("2 blanks planned, 0 held."));
}

}  // namespace ordinatio::panes_test
