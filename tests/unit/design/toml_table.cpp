#include "design/toml_table.h"

#include <catch2/catch.hpp>
#include <functional>

namespace ordinatio::toml_table_test {
using Catch::Contains;

namespace {

enum class Metal { brass, copper };
constexpr Word<Metal> metals[] = {{"brass", Metal::brass}, {"copper", Metal::copper}};

TomlFile parsed(std::string_view text) {
  auto file = TomlFile::parse(text, "a.toml");
  if (!file.ok()) FAIL(describe(file.fault()));
  return *file;
}

/// The message after `read` has read the text's root table; empty when nothing is wrong.
std::string message_of(std::string_view text, const std::function<void(TomlTable)>& read) {
  const TomlFile file = parsed(text);
  read(file.root());
  const auto fault = file.fault();
  return fault ? describe(*fault) : "";
}

std::string parse_message(std::string_view text) {
  const auto file = TomlFile::parse(text, "a.toml");
  return file.ok() ? "" : describe(file.fault());
}

}  // namespace

TEST_CASE("values of every kind are read") {
  const TomlFile file = parsed(
      "flag = true\nwhole = 7\nreal = 2.5\ntext = \"tab\\tand Łódź\"\nlist = [\"a\", \"\"]\npoint = [1, -2.5]\n"
      "points = [[0, 0], [1, 0.5]]\nbox = [1, 2, 30, 40.5]\nmetal = \"copper\"\n");
  TomlTable root = file.root();
  bool flag = false;
  int whole = 0;
  double real = 0, from_whole = 0;
  std::string text;
  std::vector<std::string> list;
  Point point;
  std::vector<Point> points;
  std::optional<Bounds> box;
  Metal metal = Metal::brass;
  CHECK(root.read("flag", flag));
  CHECK(root.read("whole", whole, 1, 9));
  CHECK(root.read("real", real, any_size));
  CHECK(root.read("whole", from_whole, any_size));
  CHECK(root.read("text", text));
  CHECK(root.read("list", list));
  CHECK(root.read("point", point, any_place));
  CHECK(root.read("points", points, any_place));
  CHECK(root.read("box", box));
  CHECK(root.read("metal", metal, metals));
  CHECK_FALSE(file.fault());
  CHECK(flag);
  CHECK(whole == 7);
  CHECK(real == 2.5);
  CHECK(from_whole == 7);
  CHECK(text == "tab\tand Łódź");
  CHECK(list == std::vector<std::string>{"a", ""});
  CHECK(point == Point{1, -2.5});
  CHECK(points == std::vector<Point>{{0, 0}, {1, 0.5}});
  CHECK(box == Bounds{1, 2, 31, 42.5});
  CHECK(metal == Metal::copper);
}

TEST_CASE("what is absent or wrong leaves the value as it was") {
  const TomlFile file = parsed("size = \"six\"\n");
  double size = 6;
  CHECK_FALSE(file.root().read("size", size, any_size));
  CHECK_FALSE(file.root().read("sighs", size, any_size));
  CHECK(size == 6);
  CHECK(file.faulty());
}

TEST_CASE("a number outside its range is refused, with its place") {
  struct Case {
    std::string_view text;
    NumberRange range;
    std::string message;
  };
  const Case cases[] = {
      {"a = -1", any_size, "a.toml:1:5: a must be more than 0 and at most 10000: it is -1."},
      {"a = 0", any_size, "a.toml:1:5: a must be more than 0 and at most 10000: it is 0."},
      {"\n\n  a=10000.5", any_size, "a.toml:3:5: a must be more than 0 and at most 10000: it is 10000.5."},
      {"a = -0.25", any_distance, "a.toml:1:5: a must be from 0 to 10000: it is -0.25."},
      {"a = nan", any_distance, "a.toml:1:5: a must be from 0 to 10000: it is nan."},
      {"a = inf", any_size, "a.toml:1:5: a must be more than 0 and at most 10000: it is inf."},
      {"a = -inf", any_place, "a.toml:1:5: a must be from -10000 to 10000: it is -inf."},
      {"a = 1e300", any_size, "a.toml:1:5: a must be more than 0 and at most 10000: it is huge."},
      {"a = -9223372036854775808", any_size,
       "a.toml:1:5: a must be more than 0 and at most 10000: it is huge and negative."},
      {"a = 10000", any_size, ""},
      {"a = 0", any_distance, ""},
  };
  for (const Case& c : cases) {
    CHECK(message_of(c.text, [&](TomlTable root) {
            double value = 1;
            root.read("a", value, c.range);
          }) == c.message);
  }
}

TEST_CASE("a whole number is neither a fraction nor out of its range") {
  const auto read = [](TomlTable root) {
    int value = 0;
    root.read("a", value, 1, 10);
  };
  CHECK(message_of("a = 3.0", read) == "a.toml:1:5: a must be a whole number: it is a number with decimals.");
  CHECK(message_of("a = 11", read) == "a.toml:1:5: a must be from 1 to 10: it is 11.");
  CHECK(message_of("a = 0", read) == "a.toml:1:5: a must be from 1 to 10: it is 0.");
  CHECK(message_of("a = 10", read).empty());
}

TEST_CASE("a value of the wrong kind is called by what it is") {
  const auto number = [](TomlTable root) {
    double value = 0;
    root.read("a", value, any_size);
  };
  CHECK(message_of("a = \"5\"", number) == "a.toml:1:5: a must be a number: it is text in quotes.");
  CHECK(message_of("a = true", number) == "a.toml:1:5: a must be a number: it is true or false.");
  CHECK(message_of("a = [5]", number) == "a.toml:1:5: a must be a number: it is a list.");
  CHECK(message_of("a = {b = 5}", number) == "a.toml:1:5: a must be a number: it is a table.");
  CHECK(message_of("a = 2026-11-25", number) == "a.toml:1:5: a must be a number: it is a date or a time.");
  CHECK(message_of("a = 5", [](TomlTable root) {
          std::string value;
          root.read("a", value);
        }) == "a.toml:1:5: a must be text in quotes: it is a whole number.");
  CHECK(message_of("a = 1", [](TomlTable root) {
          bool value = false;
          root.read("a", value);
        }) == "a.toml:1:5: a must be true or false: it is a whole number.");
}

TEST_CASE("text with a control character is refused") {
  const auto read = [](TomlTable root) {
    std::string value;
    root.read("a", value);
  };
  const std::string message = "a.toml:1:5: a must be plain text: it holds a line break or another control character.";
  CHECK(message_of("a = \"one\\ntwo\"", read) == message);
  CHECK(message_of("a = \"bell\\u0007\"", read) == message);
  CHECK(message_of("a = \"\\u0000\"", read) == message);
  CHECK(message_of("a = \"\\u007F\"", read) == message);
  CHECK(message_of("a = \"tab\\t\"", read).empty());
}

TEST_CASE("a list is wrong as a whole when one entry is, and the entry is pointed at") {
  const auto read = [](TomlTable root) {
    std::vector<std::string> value{"kept"};
    root.read("a", value);
    CHECK(value == std::vector<std::string>{"kept"});
  };
  CHECK(message_of("a = \"x\"", read) == "a.toml:1:5: a must be a list of texts in quotes: it is text in quotes.");
  CHECK(message_of("a = [\"x\", 2]", read) == "a.toml:1:11: each of a must be text in quotes: it is a whole number.");
}

TEST_CASE("points and boxes have as many numbers as they need") {
  const auto point = [](TomlTable root) {
    Point value;
    root.read("a", value, any_distance);
  };
  CHECK(message_of("a = [1]", point) == "a.toml:1:5: a must be [x, y]: its length is 1.");
  CHECK(message_of("a = 1", point) == "a.toml:1:5: a must be [x, y]: it is a whole number.");
  CHECK(message_of("a = [1, -1]", point) == "a.toml:1:9: each of a must be from 0 to 10000: it is -1.");
  const auto points = [](TomlTable root) {
    std::vector<Point> value;
    root.read("a", value, any_distance);
  };
  CHECK(message_of("a = [[1, 2], [3]]", points) == "a.toml:1:14: each of a must be [x, y]: its length is 1.");
  CHECK(message_of("a = [[1, 2], [3, nan]]", points) == "a.toml:1:18: each of a must be from 0 to 10000: it is nan.");
  const auto box = [](TomlTable root) {
    std::optional<Bounds> value;
    root.read("a", value);
    CHECK_FALSE(value);
  };
  CHECK(message_of("a = [1, 2, 3]", box) == "a.toml:1:5: a must be [left, bottom, width, height]: its length is 3.");
  CHECK(message_of("a = [1, 2, 0, 4]", box) ==
        "a.toml:1:5: a must be [left, bottom, width, height]: its width or height is 0.");
  CHECK(message_of("a = [1, 2, -3, 4]", box) == "a.toml:1:12: each of a must be from 0 to 10000: it is -3.");
}

TEST_CASE("a word that is not known comes with those that are, and the nearest") {
  const auto read = [](TomlTable root) {
    Metal value = Metal::brass;
    root.read("a", value, metals);
  };
  CHECK(message_of("a = \"coper\"", read) ==
        "a.toml:1:5: a must be one of brass, copper: it is \"coper\". The nearest is \"copper\".");
  CHECK(message_of("a = \"tin\"", read) == "a.toml:1:5: a must be one of brass, copper: it is \"tin\".");
  CHECK(message_of("a = 1", read) == "a.toml:1:5: a must be text in quotes: it is a whole number.");
}

TEST_CASE("a key that nobody asks for is unknown, and comes with the nearest that somebody does") {
  const auto read = [](TomlTable root) {
    double value = 0;
    TomlTable clear = root.table("clear");
    clear.read("margin", value, any_size);
    clear.read("gap", value, any_size);
  };
  CHECK(message_of("[clear]\nmargin = 5\n  margn = 6\n", read) ==
        "a.toml:3:3: unknown key \"margn\". The nearest known one is \"margin\".");
  CHECK(message_of("[clear]\nzebra = 6\n", read) == "a.toml:2:1: unknown key \"zebra\". [clear] takes margin, gap.");
  CHECK(message_of("[cleer]\nmargin = 6\n", read) ==
        "a.toml:1:2: unknown key \"cleer\". The nearest known one is \"clear\".");
  CHECK(message_of("gap = 6\n", read) == "a.toml:1:1: unknown key \"gap\". It belongs in [clear].");
  CHECK(message_of("zebra = 6\n", read) == "a.toml:1:1: unknown key \"zebra\". The file takes clear.");
}

TEST_CASE("a table may stand once or many times, and a missing one is empty") {
  const TomlFile once = parsed("[part]\nsize = 1\n");
  CHECK(once.root().tables("part").size() == 1);
  const TomlFile twice = parsed("[[part]]\nsize = 1\n[[part]]\nsize = 2\n");
  std::vector<double> sizes;
  for (TomlTable& part : twice.root().tables("part")) part.read("size", sizes.emplace_back(), any_size);
  CHECK(sizes == std::vector<double>{1, 2});
  CHECK(twice.root().tables("other").empty());
  CHECK_FALSE(twice.root().table("other").present());
  CHECK_FALSE(twice.root().table("other").has("size"));
  CHECK(once.root().table("part").present());
}

TEST_CASE("a table that is none is refused") {
  const auto one = [](TomlTable root) { root.table("part"); };
  const auto many = [](TomlTable root) { root.tables("part"); };
  CHECK(message_of("part = 3", one) == "a.toml:1:8: part must be a table: it is a whole number.");
  CHECK(message_of("part = 3", many) == "a.toml:1:8: part must be a table: it is a whole number.");
  CHECK(message_of("part = [3]", many) == "a.toml:1:9: each of part must be a table: it is a whole number.");
}

TEST_CASE("keys of inner tables are named with their table") {
  CHECK(message_of("[text]\ncap_height = {min = -3}\n", [](TomlTable root) {
          double value = 0;
          root.table("text").table("cap_height").read("min", value, any_size);
        }) == "a.toml:2:21: text.cap_height.min must be more than 0 and at most 10000: it is -3.");
}

TEST_CASE("a missing key is asked for where it belongs") {
  CHECK(message_of("x = 1\n[blank]\n", [](TomlTable root) {
          root.has("x");
          root.table("blank").require("width", "width = 100");
        }) == "a.toml:2:1: blank.width is missing. Write, for example: width = 100.");
}

TEST_CASE("faults come in the file's order, as one message with a line for each") {
  const auto read = [](TomlTable root) {
    double value = 0;
    root.read("b", value, any_size);
    root.read("a", value, any_size);
  };
  const std::string message = message_of("a = -1\nzebra = 0\nb = nan\n", read);
  CHECK(message ==
        "a.toml:1:5: a must be more than 0 and at most 10000: it is -1.\n"
        "a.toml:2:1: unknown key \"zebra\". The file takes b, a.\n"
        "a.toml:3:5: b must be more than 0 and at most 10000: it is nan.");
}

TEST_CASE("no more faults are shown than a person reads") {
  std::string text;
  for (int i = 0; i < 30; ++i) text += "key" + std::to_string(i) + " = 0\n";
  const std::string message = message_of(text, [](TomlTable) {});
  CHECK(std::ranges::count(message, '\n') == shown_faults);
  CHECK_THAT(message, Contains("and 10 more"));
}

TEST_CASE("broken TOML is refused with line and column") {
  const std::string mend = "Numbers take a point (5.5), words stand in quotes, lists in [ ].";
  CHECK(
      parse_message("a = 5,5\n") ==
      "a.toml:1:6: this is not TOML: Error while parsing key-value pair: expected a comment or whitespace, saw ','. " +
          mend);
  CHECK_THAT(parse_message("a = 1\nb = five\n"), Contains("a.toml:2:6: this is not TOML"));
  CHECK_THAT(parse_message("a = 1\na = 2\n"), Contains("a.toml:2:5: ") && Contains("cannot redefine"));
  CHECK_THAT(parse_message("[a\n"), Contains("a.toml:1:3: "));
  CHECK_THAT(parse_message("a = \"\xFF\"\n"), Contains("a.toml:1:5: ") && Contains("utf-8"));
  CHECK_THAT(parse_message("a = 1e400\n"), Contains("a.toml:1:10: "));
  CHECK_THAT(parse_message(std::string_view("a = \0", 5)), Contains("a.toml:1:"));
}

TEST_CASE("a byte order mark, CRLF and an empty file are fine") {
  const auto read = [](TomlTable root) {
    double value = 0;
    root.read("a", value, any_size);
  };
  CHECK(message_of("\xEF\xBB\xBF"
                   "a = 1\r\n",
                   read)
            .empty());
  CHECK(message_of("", read).empty());
}

TEST_CASE("columns count characters, not bytes") {
  CHECK(message_of("a = [\"äöü\", 1]", [](TomlTable root) {
          std::vector<std::string> value;
          root.read("a", value);
        }) == "a.toml:1:13: each of a must be text in quotes: it is a whole number.");
}

TEST_CASE("any byte where a table's name should begin is a message, never the end of the program") {
  for (int byte = 0; byte < 256; ++byte) {
    for (const std::string brackets : {"[", "[[", "[ "}) {
      const std::string text = brackets + static_cast<char>(byte) + "=1\n[a]\n";
      const auto file = TomlFile::parse(text, "a.toml");
      if (!file.ok()) CHECK_THAT(file.fault().where, Contains("a.toml:"));
    }
  }
}

TEST_CASE("what no person writes is refused before it is parsed") {
  CHECK_THAT(parse_message(std::string(toml_limit + 1, ' ')), Contains("larger than a MiB"));
  std::string deep;  // 500,000 tables, one in the other, end the stack of the parser's destructors
  for (int i = 0; i < 500'000; ++i) deep += "a.";
  CHECK_THAT(parse_message(deep + "a = 1"), Contains("more than 5000 dots"));
}

TEST_CASE("the deepest nesting that is let through does not end the stack") {
  std::string deep;
  for (std::size_t i = 0; i < toml_dot_limit; ++i) deep += "a.";
  CHECK(message_of(deep + "a = 1", [](TomlTable root) { root.has("a"); }).empty());
  CHECK_THAT(parse_message("a = " + std::string(100'000, '[')), Contains("nested value depth"));
}

}  // namespace ordinatio::toml_table_test
