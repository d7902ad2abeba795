#include <catch2/catch.hpp>
#include <random>

#include "base/harmless.h"
#include "csv/csv.h"

namespace ordinatio::csv_test {
using Row = std::vector<std::string>;
using Catch::Contains;

namespace {

/// Everything that a reader gives: rows, and "! message" for a fault in its place.
std::vector<Row> read_all(CsvReader& reader) {
  std::vector<Row> rows;
  while (auto record = reader.next()) {
    Row& row = rows.emplace_back();
    if (!record->ok()) row.push_back("! " + describe(record->fault()));
    if (!record->ok()) continue;
    for (const CsvField& field : (*record)->fields) row.push_back(field.text);
  }
  return rows;
}
std::vector<Row> read_all(std::string_view text, char delimiter = ',') {
  CsvReader reader(text, delimiter, "orders.csv");
  return read_all(reader);
}
Fault only_fault(std::string_view text) {
  CsvReader reader(text, ',', "orders.csv");
  auto record = reader.next();
  REQUIRE(record);
  REQUIRE_FALSE(record->ok());
  CHECK_FALSE(reader.next());
  return record->fault();
}

}  // namespace

TEST_CASE("well-formed text is read field by field") {
  struct Case {
    std::string_view text;
    std::vector<Row> rows;
  };
  const Case cases[] = {
      {"", {}},
      {"\n\r\n\n", {}},  // empty lines are no records
      {"a", {{"a"}}},
      {"a,b\n1,2\n", {{"a", "b"}, {"1", "2"}}},
      {"a,b\r\n1,2", {{"a", "b"}, {"1", "2"}}},  // RFC 4180, 2.1 and 2.2: the last line end may be missing
      {"a,b\r1,2\r", {{"a", "b"}, {"1", "2"}}},  // a lone CR ends a line too
      {"a,b\n\n\n1,2\n\n", {{"a", "b"}, {"1", "2"}}},
      {" a , b\n", {{" a ", " b"}}},  // 2.4: blanks are part of a field
      {",\n", {{"", ""}}},
      {"a,", {{"a", ""}}},
      {"\"\"", {{""}}},
      {"\"\",\"\"\n", {{"", ""}}},
      {"\"a,b\",c\n", {{"a,b", "c"}}},               // 2.6
      {"\"a\r\nb\nc\",d\n", {{"a\r\nb\nc", "d"}}},   // a field's own line ends stay as they are
      {"\"\n\n\"\n", {{"\n\n"}}},                    // empty lines inside quotes stay
      {"\"say \"\"yes\"\"\"\n", {{"say \"yes\""}}},  // 2.7
      {"\"\"\"\"\n", {{"\""}}},
      {"\"\"\"a\"\"\",\"\"\"\"\"\"\n", {{"\"a\"", "\"\""}}},
      {"=1+1,-2,@home,+3\n", {{"=1+1", "-2", "@home", "+3"}}},
      {"=\"0123\",=\"7\"\n=\"8\"", {{"=\"0123\"", "=\"7\""}, {"=\"8\""}}},  // a spreadsheet's guard is plain text
  };
  for (const Case& one : cases) {
    INFO(one.text);
    CHECK(read_all(one.text) == one.rows);
  }
}

TEST_CASE("the delimiter is the one that was named and no other") {
  CHECK(read_all("a;b,c\td\n", ';') == std::vector<Row>{{"a", "b,c\td"}});
  CHECK(read_all("a;b,c\td\n", '\t') == std::vector<Row>{{"a;b,c", "d"}});
  CHECK(read_all("\"a;b\";c\n", ';') == std::vector<Row>{{"a;b", "c"}});
}

TEST_CASE("records and fields know where they are") {
  const std::string_view text = "Nr,Text\r\n\r\n7,\"Ähre\nund Öl\",ß,x\n";
  CsvReader reader(text, ',', "orders.csv");
  CHECK((*reader.next())->number == 1);
  CHECK(reader.line() == 1);
  const auto record = **reader.next();
  CHECK(record.number == 2);
  CHECK(reader.line() == 3);
  REQUIRE(record.fields.size() == 4);
  CHECK(record.fields[1].line == 3);
  CHECK(record.fields[1].column == 3);
  CHECK(record.fields[1].quoted);
  CHECK(text.substr(record.fields[1].byte, 1) == "\"");
  CHECK(record.fields[2].line == 4);
  CHECK(record.fields[2].column == 9);  // characters, not bytes
  CHECK_FALSE(record.fields[2].quoted);
  CHECK(text.substr(record.fields[2].byte) == "ß,x\n");
  CHECK(record.fields[3].column == 11);
}

TEST_CASE("bytes that are passed over still count") {
  const std::string_view text = "sep=;\r\na;b\n";
  CsvReader reader(text, ';', "orders.csv", 7);
  const auto record = **reader.next();
  CHECK(record.number == 1);
  CHECK(record.fields[0].line == 2);
  CHECK(record.fields[1].byte == 9);
  CsvReader beyond("a", ',', "orders.csv", 99);
  CHECK_FALSE(beyond.next());
}

TEST_CASE("a quote that is not closed is told where it opens and swallows nothing") {
  // The next quote opens Cleo's text, and so cannot be the one that closes Anna's.
  const auto rows = read_all("1042,\"Anna,1\n1043,Bert,1\n1044,\"Cleo, Dora\",2\n");
  REQUIRE(rows.size() == 3);
  CHECK(rows[0] == Row{"! orders.csv:1:6: a quote is opened and not closed: the next single quote is on line 3 and has "
                       "more text behind it. Close the quote, and double every quote that belongs to the words (\"\"); "
                       "reading went on at the next line."});
  CHECK(rows[1] == Row{"1043", "Bert", "1"});
  CHECK(rows[2] == Row{"1044", "Cleo, Dora", "2"});
}

TEST_CASE("a quote that is open at the end of the file loses only its own line") {
  const auto rows = read_all("1,\"\"\"Anna\"\"\n2,Bert\n3,Cleo");
  REQUIRE(rows.size() == 3);
  CHECK_THAT(rows[0][0], Contains("orders.csv:1:3: a quote is opened and not closed: the file ends before"));
  CHECK(rows[1] == Row{"2", "Bert"});
  CHECK(rows[2] == Row{"3", "Cleo"});
}

TEST_CASE("a quote that opens behind a text of several lines names the row's first line too") {
  const auto rows = read_all("1,\"Anna\nBert\",\"oak\n2,Cleo,ash\n");
  REQUIRE(rows.size() == 2);
  CHECK_THAT(rows[0][0], Contains("orders.csv:2:7: a quote is opened") && Contains("the row begins on line 1."));
  CHECK(rows[1] == Row{"2", "Cleo", "ash"});
}

TEST_CASE("text after a closing quote is a fault of its line") {
  const auto rows = read_all("1,\"Anna\"x,2\n2,\"Bert\" ,3\n3,Cleo,4\n");
  REQUIRE(rows.size() == 3);
  CHECK(rows[0] == Row{"! orders.csv:1:9: text after a closing quote: a field that begins with a quote ends with one. "
                       "Put the whole field in quotes, and double every quote that belongs to the words (\"\")."});
  CHECK_THAT(rows[1][0], Contains("orders.csv:2:9: text after a closing quote"));
  CHECK(rows[2] == Row{"3", "Cleo", "4"});
}

TEST_CASE("a quote in the middle of an unquoted field is a fault of its line") {
  const auto rows = read_all("1,Anna \"Kat\" B\n2, \"Bert\"\n3,=\"7\"x\n4,=\"7,8\"\n5,=\"\n6,=\"a,\n7,Cleo\n");
  REQUIRE(rows.size() == 7);
  CHECK(rows[0] == Row{"! orders.csv:1:8: a quote in the middle of a field that is not quoted: only a field that is "
                       "quoted as a whole may hold quotes. Put the whole field in quotes, and double every quote that "
                       "belongs to the words (\"\")."});
  CHECK_THAT(rows[1][0], Contains("orders.csv:2:4: a quote in the middle"));
  CHECK_THAT(rows[2][0], Contains("orders.csv:3:4: a quote in the middle"));
  CHECK_THAT(rows[3][0], Contains("orders.csv:4:4: a quote in the middle"));
  CHECK_THAT(rows[4][0], Contains("orders.csv:5:4: a quote in the middle"));
  CHECK_THAT(rows[5][0], Contains("orders.csv:6:4: a quote in the middle"));
  CHECK(rows[6] == Row{"7", "Cleo"});
}

TEST_CASE("a NUL is a fault, and the record is passed over as a whole") {
  using namespace std::string_literals;
  const auto rows = read_all("1,\"Anna\nBe\0rt\",x\n2,Cleo,y\n"s);
  REQUIRE(rows.size() == 2);
  CHECK(rows[0] == Row{"! orders.csv:2:3: a NUL character: no text holds one: the file is damaged, or in another "
                       "encoding than was taken; the row begins on line 1. Export the orders again, as UTF-8."});
  CHECK(rows[1] == Row{"2", "Cleo", "y"});
}

TEST_CASE("a fault names its column once the columns have names") {
  using namespace std::string_literals;
  const std::string text = "1,An\"na,x\n2,\"Bert\"y,x\n3,\"Cleo\n4,a,\0b\n5,x,y,\"z\"0\n"s;
  CsvReader reader(text, ',', "orders.csv");
  reader.name_columns({"Order", "Text", "Note"});
  const auto rows = read_all(reader);
  REQUIRE(rows.size() == 5);
  CHECK_THAT(rows[0][0], Contains("orders.csv:1:5, column \"Text\": a quote in the middle"));
  CHECK_THAT(rows[1][0], Contains("orders.csv:2:9, column \"Text\": text after"));
  CHECK_THAT(rows[2][0], Contains("orders.csv:3:3, column \"Text\": a quote is opened"));
  CHECK_THAT(rows[3][0], Contains("orders.csv:4:5, column \"Note\": a NUL"));
  CHECK_THAT(rows[4][0], Contains("orders.csv:5:10: text after"));  // behind the last column
}

TEST_CASE("a faulty record keeps its number, so that those after it keep theirs") {
  CsvReader reader("a\"b\nc\n", ',', "orders.csv");
  CHECK_FALSE(reader.next()->ok());
  CHECK((*reader.next())->number == 2);
}

TEST_CASE("quotes that are never closed do not make the reader read everything again and again") {
  // Were each line read to the end of the file, these would be 2·10¹¹ steps.
  std::string text;
  for (int line = 0; line < 300'000; ++line) text += line % 2 == 0 ? "1,\"a\n" : "\"\"\"\",\"\"\n";
  CsvReader reader(text, ',', "orders.csv");
  std::size_t records = 0;
  while (reader.next()) ++records;
  CHECK(records == 300'000);
  CHECK_THAT(describe(only_fault("\"a")), Contains("orders.csv:1:1: a quote is opened and not closed"));
}

TEST_CASE("a written field is quoted where it must be") {
  CHECK(csv_field("").empty());
  CHECK(csv_field("Anna Bäcker") == "Anna Bäcker");
  CHECK(csv_field(" space ") == " space ");
  CHECK(csv_field("a,b") == "\"a,b\"");
  CHECK(csv_field("a;b") == "\"a;b\"");
  CHECK(csv_field("a\tb") == "\"a\tb\"");
  CHECK(csv_field("a\r\nb") == "\"a\r\nb\"");
  CHECK(csv_field("say \"yes\"") == "\"say \"\"yes\"\"\"");
  CHECK(csv_field("a=b-c@d+e") == "a=b-c@d+e");
}

TEST_CASE("a written field that a spreadsheet would run is made harmless") {
  // OWASP, CSV injection (= + - @ tab CR LF); ASVS 5.0, 1.2.10 (NUL); the full-width forms from memory.
  const std::string_view heads[] = {"=",  "+",  "-",  "@", "\t", "\r", "\n", std::string_view("\0", 1),
                                    "＝", "＋", "－", "＠"};
  for (const std::string_view head : heads) {
    const std::string text = std::string(head) + "1+1";
    INFO(text);
    CHECK(csv_field(text) == "\"'" + harmless(text, true) + "\"");
  }
  CHECK(csv_field("=HYPERLINK(\"x\")") == "\"'=HYPERLINK(\"\"x\"\")\"");
}

TEST_CASE("a written field steers no terminal") {
  CHECK(csv_field("a\x1B[31mb") == "a␛[31mb");
  CHECK(csv_field("a\u202Eb") == "a‹U+202E›b");
  CHECK(csv_field("paid\rheld") == "paid␍held");
}

TEST_CASE("what is written reads back the same, but for the guard") {
  const unsigned seed = Catch::rngSeed() != 0 ? Catch::rngSeed() : 1876;
  INFO("--rng-seed " << seed);
  std::mt19937 random(seed);
  const std::string_view pieces[] = {"a",    "Ö",  " ", ",", ";", "\t", "\"", "\n",
                                     "\r\n", "\r", "=", "-", "@", "'",  "𝔸",  "x"};
  for (int round = 0; round < 3000; ++round) {
    const char delimiter = ",;\t"[random() % 3];
    std::vector<Row> rows(1 + random() % 3);
    std::string text;
    for (Row& row : rows) {
      for (std::size_t field = 0; field < 3; ++field) {
        std::string& cell = row.emplace_back();
        for (auto length = random() % 6; length > 0; --length) cell += pieces[random() % std::size(pieces)];
        const std::string written = csv_field(cell);
        cell = harmless(cell, true);  // a carriage return alone is shown as its picture
        if (written.starts_with("\"'") && !cell.starts_with("'")) cell.insert(0, "'");
        text += (field == 0 ? "" : std::string(1, delimiter)) + written;
      }
      text += round % 2 == 0 ? "\n" : "\r\n";
    }
    INFO(text);
    REQUIRE(read_all(text, delimiter) == rows);
  }
}

}  // namespace ordinatio::csv_test
