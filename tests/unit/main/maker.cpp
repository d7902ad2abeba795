// Words that the person at the bench needs.
#include "ledger_workshop.h"

namespace ordinatio::maker_test {
using Catch::Contains;

namespace {

constexpr const char* orders =
    "Order,Text,Quantity,Note,Customer\n7001,Rose Cottage,2,\"Please, by Saturday week\",Ada Wren\n7002,Otter "
    "Pool,1,,Ida "
    "Poole\n";

}  // namespace

TEST_CASE("a customer's note is worth a look at intake and at the day, once an order") {
  LedgerWorkshop shop;
  const Run intake = shop.intake("monday.csv", orders);
  CHECK(intake.code == 1);
  const std::string note = "and 1 more of its order: the customer notes \"Please, by Saturday week\"";
  CHECK_THAT(intake.out, Contains("Worth a look:\n  7001-1/") && Contains(note));
  CHECK_THAT(shop.at("intake monday.csv").out, !Contains(note));
  const Run day = shop.day();
  CHECK(day.code == 1);
  CHECK_THAT(day.out, Contains(note));
  const Workshop files;
  files.write("mine.csv", orders);
  CHECK_THAT(files.run("day mine.csv --no-dxf --no-pdf").out, Contains(note));
}

TEST_CASE("history and list find by words and by the customer's name") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", orders));
  CHECK_THAT(shop.at("list").out, Contains("\"Otter Pool\"  for \"Ida Poole\"  received"));
  CHECK_THAT(shop.at("list 'ADA  wren'").out, Contains("7001-1") && Contains("7001-2") && !Contains("7002"));
  CHECK_THAT(shop.at("list otter").out, Contains("7002-1") && !Contains("7001"));
  CHECK_THAT(shop.at("history poole").out, Contains("7002-1/") && Contains("ordered by \"Ida Poole\", is received"));
  CHECK_THAT(shop.at("history 'rose cottage'").out, Contains("7001-1/") && Contains("7001-2/"));
  CHECK(shop.at("history nobody").code == 2);
  shop.must(shop.day());
  shop.must(shop.at("engraved 1"));
  shop.must(shop.at("packed --order 7002"));
  CHECK_FALSE(says(shop.at("list").out, "7002"));
  CHECK_THAT(shop.at("list ida").out, Contains("7002-1") && Contains("packed"));
  CHECK_THAT(shop.read("out/sheets/sheet-001.json"), Contains("\"customer\": \"Ada Wren\""));
  shop.must(shop.at("list --csv list.csv"));
  CHECK_THAT(shop.read("list.csv"), Contains("Item,Words,Design,State,Note,Customer") && Contains("Ada Wren"));
}

TEST_CASE("an item is cancelled by hand wherever it is, and that is taken back") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n7002,Otter Pool\n7003,Mill House\n"));
  CHECK(shop.at("cancel 7001-1 --reason 'asked by letter'").code == 0);
  CHECK_THAT(shop.at("history 7001-1").out, Contains("is cancelled: asked by letter"));
  CHECK(shop.at("cancel 7001-1").code == 2);
  CHECK_THAT(shop.at("cancel 7001-1").err, Contains("it is cancelled already"));
  CHECK_THAT(shop.must(shop.at("undo 7001-1")), Contains("is received again"));
  shop.must(shop.at("cancel 7001-1"));
  CHECK_THAT(shop.must(shop.day()), Contains("2 items set"));

  // On a sheet it comes off; the export that has it still asks nothing.
  const Run off = shop.at("cancel 7002-1");
  CHECK(off.code == 1);
  CHECK_THAT(off.out, Contains("7002-1 comes off sheet-001"));
  CHECK_FALSE(says(shop.read("out/sheets/sheet-001.json"), "7002-1"));
  shop.must(shop.at("undo 7002-1"));
  CHECK(says(shop.read("out/sheets/sheet-001.json"), "7002-1"));
  shop.must(shop.at("cancel 7002-1"));
  CHECK_THAT(shop.must(shop.intake("tuesday.csv", "Order,Text\n7001,Rose Cottage\n7002,Otter Pool\n7003,Mill House\n")),
             Contains("nothing is new") && !Contains("question"));
  shop.must(shop.at("engraved 1"));
  const Run made = shop.at("cancel 7003-1");
  CHECK(made.code == 1);
  CHECK_THAT(made.out, Contains("its piece has no customer now"));
  shop.must(shop.at("undo 7003-1"));
  shop.must(shop.at("packed 7003-1"));
  CHECK_THAT(shop.at("cancel 7003-1").err, Contains("it is packed") && Contains("ordinatio undo 7003-1"));
  CHECK(shop.at("check").code == 0);
}

