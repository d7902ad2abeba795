#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "base/account.h"
#include "orders/orders.h"

namespace ordinatio::orders_test {
namespace fs = std::filesystem;
using Catch::Contains;
using Lines = std::vector<std::string>;

namespace {

/// A folder of its own for each test, gone afterwards.
class Desk {
 public:
  Desk() : folder_(fs::temp_directory_path() / ("ordinatio-orders-" + std::to_string(::getpid()))) {
    fs::create_directories(folder_);
  }
  ~Desk() { fs::remove_all(folder_); }
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  [[nodiscard]] fs::path put(std::string_view bytes) const {
    const fs::path path = folder_ / "orders.csv";
    std::ofstream(path, std::ios::binary) << bytes;
    return path;
  }
  [[nodiscard]] const fs::path& folder() const { return folder_; }

 private:
  fs::path folder_;
};

Orders taken(std::string_view bytes, const OrderFormat& format = {}) {
  const Desk desk;
  auto orders = read_orders(desk.put(bytes), format);
  if (!orders.ok()) FAIL(describe(orders.fault()));
  return *orders;
}
std::string refused(std::string_view bytes, const OrderFormat& format = {}) {
  const Desk desk;
  const auto orders = read_orders(desk.put(bytes), format);
  REQUIRE_FALSE(orders.ok());
  return describe(orders.fault());
}
/// "1042 × 2 oak: Anna (orders.csv:2)"
Lines summary(const Orders& orders) {
  Lines lines;
  for (const Order& order : orders.orders) {
    lines.push_back(order.number + " × " + std::to_string(order.quantity) + " " + order.design + ": " + order.text +
                    " (" + order.source + ")");
  }
  return lines;
}
Lines held(const Orders& orders) {
  Lines lines;
  for (const HeldItem& item : orders.held) lines.push_back(item.id + " | " + describe(item.fault));
  return lines;
}
/// The one row that is held; the row behind it, order 9, must have gone on.
std::string held_row(const std::string& row) {
  const Orders orders = taken("Order,Text,Quantity,Design\n" + row + "\n9,Zoe,1,\n");
  REQUIRE(orders.held.size() == 1);
  REQUIRE(orders.orders.size() == 1);
  CHECK(orders.orders[0].number == "9");
  return held(orders)[0];
}

}  // namespace

TEST_CASE("rows become orders as they came") {
  const Orders orders = taken(
      "Order,Customer,Text,Quantity,Design\r\n"
      "1042,invented,\"Anna\r\n& Bert\",2,landscape\r\n"
      " 1043 ,invented,  - Mum - , 01 , \r\n"
      "A-7,invented,=1+1 &amp; @home,10000,portrait");
  CHECK(summary(orders) == Lines{"1042 × 2 landscape: Anna\r\n& Bert (orders.csv:2)",
                                 "1043 × 1 :   - Mum -  (orders.csv:4)",
                                 "A-7 × 10000 portrait: =1+1 &amp; @home (orders.csv:5)"});
  CHECK(orders.held.empty());
  CHECK(orders.notes == Lines{"orders.csv: read as UTF-8; all of it is ASCII",
                              "orders.csv: fields parted by \",\", told from its first rows",
                              "orders.csv: no column \"Status\": no row is taken for cancelled"});
}

TEST_CASE("an order's date and the parts of its address come as they are, and what is empty is left out") {
  OrderFormat format;
  format.columns.address = {"Street", "House", "Town"};
  const Orders orders =
      taken("Order,Text,date,Town,Street,House\n7,Ada,3 May 2026,Quernby, Weir Lane ,\n8,Bert,,,,\n", format);
  CHECK(orders.orders.at(0).date == "3 May 2026");
  CHECK(orders.orders.at(0).address == "Weir Lane\nQuernby");
  CHECK(orders.orders.at(1).date.empty());
  CHECK(orders.orders.at(1).address.empty());
}

TEST_CASE("quantity and design may be absent, and that is noted") {
  const Orders orders = taken("Text;Order\nAnna;1\n");
  CHECK(summary(orders) == Lines{"1 × 1 : Anna (orders.csv:2)"});
  CHECK(orders.notes == Lines{"orders.csv: read as UTF-8; all of it is ASCII",
                              "orders.csv: fields parted by \";\", told from its first rows",
                              "orders.csv: no column \"Quantity\": one piece a row",
                              "orders.csv: no column \"Design\": the shop's default design",
                              "orders.csv: no column \"Status\": no row is taken for cancelled"});
  CHECK(orders.warnings.empty());
}

TEST_CASE("columns, encoding and delimiter are taken as the shop sets them") {
  OrderFormat format;
  format.columns = {"Nr.", "Inschrift", "Menge", "Vorlage"};
  format.encoding = "windows-1252";
  format.delimiter = '|';
  const Orders orders = taken("Nr.|Inschrift| Menge |Vorlage\n1|Z\xF6\xEB, a;b|3|x\n", format);
  CHECK(summary(orders) == Lines{"1 × 3 x: Zöë, a;b (orders.csv:2)"});
  CHECK(orders.notes == Lines{"orders.csv: read as windows-1252, as set in shop.toml",
                              "orders.csv: fields parted by \"|\", as set in shop.toml",
                              "orders.csv: no column \"Status\": no row is taken for cancelled"});
}

TEST_CASE("a sep= line is obeyed, and lines are counted with it") {
  const std::string text = "\xEF\xBB\xBFsep=\t\r\nOrder\tText\r\n1\tAnna\r\n\tBert\r\n";
  const Orders orders = taken(text);
  CHECK(summary(orders) == Lines{"1 × 1 : Anna (orders.csv:3)"});
  REQUIRE(orders.held.size() == 1);
  CHECK_THAT(held(orders)[0], Contains("line 4 | orders.csv:4:1"));
  CHECK(orders.notes[0] == "orders.csv: read as UTF-8 with BOM, as its byte order mark says");
  CHECK(orders.notes[1] == "orders.csv: fields parted by tabs, as its sep= line says");

  OrderFormat format;
  format.delimiter = ';';  // what the shop sets goes before; the sep= line is still no header
  CHECK(summary(taken("sep=,\nOrder;Text\n1;a,b\n", format)) == Lines{"1 × 1 : a,b (orders.csv:3)"});
}

TEST_CASE("a column that is missing is told with the nearest header and all of them") {
  CHECK(
      refused("Ordr,Text\n1,Anna\n") ==
      "orders.csv:1: no column \"Order\": the nearest header is \"Ordr\"; the headers are \"Ordr\", \"Text\". Name the "
      "column in shop.toml as the file does, or change the file's header.");
  CHECK_THAT(refused("\n\norder,TEXT\n1,Anna\n"),
             Contains("orders.csv:3: no column \"Order\": the nearest header is \"order\""));
  CHECK_THAT(refused("Order,TEXT\n1,Anna\n"), Contains("no column \"Text\": the nearest header is \"TEXT\""));
  CHECK(
      refused("id\n1\n") ==
      "orders.csv:1: no column \"Order\": the only header is \"id\". Name the column in shop.toml as the file does, or "
      "change the file's header.");
  std::string wide = "0";
  for (int column = 1; column < 50; ++column) wide += "," + std::to_string(column);
  CHECK_THAT(refused(wide + "\n"), Contains("\"39\" and 10 more."));
}

TEST_CASE("capitals do not hide the nearest header") {
  OrderFormat format;
  format.columns.order = "NR";
  CHECK_THAT(refused("nr,Text\n1,Anna\n", format), Contains("no column \"NR\": the nearest header is \"nr\""));
}

TEST_CASE("a column that may be absent is asked about where a header is near it") {
  CHECK(refused("Order,Text,quantity\n1,Anna,3\n") ==
        "orders.csv:1: no column \"Quantity\": the nearest header is \"quantity\"; is it that column? Without it: one "
        "piece a "
        "row. Write quantity = \"quantity\" if it is, or quantity = \"\" if the file has none, under [orders] in "
        "shop.toml.");
  CHECK_THAT(refused("Order,Text,DESIGN\n1,Anna,oak\n"),
             Contains("no column \"Design\": the nearest header is \"DESIGN\""));
  for (const std::string header : {"Qty", "qty.", "Quantities", "Quanitty", "Quant", "Item quantity"}) {
    CHECK_THAT(refused("Order,Text," + header + "\n1,Anna,3\n"), Contains("the nearest header is \"" + header + "\""));
  }
  OrderFormat format;
  format.columns.quantity = "Pieces", format.written = {"quantity"};
  for (const std::string header : {"Peices", "Pcs", "Piece", "Pieces ordered"}) {
    CHECK_THAT(refused("Order,Text," + header + "\n1,Anna,3\n", format), Contains("\"" + header + "\""));
  }
  format.columns.quantity = "";
  CHECK(summary(taken("Order,Text,Pcs\n1,Anna,3\n", format)) == Lines{"1 × 1 : Anna (orders.csv:2)"});
  // Of columns that nobody named and nothing depends on only the nearest are told.
  const Orders notes = taken("Order,Text,Notes,Name,State,Wishes for delivery\n1,Anna,a,b,c,d\n");
  CHECK(notes.warnings.empty());
  CHECK(
      notes.notes.back() ==
      "orders.csv: no column \"Note\", but one \"Notes\": write note = \"Notes\" under [orders] in shop.toml if it is "
      "that");
}

TEST_CASE("a column that shop.toml names and the file lacks is worth a look") {
  OrderFormat format;
  format.written = {"quantity", "note", "status"};
  const Orders orders = taken("Order,Text,Design\n1,Anna,\n", format);
  REQUIRE(orders.warnings.size() == 3);
  CHECK(
      orders.warnings[0] ==
      "orders.csv: no column \"Quantity\", which shop.toml names: one piece a row. Name it as the file does, or write "
      "quantity = \"\" if the file has none, under [orders] in shop.toml");
  CHECK_THAT(orders.warnings[1], Contains("no column \"Status\", which shop.toml names"));
  CHECK_THAT(orders.warnings[2], Contains("no column \"Note\", which shop.toml names"));
  // A status that may be one cancels nothing until it is named: engraving a cancelled order spoils a piece.
  const Orders status = taken("Order,Text,Order status\n1,Anna,cancelled\n");
  REQUIRE(status.warnings.size() == 1);
  CHECK_THAT(status.warnings[0], Contains("no column \"Status\"") && Contains("Is it \"Order status\"?"));
  format.columns.status = "";
  CHECK_THAT(taken("Order,Text,Quantity,Design,Note\n1,Anna,1,,\n", format).notes.back(),
             Contains("shop.toml names no status column"));
}

TEST_CASE("a used column that is there twice is refused, an unused one is not") {
  CHECK(refused("Order,Text,x,Text\n1,a,b,c\n") ==
        "orders.csv:1: the column \"Text\" is there twice: as columns 2 and 4. Give one of them another header.");
  CHECK(summary(taken("Order,x,Text,x\n1,a,b,c\n")) == Lines{"1 × 1 : b (orders.csv:2)"});
}

TEST_CASE("a row without an order number is held") {
  CHECK(
      held_row(" \u00A0,Anna,1,") ==
      "line 2 | orders.csv:2:1, column \"Order\": no order number: the piece could not be told from others. Write the "
      "order's number in this column.");
}

TEST_CASE("an order number in scientific notation is held, since digits are gone") {
  CHECK(held_row("1.23457E+12,Anna,1,") ==
        "line 2 | orders.csv:2:1, column \"Order\": the order number \"1.23457E+12\" is in scientific notation: a "
        "spreadsheet "
        "rounded it and its last digits are gone. Take the shop's original export, not one that a spreadsheet has "
        "saved.");
  for (const char* number : {"1E+05", "\"1,23457E+12\"", "1.5e10", "-1.2E+3", "1e-7", "\"=\"\"1.23457E+12\"\"\""}) {
    INFO(number);
    CHECK_THAT(held_row(std::string(number) + ",Anna,1,"), Contains("is in scientific notation"));
  }
  for (const char* number : {"12E4", "E+12", "1E", "1E+", "1.2.3E+4", "2024-E5", "1.5", "E", "0x1E+05", "№ Ä-7"}) {
    INFO(number);
    CHECK(taken("Order,Text\n" + std::string(number) + ",Anna\n").orders.at(0).number == number);
  }
}

TEST_CASE("an order number of two lines is held") {
  CHECK(held_row("\"10\n42\",Anna,1,") ==
        "line 2 | orders.csv:2:1, column \"Order\": the order number \"10 / 42\" holds a line end or a control "
        "character: it "
        "stands on labels and in file names. Write it in one line, of letters and digits that can be seen.");
  CHECK_THAT(held_row("10\x1B"
                      "42,Anna,1,"),
             Contains("the order number \"10␛42\" holds a line end"));
}

TEST_CASE("a row without a text is held under its order's number") {
  CHECK(held_row("1042,\" \n\u3000\",1,") ==
        "1042 | orders.csv:2:6, column \"Text\": no text: there is nothing to engrave. Write the text, or take the row "
        "out if "
        "the piece is to stay bare.");
}

TEST_CASE("a quantity that is no count of pieces is held") {
  struct Case {
    std::string quantity, why;
  };
  const Case cases[] = {
      {"0", "at least one piece is wanted"},
      {"-2", "at least one piece is wanted"},
      {"-99999999999999", "at least one piece is wanted"},
      {"2.5", "it is no whole number in digits alone"},
      {"1.000", "it is no whole number in digits alone"},  // one, or a thousand?
      {"two", "it is no whole number in digits alone"},
      {"2 pcs", "it is no whole number in digits alone"},
      {"+2", "it is no whole number in digits alone"},
      {"0x10", "it is no whole number in digits alone"},
      {"２", "it is no whole number in digits alone"},
      {"10001", "so many in one row are taken for a slip of the pen"},
      {"99999999999999", "so many in one row are taken for a slip of the pen"},
  };
  for (const Case& one : cases) {
    CHECK(held_row("1042,Anna," + one.quantity + ",") ==
          "1042 | orders.csv:2:11, column \"Quantity\": the quantity \"" + one.quantity +
              "\" cannot be made: " + one.why + ". Write a whole number from 1 to 10000.");
  }
  CHECK(held_row("1042,Anna, ,") ==
        "1042 | orders.csv:2:11, column \"Quantity\": no quantity: how many pieces are wanted cannot be told. Write a "
        "whole "
        "number from 1 to 10000.");
}

TEST_CASE("a row with too few or too many fields is held") {
  CHECK(held_row("1042,Anna") ==
        "line 2 | orders.csv:2, column \"Quantity\": the row has 2 fields: the header has 4; a field is missing, or a "
        "quote is "
        "closed too late. Give the row every field, empty ones too.");
  CHECK(held_row("1042,Anna, Bert,1,") ==
        "line 2 | orders.csv:2, behind column \"Design\": the row has 5 fields: the header has 4; a text may hold the "
        "delimiter. Put quotes around a text that holds the delimiter.");
  CHECK_THAT(held_row("1042"), Contains("the row has 1 field:"));
  // A quote that is closed in a later row has swallowed what is between.
  CHECK_THAT(held_row("1042,\"Anna,1,\n1043,Bert,1,\n1044,\""),
             Contains("the row has 2 fields") && Contains("; the row runs to line 4;"));
}

TEST_CASE("a row that is no CSV is held with its column, and the rest goes on") {
  const Orders orders = taken(
      "Order,Text\n"
      "1,\"Anna\n"
      "2,\"Bert\"x\n"
      "3,Cle\"o\n"
      "4,Dora\n"
      "5,\"Emil");
  CHECK(summary(orders) == Lines{"4 × 1 : Dora (orders.csv:5)"});
  const Lines lines = held(orders);
  REQUIRE(lines.size() == 4);
  CHECK_THAT(lines[0], Contains("line 2 | orders.csv:2:3, column \"Text\": a quote is opened and not closed"));
  CHECK_THAT(lines[1], Contains("line 3 | orders.csv:3:9, column \"Text\": text after a closing quote"));
  CHECK_THAT(lines[2], Contains("line 4 | orders.csv:4:6, column \"Text\": a quote in the middle"));
  CHECK_THAT(lines[3], Contains("line 6 | orders.csv:6:3, column \"Text\": a quote is opened and not closed"));
}

TEST_CASE("a NUL and a lost character are held with their column") {
  using namespace std::string_literals;
  CHECK_THAT(held_row("1042,An\0na,1,"s), Contains("line 2 | orders.csv:2:8, column \"Text\": a NUL character"));
  const Orders orders = taken(
      "\xEF\xBB\xBFOrder,Text,Quantity,Design,Note\n1,Bj\xF8rn,1,,\n\xF8,a,1,,\n3,b,1,\xF8,\n4,c,1,,\xF8\n5,d,\xF8,,"
      "\n");
  CHECK(summary(orders) == Lines{"4 × 1 : c (orders.csv:5)"});  // the note is not used
  const Lines lines = held(orders);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0] ==
        "1 | orders.csv:2:3, column \"Text\": a character is lost in \"Bj\uFFFDrn\": its bytes mean nothing in the "
        "encoding "
        "that was taken. Write the character again, or export the orders as UTF-8.");
  CHECK_THAT(lines[1], Contains("line 3 | orders.csv:3:1, column \"Order\": a character is lost"));
  CHECK_THAT(lines[2], Contains("3 | orders.csv:4:7, column \"Design\": a character is lost"));
  CHECK_THAT(lines[3], Contains("5 | orders.csv:6:5, column \"Quantity\": the quantity \"\uFFFD\" cannot be made"));
}

