#include "workshop/shop_file.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "read_text.h"

namespace ordinatio::shop_file_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

std::string hex(Colour colour) {
  std::string text;
  for (const int part : {colour.red, colour.green, colour.blue}) {
    text += "0123456789ABCDEF"[part / 16];
    text += "0123456789ABCDEF"[part % 16];
  }
  return text;
}

/// Everything that shop.toml can set, as one text, so that two shops can be compared.
std::string summary(const Shop& shop) {
  std::string text;
  const auto add = [&text](const std::string& part) { text += part + " | "; };
  const auto add_number = [&](double number) { append_number(text, number, 6), text += " | "; };
  const Jig& jig = shop.plan.jig;
  for (const std::string& part :
       {shop.name, shop.default_design, shop.stand_design, shop.sample, shop.language, shop.orders.columns.order,
        shop.orders.columns.text, shop.orders.columns.quantity, shop.orders.columns.design, shop.orders.encoding,
        shop.orders.line_separator, std::string(shop.orders.delimiter ? 1 : 0, shop.orders.delimiter.value_or(' '))}) {
    add(part);
  }
  for (const double number : {double(shop.orders.decode_entities),
                              shop.plan.machine.width,
                              shop.plan.machine.height,
                              double(jig.fill_bed),
                              double(jig.columns),
                              double(jig.rows),
                              jig.pitch_x,
                              jig.pitch_y,
                              jig.first.x,
                              jig.first.y,
                              jig.pocket_width,
                              jig.pocket_height,
                              jig.gap,
                              jig.edge,
                              double(jig.lie),
                              double(jig.order),
                              double(shop.plan.marks.kind),
                              shop.plan.marks.size,
                              double(shop.plan.marks.count),
                              double(shop.plan.scale_bar),
                              double(shop.dxf.version),
                              shop.dxf.tolerance,
                              double(shop.svg.css_pixels)}) {
    add_number(number);
  }
  for (const Point place : shop.plan.marks.places) add_number(place.x), add_number(place.y);
  for (const Colour colour : shop.plan.palette.colours) add(hex(colour));
  for (const int index : shop.plan.palette.indices) add(std::to_string(index));
  return text;
}

}  // namespace

TEST_CASE("an empty shop.toml gives a shop that works") {
  const Shop shop = shop_of("");
  CHECK(shop.default_design == "plaque-landscape");
  CHECK(shop.stand_design == "stand-words");
  CHECK(shop.orders.columns.order == "Order");
  CHECK(shop.orders.columns.text == "Text");
  CHECK(shop.orders.columns.quantity == "Quantity");
  CHECK(shop.orders.columns.design == "Design");
  CHECK(shop.orders.encoding.empty());
  CHECK_FALSE(shop.orders.delimiter);
  CHECK(shop.orders.decode_entities);
  CHECK(shop.plan.jig.fill_bed);
  CHECK(shop.plan.marks.places.empty());
  CHECK(shop.dxf.version == DxfVersion::r12);
  CHECK(shop.dxf.tolerance == 0.01);
  CHECK_FALSE(shop.svg.css_pixels);
  CHECK(hex(shop.plan.palette[Operation::engrave]) == "009E73");
}

TEST_CASE("the shipped shop.toml shows the values that stand when they are left out") {
  const auto text = read_file(fs::path(PROJECT_FOLDER) / "templates/shop.toml");
  REQUIRE(text.ok());
  Shop bare = shop_of("");
  bare.name = "The Example Workshop";
  bare.language = "en-GB";
  CHECK(summary(shop_of(*text)) == summary(bare));
}

