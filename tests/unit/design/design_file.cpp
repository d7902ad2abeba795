#include "design/design_file.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

namespace ordinatio::design_file_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

const std::string blank = "[blank]\nwidth = 100\nheight = 60\n";  // three lines, then what the test adds

Design design_of(const std::string& text) {
  auto design = parse_design(text, "d.toml", "d");
  return design.ok() ? *std::move(design) : throw std::runtime_error(describe(design.fault()));
}

std::string message_of(const std::string& text) {
  const auto design = parse_design(text, "d.toml", "d");
  return design.ok() ? "" : describe(design.fault());
}

/// The message of a design with the blank above.
std::string message_with(const std::string& text) { return message_of(blank + text); }

void write(const fs::path& path, std::string_view bytes) {
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << bytes;
}

/// A folder that is empty now and gone afterwards.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("ordinatio-design-" + std::to_string(::getpid()));
  Folder() { fs::remove_all(path), fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
};

}  // namespace

TEST_CASE("a design of two lines has the usual values everywhere else") {
  const Design design = design_of(blank + "[text]\n");
  CHECK(design.name == "d");
  CHECK(design.about.empty());
  CHECK(design.width == 100);
  CHECK(design.height == 60);
  CHECK(design.blank.outline.radii.empty());
  CHECK(design.blank.outline.vertices == Polygon{{0, 0}, {100, 0}, {100, 60}, {0, 60}});
  CHECK(design.margin == 6);
  CHECK(design.gap == 2);
  CHECK(design.borders.empty());
  CHECK(design.logos.empty());
  REQUIRE(design.texts.size() == 1);
  const TextPart& text = design.texts.front();
  CHECK(std::holds_alternative<InscriptionPart>(text.words));
  CHECK(text.look.faces == std::vector<std::string>{"serif"});
  CHECK(text.language.empty());
  CHECK_FALSE(text.box);
  CHECK(text.block.alignment == Alignment::centre);
  CHECK(text.block.leading == 1.25);
  CHECK(text.block.least_gap == 0.15);
  CHECK(text.block.cap_leading.mixed == 0);
  CHECK(text.block.cap_leading.capitals == 0);
  CHECK(text.min_cap_height == 3);
  CHECK(text.max_cap_height == 25);
  CHECK(std::pair(text.off_axis_gain, text.reads_well) == std::pair(0.10, 0.10));
  CHECK(text.operation == Operation::engrave);
}

