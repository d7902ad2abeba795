// Loading sheets and the run sheet of a workshop that keeps a ledger.
#include "shop/loading.h"

#include "ledger_shop.h"

namespace ordinatio::loading_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

Result<Account> load(const LedgerShop& shop, const std::vector<std::string>& sheets = {}, bool by_name_alone = false) {
  LoadingOptions options{sheets, shop / "out/loading"};
  options.call = shop.call("loading");
  options.by_name_alone = by_name_alone;
  return run_loading(shop.shop(), options);
}

std::vector<std::string> names(const Account& account) {
  std::vector<std::string> names;
  for (const fs::path& file : account.files) names.push_back(file.filename().string());
  return names;
}

std::string run_sheet(const LedgerShop& shop) {
  const Account made = done(run_run_sheet(shop.shop(), {shop.call("run-sheet"), "2026-11-25", shop / "out"}));
  return *read_file(made.files.front());
}

const std::string three = "Order,Text,Quantity\n1001,Weir Lane,1\n1002,Old Ford,2\n";

}  // namespace

TEST_CASE("every bed that is still to be engraved has its loading sheet, and what is done is not on it") {
  const LedgerShop shop;
  shop.measure(6);
  done(shop.intake(three));
  done(shop.day());
  CHECK(names(done(load(shop))) == std::vector<std::string>{"sheet-001-loading.pdf"});
  CHECK(done(load(shop)).items_set == 3);
  done(shop.engraved("sheet-001", "1"));
  CHECK(done(load(shop)).items_set == 2);
  done(shop.engraved("sheet-001"));
  CHECK_THAT(done(load(shop)).told.front(), Contains("Nothing is left"));
  CHECK_THAT(load(shop, {"sheet-001"}).fault().what, Contains("nothing is left on sheet-001"));
  CHECK_THAT(load(shop, {"sheet-007"}).fault().what, Contains("sheet-007"));
}

TEST_CASE("remakes, rests and stands have loading sheets too") {
  const LedgerShop shop;
  shop.measure(9);
  done(shop.intake(three));
  done(shop.day());
  done(shop.resume("sheet-001", "1", "2"));
  const std::vector<std::string> rest = names(done(load(shop)));
  REQUIRE(rest.size() == 1);
  CHECK_THAT(rest.front(), Contains("rest-"));
  done(shop.engraved("1"));
}

TEST_CASE("settings stand on loading sheets as they were written; a design that is not there is refused") {
  const LedgerShop shop;
  shop.measure(6);
  done(shop.intake(three));
  done(shop.day());
  CHECK_THAT(done(load(shop)).notes.back(), Contains("no [settings] for slate"));
  const std::string toml = *read_file(shop / "shop.toml");
  shop.write("shop.toml", toml + "[settings]\nslaet = \"two passes\"\n");
  const auto wrong = read_shop(shop / "");
  REQUIRE(wrong.ok());
  const auto refused = run_loading(*wrong, {{}, shop / "out/loading", PaperSize::a4, shop.call("loading")});
  REQUIRE_FALSE(refused.ok());
  CHECK_THAT(refused.fault().where, Contains("shop.toml"));
  CHECK_THAT(refused.fault().mend, Contains("slate"));
  shop.write("shop.toml", toml + "[settings]\nslate = \"two passes\"\n");
  const auto right =
      run_loading(*read_shop(shop / ""), {{}, shop / "out/loading", PaperSize::a4, shop.call("loading")});
  CHECK(done(right).notes.empty());
}

TEST_CASE("a bed that cannot be drawn is held, and holds no other up; a file is read only where that is meant") {
  const LedgerShop shop;
  shop.measure(9);
  done(shop.intake(three));
  done(shop.day());
  done(shop.intake("Order,Text,Quantity\n1003,Mill House,1\n"));
  done(shop.day());
  const std::string manifest = shop / "out/sheets/sheet-001.json";
  CHECK(load(shop, {manifest}).ok());
  fs::copy_file(manifest, shop / "copy.json");
  CHECK(load(shop, {shop / "copy.json"}).ok());
  CHECK_FALSE(load(shop, {shop / "copy.json"}, true).ok());
  fs::remove(manifest);
  const Account held = done(load(shop));
  CHECK(names(held) == std::vector<std::string>{"sheet-002-loading.pdf"});
  REQUIRE(held.held.size() == 1);
  CHECK(held.held.front().id == "sheet-001");
  CHECK_THAT(run_sheet(shop), Contains("It cannot be drawn"));
}

TEST_CASE("a run sheet has what is held, what is asked, what waits for a yes, and every bed") {
  const LedgerShop shop;
  shop.measure(9);
  done(shop.intake("Order,Text,Quantity,Design\n1001,Weir Lane,1,slate\n1002,Old Ford,1,asked\n1003,Late,1,slate\n"));
  done(shop.correct(CorrectionOptions::What::hold, "1003-1", "</b>ask <script>her"));
  done(shop.day());
  done(load(shop));
  done(shop.intake("Order,Text,Quantity,Design\n1001,Weir Mill,1,slate\n", "changed.csv"));
  const std::string html = run_sheet(shop);
  CHECK_THAT(html, Contains("sheet-001") && Contains("href=\"loading/sheet-001-loading.pdf\"") &&
                       Contains("href=\"sheets/sheet-001.svg\""));
  CHECK_THAT(html, Contains("&lt;/b&gt;ask &lt;script&gt;her") && Contains("To be shown to the customer") &&
                       Contains("question 1") && Contains("Wednesday, 25 November 2026"));
  const std::string first = "Load sheet-001 and set the machine going.", then = "Answer 1 question.";
  CHECK(html.find(first) < html.find(then));
  CHECK(html.find(then) != std::string::npos);
  for (const std::string no_day : {"2026-02-30", "25.11.2026", "2026-1-1", "x"}) {
    CHECK_THAT(run_run_sheet(shop.shop(), {shop.call("run-sheet"), no_day, shop / "out"}).fault().what,
               Contains("is no date"));
  }
}

}  // namespace ordinatio::loading_test