TEST_CASE("every value of a shop that fills its bed can be set") {
  const Shop shop = shop_of(
      "[shop]\nname = \"N\"\ndesign = \"d\"\nstand_design = \"s\"\nsample = \"W & 1\"\nlanguage = \"cy\"\n"
      "[orders]\norder = \"O\"\ntext = \"T\"\nquantity = \"Q\"\ndesign = \"D\"\nencoding = \"UTF-16LE\"\n"
      "delimiter = \"\\t\"\nline_separator = \" / \"\ndecode_entities = false\n"
      "[machine]\nwidth = 900.5\nheight = 500\n"
      "[jig]\nfill = true\ngap = 0\nedge = 25\nlie = \"quarter-turn\"\norder = \"columns-from-bottom\"\n"
      "[marks]\nkind = \"target\"\nsize = 6.5\ncount = 3\n"
      "[files]\ndxf = \"R2000\"\ntolerance = 0.05\nsvg_units = \"css-pixels\"\nscale_bar = false\n"
      "[colours]\nengrave = \"#700001\"\nscore = \"#0000ff\"\ncut = \"#FF0000\"\nmark = \"#00FF00\"\n"
      "guide = \"#808080\"\n");
  CHECK(summary(shop) ==
        "N | d | s | W & 1 | cy | O | T | Q | D | UTF-16LE |  /  | \t | 0 | 900.5 | 500 | 1 | 0 | 0 | 0 | 0 | 0 | 0 | "
        "0 | 0 | "
        "0 | 25 | 1 | 3 | 2 | 6.5 | 3 | 0 | 1 | 0.05 | 1 | 700001 | 0000FF | FF0000 | 00FF00 | 808080 | 20 | 5 | 1 | 3 "
        "| 8 | ");
}

TEST_CASE("every value of a cut jig and of placed marks can be set") {
  const Shop shop = shop_of(
      "[jig]\nrows = 3\ncolumns = 2\npitch = [180, 120.5]\nfirst = [25, 30]\npocket = [153, 102]\n"
      "lie = \"as-drawn\"\norder = \"rows-from-bottom\"\n"
      "[marks]\nkind = \"ring\"\nplaces = [[12, 12], [588, 12], [12, 388]]\n");
  const Jig& jig = shop.plan.jig;
  CHECK_FALSE(jig.fill_bed);
  CHECK(jig.rows == 3);
  CHECK(jig.columns == 2);
  CHECK(jig.pitch_x == 180);
  CHECK(jig.pitch_y == 120.5);
  CHECK(jig.first == Point{25, 30});
  CHECK(jig.pocket_width == 153);
  CHECK(jig.pocket_height == 102);
  CHECK(jig.lie == Jig::Lie::as_drawn);
  CHECK(jig.order == Jig::Order::rows_from_bottom);
  CHECK(shop.plan.marks.kind == MarkPlan::Kind::ring);
  CHECK(shop.plan.marks.places == std::vector<Point>{{12, 12}, {588, 12}, {12, 388}});
}

TEST_CASE("a jig of one pocket needs no pitch, and a pocket no size") {
  const Jig jig = shop_of("[jig]\nrows = 1\ncolumns = 1\nfirst = [25, 25]\n").plan.jig;
  CHECK(jig.pocket_width == 0);
  CHECK_FALSE(jig.fill_bed);
}

TEST_CASE("a jig is either cut or filled") {
  CHECK(message_of("[jig]\nfill = true\nrows = 3\n") ==
        "shop.toml:3:8: jig.rows has no use here: fill is true: the bed is filled without a cut board. "
        "Take it out, or write fill = false.");
  CHECK(message_of("[jig]\nfill = false\n") ==
        "shop.toml:1:1: jig.rows is missing. Write, for example: rows = 3.\n"
        "shop.toml:1:1: jig.columns is missing. Write, for example: columns = 2.\n"
        "shop.toml:1:1: jig.first is missing. Write, for example: first = [25, 25].");
  CHECK(message_of("[jig]\nrows = 1\ncolumns = 2\nfirst = [0, 0]\n") ==
        "shop.toml:1:1: jig.pitch is missing. Write, for example: pitch = [180, 120].");
  CHECK(message_of("[jig]\nrows = 1\ncolumns = 1\nfirst = [0, 0]\nedge = 5\n") ==
        "shop.toml:5:8: jig.edge has no use here: the pockets of a cut board are where they are. "
        "Take it out, or write fill = true.");
}

