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
  for (const char* value : {" ", "slate", "1 2", "1\nc = 2", "\"open", "1 # and"})
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

}  // namespace ordinatio::toml_edit_test