TEST_CASE("rows of blanks are passed over with one note") {
  const Orders orders = taken("Order,Text\n1,Anna\n,\n \n\u00A0,\"\"\n2,Bert\n,\n,\n,\n,\n");
  CHECK(orders.held.empty());
  CHECK(orders.orders.size() == 2);
  CHECK(orders.notes.back() == "orders.csv: nothing stands on lines 3, 4, 5, 7, 8 and 2 more: passed over");
  CHECK(taken("Order,Text\n1,Anna\n,\n,\n,\n,\n,\n,\n").notes.back() ==
        "orders.csv: nothing stands on lines 3, 4, 5, 6, 7 and 8: passed over");
  CHECK(taken("Order,Text\n1,Anna\n,\n").notes.back() == "orders.csv: nothing stands on line 3: passed over");
}

TEST_CASE("a spreadsheet's guard around an order number is taken off and noted") {
  const Orders orders =
      taken("Order,Text\n=\"0123\",=\"a\"\n124,Bert\n\"=\"\"0125\"\"\",Cleo\n=\" 0126 \",Dora\n=\"\",Emil\n");
  CHECK(summary(orders) == Lines{"0123 × 1 : =\"a\" (orders.csv:2)", "124 × 1 : Bert (orders.csv:3)",
                                 "0125 × 1 : Cleo (orders.csv:4)", "0126 × 1 : Dora (orders.csv:5)"});
  CHECK(orders.notes.back() ==
        "orders.csv: order numbers guarded as =\"…\" on lines 2, 4 and 5: the guard was taken off");
  REQUIRE(orders.held.size() == 1);
  CHECK_THAT(held(orders)[0], Contains("orders.csv:6:1, column \"Order\": no order number"));
  CHECK(taken("Order,Text\n\"=\"\"12\",a\n").orders.at(0).number == "=\"12");  // half a guard is none
}

