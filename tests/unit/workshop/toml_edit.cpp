#include "workshop/toml_edit.h"

#include <catch2/catch.hpp>

#include "workshop/shipped_texts.h"

namespace ordinatio::toml_edit_test {

namespace {

std::string edited(std::string_view text, const std::vector<TomlEdit>& edits) {
  const Result<std::string> result = edited_toml(text, edits, "file");
  return result.ok() ? *result : "fault: " + result.fault().what;
}

}  // namespace

TEST_CASE("a value changes, and nothing else of the file") {
  CHECK(edited("# mine\n[machine]\nwidth = 600   # of the bed\nheight=400\n", {{"machine", "width", "812.8"}}) ==
        "# mine\n[machine]\nwidth = 812.8   # of the bed\nheight=400\n");
  CHECK(edited("name = \"Æthel — Mühle\" # é\n", {{"", "name", "\"x\""}}) == "name = \"x\" # é\n");
  CHECK(edited("[a]\nlist = [ 1,\n  2 ] # two\n", {{"a", "list", "[3]"}}) == "[a]\nlist = [3] # two\n");
  CHECK(edited("[orders]\nlabels = { text = [\"Wording\"] }\n", {{"orders.labels", "text", "[\"Words\"]"}}) ==
        "[orders]\nlabels = { text = [\"Words\"] }\n");
  CHECK(edited("[a]\r\nb = 1\r\n", {{"a", "b", "2"}}) == "[a]\r\nb = 2\r\n");
}

TEST_CASE("a key that is shown in a comment stands where it was shown") {
  CHECK(edited("[orders]\ntext = \"Text\"\n# note = \"Note\"   # the customer's words\nquantity = \"\"\n",
               {{"orders", "note", "\"Message\""}}) ==
        "[orders]\ntext = \"Text\"\nnote = \"Message\"   # the customer's words\nquantity = \"\"\n");
  CHECK(edited("[a]\nb = 1\n\n# [ledger]    # to keep one\n# file = \"x\"  # its name\n",
               {{"ledger", "file", "\"y\""}}) == "[a]\nb = 1\n\n[ledger]    # to keep one\nfile = \"y\"  # its name\n");
}

TEST_CASE("a key that the file does not know comes last in its table, a table last in the file") {
  CHECK(edited("[a]\nb = 1\n\n[c]\nd = 2\n", {{"a", "e", "3"}}) == "[a]\nb = 1\ne = 3\n\n[c]\nd = 2\n");
  CHECK(edited("[a]\nb = 1", {{"c", "d", "2"}}) == "[a]\nb = 1\n\n[c]\nd = 2\n");
  CHECK(edited("about = 1\n\n[a]\nb = 1\n", {{"", "side", "\"back\""}}) ==
        "about = 1\nside = \"back\"\n\n[a]\nb = 1\n");
}

TEST_CASE("what is no value, or would be more than one, is refused") {
  const std::string text = "[a]\nb = 1\n";
  for (const char* value : {" ", "slate", "1 2", "1\nc = 2", "[1,\n2]", "\"open", "1 # and"})
    CHECK(edited(text, {{"a", "b", value}}).starts_with("fault"));
  CHECK(edited("no toml [", {{"a", "b", "2"}}).starts_with("fault"));
}

TEST_CASE("a key that is to stand no more becomes a comment, and comes back in its place") {
  const std::string before = "corner = 3  # radius\n[a]\nb = 1\nc = 2\n";
  const std::string without = edited(before, {{"", "corner", ""}, {"a", "b", ""}});
  CHECK(without == "# corner = 3  # radius\n[a]\n# b = 1\nc = 2\n");
  CHECK(edited(without, {{"", "corner", "3"}, {"a", "b", "1"}}) == before);
  CHECK(edited(before, {{"a", "none", ""}}) == before);
  CHECK(edited("[a]\nb = [1,\n  2]\n", {{"a", "b", ""}}).starts_with("fault"));
}

TEST_CASE("any words are a string of TOML, and stand as one line") {
  for (const std::string words : {"Mill", "a \"b\" \\ c", "tab\tand\nline", "Mühle 水車", "\x7F\x01"}) {
    const std::string text = edited("[a]\nb = 1\n", {{"a", "b", toml_text(words)}});
    CHECK(text.starts_with("[a]\nb = \""));
    CHECK(std::ranges::count(text, '\n') == 2);
  }
}

TEST_CASE("the shipped shop.toml takes every key that the desk writes, with its comments in their place") {
  const std::string before(shop_toml());
  const std::string after = edited(before, {{"shop", "name", "\"Quernby\""},
                                            {"ledger", "file", "\"workshop.ledger\""},
                                            {"machine", "width", "812"},
                                            {"orders", "note", "\"Message\""},
                                            {"orders.labels", "text", "[\"Wording\"]"}});
  CHECK(std::ranges::count(after, '\n') == std::ranges::count(before, '\n'));
  CHECK(after.find("[ledger]                         # take out") != std::string::npos);
  CHECK(after.find("\nnote = \"Message\"                    # the customer's words to you") != std::string::npos);
}

TEST_CASE("what stands in braces changes, comes and goes alone") {
  const std::string text = "[text]\ncap_height = { min = 3, max = 25 }   # mm\nair = 0.1\n";
  const auto with = [&](const std::string& braces) {
    return "[text]\ncap_height = " + braces + "   # mm\nair = 0.1\n";
  };
  CHECK(edited(text, {{"text.cap_height", "min", "4.5"}}) == with("{ min = 4.5, max = 25 }"));
  CHECK(edited(text, {{"text.cap_height", "min", ""}}) == with("{ max = 25 }"));
  CHECK(edited(text, {{"text.cap_height", "max", ""}}) == with("{ min = 3 }"));
  CHECK(edited(with("{ max = 25 }"), {{"text.cap_height", "min", "3"}}) == with("{ max = 25, min = 3 }"));
  CHECK(edited(with("{max=25}"), {{"text.cap_height", "min", "3"}}) == with("{max=25, min = 3}"));
  CHECK(edited(with("{}"), {{"text.cap_height", "min", "3"}}) == with("{ min = 3 }"));
  CHECK(edited(with("{ max = 25 }"), {{"text.cap_height", "max", ""}, {"text.cap_height", "min", "2"}}) ==
        with("{ min = 2 }"));
  CHECK(edited("a = [ { b = 1, c = 2 }, { b = 3, c = 4 } ]\n", {{"a[1]", "b", ""}}) ==
        "a = [ { b = 1, c = 2 }, { c = 4 } ]\n");
}

TEST_CASE("of tables that stand there more than once the one that is meant is edited") {
  const std::string text = "[[text]]\nfont = \"a\"\n# case = \"upper\"\n\n[[text]]  # the date\nfont = \"b\"\n";
  CHECK(edited(text, {{"text[1]", "font", "\"c\""}}) ==
        "[[text]]\nfont = \"a\"\n# case = \"upper\"\n\n[[text]]  # the date\nfont = \"c\"\n");
  CHECK(edited(text, {{"text[0]", "case", "\"lower\""}}) ==
        "[[text]]\nfont = \"a\"\ncase = \"lower\"\n\n[[text]]  # the date\nfont = \"b\"\n");
  CHECK(edited(text, {{"text[1]", "air", "0.1"}}) == text + "air = 0.1\n");
  CHECK(edited(text, {{"text[0]", "font", ""}}).starts_with("[[text]]\n# font = \"a\"\n"));
  CHECK(edited(text, {{"text[2]", "font", "\"d\""}}) == text + "\n[[text]]\nfont = \"d\"\n");
  CHECK(edited(text, {{"text[3]", "font", "\"d\""}}).starts_with("fault"));  // it would be the third
  CHECK(edited("a = 1\n# [[border]]  # a line\n# width = 1\n", {{"border[0]", "width", "2"}}) ==
        "a = 1\n[[border]]  # a line\nwidth = 2\n");
}

TEST_CASE("an edit by which anything else would be read otherwise is refused") {
  CHECK(edited("[a]\nb = { c = 1 }\n", {{"a", "b", ""}}) == "[a]\n# b = { c = 1 }\n");
  CHECK(edited("a = { b = 1, c = { d = 2 } }\n", {{"a.c", "d", ""}}) == "a = { b = 1, c = {} }\n");
  CHECK(edited("[a]\nb = 1\n[[c]]\nd = 1\n[c.e]\nf = 1\n", {{"a", "g", "2"}}) ==
        "[a]\nb = 1\ng = 2\n[[c]]\nd = 1\n[c.e]\nf = 1\n");
  CHECK(edited("[a]\ns = '''\nb = 2\n# '''\n", {{"a", "s", ""}}).starts_with("fault"));  // b would be a key
  // The heading's spelling is not the usual one: by hand, rather than into another table.
  CHECK(edited("[ a ]\nb = 1\n", {{"a", "c", "2"}}).starts_with("fault"));
  CHECK(edited("t = \"\"\"\n[a]\n\"\"\"\n[a]\nb = 1\n", {{"a", "c", "2"}}).starts_with("fault"));
  CHECK(edited("[a]\nx = 1\n[b]\nc = \"\"\"\n# y = 2\n\"\"\"\n", {{"b", "y", "3"}}).starts_with("fault"));
}

TEST_CASE("a file that its reader would refuse unread is refused here, too") {
  std::string dots = "a";
  for (int i = 0; i < 20'000; ++i) dots += ".a";
  CHECK(edited(dots + " = 1\n", {{"", "b", "2"}}).starts_with("fault"));
  CHECK(edited(std::string(2UL << 20U, '\n'), {{"", "b", "2"}}).starts_with("fault"));
  CHECK(edited("b = 1\n", {{"", "b", std::string(5'000, '[') + std::string(5'000, ']')}}).starts_with("fault"));
}

}  // namespace ordinatio::toml_edit_test
