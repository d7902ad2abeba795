#include <nlohmann/json.hpp>

#include "workshop.h"

namespace ordinatio::blanks_test {
using Catch::Contains;

TEST_CASE("blanks shows every measured piece, and holds a row that contradicts itself") {
  const Workshop workshop;
  workshop.write("blanks.csv", "id,width,chips,used\nA-1,,,\nA-2,140,top 40-62 7,\nA-3,,top 900-910 7,\nA-4,,,gone\n");
  const Run run = workshop.run("blanks");
  CHECK(run.code == 1);
  CHECK_THAT(run.out, Contains("3 pieces shown, 1 held.") &&
                          Contains("A-3  blanks.csv:4:6, column \"chips\": the chip") &&
                          Contains("of 3 pieces 1 are used, and 1 differ from the nominal one"));
  CHECK(workshop.read("out/blanks/blanks.pdf").substr(0, 5) == "%PDF-");
  CHECK_THAT(workshop.read("out/blanks/blanks.svg"), Contains("<title>A-2</title>") && !Contains("A-3"));
  const auto files = workshop.files();
  CHECK(workshop.run("blanks blanks.csv --json").code == 1);
  CHECK(workshop.files() == files);
}

TEST_CASE("blanks without a file, or with no row that stands, writes nothing") {
  const Workshop workshop;
  const auto files = workshop.files();
  const Run missing = workshop.run("blanks");
  CHECK(missing.code == 2);
  CHECK_THAT(missing.err, Contains("blanks.csv"));
  CHECK(workshop.files() == files);
  workshop.write("blanks.csv", "id,width\nA-1,wide\n");
  const Run held = workshop.run("blanks --design plaque-portrait");
  CHECK(held.code == 1);
  CHECK_THAT(held.out, Contains("0 pieces shown, 1 held."));
  CHECK_FALSE(fs::exists(workshop.shop() / "out/blanks"));
}

}  // namespace ordinatio::blanks_test