TEST_CASE("an answer that added a line by mistake is taken back, and the question is asked again") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n"));
  const std::string changed = "Order,Text\n7001,Rose Cottages\n";
  CHECK_THAT(shop.must(shop.intake("tuesday.csv", changed)), Contains("question 1"));
  shop.must(shop.at("answer 1 new"));
  CHECK_THAT(shop.at("list").out, Contains("7001-2/"));
  shop.must(shop.at("correct 7001-2 --text 'Rose Cottage two'"));
  CHECK_THAT(shop.must(shop.at("undo 7001-2")), Contains("correct 7001-2"));
  CHECK_THAT(shop.must(shop.at("undo 7001-2")), Contains("taken back is \"answer 1 new\""));
  CHECK_THAT(shop.at("history 7001-2").out, Contains("is cancelled: the answer that added it was taken back"));
  CHECK_THAT(shop.at("list").out, Contains("question 1") && Contains("7001-1/") && Contains("held"));
  CHECK_THAT(shop.must(shop.intake("wednesday.csv", changed)), !Contains("question 2"));
  CHECK_THAT(shop.must(shop.at("answer 1 take")), Contains("7001-1 says \"Rose Cottages\""));
  CHECK_THAT(shop.must(shop.day()), Contains("1 item set"));
  CHECK_THAT(shop.must(shop.intake("thursday.csv", changed)), Contains("1 line known already"));
  CHECK(shop.at("check").code == 0);
}

TEST_CASE("an answer that added a line is not taken back once its item is on a sheet") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n"));
  shop.must(shop.intake("tuesday.csv", "Order,Text\n7001,Rose Cottages\n"));
  shop.must(shop.at("answer 1 new"));
  shop.must(shop.day());
  const Run refused = shop.at("undo 7001-2");
  CHECK(refused.code == 2);
  CHECK_THAT(refused.err, Contains("7001-2") && Contains("on sheet"));
}

TEST_CASE("a sheet is known without the zeros of its number, wherever it is named") {
  LedgerWorkshop shop;
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n"));
  shop.must(shop.day());
  CHECK_THAT(shop.must(shop.at("history sheet-1")), Contains("sheet-001"));
  CHECK_THAT(shop.must(shop.at("align sheet-1 --measured 8,8 592,8 8,392 580,392")), Contains("file"));
  CHECK_THAT(shop.must(shop.at("engraved sheet-1")), Contains("sheet-001: 1 item engraved"));
  CHECK_THAT(shop.must(shop.at("undo sheet-01")), Contains("sheet-001"));
  CHECK_THAT(shop.must(shop.at("resume sheet-1 --done 1")), Contains("sheet-001"));
  shop.must(shop.at("remake 7001-1 --sheet sheet-1"));
  CHECK(fs::exists(shop.shop() / "out/sheets/remake-002.json"));
  CHECK(shop.at("history sheet-2").code == 2);
}