TEST_CASE("rows alike in every used column are taken once, with a note") {
  const Orders orders = taken(
      "Order,Text,Quantity,Design,Customer\n"
      "2,Bert,1,oak,x\n"
      "1,Anna,2,,first\n"
      "2,Bert, 1 , oak ,y\n"
      "3,Cleo,1,,\n"
      "1,Anna,02,,again\n"
      "2,Bert,1,oak,z\n");
  CHECK(summary(orders) ==
        Lines{"2 × 1 oak: Bert (orders.csv:2)", "1 × 2 : Anna (orders.csv:3)", "3 × 1 : Cleo (orders.csv:5)"});
  CHECK(orders.held.empty());
  REQUIRE(orders.notes.size() == 5);
  CHECK(orders.notes[3] == "orders.csv: order 2 is there 3 times alike, on lines 2, 4 and 7: taken once");
  CHECK(orders.notes[4] == "orders.csv: order 1 is there twice alike, on lines 3 and 6: taken once");
}

TEST_CASE("rows of one order number are further items of it, numbered in the order of the file") {
  const Orders orders =
      taken("Order,Text,Quantity\n1042,Anna,2\n1043,Cleo,1\n1042,\"Bert\nBo\",1\n1042,Anna,2\n1042,Dora,1\n");
  CHECK(summary(orders) == Lines{"1042 × 2 : Anna (orders.csv:2)", "1043 × 1 : Cleo (orders.csv:3)",
                                 "1042 × 1 : Bert\nBo (orders.csv:4)", "1042 × 1 : Dora (orders.csv:7)"});
  std::vector<int> first;
  for (const Order& order : orders.orders) first.push_back(order.first);
  CHECK(first == std::vector<int>{1, 1, 3, 4});
  CHECK(orders.held.empty());
  CHECK(orders.warnings.empty());
  REQUIRE(orders.notes.size() == 6);
  CHECK(orders.notes[4] ==
        "orders.csv: another row of an order on lines 4 and 7: further items of it, numbered in the order of the rows");
  CHECK(orders.notes[5] == "orders.csv: order 1042 is there twice alike, on lines 2 and 6: taken once");
}