TEST_CASE("every value of a design can be set") {
  const Design design = design_of(
      "about = \"A test\"\n[blank]\nwidth = 100.5\nheight = 60\ncorners = \"rounded\"\ncorner = 4\n"
      "[clear]\nmargin = 5\ngap = 1.5\n"
      "[[text]]\nwords = \"inscription\"\nfont = \"slab\"\nfallbacks = [\"noto-sans\", \"Mine.ttf\"]\n"
      "language = \"zh-Hant\"\nbox = [10, 30, 60, 20]\nalign = \"right\"\nleading = 1.5\nline_gap = 0.2\n"
      "cap_leading = { mixed = 1.7, capitals = 1.4 }\n"
      "cap_height = { min = 4, max = 12.5 }\noff_axis_gain = -1\nreads_well = 0.25\noperation = \"score\"\n"
      "[[text]]\nlines = [\"one\", \"\", \"three\"]\nalign = \"left\"\nbox = [10, 20, 60, 8]\n"
      "[[text]]\ndate = \"long\"\nlocale = \"de\"\nbefore = \"am \"\nafter = \".\"\nbox = [10, 10, 60, 8]\n"
      "[[border]]\ndistance = 5.5\nwidth = 0.8\noperation = \"engrave\"\n"
      "[[border]]\ndistance = 6.5\noperation = \"cut\"\n"
      "[[logo]]\nfile = \"mark.svg\"\nbox = [75, 10, 15, 20]\noperation = \"mark\"\n");
  CHECK(design.about == "A test");
  CHECK(design.width == 100.5);
  CHECK(design.blank.outline.radii.front() == 4);
  CHECK(design.margin == 5);
  CHECK(design.gap == 1.5);

  REQUIRE(design.texts.size() == 3);
  const TextPart& text = design.texts[0];
  CHECK(text.look.faces == std::vector<std::string>{"slab", "noto-sans", "Mine.ttf"});
  CHECK(text.language == "zh-Hant");
  CHECK(text.box == Bounds{10, 30, 70, 50});
  CHECK(text.block.alignment == Alignment::right);
  CHECK(text.block.leading == 1.5);
  CHECK(text.block.cap_leading.mixed == 1.7);
  CHECK(text.block.cap_leading.capitals == 1.4);
  CHECK(text.block.least_gap == 0.2);
  CHECK(text.min_cap_height == 4);
  CHECK(text.max_cap_height == 12.5);
  CHECK(std::pair(text.off_axis_gain, text.reads_well) == std::pair(-1.0, 0.25));
  CHECK(text.operation == Operation::score);
  CHECK(std::get<WordsPart>(design.texts[1].words).lines == std::vector<std::string>{"one", "", "three"});
  CHECK(design.texts[1].block.alignment == Alignment::left);
  const DatePart& date = std::get<DatePart>(design.texts[2].words);
  CHECK(date.form == "long");
  CHECK(date.locale == "de");
  CHECK(date.before == "am ");
  CHECK(date.after == ".");

  REQUIRE(design.borders.size() == 2);
  CHECK(design.borders[0].distance == 5.5);
  CHECK(design.borders[0].width == 0.8);
  CHECK(design.borders[0].operation == Operation::engrave);
  CHECK(design.borders[1].operation == Operation::cut);
  REQUIRE(design.logos.size() == 1);
  CHECK(design.logos[0].file == "mark.svg");
  CHECK(design.logos[0].box == Bounds{75, 10, 90, 30});
  CHECK(design.logos[0].operation == Operation::mark);
}

TEST_CASE("a border without a distance runs along the margin") {
  CHECK(design_of(blank + "[clear]\nmargin = 7\n[border]\n").borders.at(0).distance == 7);
}

TEST_CASE("the blank's corners and outlines") {
  const std::string text = "[text]\n";
  CHECK(design_of("[blank]\nwidth = 60\nheight = 60\ncorners = \"rounded\"\n" + text).blank.outline.radii.front() == 3);
  CHECK(design_of("[blank]\nwidth = 60\nheight = 60\ncorners = \"cut\"\n" + text).blank.outline.vertices.size() == 8);
  const Design disc = design_of("[blank]\nwidth = 60\nheight = 60\ncorners = \"rounded\"\ncorner = 30\n" + text);
  CHECK(disc.blank.outline.radii.front() == 30);
  const Design slip = design_of("[blank]\noutline = [[0, 0], [90, 0], [60, 50]]\n" + text);
  CHECK(slip.width == 90);
  CHECK(slip.height == 50);
  const Design clockwise = design_of("[blank]\noutline = [[60, 50], [90, 0], [0, 0]]\n" + text);
  CHECK(area_of(clockwise.blank.outline.vertices) == 90 * 50 / 2.0);
  const std::string hexagon = "outline = [[20, 0], [60, 0], [80, 40], [60, 80], [20, 80], [0, 40]]\n";
  CHECK(design_of("[blank]\ncorners = \"rounded\"\ncorner = 10\n" + hexagon + text).blank.outline.radii.front() == 10);
}