TEST_CASE("numbers of a shop have their ranges") {
  CHECK(message_of("[machine]\nwidth = -600\nheight = nan\n") ==
        "shop.toml:2:9: machine.width must be more than 0 and at most 10000: it is -600.\n"
        "shop.toml:3:10: machine.height must be more than 0 and at most 10000: it is nan.");
  CHECK_THAT(message_of("[jig]\nrows = 0\ncolumns = 1001\n"),
             Contains("shop.toml:2:8: jig.rows must be from 1 to 1000: it is 0.") &&
                 Contains("shop.toml:3:11: jig.columns must be from 1 to 1000: it is 1001."));
  CHECK_THAT(message_of("[jig]\nrows = 2.5\n"), Contains("jig.rows must be a whole number"));
  CHECK_THAT(message_of("[jig]\npitch = [0, 10]\n"), Contains("shop.toml:2:10: each of jig.pitch must be more than 0"));
  CHECK_THAT(message_of("[jig]\nfirst = [-1, 10]\n"), Contains("shop.toml:2:10: each of jig.first must be from 0"));
  CHECK_THAT(message_of("[jig]\npocket = [1]\n"), Contains("shop.toml:2:10: jig.pocket must be [x, y]"));
  CHECK_THAT(message_of("[jig]\ngap = -1\n"), Contains("shop.toml:2:7: jig.gap must be from 0"));
  CHECK_THAT(message_of("[jig]\nedge = inf\n"), Contains("shop.toml:2:8: jig.edge must be from 0"));
  CHECK_THAT(message_of("[marks]\nsize = 0\n"), Contains("shop.toml:2:8: marks.size must be more than 0"));
  CHECK_THAT(message_of("[files]\ntolerance = 0\n"), Contains("files.tolerance must be from 0.0001 to 1: it is 0"));
}

TEST_CASE("a sheet of labels has all its measures, and ends on its paper") {
  const std::string whole = "[labels]\ncolumns = 2\nrows = 8\nwidth = 80\nheight = 32\nleft = 22\ntop = 18\n";
  const auto shop = parse_shop(whole + "gap_x = 5\npaper = \"letter\"\n", "shop.toml");
  REQUIRE(shop.ok());
  CHECK(shop->labels.count() == 16);
  CHECK(shop->labels.gap_x == 5);
  CHECK(shop->labels.paper == PaperSize::letter);
  CHECK_FALSE(shop->labels.lines);
  CHECK(parse_shop("", "shop.toml")->labels.lines);
  CHECK_THAT(message_of("[labels]\ncolumns = 2\n"), Contains("rows"));
  CHECK_THAT(message_of(whole + "gap_x = 40\n"), Contains("reach over the paper's edge"));
  CHECK_THAT(message_of(whole + "paper = \"a3\"\n"), Contains("a4"));
}

TEST_CASE("a shop's sample has words") {
  CHECK(message_of("[shop]\nsample = \" \"\n") ==
        "shop.toml:2:10: shop.sample is empty. Write the words that specimens of faces show.");
}

TEST_CASE("marks are three or four") {
  CHECK_THAT(message_of("[marks]\ncount = 2\n"), Contains("shop.toml:2:9: marks.count must be from 3 to 4: it is 2"));
  CHECK(message_of("[marks]\nplaces = [[1, 1], [2, 2]]\n") ==
        "shop.toml:2:10: marks.places must be three or four: fewer leave the sheet free to turn or stretch unseen. "
        "Write, for example: places = [[12, 12], [588, 12], [12, 388]].");
  CHECK_THAT(message_of("[marks]\nplaces = []\n"), Contains("marks.places must be three or four"));
  CHECK_THAT(message_of("[marks]\ncount = 4\nplaces = [[1, 1], [9, 2], [3, 3]]\n"),
             Contains("shop.toml:2:9: marks.count has no use here: places tells it"));
}

TEST_CASE("words of a shop come with those that are known, and the nearest") {
  CHECK_THAT(message_of("[jig]\nlie = \"as-drawing\"\n"), Contains("one of as-drawn, quarter-turn, as-fits"));
  CHECK_THAT(message_of("[jig]\norder = \"rows-from-topp\"\n"), Contains("The nearest is \"rows-from-top\""));
  CHECK_THAT(message_of("[marks]\nkind = \"circle\"\n"), Contains("one of cross, ring, target: it is \"circle\""));
  CHECK_THAT(message_of("[files]\ndxf = \"R13\"\n"),
             Contains("one of R12, R2000: it is \"R13\". The nearest is \"R12\""));
  CHECK_THAT(message_of("[files]\nsvg_units = \"px\"\n"), Contains("one of mm, css-pixels"));
  CHECK_THAT(message_of("[orders]\ndelimiter = \"tab\"\n"), Contains("orders.delimiter must be one of"));
}

TEST_CASE("columns have names, and different ones") {
  CHECK(message_of("[orders]\ntext = \"\"\n") ==
        "shop.toml:2:8: orders.text is empty. Name a column, as the first line of the orders does.");
  CHECK(message_of("[orders]\ntext = \"Order\"\n") ==
        "shop.toml:2:8: orders.text is the same column as order. Name another one.");
}

