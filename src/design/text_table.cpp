#include "design/text_table.h"

#include <algorithm>

#include "cleaning/text_limits.h"
#include "design/design_file.h"
#include "design/stroke_text.h"

namespace ordinatio::inline design {
namespace {

constexpr NumberRange any_cap_height{0, 1'000, true};  // mm
constexpr NumberRange any_leading{0, 10, true};        // em
constexpr NumberRange any_cap_leading{0, 10, true};    // heights of capitals
constexpr NumberRange any_line_gap{0, 5};              // em
constexpr NumberRange any_spacing{-0.5, 5};            // em; closer letters would lie on one another
constexpr NumberRange any_gain{-1, 100};               // a share; below 0 the axis does not count
constexpr NumberRange any_sense{0, 0.5};               // a share; at more, one short word would halve the lettering
constexpr NumberRange any_air{0, 0.4};                 // a share, twice over: half and more would leave nothing
constexpr NumberRange any_ratio{1, 20};
constexpr NumberRange any_relative_size{0, 20, true};
constexpr NumberRange any_stroke{0, 10};  // mm
constexpr int line_limit = 100;           // a line's number, or how many there are; more is a slip of the pen

constexpr Word<Alignment> alignment_words[] = {
    {"left", Alignment::left}, {"centre", Alignment::centre}, {"right", Alignment::right}};
constexpr Word<bool> inscription_words[] = {{"inscription", true}};
constexpr Word<std::string_view> date_words[] = {{"iso", "iso"}, {"long", "long"}};
constexpr Word<bool> number_words[] = {{"serial", true}};
constexpr Word<BlockSizes> size_words[] = {
    {"one-size", BlockSizes::one_size}, {"by-role", BlockSizes::by_role}, {"same-width", BlockSizes::same_width}};
constexpr Word<LineBreaks> break_words[] = {
    {"kept", LineBreaks::kept}, {"added", LineBreaks::added}, {"free", LineBreaks::free}};
constexpr Word<LetterCase> case_words[] = {{"as-typed", LetterCase::as_typed},
                                           {"upper", LetterCase::upper},
                                           {"lower", LetterCase::lower},
                                           {"title", LetterCase::title}};
// OpenType's registered features: https://learn.microsoft.com/typography/opentype/spec/featurelist
constexpr Word<std::string_view> figure_words[] = {{"as-drawn", "-lnum"}, {"lining", "lnum"}, {"old-style", "onum"}};

constexpr Word<StandInUnit> stand_in_words[] = {{"script", StandInUnit::script}, {"word", StandInUnit::word}};
constexpr Word<bool> mathematical_words[] = {{"plain", false}, {"held", true}};

/// What a text has besides what it asks for, and what has no use in it.
void check_words(TomlTable& text) {
  if (text.has("words") + text.has("lines") + text.has("date") + text.has("number") > 1) {
    text.fault(text.has("number") ? "number"
               : text.has("date") ? "date"
                                  : "lines",
               "is one too many", "a text has words, or lines, or a date, or a number", "Make two [[text]] of it");
  }
  if (text.has("locale") && !text.has("date")) {
    text.fault("locale", "has no use", "the text has no date", "Write date = \"iso\"");
  }
  for (const std::string_view key : {"before", "after"}) {
    if (text.has(key) && !text.has("date") && !text.has("number"))
      text.fault(key, "has no use", "the text has no date and no number",
                 "Write date = \"iso\" or number = \"serial\"");
  }
}

/// The one of inscription, words, date and number that the table asks for.
void read_words(TomlTable& text, TextPart& part) {
  bool inscription = true, serial = true;
  std::string_view form = "iso";
  WordsPart words;
  DatePart date;
  text.read("words", inscription, inscription_words);
  const bool fixed = text.read("lines", words.lines);
  const bool dated = text.read("date", form, date_words);
  const bool numbered = text.read("number", serial, number_words);
  read_language(text, "locale", date.locale);
  text.read("before", date.before);
  text.read("after", date.after);
  date.form = form;

  check_words(text);
  if (fixed && std::ranges::all_of(words.lines, &std::string::empty)) {
    text.fault("lines", "holds no words", "", "Write, for example: lines = [\"Made by hand\"]");
  }
  if (const auto fault = too_long(words.lines)) {
    text.fault("lines", "are too long", fault->why, "Shorten them, or make a logo of them");
  }
  if (fixed) part.words = std::move(words);
  if (numbered) part.words = NumberPart{date.before, date.after};
  if (dated) part.words = std::move(date);
}

void read_faces(TomlTable& table, LineLook& look) {
  std::string face = look.faces.front();
  std::vector<std::string> fallbacks(look.faces.begin() + 1, look.faces.end());
  table.read("font", face);
  table.read("fallbacks", fallbacks);
  look.faces = {face};
  look.faces.insert(look.faces.end(), fallbacks.begin(), fallbacks.end());
  if (face.empty()) table.fault("font", "is empty", "", "Name a face of the catalogue or a file in the fonts folder");
  if (std::ranges::count(fallbacks, "") > 0) table.fault("fallbacks", "holds an empty name", "", "Take it out");
}

void read_features(TomlTable& table, LineLook& look) {
  bool small_capitals = false;
  std::string_view figures;
  std::vector<std::string> others;
  const bool any = static_cast<int>(table.read("small_capitals", small_capitals)) +
                       static_cast<int>(table.read("figures", figures, figure_words)) +
                       static_cast<int>(table.read("features", others)) >
                   0;
  if (!any) return;
  look.features.clear();
  if (small_capitals) look.features.emplace_back("smcp");
  if (!figures.empty()) look.features.emplace_back(figures);
  look.features.insert(look.features.end(), others.begin(), others.end());
}

/// What the table does not say stays as it is in `look`; but axes and features are those of one face.
void read_look(TomlTable& table, LineLook& look) {
  if (table.has("font")) look.axes.clear(), look.features.clear();
  read_faces(table, look);
  table.read("axes", look.axes);
  read_features(table, look);
  table.read("letter_spacing", look.letter_spacing, any_spacing);
  table.read("case", look.letter_case, case_words);
}

RolePart read_role(TomlTable& table, const LineLook& text_look, BlockSizes sizes) {
  RolePart role;
  role.look = text_look;
  table.require("name", "name = \"date\"");
  table.read("name", role.name);
  table.read("at", role.at, -line_limit, line_limit);
  table.read("of", role.of, 1, line_limit);
  table.read("size", role.look.size, any_relative_size);
  read_look(table, role.look);
  if (std::ranges::count(role.at, 0) > 0) {
    table.fault("at", "holds 0", "lines are counted from 1, and from -1 at the end", "Write, for example: at = [-1]");
  }
  if (table.has("size") && sizes != BlockSizes::by_role) {
    table.fault("size", "has no use", "the text's lines are not sized by role", "Write sizes = \"by-role\" in [text]");
  }
  return role;
}

void read_block(TomlTable& text, TextPart& part) {
  text.read("align", part.block.alignment, alignment_words);
  text.read("leading", part.block.leading, any_leading);
  TomlTable cap_leading = text.table("cap_leading");
  cap_leading.read("mixed", part.block.cap_leading.mixed, any_cap_leading);
  cap_leading.read("capitals", part.block.cap_leading.capitals, any_cap_leading);
  text.read("line_gap", part.block.least_gap, any_line_gap);
  text.read("hang_punctuation", part.block.hang_punctuation);
  text.read("line_breaks", part.breaks, break_words);
  text.read("reads_well", part.reads_well, any_sense);
  text.read("sizes", part.sizes, size_words);
  text.read("width_ratio", part.block.width_ratio, any_ratio);
  if (part.sizes == BlockSizes::same_width) part.block.sizes = LineSizes::same_width;
  if (text.has("width_ratio") && part.sizes != BlockSizes::same_width) {
    text.fault("width_ratio", "has no use", "the lines are not set to the same width",
               "Write sizes = \"same-width\", or take it out");
  }
}

void read_limits(TomlTable& text, TextPart& part) {
  TomlTable cap_height = text.table("cap_height");
  cap_height.read("min", part.min_cap_height, any_cap_height);
  cap_height.read("max", part.max_cap_height, any_cap_height);
  if (part.min_cap_height > part.max_cap_height) {
    text.fault("cap_height", "has a min larger than its max", "", "Swap them, or write both");
  }
  TomlTable least = text.table("least");
  least.read("stroke", part.least_stroke, any_stroke);
  least.read("counter", part.least_counter, any_stroke);
  if (text.read("sturdier", part.sturdier) && part.sturdier.empty()) {
    text.fault("sturdier", "is empty", "", "Name a face with thicker strokes, or take it out");
  }
}

}  // namespace

void read_operation(TomlTable& table, Operation& operation) {
  Word<Operation> words[all_operations.size()];
  for (std::size_t i = 0; i < all_operations.size(); ++i) words[i] = {name_of(all_operations[i]), all_operations[i]};
  table.read("operation", operation, words);
}

void read_language(TomlTable& table, std::string_view key, std::string& tag) {
  if (table.read(key, tag) && !is_language(tag)) {
    table.fault(key, "is no language", "\"" + tag + "\" is not in the list of languages",
                "Write a tag such as \"en-GB\", \"de\" or \"zh-Hant\"");
  }
}

TextPart read_text(TomlTable& text) {
  TextPart part;
  part.look.faces = {"serif"};
  read_words(text, part);
  read_look(text, part.look);
  read_language(text, "language", part.language);
  text.read("box", part.box);
  read_block(text, part);
  text.read("off_axis_gain", part.off_axis_gain, any_gain);
  text.read("stand_in", part.stand_in, stand_in_words);
  text.read("mathematical_letters", part.holds_mathematical, mathematical_words);
  text.read("air", part.air, any_air);
  read_operation(text, part.operation);
  read_limits(text, part);
  std::vector<TomlTable> roles = text.tables("role");
  for (TomlTable& table : roles) part.roles.push_back(read_role(table, part.look, part.sizes));
  check_strokes(text, part);
  return part;
}

}  // namespace ordinatio::inline design