TEST_CASE("a blank that cannot be is refused") {
  CHECK(message_of("[text]\n") ==
        "d.toml:1:1: blank.width is missing. Write, for example: width = 152.4.\n"
        "d.toml:1:1: blank.height is missing. Write, for example: height = 101.6.");
  CHECK(message_of("[blank]\nwidth = -5\nheight = 0\n[text]\n") ==
        "d.toml:2:9: blank.width must be more than 0 and at most 10000: it is -5.\n"
        "d.toml:3:10: blank.height must be more than 0 and at most 10000: it is 0.");
  CHECK_THAT(message_of("[blank]\nwidth = nan\nheight = 5\n[text]\n"),
             Contains("d.toml:2:9: ") && Contains("it is nan"));
  CHECK_THAT(message_with("corners = \"round\"\n[text]\n"),
             Contains("d.toml:4:11: blank.corners must be one of square, rounded, cut") &&
                 Contains("The nearest is \"rounded\""));
  CHECK(message_with("corner = 3\n[text]\n") ==
        "d.toml:4:10: blank.corner has no use: the corners are square. Write corners = \"rounded\" or \"cut\".");
  CHECK(message_with("corners = \"rounded\"\ncorner = 30.01\n[text]\n") ==
        "d.toml:5:10: blank.corner is larger than the blank's edges allow. Write at most half of the shorter side.");
  CHECK(message_with("corners = \"cut\"\ncorner = 30\n[text]\n") ==
        "d.toml:5:10: blank.corner cuts away more than the blank's edges. Write less than half of the shorter side.");
}

TEST_CASE("an outline that cannot be is refused") {
  const auto message = [](const std::string& outline) { return message_of("[blank]\n" + outline + "\n[text]\n"); };
  const std::string not_convex =
      "d.toml:2:11: blank.outline is not convex: it turns inward, crosses itself, or has three points in one line. "
      "Go round the blank once, corner by corner.";
  CHECK(message("outline = [[0, 0], [90, 0], [20, 20], [0, 90]]") == not_convex);
  CHECK(message("outline = [[0, 0], [90, 90], [90, 0], [0, 90]]") == not_convex);
  CHECK(message("outline = [[0, 0], [50, 0], [90, 0], [0, 90]]") == not_convex);
  CHECK(message("outline = [[0, 0], [90, 0]]") == not_convex);
  CHECK(message("outline = []") == not_convex);
  CHECK(message("outline = [[1, 0], [90, 0], [20, 90]]") ==
        "d.toml:2:11: blank.outline does not start at 0: its least x and its least y must be 0. "
        "Measure from the blank's lower-left corner.");
  CHECK_THAT(message("outline = [[0, 0], [90, 0], [20, \"90\"]]"), Contains("d.toml:2:34: each of blank.outline"));
  CHECK_THAT(message("outline = 5"), Contains("d.toml:2:11: blank.outline must be a list of [x, y]"));
  CHECK_THAT(message("width = 5\noutline = [[0, 0], [90, 0], [20, 90]]"),
             Contains("d.toml:2:9: blank.width stands beside an outline: the outline tells both"));
  CHECK_THAT(message("corners = \"cut\"\noutline = [[0, 0], [90, 0], [20, 90]]"),
             Contains("d.toml:2:11: blank.corners cannot be cut on an outline"));
  // The triangle's inscribed circle touches all edges: its radius is 2 · area / perimeter, and no more goes in.
  const std::string triangle = "outline = [[0, 0], [60, 0], [0, 80]]\ncorners = \"rounded\"\ncorner = ";
  CHECK(message(triangle + "20\n[clear]\nmargin = 1").empty());
  CHECK_THAT(message(triangle + "20.01"), Contains("d.toml:4:10: blank.corner is larger than the blank's edges allow"));
}

TEST_CASE("a margin must leave something of the blank") {
  CHECK(message_with("[clear]\nmargin = 30\n[text]\n") ==
        "d.toml:5:10: clear.margin is larger than the blank: it leaves no clear area. Write less.");
  CHECK(message_with("[clear]\nmargin = 500\n[text]\n") != "");
  CHECK(message_with("[clear]\nmargin = 29.9\n[text]\n").empty());
  CHECK(message_of("[blank]\nwidth = 10\nheight = 10\n[text]\n") ==
        "d.toml:1:1: clear.margin is larger than the blank: it leaves no clear area. Write less.");
  CHECK_THAT(message_with("[clear]\nmargin = -1\n"), Contains("d.toml:5:10: clear.margin must be from 0 to 10000"));
  CHECK_THAT(message_with("[clear]\ngap = nan\n"), Contains("d.toml:5:7: clear.gap must be from 0 to 10000"));
}

