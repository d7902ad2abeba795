#include "shop/told_languages.h"

#include "base/account.h"
#include "ledger_shop.h"
#include "manifest/manifest.h"
#include "shop/recompose.h"

namespace ordinatio::told_languages_test {
using Catch::Matchers::Contains;

namespace {

std::string face_of(const Manifest& manifest, const std::string& item) {
  for (const ManifestItem& one : manifest.items) {
    if (one.item.id == item) return one.faces.at(0).name;
  }
  return "none";
}

Order order(const std::string& number, const std::string& text, const std::string& note = "") {
  Order order;
  order.number = number, order.text = text, order.note = note;
  return order;
}

/// A workshop without a ledger: its folder alone is used.
std::vector<std::string> told(std::vector<Order> orders, const std::string& language = "en-GB") {
  Shop shop;
  shop.folder = "none", shop.language = language;
  const Workroom workroom(shop);
  tell_languages(orders, workroom);
  std::vector<std::string> languages;
  for (const Order& one : orders) languages.push_back(one.told.language);
  return languages;
}

}  // namespace

TEST_CASE("an order's rows and its note tell its language, then the other orders of the file, then the workshop") {
  using Languages = std::vector<std::string>;
  CHECK(told({order("1", "田中"), order("1", "山中 歩夢"), order("2", "王晓明"), order("3", "王晓红")}) ==
        Languages{"ja", "ja", "zh-Hans", "zh-Hans"});
  CHECK(told({order("1", "田中", "よろしく"), order("2", "王晓明")}) == Languages{"ja", "zh-Hans"});
  CHECK(told({order("1", "田中"), order("2", "山中 歩夢"), order("3", "Mill")}) == Languages{"ja", "ja", ""});
  CHECK(told({order("1", "田中")}, "ko") == Languages{"ko"});
  CHECK(told({order("1", "&#x6B69;")}) == Languages{"ja"});  // spelled as an entity
  // One order of many rows is one voice.
  CHECK(told({order("1", "田中"), order("2", "王晓明"), order("2", "刘晓明"), order("3", "歩"),
              order("4", "歩夢")})[0] == "ja");
  CHECK(told({order("1", "عامر"), order("2", "ٹیپو")}) == Languages{"ur", "ur"});
}

TEST_CASE("an item keeps its forms from proof to sheet and remake, whatever is taken in between") {
  LedgerShop shop;
  shop.measure(12);
  done(shop.intake("Order,Text,Quantity\n1,田中,1\n2,山中 歩夢,1\n"));
  done(shop.proof());
  const std::string proofed = shop.item("1-1").proofed_hash;
  // More orders of another language than of its own file.
  done(shop.intake("Order,Text,Quantity\n3,王晓明,1\n4,刘晓红,1\n5,张晓,1\n6,田中,1\n", "later.csv"));
  done(shop.day());
  const Manifest sheet = shop.manifest("sheet-001");
  CHECK(face_of(sheet, "1-1") == "cjk-jp");
  CHECK(face_of(sheet, "2-1") == "cjk-jp");
  CHECK(face_of(sheet, "6-1") == "cjk-sc");  // the same name, among others
  CHECK(shop.placement("1-1")->hash == proofed);
  const auto found = std::ranges::find(sheet.items, "1-1", [](const ManifestItem& one) { return one.item.id; });
  CHECK(found->item.told.language == "ja");
  CHECK(found->item.told.possible == std::vector<std::string>{"zh-Hans", "zh-Hant", "ko"});
  const Account remade = done(shop.remake("1-1"));
  CHECK(shop.placement("1-1")->hash == proofed);
  CHECK(remade.sheets == 1);
}

TEST_CASE("an item of a sheet from before forms were kept is made again exactly as it was") {
  LedgerShop shop;
  shop.measure(12);
  done(shop.intake("Order,Text,Quantity\n1,山中 歩夢,1\n2,عامر,1\n3,Anna Ọlọ́run,1\n"));
  done(shop.day());
  Manifest sheet = shop.manifest("sheet-001");
  Workroom workroom(shop.shop());
  Typesetter typesetter(workroom.fonts());
  // What the letters alone told then, and a word at a time.
  const std::pair<ToldLanguage, StandInUnit> then[] = {
      {{"zh-Hans", {}, false}, StandInUnit::word}, {{"ar", {}, false}, StandInUnit::word}, {{}, StandInUnit::word}};
  REQUIRE(sheet.items.size() == std::size(then));
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    ManifestItem& before = sheet.items[i];
    INFO(before.item.id);
    LaidDesign design = *laid_on((*workroom.station(before.item.design))->design, before.piece);
    design.texts.at(0).stand_in = then[i].second;
    const auto artwork = compose(design, {before.item.inscription, sheet.date, "", then[i].first}, typesetter);
    REQUIRE(artwork.ok());
    before.item.told = {};
    before.hash = artwork->hash, before.faces = artwork->faces;
    const auto again = recompose(workroom, typesetter, sheet, before, std::nullopt);
    if (!again.ok()) FAIL(describe(again.fault()));
    CHECK(again->artwork.hash == artwork->hash);
    CHECK(again->artwork.lines == artwork->lines);
  }
  CHECK(sheet.items[0].faces.at(0).name == "cjk-sc");
  // Today's ways differ, and what is set anew goes by them.
  const auto anew = recompose(workroom, typesetter, sheet, sheet.items[0], "山中 歩夢");
  REQUIRE(anew.ok());
  CHECK(anew->artwork.faces.at(0).name == "cjk-jp");
  // What none of the former ways comes to is refused.
  sheet.items[0].hash = "0000000000000000";
  CHECK_THAT(describe(recompose(workroom, typesetter, sheet, sheet.items[0], std::nullopt).fault()),
             Contains("does not come out exactly as it was") || Contains("font of item"));
}

}  // namespace ordinatio::told_languages_test
