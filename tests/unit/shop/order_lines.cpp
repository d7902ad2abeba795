#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "base/account.h"
#include "orders/orders.h"
#include "shop/shop.h"
#include "shop/workroom.h"

namespace ordinatio::order_lines_test {
namespace fs = std::filesystem;
using Catch::Contains;
using Lines = std::vector<std::string>;

namespace {

OrderFormat with_options() {
  OrderFormat format;
  format.columns.text = "Options";
  format.labels = {{"Text"}, {"Message"}, {"Style"}, {"Wood"}, {}};
  return format;
}

Orders taken(std::string_view bytes, const OrderFormat& format = {}, Repeats repeats = Repeats::settled) {
  const fs::path file = fs::temp_directory_path() / ("ordinatio-lines-" + std::to_string(::getpid()) + ".csv");
  std::ofstream(file, std::ios::binary) << bytes;
  auto orders = read_orders(file, format, repeats);
  fs::remove(file);
  if (!orders.ok()) FAIL(describe(orders.fault()));
  return *orders;
}

std::string joined(const Lines& parts) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : " / ") + part;
  return text;
}

/// "1042-1 × 2 oak [77] Anna / Bert (note) cancelled", each line of it where there is something to say.
Lines summary(const std::vector<Order>& orders) {
  Lines lines;
  for (const Order& order : orders) {
    std::string line = item_id(order, 1) + " × " + std::to_string(order.quantity);
    if (!order.design.empty()) line += " " + order.design;
    if (!order.line.empty()) line += " [" + order.line + "]";
    line += " " + (order.texts.empty() ? order.text : joined(order.texts));
    if (!order.note.empty()) line += " (" + order.note + ")";
    lines.push_back(line + (order.cancelled ? " cancelled" : ""));
  }
  return lines;
}
Lines summary(const Orders& orders) { return summary(orders.orders); }

Lines held(const Orders& orders) {
  Lines lines;
  for (const HeldItem& item : orders.held) {
    std::string message = describe(item.fault);
    message.erase(0, message.find(".csv") + 4);  // the file's name
    lines.push_back(item.id + " | " + message);
  }
  return lines;
}
/// The notes behind those on encoding and delimiter, without the file's name.
Lines notes(const Orders& orders) {
  Lines lines;
  for (const std::string& note : orders.notes) lines.push_back(note.substr(note.find(": ") + 2));
  lines.erase(lines.begin(), lines.begin() + 2);
  std::erase(lines, "no column \"Status\": no row is taken for cancelled");  // most files here have none
  return lines;
}

}  // namespace

TEST_CASE("columns of line and note may be absent, and nothing is said of it") {
  const Orders orders = taken("Order,Text,Quantity,Design\n1,Anna,1,\n");
  CHECK(summary(orders) == Lines{"1-1 × 1 Anna"});
  CHECK(notes(orders).empty());
}

TEST_CASE("the line's id and the note are kept as they came, and the note is never the text") {
  const Orders orders = taken(
      "Order,Text,Quantity,Design,Line,Note\n"
      "1,Anna,1,oak, 77 ,\" Thank\nyou \"\n2,Bert,1,,\"=\"\"0078\"\"\",\u00A0\n3,Cleo,1,,,-\n");
  CHECK(summary(orders) == Lines{"1-1 × 1 oak [77] Anna ( Thank\nyou )", "2-1 × 1 [0078] Bert", "3-1 × 1 Cleo (-)"});
  CHECK(notes(orders) == Lines{"line ids guarded as =\"…\" on line 4: the guard was taken off"});
}

TEST_CASE("a line's id that is damaged is held as an order's number is") {
  const Orders orders = taken(
      "Order,Text,Quantity,Design,Line\n1,Anna,1,,1.23457E+12\n2,Bert,1,,\"7\n8\"\n3,Cleo,1,,\"=\"\"1,5E+9\"\"\"\n"
      "4,Dora,1,,12E4\n");
  CHECK(summary(orders) == Lines{"4-1 × 1 [12E4] Dora"});
  const Lines lines = held(orders);
  REQUIRE(lines.size() == 3);
  CHECK_THAT(lines[0], Contains("1 | :2:11, column \"Line\": the line id \"1.23457E+12\" is in scientific notation"));
  CHECK_THAT(lines[1], Contains("the line id \"7 / 8\" holds a line end"));
  CHECK_THAT(lines[2], Contains("the line id \"1,5E+9\" is in scientific notation"));
}