TEST_CASE("a design without any part is refused") {
  CHECK(message_of(blank) ==
        "d.toml:1:1: text is missing: the design has no text, no border and no logo. "
        "Write [text] for the customer's words.");
}

TEST_CASE("a text has one kind of words") {
  CHECK(message_with("[text]\nwords = \"inscription\"\nlines = [\"a\"]\n") ==
        "d.toml:6:9: text.lines is one too many: a text has words, or lines, or a date, or a number. "
        "Make two [[text]] of it.");
  CHECK_THAT(message_with("[text]\nlines = [\"a\"]\ndate = \"iso\"\n"),
             Contains("d.toml:6:8: text.date is one too many"));
  CHECK_THAT(message_with("[text]\nwords = \"Hello\"\n"),
             Contains("d.toml:5:9: text.words must be one of inscription: it is \"Hello\""));
  CHECK_THAT(message_with("[text]\ndate = \"ISO\"\n"), Contains("d.toml:5:8: text.date must be one of iso, long"));
  CHECK(message_with("[text]\nlines = [\"\", \"\"]\n") ==
        "d.toml:5:9: text.lines holds no words. Write, for example: lines = [\"Made by hand\"].");
  CHECK_THAT(message_with("[text]\nlines = []\n"), Contains("text.lines holds no words"));
  CHECK_THAT(message_with("[text]\nlines = [\"a\\nb\"]\n"),
             Contains("d.toml:5:10: each of text.lines must be plain text"));
  CHECK_THAT(message_with("[text]\ndate = \"iso\"\nnumber = \"serial\"\n"),
             Contains("d.toml:6:10: text.number is one too many"));
  CHECK_THAT(message_with("[text]\nnumber = \"roman\"\n"), Contains("d.toml:5:10: text.number must be one of serial"));
  CHECK_THAT(message_with("[text]\nlocale = \"de\"\n"),
             Contains("has no use: the text has no date. Write date = \"iso\""));
  CHECK_THAT(message_with("[text]\nnumber = \"serial\"\nlocale = \"de\"\n"),
             Contains("has no use: the text has no date. Write date = \"iso\""));
  for (const std::string key : {"before = \"x\"", "after = \"x\""}) {
    CHECK_THAT(message_with("[text]\n" + key + "\n"),
               Contains("has no use: the text has no date and no number. Write date = \"iso\" or number = \"serial\""));
  }
}

TEST_CASE("a serial number has words before and after it") {
  const Design design = design_of(blank + "[text]\nnumber = \"serial\"\nbefore = \"No. \"\nafter = \" of 2026\"\n");
  CHECK(has_number(design));
  const NumberPart& number = std::get<NumberPart>(design.texts.at(0).words);
  CHECK(number.before == "No. ");
  CHECK(number.after == " of 2026");
  CHECK(std::get<NumberPart>(design_of(blank + "[text]\nnumber = \"serial\"\n").texts.at(0).words).before.empty());
  CHECK_FALSE(has_number(design_of(blank + "[text]\ndate = \"iso\"\n")));
}

TEST_CASE("languages and locales are those that ICU knows") {
  for (const std::string tag : {"en-GB", "de", "zh-Hant", "zh-Hant-HK", "sr-Latn", "cy"}) CHECK(is_language(tag));
  for (const std::string tag : {"", "xx", "english", "en_GB", "de-", "en-GB-", "-", "en GB"})
    CHECK_FALSE(is_language(tag));
  CHECK(message_with("[text]\nlanguage = \"english\"\n") ==
        "d.toml:5:12: text.language is no language: \"english\" is not in the list of languages. "
        "Write a tag such as \"en-GB\", \"de\" or \"zh-Hant\".");
  CHECK_THAT(message_with("[text]\ndate = \"long\"\nlocale = \"\"\n"),
             Contains("d.toml:6:10: text.locale is no language"));
}