TEST_CASE("a row that makes no order keeps its item numbers, so that others keep theirs once it is mended") {
  const Orders orders = taken(
      "Order,Text,Quantity,Status\n1,,2,\n1,Anna,1,\n1,Bert,x,\n1,Cleo,1,\n1,Dora,3,cancelled\n1,Emil,1,\n2,Fritz,1,"
      "\n");
  std::vector<std::pair<std::string, int>> first;
  for (const Order& order : orders.orders) first.emplace_back(order.text, order.first);
  CHECK(first == std::vector<std::pair<std::string, int>>{{"Anna", 3}, {"Cleo", 5}, {"Emil", 9}, {"Fritz", 1}});
}

TEST_CASE("rows of one order number with the same words may be one row, changed: they are worth a look") {
  const Orders orders = taken(
      "Order,Text,Quantity,Design,Line\n1,Anna,1,oak,\n1,Anna,3,oak,\n2,Bert,1,oak,\n2,Bert,1,,\n3,Cleo,1,,a\n3,Cleo,1,"
      ",b\n");
  CHECK(orders.held.empty());
  CHECK(orders.orders.size() == 6);
  REQUIRE(orders.warnings.size() == 2);  // line ids tell rows apart
  CHECK(
      orders.warnings[0] ==
      "orders.csv: order 1 has the same words on lines 2 and 3, with another quantity (1, 3): taken as further items; "
      "take one of the rows out if they are one");
  CHECK_THAT(orders.warnings[1], Contains("order 2") && Contains("with another design (\"oak\", \"\")"));
}