TEST_CASE("an encoding is one that ICU knows") {
  CHECK(shop_of("[orders]\nencoding = \"iso-8859-15\"\n").orders.encoding == "iso-8859-15");
  CHECK_THAT(message_of("[orders]\nencoding = \"latin-99\"\n"),
             Contains("shop.toml:2:12: orders.encoding is no encoding that is known here: it is \"latin-99\""));
}

TEST_CASE("designs are named without folder and ending, and languages by their tag") {
  const std::string mend = "Name a file of the templates folder, without folder and .toml.";
  CHECK(message_of("[shop]\ndesign = \"plaque.toml\"\n") ==
        "shop.toml:2:10: shop.design is no design's name: it is \"plaque.toml\". " + mend);
  CHECK_THAT(message_of("[shop]\nstand_design = \"../stand\"\n"), Contains("shop.toml:2:16: ") && Contains(mend));
  CHECK_THAT(message_of("[shop]\ndesign = \"\"\n"), Contains(mend));
  CHECK_THAT(message_of("[shop]\nlanguage = \"klingonese\"\n"),
             Contains("shop.toml:2:12: shop.language is no language"));
}

TEST_CASE("colours are six hexadecimal digits, and no two are alike") {
  for (const std::string colour : {"", "009E73", "#009E7", "#009E733", "#00gE73", "#-09E73", "green"}) {
    CHECK_THAT(message_of("[colours]\ncut = \"" + colour + "\"\n"),
               Contains("shop.toml:2:7: colours.cut is no colour: it is \"" + colour + "\". Write, for example"));
  }
  CHECK(message_of("[colours]\ncut = \"#009e73\"\n") ==
        "shop.toml:2:7: colours.cut is the same colour as engrave: the machine could not tell them apart. "
        "Choose another.");
  CHECK_THAT(message_of("[colours]\ncut = 5\n"), Contains("colours.cut must be text in quotes"));
}

TEST_CASE("unknown keys of a shop come with the nearest known one") {
  CHECK(message_of("[machin]\n") == "shop.toml:1:2: unknown key \"machin\". The nearest known one is \"machine\".");
  const std::pair<std::string, std::string> keys[] = {
      {"[shop]\nnam", "name"},           {"[orders]\ntxt", "text"},
      {"[machine]\nwidht", "width"},     {"[jig]\nrow", "rows"},
      {"[marks]\nplace", "places"},      {"[files]\ntolerence", "tolerance"},
      {"[colours]\nengraved", "engrave"}};
  for (const auto& [text, nearest] : keys) {
    CHECK_THAT(message_of(text + " = 1\n"),
               Contains("shop.toml:2:1: unknown key") && Contains("The nearest known one is \"" + nearest + "\""));
  }
}

TEST_CASE("broken TOML in shop.toml is refused with line and column") {
  CHECK_THAT(message_of("[machine]\nwidth = 600,5\n"), Contains("shop.toml:2:12: this is not TOML"));
}

TEST_CASE("a folder without shop.toml is told what to do") {
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-shop-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  const auto missing = read_shop(folder);
  REQUIRE_FALSE(missing.ok());
  CHECK(missing.fault().where == (folder / "shop.toml").string());
  CHECK(missing.fault().mend == "Go to a workshop's folder, or make one: ordinatio new FOLDER");
  std::ofstream(folder / "shop.toml") << "[shop]\nname = \"Here\"\n";
  CHECK(read_shop(folder)->name == "Here");
  CHECK(read_shop(folder)->folder == folder);
  std::ofstream(folder / "shop.toml") << "[shop]\nnaem = \"Here\"\n";
  CHECK(read_shop(folder).fault().where == (folder / "shop.toml").string() + ":2:1");
  fs::remove_all(folder);
}

TEST_CASE("how the machine is set is kept in the workshop's own words, and is not empty") {
  const Shop shop = shop_of("[settings]\nslate = \"as for 6 mm\"\n\"slate, face script\" = \"slower\"\n");
  REQUIRE(shop.settings.size() == 2);
  CHECK(std::ranges::find(shop.settings, std::pair<std::string, std::string>("slate", "as for 6 mm")) !=
        shop.settings.end());
  CHECK_THAT(message_of("[settings]\nslate = \" \"\n"), Contains("settings.slate is empty"));
  CHECK_THAT(message_of("[settings]\nslate = 40\n"), Contains("slate"));
  CHECK_THAT(message_of("[settings]\nslate = \"" + std::string(401, 'x') + "\"\n"), Contains("400 are allowed"));
}

}  // namespace ordinatio::shop_file_test
