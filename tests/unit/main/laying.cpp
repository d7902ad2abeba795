// Boards, and sheets and pieces laid to what was measured, by the program as a person runs it.
#include <nlohmann/json.hpp>

#include "workshop.h"

namespace ordinatio::laying_test {
using Catch::Matchers::Contains;

TEST_CASE("a new workshop's board can be cut as it is") {
  const Workshop workshop;
  const Run run = workshop.run("jig");
  INFO(run.err);
  CHECK(run.code == 0);
  CHECK_THAT(run.out, Contains("10 pockets on the board") && Contains("each hole comes out 102.1 x 152.9 mm"));
  for (const char* ending : {"svg", "dxf", "pdf", "json"}) {
    CHECK(fs::exists(workshop.shop() / "out/jig" / (std::string("jig.") + ending)));
  }
  CHECK_THAT(workshop.read("out/jig/jig.svg"), Contains("<g id=\"cut\"") && Contains("cut-pocket-10"));
  CHECK(workshop.run("jig --design no-such").code == 2);
}

TEST_CASE("a sheet is laid to its measured marks from the command line") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  const std::string sheet = "align out/orders/sheet-001.json ";
  const Run run = workshop.run(sheet + "--measured 8.1,8.2 592.1,8.2 --measured 8.1,392.2 --measured 580.1,392.2");
  INFO(run.err);
  CHECK(run.code == 0);
  CHECK_THAT(run.out, Contains("items set on 1 sheet") && Contains("mark 4, drawn at 580,392, is off by 0 mm"));
  const auto manifest = nlohmann::json::parse(workshop.read("out/align/sheet-001-aligned.json"));
  CHECK(manifest["correction"]["allowed"] == "turn");
  CHECK(manifest["correction"]["transform"][4].get<double>() == Approx(0.1));
  const Run two = workshop.run(sheet + "--measured 1:8.1,8.2 --measured 2:592.3,8.2 --allow scale --out two");
  CHECK_THAT(two.out, Contains("a slip in measuring them does not show"));
  const auto before = workshop.files();
  const Run off = workshop.run(sheet + "--measured 8,8 592,9 8,392 580,392");
  CHECK(off.code == 2);
  CHECK_THAT(off.err, Contains("mark 2, drawn at 592,8, is off by") && Contains("--limit"));
  CHECK(workshop.run(sheet + "--measured 8,8 592,8 8,392 580,392 --allow everything").code == 2);
  CHECK(workshop.run(sheet).code == 2);
  CHECK(workshop.files() == before);
}

TEST_CASE("a piece laid by hand is remade where it lies from the command line") {
  const Workshop workshop;
  REQUIRE(workshop.run("day orders.csv --no-pdf").code == 0);
  const Run run =
      workshop.run("remake 1001-1 --sheet out/orders/sheet-001.json --corners 200,100 352.4,100 352.4,201.6 200,201.6");
  INFO(run.err);
  CHECK(run.code == 0);
  CHECK_THAT(run.out, Contains("the piece lies turned by 0 degrees") && Contains("corner 3 is off by 0 mm"));
  const auto manifest = nlohmann::json::parse(workshop.read("out/remake/remake-1001-1.json"));
  CHECK(manifest["items"][0]["pocket"] == 0);
  CHECK(workshop.run("remake 1001-1 --sheet out/orders/sheet-001.json --corners 200,100").code == 2);
}

}  // namespace ordinatio::laying_test