TEST_CASE("lettering's numbers have their ranges") {
  CHECK(message_with("[text]\ncap_height = { min = 9, max = 8 }\n") ==
        "d.toml:5:14: text.cap_height has a min larger than its max. Swap them, or write both.");
  CHECK_THAT(message_with("[text]\ncap_height = { min = 26 }\n"), Contains("has a min larger than its max"));
  CHECK_THAT(message_with("[text]\ncap_height = { min = 0 }\n"),
             Contains("d.toml:5:22: text.cap_height.min must be more"));
  CHECK_THAT(message_with("[text]\ncap_height = { max = inf }\n"),
             Contains("text.cap_height.max") && Contains("it is inf"));
  CHECK_THAT(message_with("[text]\ncap_height = 5\n"), Contains("d.toml:5:14: text.cap_height must be a table"));
  CHECK_THAT(message_with("[text]\ncap_height = { least = 3 }\n"),
             Contains("d.toml:5:16: unknown key \"least\". It belongs in [text]"));
  CHECK_THAT(message_with("[text]\nleading = 0\n"), Contains("d.toml:5:11: text.leading must be more than 0"));
  CHECK_THAT(message_with("[text]\ncap_leading = { mixed = 0 }\n"),
             Contains("d.toml:5:25: text.cap_leading.mixed must be more than 0"));
  CHECK_THAT(message_with("[text]\nline_gap = -0.1\n"), Contains("d.toml:5:12: text.line_gap must be from 0 to 5"));
  CHECK_THAT(message_with("[text]\noff_axis_gain = nan\n"),
             Contains("d.toml:5:17: text.off_axis_gain must be from -1"));
  CHECK_THAT(message_with("[text]\nreads_well = 0.6\n"),
             Contains("d.toml:5:14: text.reads_well must be from 0 to 0.5"));
  CHECK_THAT(message_with("[text]\nalign = \"center\"\n"), Contains("The nearest is \"centre\""));
  CHECK_THAT(message_with("[text]\noperation = \"etch\"\n"),
             Contains("text.operation must be one of engrave, score, cut, mark, guide"));
  CHECK_THAT(message_with("[text]\nfont = \"\"\n"), Contains("d.toml:5:8: text.font is empty"));
  CHECK_THAT(message_with("[text]\nfallbacks = [\"\"]\n"), Contains("d.toml:5:13: text.fallbacks holds an empty name"));
}

TEST_CASE("unknown keys come with the nearest known one, in every table") {
  CHECK(message_with("[text]\nfnot = \"serif\"\n") ==
        "d.toml:5:1: unknown key \"fnot\". The nearest known one is \"font\".");
  CHECK(message_with("[text]\n[[border]]\nwdth = 1\n") ==
        "d.toml:6:1: unknown key \"wdth\". The nearest known one is \"width\".");
  CHECK_THAT(message_with("hieght = 5\n[text]\n"),
             Contains("d.toml:4:1: unknown key \"hieght\"") && Contains("\"height\""));
  CHECK_THAT(message_with("[clear]\nmargins = 5\n[text]\n"), Contains("d.toml:5:1: ") && Contains("\"margin\""));
  CHECK_THAT(message_with("[text]\n[logo]\nfiles = \"a.svg\"\n"), Contains("d.toml:6:1: ") && Contains("\"file\""));
  CHECK_THAT(message_with("[texts]\n"), Contains("d.toml:4:2: ") && Contains("\"text\""));
}

TEST_CASE("a box must lie on the blank") {
  const std::string edge = "box reaches over the blank's edge. It is [left, bottom, width, height] in mm";
  CHECK_THAT(message_with("[text]\nbox = [50, 10, 60, 20]\n"), Contains("d.toml:5:7: text." + edge));
  CHECK_THAT(message_with("[text]\nbox = [10, 50, 60, 20]\n"), Contains("d.toml:5:7: text." + edge));
  CHECK_THAT(message_with("[logo]\nfile = \"a.svg\"\nbox = [10, 10, 91, 20]\n"), Contains("d.toml:6:7: logo." + edge));
  CHECK(message_with("[text]\nbox = [0, 0, 100, 60]\n").empty());
  CHECK(message_with("[text]\nbox = [0.1, 0.2, 99.9, 59.8]\n").empty());
  CHECK_THAT(message_with("[text]\nbox = [-1, 0, 10, 10]\n"), Contains("d.toml:5:8: each of text.box must be from 0"));
}

