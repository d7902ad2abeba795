#include "design/text_setting.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "design/date.h"
#include "design/forms.h"
#include "design/stroke_text.h"
#include "design/wished_text.h"

namespace ordinatio::inline design {
namespace {

/// The lines of a part, whoever wrote them.
Result<std::vector<std::string>> lines_of(const TextPart& part, const Words& words) {
  if (std::holds_alternative<InscriptionPart>(part.words)) return words.inscription.lines;
  if (const auto* fixed = std::get_if<WordsPart>(&part.words)) return fixed->lines;
  const auto* number = std::get_if<NumberPart>(&part.words);
  const Result<std::string> line =
      number != nullptr ? number_line(*number, words.number) : date_line(std::get<DatePart>(part.words), words.date);
  if (!line.ok()) return line.fault();
  return std::vector<std::string>{*line};
}

/// Whether line `index` of `count`, from 0, has the role.
bool matches(const RolePart& role, std::size_t index, std::size_t count) {
  const int number = static_cast<int>(index) + 1, from_end = static_cast<int>(index) - static_cast<int>(count);
  const auto any_of = [](const std::vector<int>& list, auto... values) {
    return list.empty() || ((std::ranges::find(list, values) != list.end()) || ...);
  };
  return any_of(role.at, number, from_end) && any_of(role.of, static_cast<int>(count));
}

/// 0: the text's own look; else the role's number, from 1.
std::size_t style_at(const TextPart& part, std::size_t index, std::size_t count) {
  const auto role = std::ranges::find_if(part.roles, [&](const RolePart& r) { return matches(r, index, count); });
  return role == part.roles.end() ? 0 : static_cast<std::size_t>(role - part.roles.begin()) + 1;
}

const LineLook& look_of(const TextPart& part, std::size_t style) {
  return style == 0 ? part.look : part.roles[style - 1].look;
}

const char* words_for(LetterCase letter_case) {
  switch (letter_case) {
    case LetterCase::upper:
      return "set in capitals";
    case LetterCase::lower:
      return "set in small letters";
    default:
      return "set with capital initials";
  }
}

/// The lines in their roles' case, and what that changed.
std::vector<StyledLine> styled(const std::vector<std::string>& lines, const TextPart& part,
                               std::vector<std::string>& changes) {
  std::vector<StyledLine> result;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t style = style_at(part, i, lines.size());
    const LetterCase letter_case = look_of(part, style).letter_case;
    result.push_back({in_case(lines[i], letter_case, part.language), style});
    if (result.back().text != lines[i]) {
      changes.push_back("line " + std::to_string(i + 1) + " was " + words_for(letter_case));
    }
  }
  return result;
}

TextStyle text_style_of(const LineLook& look, const TextPart& part, const std::string& told_language,
                        const FormerWays& ways) {
  // The workshop's language settles what letters leave open: the told one has weighed it.
  const bool outvoted =
      !ways.told_by_letters && part.shops_language && is_voted_on(part.language) && !told_language.empty();
  const std::string& language = outvoted ? told_language : part.language;
  return {look.faces, language, told_language, look.axes, look.features, look.letter_spacing, {}, ways.serifs_first};
}

/// An inscription's language was told beside others of its order and file; other words have their own letters alone.
ToldLanguage language_of(const TextPart& part, const std::vector<std::string>& lines, const Words& words) {
  if (words.ways.told_by_letters) return {told_before_votes(lines), {}, false};
  const LanguageVote own = vote_of(lines);
  const bool is_inscription = std::holds_alternative<InscriptionPart>(part.words);
  if (is_inscription && own.writing != LanguageVote::Writing::other && writing_of(words.told.language) == own.writing)
    return words.told;
  return settled(own, {}, {}, part.language);
}

Result<SettingRules> rules_for(const TextPart& part, const std::string& told_language, const FormerWays& ways,
                               Typesetter& typesetter) {
  SettingRules rules{part.block, part.breaks, {}, part.max_cap_height, part.off_axis_gain, part.reads_well};
  const std::vector<TextStyle> styles = text_styles_of(part, told_language, ways);
  for (std::size_t style = 0; style < styles.size(); ++style) {
    const Result<FaceHeights> metrics = typesetter.metrics(styles[style]);
    if (!metrics.ok()) return metrics.fault();
    const double size = part.sizes == BlockSizes::by_role ? look_of(part, style).size : 1;
    rules.styles.push_back({styles[style], size, metrics->cap_height, metrics->x_height});
  }
  return rules;
}

void take_narrower(Gauge& narrowest, const Gauge& other) {
  if (other.width < narrowest.width) narrowest = other;
}

/// The grapheme of a line that holds the byte.
std::string letter_at(std::string_view line, std::size_t byte) {
  for (const std::string_view grapheme : graphemes_of(line)) {
    const auto begin = static_cast<std::size_t>(grapheme.data() - line.data());
    if (byte < begin + grapheme.size()) return std::string(grapheme);
  }
  return "";
}

Legibility measure(const Setting& setting, const TextPart& part, Typesetter& typesetter) {
  constexpr double none = std::numeric_limits<double>::infinity();
  Legibility result{none, none, {{}, none}, {{}, none}, {{}, none}, {}};
  for (std::size_t i = 0; i < setting.block.lines.size(); ++i) {
    const BlockLine& line = setting.block.lines[i];
    if (line.shaped.ink.empty()) continue;
    const double size = setting.placement.size * line.size;
    const auto on_blank = [&](const Gauge& gauge) {
      return Gauge{setting.placement(setting.block.origins[i] + line.size * gauge.at), size * gauge.width};
    };
    const LineGauges gauges = typesetter.gauges(line.shaped, part.beam_spot / size);
    take_narrower(result.stroke, on_blank(gauges.stroke));
    take_narrower(result.counter, on_blank(gauges.counter));
    if (part.least_counter > part.beam_spot)
      take_narrower(result.counter, on_blank(typesetter.gauges(line.shaped, part.least_counter / size).counter));
    if (size * gauges.slit.width < result.slit.width) {
      result.slit = on_blank(gauges.slit);
      result.slit_letter = letter_at(line.shaped.text, gauges.slit_cluster);
    }
    result.cap_height = std::min(result.cap_height, size * line.cap_height);
    result.x_height = std::min(result.x_height, size * line.x_height);
  }
  // A line is as wide as the spot that follows it, and what it goes round is no counter of an outline.
  if (is_in_strokes(part)) {
    if (part.beam_spot > 0) result.stroke.width = part.beam_spot;
    result.counter = result.slit = {{}, none};
  }
  return result;
}

/// What the design may let the program do itself.
std::string breaks_mend(LineBreaks breaks) {
  switch (breaks) {
    case LineBreaks::kept:
      return "let the program part it (line_breaks = \"added\" in the design), ";
    case LineBreaks::added:
      return "let the program join lines, too (line_breaks = \"free\" in the design), ";
    case LineBreaks::free:
      break;
  }
  return "";
}

Fault too_small(const TextPart& part, double cap_height) {
  return {
      "the lettering would come to " + mm_text(cap_height), "",
      "the design's least cap height is " + mm_text(part.min_cap_height),
      "Shorten the text, part it into more lines, " + breaks_mend(part.breaks) + "or choose a design with more room"};
}

/// Why a width cannot be engraved as it is drawn: for the beam's spot, or for the design's own limit.
MaybeFault too_fine(const std::string& what, double width, const TextPart& part, double least,
                    const std::string& harm) {
  // The programme of the fit gives away 1e-11 of the size, and a limit just met must hold nothing for that.
  const auto is_under = [width](double limit) { return width < limit * (1 - 1e-9); };
  if (!is_under(std::max(part.beam_spot, least))) return std::nullopt;
  return Fault{"the " + what + " would come to " + mm_text(width), "",
               is_under(part.beam_spot) ? "the beam's spot of " + mm_text(part.beam_spot) + " " + harm
                                        : "the design's limit is " + mm_text(least),
               "Choose a sturdier face, a design with more room, or fewer words"};
}

MaybeFault illegible(const TextPart& part, const Legibility& legibility) {
  auto stroke = too_fine("thinnest stroke", legibility.stroke.width, part, part.least_stroke, "cannot draw it");
  if (stroke) return stroke;
  return too_fine("narrowest counter", legibility.counter.width, part, part.least_counter, "would fill it");
}

/// Which words of lines in the same faces go together; roles in other faces go by themselves.
void choose_script_faces(const std::vector<StyledLine>& lines, SettingRules& rules, Typesetter& typesetter) {
  std::vector<bool> is_done(rules.styles.size());
  for (std::size_t i = 0; i < rules.styles.size(); ++i) {
    if (is_done[i]) continue;
    const TextStyle& own = rules.styles[i].text;
    const auto goes_along = [&](std::size_t style) {
      return rules.styles[style].text.faces == own.faces && rules.styles[style].text.axes == own.axes;
    };
    std::vector<LineInStyle> together;
    for (const StyledLine& line : lines) {
      if (goes_along(line.style)) together.push_back({line.text, &rules.styles[line.style].text});
    }
    const std::vector<ScriptFace> faces = typesetter.script_faces(together);
    for (std::size_t style = i; style < rules.styles.size(); ++style) {
      if (!goes_along(style)) continue;
      rules.styles[style].text.script_faces = faces;
      is_done[style] = true;
    }
  }
}

/// "“山中” and 2 more", of the words that one face stands in for.
std::string words_text(const std::vector<std::string>& words) {
  constexpr std::size_t most_named = 3;
  std::string text;
  for (std::size_t i = 0; i < std::min(words.size(), most_named); ++i) text += (i == 0 ? "“" : ", “") + words[i] + "”";
  return words.size() <= most_named ? text : text + " and " + std::to_string(words.size() - most_named) + " more";
}

struct FaceWords {
  std::string face;
  std::vector<std::string> words, with_others;
};

/// "“Ọ́kà”: set in noto-serif, and “Ndubuisi” with it"
std::string stand_in_text(const FaceWords& by) {
  if (by.words.empty())
    return words_text(by.with_others) + ": set in " + by.face + ", as the others of their script are";
  const std::string along = by.words.size() == 1 ? " with it" : " with them";
  return words_text(by.words) + ": set in " + by.face +
         (by.with_others.empty() ? "" : ", and " + words_text(by.with_others) + along);
}

/// Which words another face than the design's sets, face by face in the order of the text.
void tell_stand_ins(SetText& text, const std::vector<TextStyle>& styles, Typesetter& typesetter) {
  std::vector<FaceWords> faces;
  for (std::size_t i = 0; i < text.setting.block.lines.size(); ++i) {
    const TextStyle& style = styles[text.setting.styles[i]];
    for (StandIn& word : typesetter.stand_ins(text.setting.block.lines[i].shaped, style)) {
      auto known = std::ranges::find(faces, word.face, &FaceWords::face);
      if (known == faces.end()) known = faces.insert(faces.end(), {word.face, {}, {}});
      std::vector<std::string>& words = word.with_others ? known->with_others : known->words;
      if (std::ranges::find(words, word.word) == words.end()) words.push_back(std::move(word.word));
    }
  }
  for (const FaceWords& by : faces) text.changes.push_back(stand_in_text(by));
}

Fault mathematical() {
  return {"mathematical letters cannot be engraved in this design", "",
          "the design holds them (mathematical_letters), since nobody can tell which lettering was meant",
          "Ask the customer for the words in plain letters, or set mathematical_letters = \"plain\" in the design"};
}

/// An open slit that fills leaves a letter that reads the same: worth a look, no more.
void warn_of_slit(const TextPart& part, SetText& text) {
  if (!std::isfinite(text.legibility.slit.width)) return;
  text.changes.push_back("between strokes of “" + text.legibility.slit_letter + "” a slit comes to " +
                         mm_text(text.legibility.slit.width) + ": the beam's spot of " + mm_text(part.beam_spot) +
                         " will fill it");
  text.warnings.push_back(text.changes.back());
}

Result<ReadyLines> made_ready(const TextPart& part, const Words& words, Typesetter& typesetter) {
  const Result<std::vector<std::string>> lines = lines_of(part, words);
  if (!lines.ok()) return lines.fault();
  const bool is_inscription = std::holds_alternative<InscriptionPart>(part.words);
  if (is_inscription && part.holds_mathematical && words.inscription.mathematical) return mathematical();
  const ToldLanguage told = language_of(part, *lines, words);
  Result<SettingRules> rules = rules_for(part, told.language, words.ways, typesetter);
  if (!rules.ok()) return rules.fault();
  std::vector<std::string> changes, warnings;
  const bool by_design = !part.shops_language && is_voted_on(part.language);
  const std::string note = by_design ? "" : note_of_forms(*lines, rules->styles.front().text, told, typesetter);
  if (!note.empty()) changes.push_back(note);
  if (!note.empty() && told.guessed) warnings.push_back(note);
  const std::vector<StyledLine> in_styles = styled(*lines, part, changes);
  if (part.stand_in == StandInUnit::script && !words.ways.stood_in_by_word)
    choose_script_faces(in_styles, *rules, typesetter);
  std::vector<TextStyle> styles;
  for (const LineStyle& style : rules->styles) styles.push_back(style.text);
  Result<PreparedLines> prepared = PreparedLines::of(typesetter, in_styles, *std::move(rules));
  if (!prepared.ok()) return prepared.fault();
  return ReadyLines{*std::move(prepared), std::move(changes), std::move(warnings), std::move(styles)};
}

/// The same part in its sturdier face.
TextPart in_sturdier_face(const TextPart& part) {
  TextPart sturdy = part;
  const auto take = [&part](LineLook& look) {
    look.faces.front() = part.sturdier;
    look.axes.clear();
    look.features.clear();
  };
  take(sturdy.look);
  for (RolePart& role : sturdy.roles) take(role.look);
  return sturdy;
}

Result<ReadyLines>& own_lines(const TextPart& part, const Words& words, Typesetter& typesetter, ReadyText& ready) {
  if (!ready.own) ready.own = made_ready(part, words, typesetter);
  return *ready.own;
}

Result<ReadyLines>& sturdier_lines(const TextPart& part, const Words& words, Typesetter& typesetter, ReadyText& ready) {
  if (!ready.sturdier) ready.sturdier = made_ready(in_sturdier_face(part), words, typesetter);
  return *ready.sturdier;
}

/// One text on its way to a piece.
struct TextTask {
  const TextPart& part;
  const TextRoom& room;
  Typesetter& typesetter;
  SettingRecord& record;
};

Result<SetText> set_in(const SettingArea& area, const TextTask& task, ReadyLines& ready) {
  const auto& [part, room, typesetter, record] = task;
  Result<Setting> setting = record.set_in(ready.lines, area);
  if (!setting.ok()) return setting.fault();
  SetText text;
  text.setting = std::move(*setting);
  for (const BlockLine& line : text.setting.block.lines) text.lines.push_back(line.shaped.text);
  text.changes = ready.changes, text.warnings = ready.warnings;
  text.changes.insert(text.changes.end(), text.setting.changes.begin(), text.setting.changes.end());
  tell_stand_ins(text, ready.styles, typesetter);
  text.legibility = measure(text.setting, part, typesetter);
  // The programme gives away 1e-11 of the size: a largest size equal to the least must not hold the item for that.
  if (text.legibility.cap_height < part.min_cap_height * (1 - 1e-9)) {
    return too_small(part, text.legibility.cap_height);
  }
  if (!is_filled(part.operation)) return text;
  text.illegible = illegible(part, text.legibility);
  if (!text.illegible) warn_of_slit(part, text);
  return text;
}

bool is_engravable(const Result<SetText>& text) { return text.ok() && !text->illegible; }

/// mm, the tallest capitals.
double largest_capitals(const Setting& setting) {
  double largest = 0;
  for (const BlockLine& line : setting.block.lines) {
    if (!line.shaped.ink.empty()) largest = std::max(largest, line.size * line.cap_height);
  }
  return setting.placement.size * largest;
}

/// The least share of its size at which a text could still be engraved, if its lines stayed as they are.
double least_share(const TextPart& part, const Legibility& legibility) {
  const double capitals = part.min_cap_height / legibility.cap_height;
  if (!is_filled(part.operation)) return capitals;
  return std::max({capitals, std::max(part.beam_spot, part.least_stroke) / legibility.stroke.width,
                   std::max(part.beam_spot, part.least_counter) / legibility.counter.width});
}

/// With all of the area. Where lines that read well would be too small, they are chosen for size alone.
Result<SetText> set_in_all(const TextTask& task, ReadyLines& ready) {
  const TextPart& part = task.part;
  Result<SetText> text = set_in(task.room.area, task, ready);
  if (is_engravable(text) || part.breaks == LineBreaks::kept || part.reads_well == 0) return text;
  SettingArea area = task.room.area;
  area.for_size_alone = true;
  Result<SetText> larger = set_in(area, task, ready);
  if (!is_engravable(larger)) return text;
  larger->changes.emplace_back(
      "its lines end where that makes it largest: where they read better it would be too small");
  return larger;
}

/// With the air that the design asks for. Where that would hold the words and all of the area does not, they are set as
/// large as they must be, and the air is what that leaves.
Result<SetText> set_once(const TextTask& task, Result<ReadyLines>& ready) {
  if (!ready.ok()) return ready.fault();
  if (task.room.airy) {
    Result<SetText> airy = set_in(*task.room.airy, task, *ready);
    if (is_engravable(airy)) return airy;
  }
  Result<SetText> largest = set_in_all(task, *ready);
  if (!task.room.airy || !is_engravable(largest)) return largest;
  SettingArea area = task.room.area;
  area.most_capitals = largest_capitals(largest->setting) * std::min(1.0, least_share(task.part, largest->legibility));
  Result<SetText> text = set_in(area, task, *ready);
  if (!is_engravable(text)) text = std::move(largest);  // other lines, whose finest stroke is finer
  text->changes.emplace_back("set with less air around it than the design asks for: with more it would be too small");
  return text;
}

/// In the text's own face, or where that cannot be engraved in its sturdier one.
Result<SetText> set_in_a_face(const TextTask& task, const Words& words, ReadyText& ready) {
  const auto& [part, room, typesetter, record] = task;
  Result<ReadyLines>& own = own_lines(part, words, typesetter, ready);
  Result<SetText> text = set_once(task, own);
  // Its strokes are too fine, or its face lacks a letter; that a text is too long is no reason for another face.
  const MaybeFault reason = text.ok() ? text->illegible : own.ok() ? std::nullopt : MaybeFault(own.fault());
  if (part.sturdier.empty() || !reason) return text;
  Result<SetText> sturdy = set_once(task, sturdier_lines(part, words, typesetter, ready));
  if (!sturdy.ok() || sturdy->illegible) return text;
  sturdy->changes.push_back("set in " + part.sturdier + " instead of " + part.look.faces.front() + ": " + reason->what +
                            ", and " + reason->why);
  sturdy->warnings.push_back(sturdy->changes.back());
  return sturdy;
}

/// What is wished of the words, whatever their design.
std::string wish_of_words(SettingWish wish) {
  wish.design.clear();
  return setting_text(wish);
}

/// A text that is held might not be, were it not for the wish.
Fault because_wished(Fault fault, const SettingWish& wish) {
  fault.why += (fault.why.empty() ? "" : "; ") + std::string("for this item is wished: ") + wish_of_words(wish);
  return fault;
}

}  // namespace