TEST_CASE("cancelled rows are passed over and noted") {
  const Orders orders = taken(
      "Order,Text,Quantity,Status\n1,Anna,1,paid\n2,,0,Cancelled\n1.2E+9,x,y, REFUNDED \n3,Cleo,1,\n2,Bert,1,open\n"
      "4,Dora,1,partly refunded\n");
  CHECK(summary(orders) == Lines{"1-1 × 1 Anna", "3-1 × 1 Cleo", "2-1 × 1 Bert", "4-1 × 1 Dora"});
  CHECK(orders.held.empty());
  CHECK(notes(orders) ==
        Lines{"no column \"Design\": the shop's default design", "cancelled on lines 3 and 4: passed over",
              "a status with a word of cancellation, which is none of those that cancel, on line 7: taken as orders; "
              "name it under cancelled in shop.toml if it is one"});
}

TEST_CASE("a file of nothing but cancelled rows is read, and makes nothing") {
  const Orders orders = taken("Order,Text,Status\n1,Anna,cancelled\n");
  CHECK(orders.orders.empty());
  CHECK(orders.held.empty());
}

TEST_CASE("words of cancellation are the shop's own, and absence is none") {
  OrderFormat format;
  format.cancelled = {"ANNUL\u00C9E"};
  const std::string rows = "Order,Text,Status\n1,Anna,cancelled\n2,Bert,annul\u00E9e\n3,Cleo,\n";
  CHECK(summary(taken(rows, format)) == Lines{"1-1 × 1 Anna", "3-1 × 1 Cleo"});
  format.cancelled.clear();
  CHECK(taken(rows, format).orders.size() == 3);
}

TEST_CASE("a status that is damaged is held: whether it cancels cannot be told") {
  const Orders orders = taken("\xEF\xBB\xBFOrder,Text,Status\n1,Anna,annul\xE9\n2,Bert,\n");
  CHECK(summary(orders) == Lines{"2-1 × 1 Bert"});
  REQUIRE(orders.held.size() == 1);
  CHECK_THAT(held(orders)[0], Contains(", column \"Status\": a character is lost"));
}

TEST_CASE("as lines, rows of one number all come, cancelled ones too") {
  const Orders orders = taken(
      "Order,Text,Quantity,Line,Status\n1,Anna,2,a,\n1,Bert,1,b,cancelled\n1,Anna,2,a,\n2,,0,c,Canceled\n"
      "3,Cleo,x,d,refunded\n1.5E+9,,0,e,refunded\n4,,1,f,paid\n",
      {}, Repeats::are_lines);
  CHECK(summary(orders) == Lines{"1-1 × 2 [a] Anna", "1-1 × 1 [b] Bert cancelled", "1-1 × 2 [a] Anna",
                                 "2-1 × 0 [c]  cancelled", "3-1 × 1 [d] Cleo cancelled"});
  const Lines lines = held(orders);
  REQUIRE(lines.size() == 2);
  CHECK_THAT(lines[0],
             Contains("is in scientific notation"));  // a row that cannot be told from others, cancelled or not
  CHECK_THAT(lines[1], Contains("4 | :8:3, column \"Text\": no text"));
}

TEST_CASE("a cancelled row's options are taken as far as they can be read") {
  const Orders orders = taken(
      "Order,Options,Quantity,Status\n1,Anna,1,cancelled\n2,Text: Bert; Message: oh,0,cancelled\n"
      "3,Text 1: A; Text 2: B,0,cancelled\n4,Text: A,2,cancelled\n5,Text: A,2,\n",
      with_options(), Repeats::are_lines);
  CHECK(summary(orders) == Lines{"1-1 × 1 Anna cancelled", "2-1 × 0 Bert (oh) cancelled", "3-1 × 0 A cancelled",
                                 "4-1 × 2 A cancelled", "5-1 × 2 A"});
  CHECK(notes(orders).back() == "one text for several pieces on line 6: engraved alike");
}