TEST_CASE("marks are numbered on the board, and align says where they are drawn") {
  LedgerWorkshop shop;
  shop.must(shop.run("jig"));
  CHECK_THAT(shop.read("out/jig/jig.svg"), Contains("engrave-mark-1") && Contains("number of registration mark 4"));
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n"));
  shop.must(shop.day());
  const std::string drawn = "drawn are the marks 1 at 8,8, 2 at 592,8, 3 at 8,392, 4 at 580,392";
  const Run few = shop.at("align sheet-001 --measured 8,8 592,8");
  CHECK(few.code == 2);
  CHECK_THAT(few.err, Contains("2 places are given") && Contains(drawn));
  const Run off = shop.at("align sheet-001 --measured 8,8 592,18 8,392 580,392");
  CHECK(off.code == 2);
  CHECK_THAT(off.err, Contains("mark 2, drawn at 592,8, is off by") && Contains(drawn));
  CHECK_THAT(shop.must(shop.at("align sheet-001 --measured 8,8 592,8 8,392 580,392")),
             Contains("mark 4, drawn at 580,392"));
}

TEST_CASE(
    "a piece that was chosen for an item is taken if the item fits it, whatever its size, else it is said why not") {
  LedgerWorkshop shop;
  shop.write("shop.toml", shop.read("shop.toml") + "\n[blanks]\nfile = \"blanks.csv\"\n");
  shop.write("blanks.csv", "id,width,height\nSMALL,90,60\nWIDE,400,100\nUSUAL,,\n");
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n7002,Otter Pool\n7003,Mill House\n7004,Barn\n"));
  shop.must(shop.at("pin 7001-1 SMALL"));
  shop.must(shop.at("pin 7002-1 WIDE"));
  const std::string day = shop.must(shop.day());
  CHECK_THAT(day, Contains("2 items set") && Contains("it does not go on piece WIDE") &&
                      Contains("its width of 400 mm is") && Contains("too much"));
  CHECK_THAT(shop.at("history 7001-1").out, Contains("blank SMALL"));
  CHECK_THAT(shop.at("history 7003-1").out, Contains("blank USUAL"));
  // An odd piece that nobody chose is for no other item.
  CHECK_THAT(shop.at("history 7004-1").out, Contains("held"));
}

TEST_CASE("the stock counts what was spoiled alone, and says where there is too little to tell from") {
  LedgerWorkshop shop;
  shop.write("shop.toml", shop.read("shop.toml") + "\n[blanks]\nfile = \"blanks.csv\"\n");
  shop.write("blanks.csv", "id\nS-1\nS-2\nS-3\n");
  shop.must(shop.intake("monday.csv", "Order,Text\n7001,Rose Cottage\n"));
  CHECK_THAT(shop.must(shop.at("stock")), Contains("too few to tell"));
  shop.must(shop.at("spoil --blank S-1 --reason 'it fell'"));
  const std::string stock = shop.must(shop.at("stock"));
  CHECK_THAT(stock, Contains("Spoiled so far: 1 of 1") && Contains("2 free") && Contains("1 spoiled") &&
                        Contains("too few to tell") && !Contains("expect 0"));
}

TEST_CASE("stands bear the workshop's name from shop.toml") {
  const Workshop shop;
  CHECK(shop.run("stands --count 1 --date 2026-11-25 --out one").code == 0);
  shop.edit("shop.toml", "The Example Workshop", "Ford Mill");
  CHECK(shop.run("stands --count 1 --date 2026-11-25 --out two").code == 0);
  CHECK(shop.read("one/stands-001.svg") != shop.read("two/stands-001.svg"));
  shop.edit("templates/stand-words.toml", "{shop}", "Ford Mill");
  CHECK(shop.run("stands --count 1 --date 2026-11-25 --out three").code == 0);
  CHECK(shop.read("two/stands-001.svg") == shop.read("three/stands-001.svg"));
  shop.edit("templates/stand-words.toml", "Ford Mill", "by {shop}");
  shop.edit("shop.toml", "Ford Mill", "");
  const Run nameless = shop.run("stands --count 1 --date 2026-11-25 --out four");
  CHECK(nameless.code == 2);
  CHECK_THAT(nameless.err, Contains("the workshop has no name") && Contains("Write name ="));
}

}  // namespace ordinatio::maker_test