std::vector<TextStyle> text_styles_of(const TextPart& part, const std::string& told_language, const FormerWays& ways) {
  std::vector<TextStyle> styles{text_style_of(part.look, part, told_language, ways)};
  for (const RolePart& role : part.roles) styles.push_back(text_style_of(role.look, part, told_language, ways));
  return styles;
}

Path ink_of(const SetText& text, Typesetter& typesetter) {
  Path ink;
  const Block& block = text.setting.block;
  const Placement& placement = text.setting.placement;
  for (std::size_t i = 0; i < block.lines.size(); ++i) {
    typesetter.append_ink(ink, block.lines[i].shaped, placement.size * block.lines[i].size, placement(block.origins[i]),
                          curve_tolerance / 2);
  }
  return ink;
}

Result<std::vector<SizeBound>> bound_text(const TextPart& drawn, const Words& words, Typesetter& typesetter,
                                          ReadyText& ready) {
  const auto wished = wished_part(drawn, words.setting);
  if (!wished.ok()) return wished.fault();
  const TextPart& part = *wished ? **wished : drawn;
  Result<ReadyLines>& lines = own_lines(part, words, typesetter, ready);
  std::vector<SizeBound> bounds;
  Result<SizeBound> own = lines.ok() ? lines->lines.bound() : Result<SizeBound>(lines.fault());
  MaybeFault why;
  if (own.ok()) {
    bounds.push_back(*std::move(own));
  } else {
    why = own.fault();
  }
  if (!part.sturdier.empty()) {
    if (Result<ReadyLines>& sturdy = sturdier_lines(part, words, typesetter, ready); sturdy.ok()) {
      if (Result<SizeBound> bound = sturdy->lines.bound(); bound.ok()) bounds.push_back(*std::move(bound));
    }
  }
  if (bounds.empty()) return *std::move(why);
  return bounds;
}