TEST_CASE("a text must have room inside margin, borders and gap") {
  const std::string none = "leaves no room for the text: margin, borders and gap take all of it";
  CHECK_THAT(message_with("[text]\nbox = [0, 0, 6, 60]\n"), Contains("d.toml:5:7: text.box " + none));
  CHECK(message_with("[text]\nbox = [0, 0, 6.1, 60]\n").empty());
  CHECK_THAT(message_with("[clear]\ngap = 22\n[text]\n[border]\ndistance = 6\nwidth = 2\n"), Contains(none));
  CHECK(message_with("[clear]\ngap = 21.9\n[text]\n[border]\ndistance = 6\nwidth = 2\n").empty());
  // A corner of a disc's bounds is not on the disc.
  CHECK_THAT(message_of("[blank]\nwidth = 60\nheight = 60\ncorners = \"rounded\"\ncorner = 30\n"
                        "[text]\nbox = [0, 0, 8, 8]\n"),
             Contains(none));
}

TEST_CASE("borders that lie over one another are refused, those that touch are not") {
  const std::string first = "[text]\n[[border]]\ndistance = 7\nwidth = 1.4\n";
  CHECK_THAT(message_with(first + "[[border]]\ndistance = 8\nwidth = 1\n"),
             Contains("distance lays the border over another: two of them share 8 to 8.4 mm from the edge"));
  CHECK_THAT(message_with(first + "[[border]]\ndistance = 8\noperation = \"score\"\n"),
             Contains("lays the border over another"));
  CHECK(message_with(first + "[[border]]\ndistance = 8.4\nwidth = 1\n").empty());
  CHECK(message_with(first + "[[border]]\ndistance = 7\noperation = \"cut\"\n").empty());
}

TEST_CASE("a border keeps to the clear area and leaves something inside") {
  CHECK(message_with("[border]\ndistance = 5.9\n") ==
        "d.toml:5:12: border.distance is less than the margin: the border's ink would leave the clear area. "
        "Write at least the margin, or make the margin smaller.");
  CHECK(message_with("[border]\ndistance = 10\nwidth = 20\n") ==
        "d.toml:6:9: border.width leaves nothing inside the border. Write less.");
  CHECK(message_with("[border]\ndistance = 30\nwidth = 1\n") ==
        "d.toml:5:12: border.distance leaves nothing inside the border. Write less.");
  CHECK(message_with("[border]\ndistance = 10\nwidth = 19.9\n").empty());
  CHECK_THAT(message_with("[border]\nwidth = 0\n"), Contains("d.toml:5:9: border.width must be more than 0"));
  CHECK(message_with("[border]\nwidth = 1\noperation = \"score\"\n") ==
        "d.toml:5:9: border.width has no use: only an engraved border is wide; others are a line. Take it out.");
}

TEST_CASE("a logo names its file and its box") {
  CHECK(message_with("[logo]\n") ==
        "d.toml:4:1: logo.file is missing. Write, for example: file = \"mark.svg\".\n"
        "d.toml:4:1: logo.box is missing. Write, for example: box = [10, 10, 30, 20].");
  CHECK_THAT(message_with("[logo]\nfile = \"\"\nbox = [10, 10, 9, 9]\n"), Contains("d.toml:5:8: logo.file is empty"));
}

TEST_CASE("a logo lies in the clear area and across no border") {
  const auto message = [](const std::string& box) {
    return message_with("[logo]\nfile = \"a.svg\"\nbox = " + box + "\n[border]\ndistance = 10\nwidth = 1\n");
  };
  CHECK(message("[0, 0, 6, 6]") ==
        "d.toml:6:7: logo.box lies outside the clear area. Move the logo inside the margin.");
  CHECK(message("[12, 20, 20, 20]").empty());
  CHECK(message("[6, 6, 4, 4]").empty());  // between margin and border
  CHECK(message("[9, 20, 20, 20]") ==
        "d.toml:6:7: logo.box crosses a border. Move the logo inside it, or make the box smaller.");
  CHECK(message("[10.5, 20, 20, 20]") != "");
}

