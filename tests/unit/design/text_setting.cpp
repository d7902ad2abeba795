#include "design/text_setting.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>

#include "set_alone.h"

namespace ordinatio::text_setting_test {
using Catch::Matchers::Contains;

namespace {

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  Design plaque(double width = 150, double height = 100) {
    Design design;
    design.name = "test";
    design.width = width, design.height = height;
    design.blank.outline = rectangle_outline(width, height, Corner::square, 0);
    design.margin = 5;
    TextPart text;
    text.look.faces = {"serif"};
    text.language = "en";
    text.min_cap_height = 3, text.max_cap_height = 30;
    design.texts.push_back(text);
    return design;
  }
  Result<Artwork> compose(Design design, std::vector<std::string> lines) {
    const auto laid = laid_as_drawn(design);
    if (!laid.ok()) return laid.fault();
    return ordinatio::compose(*laid, {{"", std::move(lines), {}}, ""}, typesetter);
  }
  Artwork good(const Design& design, std::vector<std::string> lines) {
    auto artwork = compose(design, std::move(lines));
    if (!artwork.ok()) FAIL(describe(artwork.fault()));
    return std::move(*artwork);
  }
  SetText text(Design design, std::vector<std::string> lines) {
    const auto laid = laid_as_drawn(design);
    REQUIRE(laid.ok());
    auto set = set_text(*laid, 0, {{"", std::move(lines), {}}, ""}, typesetter);
    if (!set.ok()) FAIL(describe(set.fault()));
    return std::move(*set);
  }
};

RolePart role(const std::string& name, std::vector<int> at, std::vector<int> of, LineLook look) {
  return {name, std::move(at), std::move(of), std::move(look)};
}

double width_of(const Block& block, std::size_t i) { return block.lines[i].size * block.lines[i].shaped.ink.width(); }

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("lines are kept, parted, or parted and joined, as the design has it") {
  Bench bench;
  Design design = bench.plaque();
  const Lines typed{"For the millers of Quernby", "Mill"};
  CHECK(bench.good(design, typed).lines == typed);
  design.texts[0].breaks = LineBreaks::added;
  const Artwork parted = bench.good(design, typed);
  CHECK(parted.lines == Lines{"For the millers", "of Quernby", "Mill"});
  CHECK(parted.changes == Lines{"line 1 was parted after “millers”"});
  design.texts[0].breaks = LineBreaks::free;
  CHECK(bench.good(design, typed).lines == parted.lines);  // "For the" ends no line, however large
  const Lines others{"For all", "the", "millers", "at", "Quernby", "Mill"};
  const Artwork free = bench.good(design, others);
  CHECK(free.lines ==
        Lines{"For all the", "millers at", "Quernby Mill"});  // the customer's own ends are as good as any
  CHECK_THAT(free.changes.front(), Contains("lines 1 and 2 were joined"));
  design.texts[0].breaks = LineBreaks::added;
  CHECK(free.cap_height > bench.good(design, others).cap_height);
}

TEST_CASE("lines read less well before an item is held for its size") {
  Bench bench;
  Design design = bench.plaque();
  design.texts[0].breaks = LineBreaks::free;
  const Lines typed{"For the millers of Quernby", "Mill"};
  const Artwork well = bench.good(design, typed);
  design.texts[0].reads_well = 0;
  const Artwork largest = bench.good(design, typed);
  REQUIRE(largest.cap_height > 1.02 * well.cap_height);
  design.texts[0].reads_well = 0.10;
  design.texts[0].min_cap_height = (largest.cap_height + well.cap_height) / 2;
  const Artwork artwork = bench.good(design, typed);
  CHECK(artwork.lines == largest.lines);
  CHECK(artwork.hash == largest.hash);
  CHECK(artwork.changes.back().starts_with("its lines end where that makes it largest"));
}

TEST_CASE("parting lines never makes lettering smaller, and words that are glued stay together") {
  Bench bench;
  Design kept = bench.plaque(), free = bench.plaque();
  free.texts[0].breaks = LineBreaks::free;
  for (const Lines& lines : {Lines{"Anna"}, Lines{"Anna", "and Bert"}, Lines{"To the one who turned the great wheel"},
                             Lines{"a b c d e f g h i j k l m n o p"}, Lines{"水車小屋の思い出に", "ありがとう"}}) {
    CHECK(bench.good(free, lines).cap_height >= bench.good(kept, lines).cap_height * (1 - 1e-9));
  }
  const Artwork glued = bench.good(free, {"Anna van\u00A0der\u00A0Mole and Bert"});
  for (const std::string& line : glued.lines) {
    CHECK((line.find("van") == std::string::npos) == (line.find("Mole") == std::string::npos));
  }
}

TEST_CASE("empty lines part what is never joined") {
  Bench bench;
  Design design = bench.plaque();
  design.texts[0].breaks = LineBreaks::free;
  const Artwork artwork = bench.good(design, {"The old mill stood here", "", "until 1874"});
  const auto blank = std::ranges::find(artwork.lines, "");
  REQUIRE(blank != artwork.lines.end());
  CHECK(*std::next(blank) == "until 1874");
}

TEST_CASE("a part of a line is shaped as if it stood alone") {
  Bench bench;
  const TextStyle style{{"serif"}, "en", "", {}, {}, 0};
  for (const char* text : {"To Ava Tyrell", "office of affairs", "Ver. 1874 AVATAR T. Y."}) {
    const ShapedLine whole = *bench.typesetter.shape(text, style);
    const std::string line = text;
    for (const BreakPlace& place : bench.typesetter.breaker().places(line, "en")) {
      const ShapedLine part = *bench.typesetter.part_of(whole, place.begin, line.size(), style);
      const ShapedLine alone = *bench.typesetter.shape(line.substr(place.begin), style);
      CHECK(part.text == alone.text);
      CHECK(part.ink.width() == Approx(alone.ink.width()).margin(1e-12));
      CHECK(part.advance == Approx(alone.advance).margin(1e-12));
      REQUIRE(part.glyphs.size() == alone.glyphs.size());
      for (std::size_t i = 0; i < part.glyphs.size(); ++i) {
        CHECK(part.glyphs[i].glyph == alone.glyphs[i].glyph);
        CHECK(part.glyphs[i].cluster == alone.glyphs[i].cluster);
      }
    }
  }
}

TEST_CASE("roles go to lines by their place and by how many there are") {
  Bench bench;
  Design design = bench.plaque();
  TextPart& text = design.texts[0];
  text.sizes = BlockSizes::by_role;
  LineLook name = text.look, date = text.look;
  name.size = 1.5, name.faces = {"slab"};
  date.size = 0.5, date.faces = {"sans"};
  text.roles = {role("name", {1}, {}, name), role("date", {-1}, {2, 3}, date)};
  const auto sizes = [&](Lines lines) {
    std::vector<double> result;
    for (const BlockLine& line : bench.text(design, std::move(lines)).setting.block.lines) result.push_back(line.size);
    return result;
  };
  CHECK(sizes({"Ada"}) == std::vector{1.5});
  CHECK(sizes({"Ada", "1874"}) == std::vector{1.5, 0.5});
  CHECK(sizes({"Ada", "Bert", "1874"}) == std::vector{1.5, 1.0, 0.5});
  CHECK(sizes({"Ada", "Bert", "Mill", "1874"}) == std::vector{1.5, 1.0, 1.0, 1.0});
  const Artwork artwork = bench.good(design, {"Ada", "Bert", "1874"});
  std::vector<std::string> faces;
  for (const UsedFace& face : artwork.faces) faces.push_back(face.name);
  CHECK(faces == std::vector<std::string>{"sans", "serif", "slab"});
  text.sizes = BlockSizes::one_size;
  CHECK(sizes({"Ada", "1874"}) == std::vector{1.0, 1.0});
}

TEST_CASE("the smallest line meets the least cap height, the largest line the largest") {
  Bench bench;
  Design design = bench.plaque();
  TextPart& text = design.texts[0];
  text.sizes = BlockSizes::by_role;
  LineLook date = text.look;
  date.size = 0.5;
  text.roles = {role("date", {-1}, {}, date)};
  text.max_cap_height = 12;
  const Artwork artwork = bench.good(design, {"Ada", "1874"});
  CHECK(artwork.cap_height == Approx(6).epsilon(1e-9));
  text.min_cap_height = 6.5;
  CHECK_THAT(bench.compose(design, {"Ada", "1874"}).fault().what, Contains("would come to 6 mm"));
}

TEST_CASE("all lines of a block may be as wide as one another") {
  Bench bench;
  Design design = bench.plaque();
  design.texts[0].sizes = BlockSizes::same_width;
  design.texts[0].block.sizes = LineSizes::same_width;
  design.texts[0].block.width_ratio = 6;
  const SetText set = bench.text(design, {"Quernby Watermill", "rebuilt", "1874"});
  const Block& block = set.setting.block;
  CHECK(width_of(block, 1) == Approx(width_of(block, 0)));
  CHECK(width_of(block, 2) == Approx(width_of(block, 0)));
  CHECK(set.legibility.cap_height == Approx(set.setting.placement.size * block.lines[0].cap_height));
}

TEST_CASE("letter case follows the language, and is told") {
  Bench bench;
  Design design = bench.plaque();
  design.texts[0].look.letter_case = LetterCase::upper;
  const Artwork artwork = bench.good(design, {"Straße 7", "MILL"});
  CHECK(artwork.lines == Lines{"STRASSE 7", "MILL"});
  CHECK(artwork.changes == Lines{"line 1 was set in capitals"});
  design.texts[0].language = "tr";
  CHECK(bench.good(design, {"değirmenci"}).lines == Lines{"DEĞİRMENCİ"});
  design.texts[0].look.letter_case = LetterCase::lower;
  design.texts[0].language = "el";
  CHECK(bench.good(design, {"ΜΥΛΟΣ"}).lines == Lines{"μυλος"});
}

TEST_CASE("small capitals, old-style figures and letter spacing change the ink as they should") {
  Bench bench;
  Design design = bench.plaque();
  const auto line = [&] { return bench.text(design, {"mill 1874"}).setting.block.lines[0].shaped; };
  const ShapedLine plain = line();
  design.texts[0].look.features = {"smcp"};
  const ShapedLine small = line();
  CHECK(small.glyphs[0].glyph != plain.glyphs[0].glyph);
  design.texts[0].look.features = {"onum"};
  CHECK(line().glyphs[6].glyph != plain.glyphs[6].glyph);  // figures are lining unless the design says otherwise
  design.texts[0].look.features = {};
  design.texts[0].look.letter_spacing = 0.1;
  CHECK(line().ink.width() == Approx(plain.ink.width() + 0.1 * 8));
  CHECK(line().advance == Approx(plain.advance + 0.1 * 8));
}

TEST_CASE("a decorative face that lacks a letter gives way to the sturdier one, or holds the item") {
  Bench bench;
  Design design = bench.plaque();
  design.texts[0].look.faces = {"script"};
  const Fault held = bench.compose(design, {"Anna", "Łukasz"}).fault();
  CHECK(held.what == "“Łukasz” cannot be set in script");
  CHECK(held.where == "line 2, character 1");
  design.texts[0].sturdier = "serif";
  const SetText text = bench.text(design, {"Anna", "Łukasz"});
  REQUIRE(text.warnings.size() == 1);
  CHECK(text.warnings[0].starts_with("set in serif instead of script: “Łukasz” cannot be set in script"));
  // A text that is only too long is not set in another face for that.
  design.texts[0].min_cap_height = 24;
  CHECK(bench.compose(design, {"Anna and the others of the mill"})
            .fault()
            .what.starts_with("the lettering would come to"));
}

TEST_CASE("a word that another face sets is told") {
  Bench bench;
  Design design = bench.plaque();
  design.texts[0].look.faces = {"sans"};
  CHECK(bench.text(design, {"Anna Łukasz"}).changes == Lines{"“Łukasz”: set in noto-sans, and “Anna” with it"});
  CHECK(bench.text(design, {"Anna Lukas"}).changes.empty());
}

TEST_CASE(
    "all words of a script are in the face that one of them needs, in all lines of a text, unless the design says "
    "not") {
  Bench bench;
  Design design = bench.plaque();
  TextPart& part = design.texts[0];
  part.look.faces = {"slab"};
  const auto changes = [&](std::vector<std::string> lines) { return bench.text(design, std::move(lines)).changes; };
  CHECK(changes({"Anna", "Ọlọ́run", "1893"}) == Lines{"“Ọlọ́run”: set in noto-serif, and “Anna”, “1893” with it"});
  CHECK(changes({"Anna Ọlọ́run 1893"}) == Lines{"“Ọlọ́run”: set in noto-serif, and “Anna”, “1893” with it"});
  CHECK(changes({"Ọlọ́run", "Žą́sa", "Ada"}) == Lines{"“Ọlọ́run”, “Žą́sa”: set in noto-serif, and “Ada” with them"});
  // Of that script alone; figures go with the words that they stand among.
  CHECK(changes({"Ива́н", "Anna 1893"}) == Lines{"“Ива́н”: set in noto-serif"});
  CHECK(changes({"Ива́н", "Иван", "1893"}) == Lines{"“Ива́н”: set in noto-serif, and “Иван”, “1893” with it"});
  // The design's own fallbacks come first.
  part.look.faces = {"slab", "serif"};
  CHECK(changes({"Anna", "Ọlọ́run"}) == Lines{"“Ọlọ́run”: set in serif, and “Anna” with it"});
  part.look.faces = {"slab"};
  // Lines of another look are their own affair.
  LineLook sans = part.look;
  sans.faces = {"sans"};
  part.roles = {role("last", {-1}, {}, sans)};
  CHECK(changes({"Anna", "Ọlọ́run", "Ada"}) == Lines{"“Ọlọ́run”: set in noto-serif, and “Anna” with it"});
  sans.faces = {"slab"};
  part.roles = {role("last", {-1}, {}, sans)};
  CHECK(changes({"Anna", "Ada", "Ọlọ́run"}) == Lines{"“Ọlọ́run”: set in noto-serif, and “Anna”, “Ada” with it"});
  part.roles.clear();
  part.stand_in = StandInUnit::word;
  CHECK(changes({"Anna", "Ọlọ́run", "1893"}) == Lines{"“Ọlọ́run”: set in noto-serif"});
}

TEST_CASE("where no one face sets all words of a script, each is in the first that sets it") {
  Bench bench;
  Design design = bench.plaque();
  CHECK(bench.text(design, {"Ada a̶", "Ꝥor"}).changes == Lines{"“a̶”: set in variable", "“Ꝥor”: set in noto-serif"});
}

TEST_CASE("mathematical letters are plain ones, or hold the item where the design says so") {
  Bench bench;
  auto laid = laid_as_drawn(bench.plaque());
  REQUIRE(laid.ok());
  LaidDesign& design = *laid;
  const auto words = clean_inscription("𝓐𝓷𝓷𝓪");
  REQUIRE(words.ok());
  CHECK(compose(design, {*words, ""}, bench.typesetter)->lines == Lines{"Anna"});
  design.texts[0].holds_mathematical = true;
  const auto held = compose(design, {*words, ""}, bench.typesetter);
  REQUIRE_FALSE(held.ok());
  CHECK(held.fault().what == "mathematical letters cannot be engraved in this design");
}

TEST_CASE("letters that join are not spaced, and spaced letters make no ligatures") {
  Bench bench;
  TextStyle style{{"serif"}, "en", "ar", {}, {}, 0};
  const double joined = bench.typesetter.shape("طاحونة", style)->advance;
  const std::size_t ligature = bench.typesetter.shape("office", style)->glyphs.size();
  style.letter_spacing = 0.2;
  CHECK(bench.typesetter.shape("طاحونة", style)->advance == joined);
  CHECK(ligature < 6);
  CHECK(bench.typesetter.shape("office", style)->glyphs.size() == 6);
}

TEST_CASE("a face that cannot do what a design asks of it is told before any item is set") {
  Bench bench;
  Design design = bench.plaque();
  CHECK_FALSE(check_faces(design, bench.typesetter));
  design.texts[0].look.features = {"smcp"};
  CHECK_FALSE(check_faces(design, bench.typesetter));
  design.texts[0].look.faces = {"script"};
  CHECK_THAT(describe(*check_faces(design, bench.typesetter)),
             Contains("design test, face script: the feature \"smcp\" cannot be had"));
  design.texts[0].look.features = {}, design.texts[0].look.letter_spacing = 0.05;
  CHECK_THAT(describe(*check_faces(design, bench.typesetter)), Contains("letters cannot be spaced"));
  design.texts[0].look.letter_spacing = 0;
  design.texts[0].look.features = {"kapitälchen"};
  CHECK_THAT(describe(*check_faces(design, bench.typesetter)), Contains("is no OpenType feature"));
  design.texts[0].look.features = {};
  design.texts[0].look.axes = {"wght=650"};
  CHECK_THAT(describe(*check_faces(design, bench.typesetter)), Contains("the face is not variable"));
  design.texts[0].look.axes = {};
  design.texts[0].sturdier = "slabb";
  CHECK_THAT(describe(*check_faces(design, bench.typesetter)), Contains("Did you mean \"slab\""));
}

TEST_CASE("a variable face takes the values of its axes") {
  Bench bench;
  Design design = bench.plaque();
  design.texts[0].look.faces = {"variable"};
  const auto stroke = [&](std::vector<std::string> axes) {
    design.texts[0].look.axes = std::move(axes);
    if (const auto fault = check_faces(design, bench.typesetter)) FAIL(describe(*fault));
    const SetText set = bench.text(design, {"I"});
    return set.legibility.stroke.width / set.setting.placement.size;
  };
  const double light = stroke({"wght=300"}), bold = stroke({"wght=700"}), between = stroke({"wght=500"});
  CHECK(light < between);
  CHECK(between < bold);
  design.texts[0].look.axes = {"wght=1200"};
  CHECK_THAT(describe(*check_faces(design, bench.typesetter)), Contains("wght from 100 to 900"));
  design.texts[0].look.axes = {"heavy"};
  CHECK_THAT(describe(*check_faces(design, bench.typesetter)), Contains("is no axis"));
}

TEST_CASE("what the beam cannot draw is held with its place, or set in the sturdier face") {
  Bench bench;
  Design design = bench.plaque();
  TextPart& text = design.texts[0];
  text.look.faces = {"script"};
  const Artwork well = bench.good(design, {"Millwheel"});
  CHECK_FALSE(well.illegible);
  CHECK(std::isfinite(well.stroke.width));
  text.beam_spot = well.stroke.width * 1.01;
  const Artwork held = bench.good(design, {"Millwheel"});
  REQUIRE(held.illegible);
  CHECK_THAT(held.illegible->what, Contains("the thinnest stroke would come to"));
  CHECK_THAT(held.illegible->why, Contains("the beam's spot of") && Contains("cannot draw it"));
  CHECK(held.hash == well.hash);
  const Bounds ink = bounds_of(held.layers.at(0).path);
  CHECK((held.stroke.at.x > ink.left && held.stroke.at.x < ink.right && held.stroke.at.y > ink.bottom &&
         held.stroke.at.y < ink.top));
  text.beam_spot = well.stroke.width * 0.99;
  CHECK_FALSE(bench.good(design, {"Millwheel"}).illegible);
  text.least_stroke = well.stroke.width * 1.01;
  CHECK_THAT(bench.good(design, {"Millwheel"}).illegible->why, Contains("the design's limit is"));
  text.sturdier = "slab";
  const Artwork sturdy = bench.good(design, {"Millwheel"});
  CHECK_FALSE(sturdy.illegible);
  CHECK(sturdy.faces.at(0).name == "slab");
  REQUIRE(sturdy.warnings.size() == 1);
  CHECK_THAT(sturdy.warnings[0], Contains("set in slab instead of script: the thinnest stroke would come to"));
  text.least_stroke = 50;
  CHECK(bench.good(design, {"Millwheel"}).faces.at(0).name == "script");  // the sturdier one would not do either
}

TEST_CASE("a closed counter that the spot would fill holds the item") {
  Bench bench;
  Design design = bench.plaque();
  const Artwork artwork = bench.good(design, {"meal"});
  CHECK(std::isfinite(artwork.counter.width));
  design.texts[0].beam_spot = artwork.counter.width * 1.01;
  design.texts[0].least_stroke = 0;
  const Artwork filled = bench.good(design, {"meal"});
  REQUIRE(filled.illegible);
  design.texts[0].beam_spot = 0;
  design.texts[0].least_counter = artwork.counter.width + 0.1;
  CHECK_THAT(bench.good(design, {"meal"}).illegible->what, Contains("the narrowest counter would come to"));
  // An i's dot stands off its stem, and no counter is closed.
  CHECK_FALSE(bench.good(design, {"mill"}).illegible);
}

TEST_CASE("open slits hold nothing, and are told where the spot fills them deeper than three of its widths") {
  Bench bench;
  Design design = bench.plaque(152, 102);
  TextPart& text = design.texts[0];
  text.max_cap_height = 25, text.beam_spot = 0.1;
  for (const char* letter : {"党", "勉", "刷", "悦"}) {
    INFO(letter);
    const Artwork artwork = bench.good(design, {letter});
    CHECK(artwork.cap_height == Approx(25));
    CHECK_FALSE(artwork.illegible);
    CHECK(artwork.counter.width > 1);
  }
  // In simplified Chinese forms a seam of 0.07 mm goes 1.6 mm in.
  text.language = "zh-Hans";
  const Artwork seam = bench.good(design, {"勉"});
  REQUIRE(seam.warnings.size() == 1);
  CHECK_THAT(seam.warnings[0], Contains("between strokes of “勉” a slit comes to 0.07 mm"));
  CHECK(std::ranges::count(seam.changes, seam.warnings[0]) == 1);
  REQUIRE(seam.slits.size() == 1);
  CHECK(seam.slits[0].width == Approx(0.07).margin(0.005));
  const Bounds ink = bounds_of(seam.layers[0].path);
  const Point at = seam.slits[0].at;
  CHECK((at.x > ink.left && at.x < ink.right && at.y > ink.bottom && at.y < ink.top));
  text.beam_spot = 0.05;  // it goes in
  CHECK(bench.good(design, {"勉"}).warnings.empty());
  CHECK(bench.good(design, {"勉"}).slits.empty());
  text.beam_spot = 0;  // nobody knows
  CHECK(bench.good(design, {"勉"}).warnings.empty());
  text.beam_spot = 0.1, text.operation = Operation::score;  // a line is followed, and fills nothing
  CHECK(bench.good(design, {"勉"}).warnings.empty());
}

TEST_CASE("widths scale with the lettering") {
  Bench bench;
  Design large = bench.plaque(300, 200), small = bench.plaque(150, 100);
  large.margin = 10;
  large.texts[0].max_cap_height = 60;
  const Artwork a = bench.good(large, {"Quernby", "Mill"}), b = bench.good(small, {"Quernby", "Mill"});
  CHECK(a.stroke.width == Approx(2 * b.stroke.width).epsilon(1e-6));
  CHECK(a.counter.width == Approx(2 * b.counter.width).epsilon(1e-6));
  CHECK(a.x_height == Approx(2 * b.x_height).epsilon(1e-6));
}

}  // namespace ordinatio::text_setting_test