TEST_CASE("an order of more items than are numbered holds the rows beyond") {
  std::string rows = "Order,Text,Quantity\n";
  for (int row = 0; row < 101; ++row) rows += "1,Anna " + std::to_string(row) + ",10000\n";
  const Orders orders = taken(rows);
  CHECK(orders.orders.size() == 100);
  REQUIRE(orders.held.size() == 1);
  CHECK_THAT(held(orders)[0], Contains("order 1 has too many items"));
}

TEST_CASE("long notes are shown from where they part, never cut inside a character") {
  std::string alike = "a";
  for (int letter = 0; letter < 50; ++letter) alike += "é";
  const Orders orders = taken("Order,Text,Note\n1,x," + alike + "ö\n1,x," + alike + "ü\n");  // in their second bytes
  CHECK_THAT(orders.warnings.at(0), Contains("(\"…ééééééééééö\", \"…ééééééééééü\")"));
}

TEST_CASE("a file of nothing but held rows is still read") {
  const Orders orders = taken("Order,Text\n,Anna\n");
  CHECK(orders.orders.empty());
  CHECK(orders.held.size() == 1);
}

TEST_CASE("held rows come in the order of the file") {
  const Orders orders = taken("Order,Text\n1,Anna\n2,\n1.2E+9,Bert\n,x\n");
  REQUIRE(orders.held.size() == 3);
  CHECK(orders.held[0].id == "2");
  CHECK(orders.held[1].id == "line 4");
  CHECK(orders.held[2].id == "line 5");
}