TEST_CASE("nothing is engraved over another part") {
  const std::string logo = "[[logo]]\nfile = \"a.svg\"\nbox = [10, 10, 30, 30]\n";  // lines 4 to 6
  CHECK(message_with(logo + "[[text]]\nbox = [30, 10, 40, 20]\n") ==
        "d.toml:8:7: text.box overlaps a logo. Give each its own box = [left, bottom, width, height].");
  CHECK(message_with(logo + "[[text]]\nbox = [40, 10, 40, 20]\n").empty());
  CHECK(message_with(logo + "[[text]]\n") ==
        "d.toml:7:1: text.box overlaps a logo: without a box it is the whole clear area. "
        "Give each its own box = [left, bottom, width, height].");
  CHECK_THAT(message_with(logo + logo), Contains("d.toml:9:7: logo.box overlaps a logo"));
  CHECK_THAT(message_with("[[text]]\nbox = [10, 10, 30, 30]\n[[text]]\nbox = [39, 10, 30, 30]\n"),
             Contains("d.toml:7:7: text.box overlaps another text"));
  CHECK_THAT(message_with("[[text]]\n[[text]]\n"), Contains("text.box overlaps another text"));
}

TEST_CASE("broken TOML in a design is refused with line and column") {
  CHECK_THAT(message_of("[blank]\nwidth = 152,4\n"), Contains("d.toml:2:12: this is not TOML"));
  CHECK_THAT(message_of(blank + "[text\n"), Contains("d.toml:4:6: this is not TOML"));
}

TEST_CASE("the shipped designs are read, with their logo, and are ready for composing") {
  for (const std::string name : {"plaque-landscape", "plaque-portrait", "stand-words", "stand-logo"}) {
    const auto design = read_design(fs::path(PROJECT_FOLDER) / "templates" / (name + ".toml"));
    if (!design.ok()) FAIL(describe(design.fault()));
    CHECK(design->name == name);
    CHECK_FALSE(design->about.empty());
    CHECK_FALSE(design->clear_area.region.edges.empty());
    CHECK(design->checksum.size() == 64);
    for (const LogoPart& logo : design->logos) CHECK_FALSE(logo.logo.fill.empty());
  }
}

TEST_CASE("the shipped stands take a serial number where their comments say how") {
  for (const std::string name : {"stand-words", "stand-logo"}) {
    std::string text = *read_file(fs::path(PROJECT_FOLDER) / "templates" / (name + ".toml"));
    CHECK_FALSE(has_number(design_of(text)));
    const std::size_t begin = text.find("# [[text]]");
    REQUIRE(begin != std::string::npos);
    std::string part = text.substr(begin);
    for (std::size_t at = 0; at != std::string::npos; at = part.find("\n# ", at)) part.erase(at == 0 ? 0 : at + 1, 2);
    const std::string wide_date = "box = [5, 4, 90, 5.5]", narrow_date = "box = [5, 4, 60, 5.5]";
    text = text.substr(0, begin) + part;
    if (const std::size_t at = text.find(wide_date); at != std::string::npos) {
      CHECK(text.find(narrow_date) < begin);  // said before the part
      text.replace(at, wide_date.size(), narrow_date);
    }
    INFO(text);
    CHECK(has_number(design_of(text)));
  }
}

TEST_CASE("the shipped plaques are 6 by 4 inches, and 4 by 6") {
  const auto wide = read_design(fs::path(PROJECT_FOLDER) / "templates/plaque-landscape.toml");
  const auto tall = read_design(fs::path(PROJECT_FOLDER) / "templates/plaque-portrait.toml");
  REQUIRE(wide.ok());
  REQUIRE(tall.ok());
  CHECK(wide->width == Approx(6 * mm_per_inch));
  CHECK(wide->height == Approx(4 * mm_per_inch));
  CHECK(tall->width == Approx(4 * mm_per_inch));
  CHECK(tall->height == Approx(6 * mm_per_inch));
}

