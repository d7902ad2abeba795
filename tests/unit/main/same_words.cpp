// Rows that say the same with other bytes, taken in by the built program.
#include "ledger_workshop.h"

namespace ordinatio::same_words_test {
using Catch::Contains;

namespace {

constexpr const char* first = "Order,Text,Quantity,Design,Note,Wish\n7001,\"Ada & Ida\n1931\",2,,for the shed,\n";

/// The same order in other bytes; nothing that is engraved differs.
const std::pair<const char*, std::string> same_again[] = {
    {"line ends", "Order,Text,Quantity,Design,Note,Wish\r\n7001,\"Ada & Ida\r\n1931\",2,,for the shed,\r\n"},
    {"a space at the end", "Order,Text,Quantity,Design,Note,Wish\n7001,\"Ada & Ida \n1931 \",2,,for the shed,\n"},
    {"an entity", "Order,Text,Quantity,Design,Note,Wish\n7001,\"Ada &amp; Ida\n1931\",2,,for the shed,\n"},
    {"a quantity as spreadsheets write it",
     "Order,Text,Quantity,Design,Note,Wish\n7001,\"Ada & Ida\n1931\",2.0,,for the shed,\n"},
    {"columns in another order", "Note,Quantity,Text,Design,Order\nfor the shed,2,\"Ada & Ida\n1931\",,7001\n"},
    {"the shop's own design by its name",
     "Order,Text,Quantity,Design,Note,Wish\n7001,\"Ada & Ida\n1931\",2,plaque-landscape,for the shed,\n"},
    {"the note's end", "Order,Text,Quantity,Design,Note,Wish\n7001,\"Ada & Ida\n1931\",2,,\"for the shed \n\",\n"},
};

std::string story(const LedgerWorkshop& shop) { return shop.at("history 7001").out; }

}  // namespace

TEST_CASE("the same words in other bytes are known already, waiting, on a sheet or packed") {
  for (const int stage : {0, 1, 2}) {
    LedgerWorkshop shop;
    shop.must(shop.intake("monday.csv", first));
    if (stage > 0) shop.must(shop.day());
    if (stage > 1) shop.must(shop.at("engraved sheet-001"));
    if (stage > 1) shop.must(shop.at("packed --order 7001"));
    const std::string before = story(shop);
    for (const auto& [what, rows] : same_again) {
      INFO(what << ", stage " << stage);
      const Run again = shop.intake("tuesday.csv", rows);
      CHECK(again.code == 0);
      CHECK_THAT(again.out, Contains("nothing is new; 1 line known already"));
      CHECK_FALSE(says(again.out, "question"));
    }
    CHECK(story(shop) == before);
    CHECK(shop.at("check").code == 0);
  }
}

TEST_CASE("a space that glues two words is told as a change, asks nothing, and leaves a packed piece as it is") {
  for (const bool packed : {false, true}) {
    LedgerWorkshop shop;
    shop.must(shop.intake("monday.csv", first));
    if (packed) {
      shop.must(shop.day());
      shop.must(shop.at("engraved 1"));
      shop.must(shop.at("packed --order 7001"));
    }
    const Run glued =
        shop.intake("tuesday.csv", "Order,Text,Quantity,Note\n7001,\"Ada\u00A0& Ida\n1931\",2,for the shed\n");
    CHECK_THAT(glued.out, Contains("1 line changed") && !Contains("question"));
    CHECK(says(shop.at("history 7001-1").out, packed ? "is packed" : "is received"));
  }
}

TEST_CASE("a note that says something else is told and kept, and asks nothing, even when the piece is packed") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", first));
  shop.must(shop.day());
  shop.must(shop.at("engraved 1"));
  shop.must(shop.at("packed --order 7001"));
  const Run changed =
      shop.intake("tuesday.csv", "Order,Text,Quantity,Note\n7001,\"Ada & Ida\r\n1931\",2,for the boat house\n");
  CHECK(changed.code == 1);  // a note is worth a look
  CHECK_THAT(changed.out, Contains("7001-1 has the note \"for the boat house\"") && Contains("1 line changed"));
  CHECK_FALSE(says(changed.out, "question"));
  CHECK_THAT(shop.at("history 7001-1").out, Contains("is packed") && Contains("for the boat house"));
  // And back again: that is no older export to be asked about.
  const Run back = shop.intake("wednesday.csv", "Order,Text,Quantity,Note\n7001,\"Ada & Ida\n1931\",2,for the shed\n");
  CHECK_FALSE(says(back.out, "question"));
  CHECK_THAT(shop.at("history 7001-1").out, Contains("note to the maker: \"for the shed\""));
}

TEST_CASE("words corrected by hand stay when the export says its own again in other bytes") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", first));
  shop.must(shop.at("correct 7001-1 --text 'Ada & Ina'"));
  shop.must(shop.intake("tuesday.csv", "Order,Text,Quantity,Note\n7001,\"Ada & Ida\r\n1931\",2,for the mill pond\n"));
  CHECK_THAT(shop.at("history 7001-1").out, Contains("7001-1/") && Contains("\"Ada & Ina\" is received"));
}

TEST_CASE("an answer writes a packed piece off only where it would come out otherwise") {
  LedgerWorkshop shop;
  shop.edit("templates/plaque-landscape.toml", "line_breaks = \"added\"", "line_breaks = \"free\"");
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,\"Rose\nCottage\"\n7002,\"Otter\nPool\"\n"));
  shop.must(shop.day());
  shop.must(shop.at("engraved 1"));
  shop.must(shop.at("packed --order 7001 --order 7002"));
  const std::string asked = shop.must(shop.intake("tuesday.csv", "Order,Text\n7001,Rose Cottage\n7002,Otter Poole\n"));
  CHECK_THAT(asked, Contains("question 1") && Contains("question 2"));
  const std::string same = shop.must(shop.at("answer 1 take"));
  CHECK_FALSE(says(same, "written off"));
  CHECK_THAT(same, Contains("comes out the same and stays as it is"));
  const std::string kept = shop.at("history 7001-1").out;
  CHECK_THAT(kept, Contains("is packed, sheet-001") && Contains("\"Rose Cottage\""));
  const std::string other = shop.must(shop.at("answer 2 take"));
  CHECK_THAT(other, Contains("7002-1 was engraved") && Contains("is written off"));
  CHECK_THAT(shop.at("history 7002-1").out, Contains("is received"));
  CHECK(shop.at("check").code == 0);
}

}  // namespace ordinatio::same_words_test