TEST_CASE("a file that cannot be read as orders is refused with what, why and the mend") {
  CHECK(refused("") == "orders.csv: no orders: the file is empty. Export the orders again.");
  CHECK(refused("\xEF\xBB\xBF\r\n\n") == "orders.csv: no orders: the file is empty. Export the orders again.");
  CHECK(refused("sep=;\n") == "orders.csv: no orders: the file is empty. Export the orders again.");
  CHECK(refused("Order,Text\n") == "orders.csv: no orders: there is no row below the header. Export the orders again.");
  CHECK(refused("Order,Text\n,\n") ==
        "orders.csv: no orders: there is no row below the header. Export the orders again.");
  CHECK_THAT(refused("\"Order,Text\n1,Anna\n"), Contains("orders.csv:1:1: a quote is opened and not closed"));
  CHECK_THAT(refused("PK\x03\x04"), Contains("a zip archive"));
  OrderFormat format;
  for (const char delimiter : {'"', '\n', '\r', '\0', '\xC3'}) {
    format.delimiter = delimiter;
    CHECK(refused("Order,Text\n1,Anna\n", format) ==
          "shop.toml: the delimiter cannot part fields: quotes and line ends have their own meaning. Set it to \",\", "
          "\";\" or "
          "a tab, or leave it out.");
  }
}

TEST_CASE("a missing file and a folder are refused by name") {
  const Desk desk;
  const auto missing = read_orders(desk.folder() / "none.csv", {});
  REQUIRE_FALSE(missing.ok());
  CHECK(missing.fault().where == (desk.folder() / "none.csv").string());
  CHECK(missing.fault().why == "No such file or directory");
  const auto folder = read_orders(desk.folder(), {});
  REQUIRE_FALSE(folder.ok());
  CHECK(folder.fault().where == desk.folder().string());
  CHECK(folder.fault().why == "Is a directory");
}

}  // namespace ordinatio::orders_test