TEST_CASE("the checksum is that of the file's bytes and its logo's, one after the other") {
  const Folder folder;
  const std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9mm\" height=\"9mm\" viewBox=\"0 0 9 9\">"
      "<path d=\"M0 0h9v9z\"/></svg>";
  const std::string text = blank + "[logo]\nfile = \"a.svg\"\nbox = [10, 10, 30, 30]\n";
  write(folder.path / "a.svg", svg);
  write(folder.path / "with.toml", text);
  write(folder.path / "without.toml", blank + "[text]\n");
  CHECK(read_design(folder.path / "without.toml")->checksum == sha256_hex(blank + "[text]\n"));
  CHECK(read_design(folder.path / "with.toml")->checksum == sha256_hex(text + svg));
}

TEST_CASE("a design that is not there comes with the nearest that is") {
  const Folder folder;
  write(folder.path / "plaque-landscape.toml", blank + "[text]\n");
  write(folder.path / "plaque-landscap.txt", "");  // nearer, but no design
  const auto missing = read_design(folder.path / "plaque-landscap.toml");
  REQUIRE_FALSE(missing.ok());
  CHECK(missing.fault().what == "cannot read the design \"plaque-landscap\"");
  CHECK(missing.fault().where == (folder.path / "plaque-landscap.toml").string());
  CHECK(missing.fault().mend == "The nearest design there is \"plaque-landscape\"");
  CHECK_FALSE(read_design(folder.path / "zebra.toml").ok());
  CHECK_FALSE(read_design(folder.path / "no-such-folder" / "a.toml").ok());
}

TEST_CASE("a folder in a design's place, and a logo that is not there, are refused by name") {
  const Folder folder;
  fs::create_directories(folder.path / "a.toml");
  CHECK_THAT(describe(read_design(folder.path / "a.toml").fault()), Contains("a.toml") && Contains("directory"));
  write(folder.path / "b.toml", blank + "[logo]\nfile = \"gone.svg\"\nbox = [10, 10, 30, 30]\n");
  CHECK_THAT(describe(read_design(folder.path / "b.toml").fault()), Contains("gone.svg"));
}

TEST_CASE("roles take over what the text says, and change what they say") {
  const Design design = design_of(R"([blank]
width = 100
height = 60
[text]
words = "inscription"
font = "serif"
letter_spacing = 0.02
figures = "lining"
sizes = "by-role"
line_breaks = "free"
hang_punctuation = true
sturdier = "slab"
least = { stroke = 0.15, counter = 0.2 }
[[text.role]]
name = "name"
at = [1]
of = [2, 3]
size = 1.4
case = "upper"
[[text.role]]
name = "date"
at = [-1]
font = "sans"
size = 0.6
features = ["tnum"]
)");
  const TextPart& text = design.texts.at(0);
  CHECK(text.sizes == BlockSizes::by_role);
  CHECK(text.breaks == LineBreaks::free);
  CHECK(text.block.hang_punctuation);
  CHECK(text.sturdier == "slab");
  CHECK(text.least_stroke == 0.15);
  CHECK(text.least_counter == 0.2);
  REQUIRE(text.roles.size() == 2);
  const RolePart &name = text.roles[0], &date = text.roles[1];
  CHECK(name.at == std::vector{1});
  CHECK(name.of == std::vector{2, 3});
  CHECK(name.look.size == 1.4);
  CHECK(name.look.letter_case == LetterCase::upper);
  CHECK(name.look.features == std::vector<std::string>{"lnum"});
  CHECK(name.look.letter_spacing == 0.02);
  CHECK(date.look.faces == std::vector<std::string>{"sans"});
  CHECK(date.look.features == std::vector<std::string>{"tnum"});
}

}  // namespace ordinatio::design_file_test