Result<Setting> SettingRecord::set_in(PreparedLines& lines, const SettingArea& area) {
  if (next_ == settings_.size()) settings_.emplace_back();
  return lines.set_in(area, settings_[next_++]);
}

Result<SetText> set_text(const TextOnPiece& on_piece, const Words& words, Typesetter& typesetter, ReadyText& ready,
                         SettingRecord& record) {
  const bool is_line = is_in_strokes(on_piece.part) && on_piece.part.beam_spot > 0;
  const Result<TextRoom> room = is_line ? room_for_line(on_piece.part, on_piece.room) : on_piece.room;
  if (!room.ok()) return room.fault();
  const TextOnPiece on_line{on_piece.part, *room};
  const auto wished = wished_part(on_line.part, words.setting);
  if (!wished.ok()) return wished.fault();
  record.begin();
  if (!*wished) return set_in_a_face({on_line.part, on_line.room, typesetter, record}, words, ready);
  Result<SetText> text = set_in_a_face({**wished, on_line.room, typesetter, record}, words, ready);
  if (!text.ok()) return because_wished(text.fault(), words.setting);
  text->changes.push_back("set as wished for this item: " + wish_of_words(words.setting));
  if (!words.setting.nudge) return text;
  auto fault = nudge_text_on({**wished, on_line.room}, *words.setting.nudge, *text, typesetter);
  if (fault) return *std::move(fault);
  return text;
}

MaybeFault check_faces(const Design& design, Typesetter& typesetter) {
  for (const TextPart& part : design.texts) {
    std::vector<TextStyle> styles = text_styles_of(part, "");
    if (!part.sturdier.empty()) styles.push_back({{part.sturdier}, "", ""});
    for (const TextStyle& style : styles) {
      if (auto fault = typesetter.check_style(style)) {
        fault->where = "design " + design.name + (fault->where.empty() ? "" : ", " + fault->where);
        return fault;
      }
    }
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline design
