#include "blanks/row_edit.h"

#include <catch2/catch.hpp>

#include "blanks/blanks.h"

namespace ordinatio::row_edit_test {
using Catch::Contains;
namespace {

const BlankCells piece{{"id", "S-9"}, {"width", "198.5"}, {"note", "a \"mill\"; chipped, worn"}};

std::string added(std::string_view bytes, const BlankCells& cells = piece) {
  const auto now = with_row_added(bytes, cells, "blanks.csv");
  if (!now.ok()) FAIL(describe(now.fault()));
  return *now;
}
std::string refused(std::string_view bytes, const BlankCells& cells = piece) {
  const auto now = with_row_added(bytes, cells, "blanks.csv");
  REQUIRE_FALSE(now.ok());
  return describe(now.fault());
}
std::string changed(std::string_view bytes, const BlankCells& cells) {
  const auto now = with_row_changed(bytes, "S-1", cells, "blanks.csv");
  if (!now.ok()) FAIL(describe(now.fault()));
  return *now;
}
std::string removed(std::string_view bytes, const std::string& id = "S-9") {
  const auto now = with_row_removed(bytes, id, "blanks.csv");
  if (!now.ok()) FAIL(describe(now.fault()));
  return *now;
}

}  // namespace

TEST_CASE("a row is added as the file writes its rows, and every other byte stays") {
  const std::string words = "\"a \"\"mill\"\"; chipped, worn\"";
  const std::pair<std::string, std::string> cases[]{
      {"id,width,note\nS-1,,\n", "S-9,198.5," + words + "\n"},
      {"id;width;note\nS-1;;\n", "S-9;198.5;" + words + "\n"},
      {"id\twidth\tnote\nS-1\t\t\n", "S-9\t198.5\t" + words + "\n"},
      {"sep=|\nid|width|note\nS-1||\n", "S-9|198.5|" + words + "\n"},
      {"id,width,note\r\nS-1,,\r\n", "S-9,198.5," + words + "\r\n"},
      {"id,width,note\rS-1,,\r", "S-9,198.5," + words + "\r"},
      {"id,width,note\nS-1,,", "\nS-9,198.5," + words},
      {"id,width,note\r\nS-1,,", "\r\nS-9,198.5," + words},
      {"\xEF\xBB\xBFid,width,note\nS-1,,\n", "S-9,198.5," + words + "\n"},
      {"\"id\",\"width\",\"note\"\n\"S-1\",\"\",\"\"\n", "\"S-9\",\"198.5\"," + words + "\n"},
      {" Note , ID ,Width,own\n,S-1,\"1\"\"\",x\n\n", words + ",S-9,198.5,\n"},
      {"id,width,note\n", "S-9,198.5," + words + "\n"}};
  for (const auto& [before, row] : cases) {
    INFO(before);
    CHECK(added(before) == before + row);
    CHECK(removed(before + row) == before);
  }
}

TEST_CASE("a column that the file lacks is added behind the others, empty in the other rows") {
  CHECK(added("id,note\nS-1,\"two\nlines\"\n\nS-2\nS-3,x\n") ==
        "id,note,width\nS-1,\"two\nlines\",\n\nS-2\nS-3,x,\nS-9,\"a \"\"mill\"\"; chipped, worn\",198.5\n");
  CHECK(added("id\nS-1", {{"id", "S-9"}, {"corners", ""}, {"width", "7"}}) == "id,width\nS-1,\nS-9,7");
  CHECK(added("", {{"id", "S-9"}, {"corners", ""}, {"note", "a,b"}}) == "id,note\nS-9,\"a,b\"\n");
}

TEST_CASE("cells of a row are changed, and nothing beside them") {
  const std::string before = "id;width;note\r\nS-0;1;\"a;b\"\r\nS-1;\"2\";'x'\r\nS-2;3;";
  CHECK(changed(before, {{"width", "2.5"}}) == "id;width;note\r\nS-0;1;\"a;b\"\r\nS-1;2.5;'x'\r\nS-2;3;");
  CHECK(changed(before, {{"note", "p;q"}, {"width", ""}}) ==
        "id;width;note\r\nS-0;1;\"a;b\"\r\nS-1;;\"p;q\"\r\nS-2;3;");
  CHECK(changed(before, {{"width", "2"}, {"note", "'x'"}}) == before);
  CHECK(changed(before, {{"chips", "top 1-2 3"}}) ==
        "id;width;note;chips\r\nS-0;1;\"a;b\";\r\nS-1;\"2\";'x';top 1-2 3\r\nS-2;3;;");
  CHECK(changed("id,width,note\nS-1,,\nS-2,,\n", {{"note", "x"}, {"width", "2"}}) == "id,width,note\nS-1,2,x\nS-2,,\n");
  CHECK(changed("id,width\nS-1,", {{"width", "2"}, {"note", "x"}}) == "id,width,note\nS-1,2,x");
  CHECK(changed("id,width\nS-1\nS-2\n", {{"note", "x"}}) == "id,width,note\nS-1,,x\nS-2\n");
}

TEST_CASE("a row is taken away with its line end, the last one, too") {
  CHECK(removed("id\nS-9\nS-1\n") == "id\nS-1\n");
  CHECK(removed("id\r\nS-1\r\nS-9") == "id\r\nS-1");
  CHECK(removed("id,note\nS-9,\"x\ny\"\r\nS-1,\n") == "id,note\nS-1,\n");
  const auto none = with_row_removed("id\nS-1\n", "S-9", "blanks.csv");
  REQUIRE_FALSE(none.ok());
  CHECK_THAT(describe(none.fault()), Contains("no row has the id \"S-9\""));
  const auto twice = with_row_removed("id\nS-9\nS-9\n", "S-9", "blanks.csv");
  REQUIRE_FALSE(twice.ok());
  CHECK_THAT(describe(twice.fault()), Contains("more than once"));
}

TEST_CASE("a file that is not understood, or a piece without an id of its own, is refused") {
  CHECK_THAT(refused("id\nS-9 \n"), Contains("blanks.csv:2: the id \"S-9\" is there already"));
  CHECK_THAT(refused("id\nS-1\n", {{"width", "7"}}), Contains("the piece has no id"));
  CHECK_THAT(refused("width\n7\n"), Contains("no column \"id\""));
  CHECK_THAT(refused("id,note\nS-1,gr\xFCn\n"), Contains("not in UTF-8"));
  CHECK_THAT(refused(std::string("\xFF\xFEi\0d\0\n\0", 8)), Contains("not in UTF-8"));
}

TEST_CASE("what is written reads back as it was meant, however the words are") {
  const Outline nominal = rectangle_outline(150, 100, Corner::square, 0);
  for (const std::string note : {"\"", "a;b", "tab\there", "two\nlines", "שלום, עולם", ",,,", "' '", "one|other"}) {
    for (const std::string before :
         {"id,note\nS-1,\n", "id;note\r\nS-1;", "\"id\"\n\"S-1\"\n", "sep=|\nid|note\nS-1|\n"}) {
      const std::string now = added(before, {{"id", "S-9"}, {"note", note}});
      const auto rows = parse_blanks(now, "blanks.csv", 150, 100, nominal, {});
      INFO(now);
      REQUIRE(rows.ok());
      REQUIRE(rows->rows.size() == 2);
      CHECK(rows->rows[1].note == note);
    }
  }
}

}  // namespace ordinatio::row_edit_test