TEST_CASE("rows of one number with different line ids are further items, even with the same words") {
  const Orders orders = taken("Order,Text,Line\n1042,Anna,77\n1042,Anna,78\n1043,Bert,79\n1043,Bert,79\n");
  CHECK(summary(orders) == Lines{"1042-1 × 1 [77] Anna", "1042-2 × 1 [78] Anna", "1043-1 × 1 [79] Bert"});
  CHECK(orders.warnings.empty());
}

TEST_CASE("rows of one number whose options differ are further items; the same options in another order are one row") {
  const Orders orders = taken(
      "Order,Options,Quantity,Note\n"
      "1,Text: A; Message: x,1,\n1,Text: A; Message: y,1,\n"
      "2,Text 1: A; Text 2: B,2,\n2,Text 1: A; Text 2: C,2,\n"
      "4,Text: A; Style: oak,1,\n4,Text: A; Style: elm,1,\n"
      "6,Text 1: A; Text 2: B,2,n\n6,Text 2: B; Text 1: A,2,n\n",
      with_options());
  CHECK(summary(parted(orders.orders)) == Lines{"1-1 × 1 A (x)", "1-2 × 1 A (y)", "2-1 × 1 A", "2-2 × 1 B", "2-3 × 1 A",
                                                "2-4 × 1 C", "4-1 × 1 oak A", "4-2 × 1 elm A", "6-1 × 1 A (n)",
                                                "6-2 × 1 B (n)"});
  CHECK(orders.held.empty());
  REQUIRE(orders.warnings.size() == 2);
  CHECK_THAT(orders.warnings[0], Contains("with another note (\"x\", \"y\")"));
  CHECK_THAT(orders.warnings[1], Contains("with another design (\"oak\", \"elm\")"));
}

TEST_CASE("texts are for one piece each, one text is for all, and any other count is held") {
  const Orders orders = taken(
      "Order,Options,Quantity\n1,Text: A; Text: B,2\n2,Text: A,3\n3,Text: A; Text: A,2\n4,Text: A; Text: B,3\n"
      "5,Text: A; Text: B,1\n6,Text: A,1\n7,Text: A,2\n",
      with_options());
  CHECK(summary(orders) == Lines{"1-1 × 2 A / B", "2-1 × 3 A", "3-1 × 2 A", "6-1 × 1 A", "7-1 × 2 A"});
  CHECK(orders.orders[0].text == "A");
  CHECK(notes(orders) == Lines{"no column \"Design\": the shop's default design",
                               "one text for several pieces on lines 3 and 8: engraved alike"});
  const Lines lines = held(orders);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] ==
        "4 | :5:3, column \"Options\": there are 2 texts for 3 pieces: which text goes on which piece cannot be told. "
        "Write one text for all pieces or one for each, or mend the quantity.");
  CHECK_THAT(lines[1], Contains("there are 2 texts for 1 piece:"));
}

TEST_CASE("an option's design and the column's must agree; notes of both go together") {
  const Orders orders = taken(
      "Order,Options,Design,Note\n1,Text: A; Style: oak,,\n2,Text: A; Style: oak,oak,from the column\n"
      "3,Text: A; Style: oak,elm,\n4,\"Message: one\nText: A\nMessage: two\",elm,three\n",
      with_options());
  CHECK(summary(orders) ==
        Lines{"1-1 × 1 oak A", "2-1 × 1 oak A (from the column)", "4-1 × 1 elm A (one\ntwo\nthree)"});
  REQUIRE(orders.held.size() == 1);
  CHECK_THAT(held(orders)[0], Contains("3 | :4:3, column \"Options\": two designs are named: \"elm\" and \"oak\""));
}

