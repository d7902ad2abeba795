#include "orders/order_options.h"

#include <catch2/catch.hpp>
#include <random>

#include "orders/orders.h"
#include "workshop/shop_file.h"

namespace ordinatio::order_options_test {
using Catch::Contains;
using Texts = std::vector<std::string>;

namespace {

OptionLabels labels() {
  return {{"Wording", "Text"},
          {"A word to the maker"},
          {"Style"},
          {"Wood & finish", "Oak box", "Größe", "Frame, Wood"},
          {"Love", "In Memory"}};
}
Options taken(const std::string& cell, const OptionLabels& by = labels()) {
  INFO(cell);
  auto options = OptionsReader(by).read(cell);
  if (!options.ok()) FAIL(describe(options.fault()));
  return *options;
}
std::string refused(const std::string& cell) {
  INFO(cell);
  const auto options = OptionsReader(labels()).read(cell);
  REQUIRE_FALSE(options.ok());
  CHECK(options.fault().where.empty());
  CHECK_FALSE(options.fault().mend.empty());
  return describe(options.fault());
}

}  // namespace

TEST_CASE("a value runs from its label to the next one, and holds commas, colons and line ends") {
  struct Case {
    std::string cell;
    Texts texts;
  };
  const Case cases[] = {
      {"Wording: Anna", {"Anna"}},
      {"Wording:Anna", {"Anna"}},
      {"  wording :  Anna  ", {"Anna"}},
      {"WORDING: Anna, Oak box: yes", {"Anna"}},
      {"Oak box: yes, Wording: Anna", {"Anna"}},
      {"Oak box: yes,Wording: Anna;Style: oak", {"Anna"}},
      {"Oak box: yes | Wording: Anna | Style: oak", {"Anna"}},
      {"Oak box: yes\r\nWording: Anna\r\n& Bert\r\n\r\nStyle: oak", {"Anna\r\n& Bert"}},
      {"Oak box: yes\rWording: Anna\rStyle: oak", {"Anna"}},
      {"Wording: Anna, Bert; Cleo | Dora, Oak box: no", {"Anna, Bert; Cleo | Dora"}},
      {"Wording: 10:30, 4:5, a: b, Oak box: no", {"10:30, 4:5, a: b"}},
      {"Wording: To: Mum, Oak box: no", {"To: Mum"}},                         // behind no separator
      {"Wording: See Oak box: yes", {"See Oak box: yes"}},                    // nor this
      {"Wording: Anna\nhttps://example.org", {"Anna\nhttps://example.org"}},  // small letters
      {"Wording: Anna\nJohn 3:16", {"Anna\nJohn 3:16"}},                      // no space behind the colon
      {"Wording: A\nB C D E F: g", {"A\nB C D E F: g"}},                      // five words
      {"Oak\u00A0 box: yes; Wording: Anna", {"Anna"}},
      {"Wood &amp; finish: oak; Wording: Tom &amp; Jerry", {"Tom &amp; Jerry"}},
      {"Wood & finish: oak; Wording: Tom &amp; Friends: all", {"Tom &amp; Friends: all"}},
      {"GR\u00D6SSE: 3; Gr\u00F6\u00DFe: 1; Wording: Anna", {}},  // ß is not SS: seen as unknown
      {"gr\u00F6\u00DFe: 3; Wording: Anna", {"Anna"}},
      {"Gr&ouml;&#223;e: 3; Wording: Anna", {"Anna"}},
      {"; Wording: Anna", {"Anna"}},
      {"Frame, wood: red; Wording: Anna", {"Anna"}},
      {"Wording: Anna, Frame, Wood: red", {"Anna"}},
      {"Wording: Anna&#44; Style: oak", {"Anna&#44; Style: oak"}},  // a comma that was typed
      {"Wording: - Mum -; Oak box: no", {"- Mum -"}},
      {"Oak box: no; Wording: @home", {"@home"}},
      {"Oak box: =1+1; Wording: =E=mc²", {"=E=mc²"}},
      {"Wording: Anna\nLove: Mum, love: Dad, In memory: Bob", {"Anna\nLove: Mum, love: Dad, In memory: Bob"}},
  };
  for (const Case& one : cases) {
    if (one.texts.empty()) {
      CHECK_THAT(refused(one.cell), Contains("looks like an option"));
      continue;
    }
    INFO(one.cell);
    CHECK(taken(one.cell).texts == one.texts);
    CHECK_FALSE(taken(one.cell).open_ended);
  }
}

TEST_CASE("only the separator before the next label is taken off a value") {
  struct Case {
    std::string cell, text;
    bool open_ended;
  };
  const Case cases[] = {
      {"Text: Anna;\nStyle: oak", "Anna", false},  // `;` and a line end part together
      {"Text: Anna |\r\n Style: oak", "Anna", false},
      {"Text: Love always,\nStyle: oak", "Love always,", true},  // a comma at a line's end may be the customer's
      {"Text: Anna;; Style: oak", "Anna;", true},
      {"Text: Anna, | Style: oak", "Anna,", true},
      {"Text: Anna;", "Anna;", true},
      {"Style: oak; Text: Anna &amp;", "Anna &amp;", false},
      {"Text: Anna &amp;\nStyle: oak", "Anna &amp;", false},
      {"Text: Anna &amp;; Style: oak", "Anna &amp;", false},
  };
  for (const Case& one : cases) {
    INFO(one.cell);
    const Options options = taken(one.cell);
    CHECK(options.texts == Texts{one.text});
    CHECK(options.open_ended == one.open_ended);
  }
}

TEST_CASE("notes and designs come behind labels of their own") {
  const Options options = taken(
      "A word to the maker: Thank you: a lot, x\nStyle: oak\nA word to the maker: in a hurry\nWording: Anna\n"
      "Style: \nOak box: red");
  CHECK(options.texts == Texts{"Anna"});
  CHECK(options.notes == Texts{"Thank you: a lot, x", "in a hurry"});
  CHECK(options.designs == Texts{"oak"});
}

TEST_CASE("several texts come in the order of their numbers, else of the cell") {
  CHECK(taken("Text: B; Text: A").texts == Texts{"B", "A"});
  CHECK(taken("Text: B; Wording: A; Text: C").texts == Texts{"B", "A", "C"});
  CHECK(taken("Text 2: B\nText 10: C\nText 1: A").texts == Texts{"A", "B", "C"});
  CHECK(taken("text  02 : B; TEXT 1: A").texts == Texts{"A", "B"});
  CHECK(taken("Text 2: B; Text: A").texts == Texts{"A", "B"});  // without a number it is the first
  CHECK(taken("Oak box 2: no; Text 1: A").texts == Texts{"A"});
  OptionLabels by = labels();
  by.other.push_back("Text 2");  // a label that is named as it stands goes before
  CHECK(taken("Text 1: A; Text 2: B", by).texts == Texts{"A"});
}

TEST_CASE("what no label claims is held") {
  struct Case {
    std::string cell, words;
  };
  const Case cases[] = {
      {"Anna",
       "no option is named in \"Anna\": the words to engrave are looked for behind a label such as "
       "`Wording:`"},
      {"Anna: Bert", "\"Anna\" looks like an option that shop.toml does not name"},
      {"anna; Text: Bert", "there are words before the first option: \"anna\""},
      {"Style: oak", "no text: no option `Wording:` is in the cell"},
      {"Text: ; Style: oak", "no text: nothing stands behind `Text:`"},
      {"Text 1: A; Text 2: ; Style: oak", "no text: nothing stands behind `Text 2:`"},
      {"Text 1: A; text 1: B", "`text 1:` is there twice"},
      {"Text: Anna; Font: serif", "\"Font\" looks like an option that shop.toml does not name"},
      {"Text: Anna, Font size: 3", "\"Font size\" looks like"},
      {"Text: Anna\nRibbon bow:", "\"Ribbon bow\" looks like"},
      {"Text: Anna\nRibbon bow:\nStyle: oak", "\"Ribbon bow\" looks like"},
      {"Style: oak | Line 2: Bert | Text: Anna", "\"Line 2\" looks like"},
      {"Text: Anna\nName & date: x", "\"Name & date\" looks like"},
      {"Text: Anna\nName &amp; date: x", "\"Name &amp; date\" looks like"},
      {"Text: Anna\nL'\u00E9t\u00E9-Farbe/Ton: x", "looks like"},
      {"Text: Anna\n\u0426\u0432\u0435\u0442 : x", "looks like"},
      {"Text: Anna\nLove you: x", "\"Love you\" looks like"},  // `Love` alone is named among the words
      {"A word to the maker: hello; Texxt: Bert; Text: Anna", "\"Texxt\" looks like"},
  };
  for (const Case& one : cases) CHECK_THAT(refused(one.cell), Contains(one.words));
  CHECK_THAT(
      refused("Text: Anna; Font: serif"),
      Contains("Name it in shop.toml under [orders.labels]: in other, if it is to be passed over, or in words, if "
               "it is to be engraved as it stands"));
}

TEST_CASE("cells of random options come back as they were") {
  const unsigned seed = Catch::rngSeed() != 0 ? Catch::rngSeed() : 1042;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const auto pick = [&random](const auto& from) -> const auto& {
    return from[std::uniform_int_distribution<std::size_t>(0, std::size(from) - 1)(random)];
  };
  const auto count = [&random](int least, int most) { return std::uniform_int_distribution<int>(least, most)(random); };
  // No colon: what looks like a label is held. No separator at the end: it may be the export's.
  const char* const pieces[] = {"Anna",  "a, b", "x;y", "|",    " & ",  "&amp;",  "\n", "\r\n", "é", "- Mum -",
                                "@home", "=E²",  "+",   "é:30", "Text", "Text 2", "\"", "،",    "ß", "Oak box"};
  const char* const separators[] = {"\n", "\r\n", "|", " | ", ";", "; ", ",", ", ", ";\n", "|\r\n"};
  struct Label {
    const char* word;
    Texts Options::*values;
  };
  const Label known[] = {{"Text", &Options::texts},
                         {"wording", &Options::texts},
                         {"A word  to the maker ", &Options::notes},
                         {"STYLE", &Options::designs},
                         {"Oak box", nullptr}};
  for (int round = 0; round < 2'000; ++round) {
    Options wanted;
    std::string cell;
    for (int option = count(1, 6); option > 0 || wanted.texts.empty(); --option) {
      const Label& label = option > 0 ? pick(known) : known[0];
      std::string value = "v";
      for (int piece = count(0, 6); piece > 0; --piece) value += pick(pieces);
      value += "w";
      if (!cell.empty()) cell += pick(separators);
      cell += std::string(label.word) + ":" + (count(0, 1) == 0 ? " " : "") + value;
      if (label.values != nullptr) (wanted.*label.values).push_back(value);
    }
    INFO(cell);
    const auto options = OptionsReader(labels()).read(cell);
    if (!options.ok()) FAIL(describe(options.fault()));
    CHECK(options->texts == wanted.texts);
    CHECK(options->notes == wanted.notes);
    CHECK(options->designs == wanted.designs);
    CHECK_FALSE(options->open_ended);
  }
}

TEST_CASE("labels, columns and words of cancellation are read from shop.toml") {
  const auto shop = parse_shop(
      "[orders]\nline = \"Item\"\nnote = \"\"\nstatus = \"State\"\ncancelled = [\"void\", \"Returned\"]\n"
      "[orders.labels]\ntext = [\"Words\", \"Second: words\"]\n",
      "shop.toml");
  REQUIRE_FALSE(shop.ok());
  CHECK_THAT(describe(shop.fault()), Contains("orders.labels.text holds a colon"));
  const auto good = parse_shop(
      "[orders]\nline = \"Item\"\nnote = \"\"\nstatus = \"State\"\ncancelled = [\"void\", \"Returned\"]\n"
      "[orders.labels]\ntext = [\"Words\", \"Second\"]\nnote = [\"To you\"]\ndesign = [\"Style\"]\nother = "
      "[\"Wood\"]\n"
      "words = [\"Love\"]\n",
      "shop.toml");
  if (!good.ok()) FAIL(describe(good.fault()));
  const OrderFormat& orders = good->orders;
  CHECK(orders.columns.line == "Item");
  CHECK(orders.columns.note.empty());
  CHECK(orders.columns.status == "State");
  CHECK(orders.cancelled == Texts{"void", "Returned"});
  CHECK(orders.labels.used());
  CHECK(orders.labels.text == Texts{"Words", "Second"});
  CHECK(orders.labels.note == Texts{"To you"});
  CHECK(orders.labels.design == Texts{"Style"});
  CHECK(orders.labels.other == Texts{"Wood"});
  CHECK(orders.labels.words == Texts{"Love"});
  CHECK_FALSE(parse_shop("", "shop.toml")->orders.labels.used());
}

TEST_CASE("labels that cannot be told apart, or are none, are refused") {
  const auto message = [](const std::string& text) {
    const auto shop = parse_shop(text, "shop.toml");
    return shop.ok() ? "" : describe(shop.fault());
  };
  const std::string head = "[orders.labels]\n";
  CHECK_THAT(message(head + "text = [\"Text\"]\nother = [\"Wood\", \" TEXT \"]\n"),
             Contains("shop.toml:3:9: orders.labels.other names \" TEXT \" again: it is in text already"));
  CHECK_THAT(message(head + "text = [\"A &amp; B\", \"a & b\"]\n"), Contains("names \"a & b\" again"));
  CHECK_THAT(message(head + "text = [\"Text\"]\nwords = [\"text\"]\n"), Contains("names \"text\" again"));
  CHECK_THAT(message(head + "text = []\n"), Contains("orders.labels.text is empty"));
  CHECK_THAT(message(head + "note = [\"Note\"]\n"), Contains("text"));
  CHECK_THAT(message(head + "text = [\"Text\", \" \"]\n"), Contains("holds an empty label"));
  CHECK_THAT(message(head + "text = [\"" + std::string(201, 'x') + "\"]\n"), Contains("too long"));
  CHECK_THAT(message(head + "text = [\"Text\"]\nothers = [\"x\"]\n"), Contains("unknown key \"others\""));
  CHECK_THAT(message("[orders]\ncancelled = [\"void\", \"\"]\n"), Contains("orders.cancelled holds an empty word"));
}

TEST_CASE("a column that shop.toml does not name gives way to one that it does") {
  const auto shop = parse_shop("[orders]\ntext = \"Note\"\n", "shop.toml");
  if (!shop.ok()) FAIL(describe(shop.fault()));
  CHECK(shop->orders.columns.text == "Note");
  CHECK(shop->orders.columns.note.empty());
  const auto both = parse_shop("[orders]\ntext = \"Note\"\nnote = \"Note\"\n", "shop.toml");
  REQUIRE_FALSE(both.ok());
  CHECK_THAT(describe(both.fault()), Contains("orders.note is the same column as text"));
}

}  // namespace ordinatio::order_options_test
