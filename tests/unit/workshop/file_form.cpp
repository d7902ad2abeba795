#include "workshop/file_form.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "design/design_file.h"
#include "workshop/shipped_texts.h"
#include "workshop/shop_file.h"

namespace ordinatio::file_form_test {
using Catch::Contains;

namespace {

/// A form with the reader that judges it, and a file that has all tables.
struct Judged {
  const Form& form;
  std::string base;
  MaybeFault (*fault)(const std::string& text);
};

MaybeFault shop_fault(const std::string& text) {
  const Result<Shop> shop = parse_shop(text, "file");
  return shop.ok() ? MaybeFault() : shop.fault();
}
MaybeFault design_fault(const std::string& text) {
  const Result<Design> design = parse_design(text, "file", "name");
  return design.ok() ? MaybeFault() : design.fault();
}

const std::string design_base =
    "[blank]\nwidth = 150\nheight = 100\ncorners = \"cut\"\n[clear]\nmargin = 1\ngap = 1\n\n"
    "[[text]]\nbox = [20, 60, 110, 20]\n\n[[text]]\ndate = \"iso\"\nbox = [20, 20, 50, 10]\n\n"
    "[[text]]\nnumber = \"serial\"\nbox = [80, 20, 50, 10]\n\n[[text]]\nlines = [\"by hand\"]\nbox = [20, 40, 110, "
    "10]\n\n"
    "[[border]]\ndistance = 8\n";

std::vector<Judged> judged() {
  const std::string pieces =
      "[blanks]\nfile = \"b.csv\"\n[labels]\ncolumns = 1\nrows = 2\nwidth = 50\nheight = 20\nleft = 5\ntop = 5\n";
  const std::string board = "[jig]\nfill = false\nrows = 2\ncolumns = 2\npitch = [180, 120]\nfirst = [40, 40]\n";
  return {{shop_form(), pieces, shop_fault},
          {shop_form(), pieces + board, shop_fault},
          {design_form(), design_base, design_fault}};
}

/// A value that the field may well have.
std::string sample_of(const FormField& field) {
  static const std::map<std::string, std::string, std::less<>> samples{
      {"language", "de"},        {"fill", "true"},        {"count", "3"},         {"spot", "0.2"},     {"rows", "1"},
      {"columns", "2"},          {"pitch", "181.5, 121"}, {"pocket", "153, 102"}, {"first", "41, 42"}, {"air", "0.05"},
      {"letter_spacing", "0.5"}, {"kerf", "0.3"},         {"height", "101"}};
  if (field.key == "width") return field.table == "border" ? "0.8" : "151";
  if (const auto known = samples.find(std::string(field.key)); known != samples.end()) return known->second;
  if (!field.choices.empty()) return std::string(field.choices.back());
  if (field.kind == FieldKind::flag) return "true";
  if (field.kind == FieldKind::number) return "7.25";
  return field.kind == FieldKind::lines ? "Made\nby hand" : "some words";
}

bool is_unused(const Judged& one, const std::string& name) {
  return std::ranges::count(unused_fields(one.base, one.form), name) > 0;
}

std::string filled(const Judged& one, const std::vector<FormChange>& changes) {
  const Result<std::string> text = filled_in(one.base, one.form, changes, "file");
  INFO((text.ok() ? "" : describe(text.fault())));
  REQUIRE(text.ok());
  return *text;
}

std::string value_in(const std::string& text, const Form& form, const std::string& name) {
  const auto fields = filled_fields(text, form);
  const auto found = std::ranges::find(fields, name, &FilledField::name);
  return found == fields.end() ? "none" : found->value;
}

}  // namespace

TEST_CASE("each field of a form is a key that the file's reader takes, and stands in the file as it was typed") {
  for (const Judged& one : judged()) {
    REQUIRE_FALSE(one.fault(one.base));
    std::vector<const FormField*> met;
    for (const FilledField& field : filled_fields(one.base, one.form)) {
      met.push_back(field.field);
      if (is_unused(one, field.name)) continue;
      const std::string value = sample_of(*field.field);
      const std::string text = filled(one, {{field.name, value}});
      const MaybeFault fault = one.fault(text);
      INFO(field.name << " = " << value << ": " << (fault ? describe(*fault) : ""));
      CHECK_FALSE(fault);
      const bool is_usual = field.value.empty() && value == field.field->usual;
      CHECK(value_in(text, one.form, field.name) == (is_usual ? "" : value));
    }
    for (const FormField& field : one.form) {
      if (field.table != "logo") CHECK(std::ranges::count(met, &field) > 0);
    }
  }
}

TEST_CASE("a field's words are those that the reader knows, all of them") {
  for (const Judged& one : judged()) {
    for (const FilledField& field : filled_fields(one.base, one.form)) {
      if (field.field->kind != FieldKind::word || is_unused(one, field.name)) continue;
      const MaybeFault fault = one.fault(filled(one, {{field.name, "neither"}}));
      REQUIRE(fault);
      INFO(describe(*fault));
      const std::string known = fault->what.substr(fault->what.find(" one of ") + 8) + ",";
      CHECK(std::ranges::count(known, ',') == static_cast<std::ptrdiff_t>(field.field->choices.size()));
      for (const std::string_view choice : field.field->choices) {
        CHECK_THAT(" " + known, Contains(" " + std::string(choice) + ","));
        const MaybeFault refused = one.fault(filled(one, {{field.name, std::string(choice)}}));
        INFO(choice << ": " << (refused ? describe(*refused) : ""));
        CHECK_FALSE(refused);
      }
    }
  }
}

TEST_CASE("a field that no reader knows is refused by it") {
  const Form wrong{{"shop", "nmae"}};
  CHECK(shop_fault(*filled_in("", wrong, std::vector<FormChange>{{"shop.nmae", "Mill"}}, "file")));
}

TEST_CASE("what is usual is what the shipped shop.toml says") {
  const auto shipped = filled_fields(shop_toml(), shop_form());
  for (const FilledField& field : shipped) {
    if (field.value.empty() || field.name == "shop.name" || field.name == "shop.language") continue;
    INFO(field.name);
    CHECK(field.value == field.field->usual);
  }
}

TEST_CASE("what is usual in a design is what its reader takes where the file says nothing") {
  const std::string least = "[blank]\nwidth = 150\nheight = 100\n[text]\nbox = [10, 10, 130, 80]\n";
  const Result<Design> said_nothing = parse_design(least, "file", "name");
  REQUIRE(said_nothing.ok());
  std::vector<FormChange> others, changes;  // another value first: the usual one would not be written
  for (const FilledField& field : filled_fields(least, design_form())) {
    const bool is_there = field.table != "border[0]" && field.name != "blank.corner";
    if (!is_there || !field.value.empty() || field.field->usual.empty()) continue;
    others.push_back({field.name, field.field->choices.empty() ? sample_of(*field.field)
                                                               : std::string(field.field->choices.back())});
    changes.push_back({field.name, std::string(field.field->usual)});
  }
  CHECK(changes.size() >= 13);
  const std::string text = *filled_in(*filled_in(least, design_form(), others, "file"), design_form(), changes, "file");
  for (const FormChange& change : changes) CHECK(value_in(text, design_form(), change.name) == change.value);
  const Result<Design> said = parse_design(text, "file", "name");
  REQUIRE(said.ok());
  CHECK(said->margin == said_nothing->margin);
  CHECK(said->gap == said_nothing->gap);
  CHECK(said->approval == said_nothing->approval);
  CHECK(said->from_behind == said_nothing->from_behind);
  CHECK(said->blank.outline.vertices.size() == said_nothing->blank.outline.vertices.size());
  const TextPart &a = said->texts.front(), &b = said_nothing->texts.front();
  CHECK(a.look.faces == b.look.faces);
  CHECK(a.block.alignment == b.block.alignment);
  CHECK(a.look.letter_case == b.look.letter_case);
  CHECK(a.breaks == b.breaks);
  CHECK(a.sizes == b.sizes);
  CHECK(a.min_cap_height == b.min_cap_height);
  CHECK(a.max_cap_height == b.max_cap_height);
  CHECK(a.look.letter_spacing == b.look.letter_spacing);
  CHECK(a.air == b.air);
  CHECK(a.block.hang_punctuation == b.block.hang_punctuation);
  CHECK(a.operation == b.operation);
  CHECK(BorderPart{}.width == 0.6);  // as the form says
}

TEST_CASE("a bed that is filled becomes a cut board and back; what has no use goes, and comes back in its place") {
  const std::string shipped(shop_toml());
  const std::vector<FormChange> board{{"jig.fill", "false"},
                                      {"jig.rows", "3"},
                                      {"jig.columns", "2"},
                                      {"jig.pitch", "190, 130"},
                                      {"jig.first", "40,40"}};
  const auto text = filled_in(shipped, shop_form(), board, "file");
  REQUIRE(text.ok());
  CHECK_THAT(*text, Contains("\n# gap = 10 ") && Contains("\npitch = [190, 130] "));
  const Result<Shop> shop = parse_shop(*text, "file");
  REQUIRE(shop.ok());
  CHECK(shop->plan.jig.columns == 2);
  CHECK(std::ranges::count(unused_fields(*text, shop_form()), "jig.gap") == 1);
  CHECK(std::ranges::count(unused_fields(shipped, shop_form()), "jig.rows") == 1);

  const auto back =
      filled_in(*text, shop_form(), std::vector<FormChange>{{"jig.fill", "true"}, {"jig.gap", "12"}}, "file");
  REQUIRE(back.ok());
  CHECK_FALSE(shop_fault(*back));
  CHECK(std::ranges::count(*back, '\n') == std::ranges::count(shipped, '\n'));
  CHECK_THAT(*back, Contains("\ngap = 12                           # mm between blanks"));
}

TEST_CASE("a board that nobody called one is told by its rows") {
  CHECK(value_in("[jig]\nrows = 2\n", shop_form(), "jig.fill") == "false");
  CHECK(value_in("[jig]\ngap = 2\n", shop_form(), "jig.fill") == "");
}

TEST_CASE("a value of another kind is refused with its field, and so is a field that the form has not") {
  const auto where = [](const std::string& name, const std::string& value) {
    const auto text =
        filled_in(shop_toml(), shop_form(), std::vector<FormChange>{{"jig.fill", "false"}, {name, value}}, "file");
    return text.ok() ? "taken" : text.fault().where;
  };
  for (const char* value : {"wide", "1e9", "nan", "1 2", "0x10", "1\n2"})
    CHECK(where("machine.width", value) == "machine.width");
  for (const char* value : {"1", "1,", "1,2,3", "a, b"}) CHECK(where("jig.pitch", value) == "jig.pitch");
  CHECK(where("jig.fill", "yes") == "jig.fill");
  CHECK(where("ledger.file", "x") == "ledger.file");
  CHECK(where("", "x").empty());
  CHECK(where("machine.width", " 812.50 ") == "taken");
}

TEST_CASE("a form that is sent as it was shown changes nothing, whatever the file says") {
  for (const std::string& text :
       {std::string(shop_toml()), std::string(plaque_landscape_toml()), std::string(stand_words_toml()), design_base,
        std::string(
            "about = \"two\\nlines\\r\"\n[blank]\nwidth = 1_50.50\nheight = 1e2\n[jig]\nrows = 2\nspot = nan\n")}) {
    for (const Form* form : {&shop_form(), &design_form()}) {
      std::vector<FormChange> all;
      for (const FilledField& field : filled_fields(text, *form)) {
        std::string typed = field.value.empty() && field.field->kind != FieldKind::number
                                ? std::string(field.field->usual)
                                : field.value;
        if (field.field->kind != FieldKind::lines) std::erase_if(typed, [](char c) { return c == '\n' || c == '\r'; });
        all.push_back({field.name, typed});
      }
      CHECK(*filled_in(text, *form, all, "file") == text);
    }
  }
}

TEST_CASE("a fault of the reader is at its field") {
  const std::vector<FormChange> changes{{"machine.spot", "30"}};
  const auto text = filled_in(shop_toml(), shop_form(), changes, "shop.toml");
  REQUIRE(text.ok());
  CHECK(field_at(*text, shop_form(), *shop_fault(*text)) == "machine.spot");
  CHECK(field_at(*text, shop_form(), {"what", "shop.toml", "", ""}).empty());
  CHECK(field_at(*text, shop_form(), {"what", "1:", "", ""}).empty());
  CHECK(field_at("no toml [", shop_form(), *shop_fault("no toml [")).empty());
  const auto second =
      filled_in(design_base, design_form(), std::vector<FormChange>{{"text[1].font", " "}, {"text[1].air", "3"}}, "d");
  CHECK(field_at(*second, design_form(), *design_fault(*second)) == "text[1].air");
}

TEST_CASE("text of any kind is a file without fields, or one with them, and never a crash") {
  std::string dots = "a";
  for (int i = 0; i < 20'000; ++i) dots += ".a";
  for (const std::string& text :
       {dots + " = 1", std::string("text = 1\nborder = [1, 2]\nlogo = [[1]]\njig = \"\""),
        std::string("[[jig]]\n[[text]]\ncap_height = 3\n"), std::string("\xFF = 1"), std::string(5'000, '[')}) {
    for (const Judged& one : judged()) {
      filled_fields(text, one.form);
      unused_fields(text, one.form);
      for (const char* name : {"jig.gap", "text[0].cap_height.max", "border[0].width"})
        CHECK_NOTHROW(filled_in(text, one.form, std::vector<FormChange>{{name, "3"}}, "file"));
    }
  }
}

}  // namespace ordinatio::file_form_test