TEST_CASE("what is wrong with an options cell holds its row, with its place") {
  const Orders orders = taken("Order,Options\n1,\"Text: A\nFont: x\"\n2,Wood: red\n3,Text: B;\n4,\n", with_options());
  CHECK(summary(orders) == Lines{"3-1 × 1 B;"});
  const Lines lines = held(orders);
  REQUIRE(lines.size() == 3);
  CHECK_THAT(lines[0], Contains("1 | :2:3, column \"Options\": \"Font\" looks like an option"));
  CHECK_THAT(lines[1], Contains("2 | :4:3, column \"Options\": no text"));
  CHECK_THAT(lines[2], Contains("4 | :6:3, column \"Options\": no text"));
  CHECK_THAT(notes(orders).back(), Contains("a text that ends with a comma, a semicolon or a bar, as options do, on "
                                            "line 5: kept as it came"));
}

TEST_CASE("texts that a spreadsheet would run are read byte for byte, in plain and in options cells") {
  for (const std::string text :
       {"- Mum -", "@home", "=E=mc\u00B2", "+1", "-", "=1+1", "=\"Anna\"", "\t@x", "=cmd|' /C'!A0"}) {
    INFO(text);
    std::string quoted;
    for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    CHECK(taken("Order,Text\n1,\"" + quoted + "\"\n").orders.at(0).text == text);
    const std::string bare = text.starts_with('\t') ? text.substr(1) : text;  // blanks around a value are the cell's
    CHECK(taken("Order,Options\n1,\"Text: " + quoted + "\"\n", with_options()).orders.at(0).text == bare);
    CHECK(taken("Order,Options\n1,\"Text:" + quoted + "; Wood: red\"\n", with_options()).orders.at(0).text == bare);
  }
}

TEST_CASE("the checksum is of the file's bytes, whatever their encoding") {
  CHECK(taken("Order,Text\n1,Anna\n").checksum == sha256_hex("Order,Text\n1,Anna\n"));
  const std::string marked = "\xEF\xBB\xBFOrder,Text\n1,Anna\n";
  CHECK(taken(marked).checksum == sha256_hex(marked));
}

TEST_CASE("an order whose texts differ is parted, its items keep their numbers and their pieces") {
  Order order;
  order.number = "1042", order.quantity = 5, order.first = 3;
  order.text = "A", order.texts = {"A", "A", "B", "A", "C"};
  order.blanks = {"S-1", "S-2", "S-3", "S-4"};
  Order plain;
  plain.number = "7", plain.quantity = 2, plain.text = "Z", plain.blanks = {"S-9"};
  const std::vector<Order> parts = parted({order, plain});
  CHECK(summary(parts) == Lines{"1042-3 × 2 A", "1042-5 × 1 B", "1042-6 × 1 A", "1042-7 × 1 C", "7-1 × 2 Z"});
  REQUIRE(parts.size() == 5);
  CHECK(parts[0].blanks == Lines{"S-1", "S-2"});
  CHECK(parts[1].blanks == Lines{"S-3"});
  CHECK(parts[2].blanks == Lines{"S-4"});
  CHECK(parts[3].blanks.empty());
  CHECK(parts[4].blanks == Lines{"S-9"});
  CHECK(item_id(parts[0], 2) == "1042-4");
}

TEST_CASE("a wish is written as it is read") {
  for (const char* cell : {"", "keep: stamp", "size: full", "keep: maker's mark; size: full", "keep: a; keep: b: c"}) {
    const auto wish = parse_wish(cell, "here");
    REQUIRE(wish.ok());
    CHECK(wish_text(*wish) == cell);
  }
  const auto tidied = parse_wish(" size:full;; keep : stamp ", "here");
  REQUIRE(tidied.ok());
  CHECK(wish_text(*tidied) == "keep: stamp; size: full");
  const auto wrong = parse_wish("size: large", "orders.csv:2");
  REQUIRE_FALSE(wrong.ok());
  CHECK_THAT(describe(wrong.fault()), Contains("orders.csv:2: the wish \"size: large\" is not understood"));
}

}  // namespace ordinatio::order_lines_test
